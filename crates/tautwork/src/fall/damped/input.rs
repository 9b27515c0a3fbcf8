//! What a damped fall is made of.

use serde::{Deserialize, Serialize};

use super::super::slip::in_order;
use super::super::{FallError, Slip};
use super::motion::{Body, Course};
use super::solid::{Damper, Solid};
use crate::material::Stretch;
use crate::quantity::check::{count, non_negative, positive};
use crate::quantity::{
    Area, AxialRigidity, Damping, Density, Force, Invalid, Length, Mass, Quantity, Ratio,
    Stiffness, Text, Texts, Time, print,
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

/// A body of which a part hangs soft on the part that the rope holds, Eq. (D9).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SoftBody {
    /// The soft part of the mass.
    #[serde(with = "Text::<Ratio>")]
    pub share: Ratio,
    /// Stiffness between the parts.
    #[serde(with = "Text::<Stiffness>")]
    pub stiffness: Stiffness,
    /// Damping between the parts.
    #[serde(with = "Text::<Damping>")]
    pub damping: Damping,
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
    /// Devices and knots in the rope that slip at a force; none if left out.
    #[serde(default)]
    pub slips: Vec<Slip>,
    /// Body that is not rigid; rigid if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub body: Option<SoftBody>,
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

/// What earlier falls have left in the rope.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Before {
    /// State of the damper.
    pub damper: f64,
    /// Growth of the rest length, as part of it.
    pub set: f64,
    /// Growth of the rigidity, as part of it.
    pub stiffening: f64,
    /// What devices have let through.
    pub slipped_m: f64,
}

impl SoftBody {
    fn body(&self, mass_kg: f64) -> Result<Body, Invalid> {
        let share = positive("share", self.share)?;
        if share >= 1.0 {
            return Err(Invalid::new("share", print(self.share), "above 0 and below 1"));
        }
        Ok(Body {
            soft_kg: share * mass_kg,
            stiffness_n_per_m: positive("stiffness", self.stiffness)?,
            damping_n_s_per_m: non_negative("damping", self.damping)?,
        })
    }
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

    /// What to follow; `thresholds_n` are those of the fall.
    pub(super) fn course<'a>(
        &'a self,
        before: &Before,
        thresholds_n: &'a [f64],
    ) -> Result<Course<'a>, FallError> {
        let solid = self.solid(before)?;
        let mass_kg = positive("mass", self.mass)?;
        let growth_m = solid.rest_m - self.rope.si();
        let height_m = non_negative("height", self.height)? + growth_m;
        count("samples", self.samples, 2, 100_000)?;
        let air = non_negative("air_density", self.air_density)?;
        let body = match &self.body {
            Some(body) => body.body(mass_kg).map_err(|invalid| invalid.within("body"))?,
            None => Body::default(),
        };
        Ok(Course {
            solid,
            mass_kg,
            height_m,
            body,
            slips: in_order(&self.slips)?,
            drag_kg_per_m: 0.5 * air * non_negative("drag_area", self.drag_area)?,
            damper: before.damper,
            slipped_m: before.slipped_m,
            duration_s: positive("duration", self.duration)?,
            thresholds_n,
            samples: self.samples,
        })
    }
}
