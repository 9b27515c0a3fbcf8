//! A fall on a damped rope in time.

use serde::{Deserialize, Serialize};

use super::super::{FallError, FallNote, SlipState};
use super::input::{Before, DampedFall};
use super::motion::Course;
use super::state::{BODY_LOST, DAMPER, DEPTH, DRAG, LOST, SLIPPED, SOFT, SOFT_SPEED, SPEED};
use super::watch::Outcome;
use crate::quantity::check::non_negative;
use crate::quantity::{Energy, Force, GRAVITY, Length, Quantity, Ratio, Text, Time};

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
    /// Depth of the lowest point below the end of the unstretched rope, what slipped included.
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
    /// What devices did, in the order of the input.
    pub slips: Vec<SlipState>,
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

/// Energy of a fall, Eq. (D7): fall plus stored at the start is all that is stored, lost and left.
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
    /// Turned into heat in devices that slipped.
    #[serde(with = "Text::<Energy>")]
    pub lost_in_slips: Energy,
    /// In a soft body at the end.
    #[serde(with = "Text::<Energy>")]
    pub stored_in_body: Energy,
    /// Turned into heat in a soft body.
    #[serde(with = "Text::<Energy>")]
    pub lost_in_body: Energy,
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

/// Follows a fall on a damped rope in time, Eqs. (D1) to (D9).
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
///     slips: Vec::new(),
///     body: None,
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

impl DampedFall {
    /// The fall, and what it leaves behind.
    pub(super) fn follow(&self, before: &Before) -> Result<(DampedArrest, Before), FallError> {
        let thresholds = self.thresholds.iter();
        let thresholds_n: Vec<f64> =
            thresholds.map(|force| non_negative("thresholds", *force)).collect::<Result<_, _>>()?;
        let course = self.course(before, &thresholds_n)?;
        let out = course.run()?;
        let after = Before { damper: out.end[DAMPER], slipped_m: out.end[SLIPPED], ..*before };
        Ok((self.report(&course, out)?, after))
    }

    fn report(&self, course: &Course<'_>, out: Outcome) -> Result<DampedArrest, FallError> {
        let y = &out.end;
        let (w_n, soft_kg) = (course.mass_kg * GRAVITY, course.body.soft_kg);
        let fall_j = w_n * (course.height_m + y[DEPTH]) + soft_kg * GRAVITY * y[SOFT];
        let soft_speed = y[SPEED] + y[SOFT_SPEED];
        let left_j = 0.5 * (course.mass_kg - soft_kg) * y[SPEED] * y[SPEED]
            + 0.5 * soft_kg * soft_speed * soft_speed;
        let in_body_j = 0.5 * course.body.stiffness_n_per_m * y[SOFT] * y[SOFT];
        let slips = course.slip_states(y[SLIPPED])?;
        let slips_j: f64 = slips.iter().map(|slip| slip.energy.si()).sum();
        let scale_j = w_n * (course.height_m + out.deepest_m) + out.stored_start_j;
        let (lost_j, drag_j, body_j) = (y[LOST], y[DRAG], y[BODY_LOST]);
        let taken_j = lost_j + drag_j + body_j + slips_j;
        let miss_j = fall_j + out.stored_start_j - out.stored_j - in_body_j - taken_j - left_j;
        // Nothing has moved: nothing is missing.
        let residual = if miss_j == 0.0 { 0.0 } else { (miss_j / scale_j).abs() };
        let finite = [out.stored_j, out.peak_n, residual];
        if !y.iter().chain(&finite).all(|x| x.is_finite()) {
            return Err(FallError::Overflow { result: "fall" });
        }
        if residual > 1e-8 {
            return Err(FallError::NotConverged { residual });
        }
        let mut notes = Vec::new();
        let law = course.solid.law;
        if law.tension(out.strain) > law.last_n() {
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
                lost_in_slips: FallError::finite("lost_in_slips", slips_j)?,
                stored_in_body: FallError::finite("stored_in_body", in_body_j)?,
                lost_in_body: Energy::from_si(body_j),
                left: FallError::finite("left", left_j)?,
            },
            rest_strain: FallError::finite("rest_strain", course.solid.rest_strain(y[DAMPER]))?,
            slips,
            series: FallSeries { t_s, force_n, extension_m, speed_m_per_s },
            steps: out.attempts,
            residual,
            notes,
        })
    }
}

impl Course<'_> {
    /// How far each device slipped in this fall.
    fn slip_states(&self, slipped_m: f64) -> Result<Vec<SlipState>, FallError> {
        let mut states: Vec<(usize, SlipState)> = Vec::with_capacity(self.slips.len());
        for device in &self.slips {
            let from_m = device.until_m - device.travel_m;
            let share = |total_m: f64| (total_m - from_m).clamp(0.0, device.travel_m);
            let slip_m = share(slipped_m) - share(self.slipped_m);
            let at_end = slipped_m >= device.until_m;
            states.push((device.index, SlipState::new(slip_m, device.force_n, at_end)?));
        }
        states.sort_by_key(|(index, _)| *index);
        Ok(states.into_iter().map(|(_, state)| state).collect())
    }
}
