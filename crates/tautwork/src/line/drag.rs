//! Wind on a line by its drag.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::LineError;
use super::net::{triple, vector};
use crate::quantity::check::non_negative;
use crate::quantity::{Density, Invalid, Length, LineLoad, Quantity, Ratio, Speed, Text, Triple};

/// A gust, and what it meets of a line.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gust {
    /// Drag coefficient of the line across the wind: near 1.2 for a round rope at the speeds of wind
    /// (common practice, no source); a flat webbing may have 2, and more where it flutters.
    #[serde(with = "Text::<Ratio>")]
    pub drag_coefficient: Ratio,
    /// Diameter, or the width that a webbing turns to the wind.
    #[serde(with = "Text::<Length>")]
    pub width: Length,
    /// Mass of the air per volume; 1.25 kg/m³ if left out.
    #[serde(with = "Text::<Density>", default = "air")]
    pub air_density: Density,
    /// Velocity of the air: along the span, to the left, up.
    #[serde(with = "Triple::<Speed>")]
    pub velocity: [Speed; 3],
}

/// Air at 9 °C and 1013 hPa, by the gas law: 101 325 Pa / (287 J/(kg K) · 282 K).
fn air() -> Density {
    Density::from_si(1.25)
}

/// Force of a gust on a line per rest length, Eq. (17): only the part of the wind across the line acts.
///
/// `direction` is any vector along the line, such as its chord; its length does not matter.
///
/// # Errors
/// [`LineError::Invalid`] for figures below zero or not finite, and a direction without length;
/// [`LineError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::line::{Gust, wind_load};
/// use tautwork::quantity::{ReadLineLoad, Words};
/// let (none, still) = (0.0.meters(), 0.0.meters_per_second());
/// let gust = Gust {
///     drag_coefficient: 1.2.ratio(),
///     width: 10.0.millimeters(),
///     air_density: 1.25.kilograms_per_cubic_meter(),
///     velocity: [still, 20.0.meters_per_second(), still],
/// };
/// // Across the line: 1/2 · 1.25 · 1.2 · 0.01 · 20² = 3 N/m.
/// let load = wind_load(&gust, [100.0.meters(), none, none])?;
/// assert!((load[1].in_newtons_per_meter() - 3.0).abs() < 1e-12);
/// // Along the line it does nothing; a line without direction has no answer.
/// assert_eq!(wind_load(&gust, [none, 100.0.meters(), none])?[1].in_newtons_per_meter(), 0.0);
/// assert!(wind_load(&gust, [none; 3]).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
///
/// # Source
/// Cross-flow (independence) principle: Hoerner (1965), *Fluid-Dynamic Drag*, chapter 3, from memory.
pub fn wind_load(gust: &Gust, direction: [Length; 3]) -> Result<[LineLoad; 3], LineError> {
    let along = vector("direction", &direction)?;
    let load = Drag::new(gust)?.across(&along).map_err(|e| match e {
        LineError::Invalid(mut e) => {
            "direction".clone_into(&mut e.parameter);
            e.into()
        }
        e => e,
    })?;
    Ok(triple(&load))
}

/// A gust in SI.
#[derive(Debug, Clone, Copy)]
pub(super) struct Drag {
    /// Half the density times coefficient and width.
    k: f64,
    velocity_m_per_s: Vector3<f64>,
}

impl Drag {
    pub fn new(gust: &Gust) -> Result<Self, Invalid> {
        let coefficient = non_negative("drag_coefficient", gust.drag_coefficient)?;
        let width_m = non_negative("width", gust.width)?;
        let density = non_negative("air_density", gust.air_density)?;
        let velocity_m_per_s = vector("velocity", &gust.velocity)?;
        Ok(Self { k: 0.5 * density * coefficient * width_m, velocity_m_per_s })
    }

    /// Force per rest length on a line that runs along a direction, Eq. (17).
    pub fn across(&self, direction: &Vector3<f64>) -> Result<Vector3<f64>, LineError> {
        // Scaled first: the squares of a direction of any length stay within range.
        let size = direction.amax();
        if size == 0.0 {
            return Err(Invalid::new(
                "far",
                "at near",
                "away from near, for wind across the chord",
            )
            .into());
        }
        let unit = (direction / size).normalize();
        let v = self.velocity_m_per_s;
        let normal = v - unit * v.dot(&unit);
        let load = normal * (self.k * normal.norm());
        if load.iter().all(|x| x.is_finite()) {
            Ok(load)
        } else {
            Err(LineError::Overflow { result: "wind load" })
        }
    }
}
