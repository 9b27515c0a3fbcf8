//! A fall on a damped rope in time.

use serde::{Deserialize, Serialize};

use super::super::{FallError, FallNote};
use super::motion::{Course, Outcome};
use super::solid::{Damper, Solid};
use crate::material::Stretch;
use crate::quantity::check::{count, non_negative, positive};
use crate::quantity::{
    Area, AxialRigidity, Density, Energy, Force, GRAVITY, Length, Mass, Quantity, Ratio, Text,
    Texts, Time,
};

/// How a rope damps.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum RopeDamping {
    /// Not at all.
    None,
    /// Standard linear solid, Eq. (D2): beside the stretch, a spring with a damper in series.
    StandardLinear {
        /// Rigidity that a sudden load meets on top of the stretch.
        #[serde(with = "Text::<Force>")]
        arm: AxialRigidity,
        /// Time in which it lets go.
        #[serde(with = "Text::<Time>")]
        relaxation_time: Time,
    },
    /// Kelvin and Voigt, Eq. (D4): beside the stretch, a damper.
    KelvinVoigt {
        /// Viscosity over rigidity.
        #[serde(with = "Text::<Time>")]
        retardation_time: Time,
    },
}

/// A fall that a damped rope stops.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DampedFall {
    /// Mass that falls.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
    /// Height fallen before the unstretched rope takes load.
    #[serde(with = "Text::<Length>")]
    pub height: Length,
    /// Rest length of rope between the mass and the anchor.
    #[serde(with = "Text::<Length>")]
    pub rope: Length,
    /// Its stretch under a lasting load.
    pub stretch: Stretch,
    /// Its damping.
    pub damping: RopeDamping,
    /// Drag area of the body, drag coefficient times frontal area; zero if left out.
    #[serde(with = "Text::<Area>", default = "no_area")]
    pub drag_area: Area,
    /// Density of air; 1.2 kg/m³ if left out.
    #[serde(with = "Text::<Density>", default = "usual_air")]
    pub air_density: Density,
    /// Time to follow, from letting go.
    #[serde(with = "Text::<Time>")]
    pub duration: Time,
    /// Forces of which to tell how long the tension is above them.
    #[serde(with = "Texts::<Force>", default)]
    pub thresholds: Vec<Force>,
    /// Points of the series, at equal spacing of time; 201 if left out.
    #[serde(default = "usual_samples")]
    pub samples: usize,
}

fn no_area() -> Area {
    Area::from_si(0.0)
}

fn usual_air() -> Density {
    Density::from_si(1.2)
}

fn usual_samples() -> usize {
    201
}

/// A fall on a damped rope.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DampedArrest {
    /// Peak tension.
    #[serde(with = "Text::<Force>")]
    pub impact_force: Force,
    /// Its time after letting go.
    #[serde(with = "Text::<Time>")]
    pub impact_time: Time,
    /// Time at which the rope first goes taut; none if it does not.
    pub taut_s: Option<f64>,
    /// Depth of the lowest point below the end of the unstretched rope.
    #[serde(with = "Text::<Length>")]
    pub extension: Length,
    /// Whole drop to the lowest point.
    #[serde(with = "Text::<Length>")]
    pub drop: Length,
    /// First highest point after the lowest; none if the time ends before it.
    pub rebound: Option<Rebound>,
    /// Time above each of the thresholds.
    pub above: Vec<TimeAboveForce>,
    /// Where the energy is at the end of the time.
    pub books: FallBooks,
    /// Strain at which the rope, slack from the end of the time, would go taut.
    #[serde(with = "Text::<Ratio>")]
    pub rest_strain: Ratio,
    /// The motion.
    pub series: FallSeries,
    /// Steps tried.
    pub steps: usize,
    /// What is missing in the energy balance, as part of the energy.
    pub residual: f64,
    /// What to know about the result.
    pub notes: Vec<FallNote>,
}

/// First highest point after the lowest.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rebound {
    /// Its time after letting go.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
    /// Height above the lowest point.
    #[serde(with = "Text::<Length>")]
    pub height: Length,
    /// Whether the rope is slack there.
    pub slack: bool,
}

/// Time for which the tension is above a force.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TimeAboveForce {
    /// The force.
    #[serde(with = "Text::<Force>")]
    pub force: Force,
    /// All the time above it.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
}

/// Energy of a fall, Eq. (D7): fall plus stored at the start is stored plus both losses plus left.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FallBooks {
    /// Weight times the way down from the start to where the mass is at the end.
    #[serde(with = "Text::<Energy>")]
    pub fall: Energy,
    /// In the rope at the start, from the fall before.
    #[serde(with = "Text::<Energy>")]
    pub stored_at_start: Energy,
    /// In the rope at the end.
    #[serde(with = "Text::<Energy>")]
    pub stored: Energy,
    /// Turned into heat in the rope.
    #[serde(with = "Text::<Energy>")]
    pub lost: Energy,
    /// Lost to drag.
    #[serde(with = "Text::<Energy>")]
    pub lost_to_drag: Energy,
    /// Energy of motion at the end.
    #[serde(with = "Text::<Energy>")]
    pub left: Energy,
}

/// A fall in time, in SI.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FallSeries {
    /// Time after letting go.
    pub t_s: Vec<f64>,
    /// Tension.
    pub force_n: Vec<f64>,
    /// Depth below the end of the unstretched rope; below zero while the mass is above it.
    pub extension_m: Vec<f64>,
    /// Speed downwards.
    pub speed_m_per_s: Vec<f64>,
}

/// Follows a fall on a damped rope in time, Eqs. (D1) to (D7).
///
/// # Errors
/// [`FallError::Invalid`] unless mass, rope, duration and the figures of the damping are above zero, the
/// height and the thresholds zero or more, and the samples 2 to 100 000; [`FallError::Unfinished`] after
/// 50 000 steps; [`FallError::NotConverged`] if the energy books miss by more than 1e-8;
/// [`FallError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::fall::{DampedFall, RopeDamping, arrest_damped};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, Words};
///
/// let mut fall = DampedFall {
///     mass: 80.0.kilograms(),
///     height: 0.0.meters(),
///     rope: 10.0.meters(),
///     stretch: Stretch::axial_rigidity(20.0.kilonewtons())?,
///     damping: RopeDamping::None,
///     drag_area: 0.0.square_meters(),
///     air_density: 1.2.kilograms_per_cubic_meter(),
///     duration: 2.0.seconds(),
///     thresholds: vec![1.0.kilonewtons()],
///     samples: 21,
/// };
/// // Without damping the rope sees twice the weight.
/// assert!((arrest_damped(&fall)?.impact_force.in_newtons() - 1569.6).abs() < 1e-5);
/// let arm = 10.0.kilonewtons();
/// fall.damping = RopeDamping::StandardLinear { arm, relaxation_time: 0.2.seconds() };
/// assert!(arrest_damped(&fall)?.books.lost > 100.0.joules());
/// fall.duration = 0.0.seconds();
/// assert!(arrest_damped(&fall).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn arrest_damped(fall: &DampedFall) -> Result<DampedArrest, FallError> {
    Ok(fall.follow(&Before::default())?.0)
}

/// What earlier falls have left in the rope.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Before {
    /// State of the damper.
    pub damper: f64,
    /// Growth of the rest length, as part of it.
    pub set: f64,
    /// Growth of the rigidity, as part of it.
    pub stiffening: f64,
}

impl DampedFall {
    /// The rope after earlier falls.
    pub(super) fn solid(&self, before: &Before) -> Result<Solid<'_>, FallError> {
        let scale = 1.0 + before.stiffening;
        let damper = match self.damping {
            RopeDamping::None => Damper::None,
            RopeDamping::StandardLinear { arm, relaxation_time } => Damper::Arm {
                arm_n: positive("arm", arm)? * scale,
                relaxation_s: positive("relaxation_time", relaxation_time)?,
            },
            RopeDamping::KelvinVoigt { retardation_time } => {
                Damper::Beside { retardation_s: positive("retardation_time", retardation_time)? }
            }
        };
        let rest_m = positive("rope", self.rope)? * (1.0 + before.set);
        Ok(Solid { rest_m, law: self.stretch.law(), scale, damper })
    }

    /// The fall, and the state of the damper at its end.
    pub(super) fn follow(&self, before: &Before) -> Result<(DampedArrest, f64), FallError> {
        let solid = self.solid(before)?;
        let mass_kg = positive("mass", self.mass)?;
        let growth_m = solid.rest_m - self.rope.si();
        let height_m = non_negative("height", self.height)? + growth_m;
        count("samples", self.samples, 2, 100_000)?;
        let thresholds_n: Vec<f64> = self
            .thresholds
            .iter()
            .map(|force| non_negative("thresholds", *force))
            .collect::<Result<_, _>>()?;
        let air = non_negative("air_density", self.air_density)?;
        let course = Course {
            solid,
            mass_kg,
            height_m,
            drag_kg_per_m: 0.5 * air * non_negative("drag_area", self.drag_area)?,
            damper: before.damper,
            duration_s: positive("duration", self.duration)?,
            thresholds_n: &thresholds_n,
            samples: self.samples,
        };
        let out = course.run()?;
        let end = out.end[2];
        Ok((self.report(&course, out)?, end))
    }

    fn report(&self, course: &Course<'_>, out: Outcome) -> Result<DampedArrest, FallError> {
        let [depth_m, speed, damper, lost_j, drag_j] = out.end;
        let w_n = course.mass_kg * GRAVITY;
        let fall_j = w_n * (course.height_m + depth_m);
        let left_j = 0.5 * course.mass_kg * speed * speed;
        let scale_j = w_n * (course.height_m + out.deepest_m) + out.stored_start_j;
        let miss_j = fall_j + out.stored_start_j - out.stored_j - lost_j - drag_j - left_j;
        // Nothing has moved: nothing is missing.
        let residual = if miss_j == 0.0 { 0.0 } else { (miss_j / scale_j).abs() };
        let finite = [depth_m, speed, damper, lost_j, drag_j, out.stored_j, out.peak_n, residual];
        if !finite.iter().all(|x| x.is_finite()) {
            return Err(FallError::Overflow { result: "fall" });
        }
        if residual > 1e-8 {
            return Err(FallError::NotConverged { residual });
        }
        let mut notes = Vec::new();
        if course.solid.law.tension(out.deepest_m / course.solid.rest_m) > course.solid.law.last_n()
        {
            notes.push(FallNote::PastTable);
        }
        if course.height_m / course.solid.rest_m > 2.0 {
            notes.push(FallNote::FactorAboveTwo);
        }
        if out.stopped_s.is_none() {
            notes.push(FallNote::StillFalling);
        }
        let [t_s, force_n, extension_m, speed_m_per_s] = out.series;
        Ok(DampedArrest {
            impact_force: FallError::finite("impact_force", out.peak_n)?,
            impact_time: FallError::finite("impact_time", out.peak_s)?,
            taut_s: out.taut_s,
            extension: FallError::finite("extension", out.deepest_m)?,
            drop: FallError::finite("drop", out.deepest_m + course.height_m)?,
            rebound: out.rebound.map(|(time_s, depth, slack)| Rebound {
                time: Time::from_si(time_s),
                height: Length::from_si(out.deepest_m - depth),
                slack,
            }),
            above: (self.thresholds.iter().zip(&out.above_s))
                .map(|(force, time)| TimeAboveForce { force: *force, time: Time::from_si(*time) })
                .collect(),
            books: FallBooks {
                fall: FallError::finite("fall", fall_j)?,
                stored_at_start: Energy::from_si(out.stored_start_j),
                stored: Energy::from_si(out.stored_j),
                lost: Energy::from_si(lost_j),
                lost_to_drag: Energy::from_si(drag_j),
                left: FallError::finite("left", left_j)?,
            },
            rest_strain: FallError::finite("rest_strain", course.solid.rest_strain(damper))?,
            series: FallSeries { t_s, force_n, extension_m, speed_m_per_s },
            steps: out.attempts,
            residual,
            notes,
        })
    }
}
