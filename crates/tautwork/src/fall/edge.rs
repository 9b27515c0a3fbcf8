//! Friction where the rope turns over the top anchor or an edge.

use serde::{Deserialize, Serialize};

use super::arrest::Stop;
use super::{Arrest, Fall, FallError};
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{Angle, Force, Invalid, Length, Quantity, Ratio, Text, print};

/// What the rope turns over between the falling mass and the belay.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Edge {
    /// Rest length of rope from the edge to the belay.
    #[serde(with = "Text::<Length>")]
    pub belay_rope: Length,
    /// Wrap angle; a half turn where both parts hang down.
    #[serde(with = "Text::<Angle>")]
    pub wrap: Angle,
    /// Friction of rope on the edge.
    #[serde(with = "Text::<Ratio>")]
    pub mu: Ratio,
}

/// A fall over an edge: the truth lies between the two ends.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EdgeArrest {
    /// The rope slides without loss: both parts share the stretch.
    pub frictionless: EdgeEnd,
    /// Friction in full while the rope runs: the belay part stretches less.
    pub full_friction: EdgeEnd,
}

/// One end of the interval.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EdgeEnd {
    /// The fall.
    pub arrest: Arrest,
    /// Tension of the belay part at the peak.
    #[serde(with = "Text::<Force>")]
    pub belay_force: Force,
    /// Force on the edge at the peak: the resultant of both parts, Eq. (7).
    #[serde(with = "Text::<Force>")]
    pub anchor_load: Force,
}

/// Stops a fall over an edge, Eqs. (6) and (7), without friction and with friction in full.
///
/// `fall.rope` is the part from the mass to the edge; the height is what the mass falls before the
/// rope takes load. The edge itself is rigid.
///
/// # Errors
/// Those of [`arrest`](super::arrest()); [`FallError::Invalid`] unless the belay rope is above zero, wrap and friction
/// zero or more, and no span stiffness is given.
///
/// # Example
/// ```
/// use tautwork::fall::{Edge, Fall, arrest_over_edge};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, Words};
///
/// let mut fall = Fall {
///     mass: 80.0.kilograms(),
///     height: 4.0.meters(),
///     rope: 2.0.meters(),
///     stretch: Stretch::axial_rigidity(20.0.kilonewtons())?,
///     span_stiffness: None,
/// };
/// let edge = Edge { belay_rope: 8.0.meters(), wrap: 0.5.turns(), mu: 0.16.ratio() };
/// let result = arrest_over_edge(&fall, &edge)?;
/// // Without friction it is a fall of factor 0.4: 784.8 N + √(784.8² + 2 · 784.8 · 8000) N.
/// assert!((result.frictionless.arrest.impact_force.in_kilonewtons() - 4.414).abs() < 0.001);
/// assert!(result.full_friction.arrest.impact_force > result.frictionless.arrest.impact_force);
/// fall.span_stiffness = Some(1.0.kilonewtons_per_meter());
/// assert!(arrest_over_edge(&fall, &edge).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Capstan friction (Euler–Eytelwein); its use at the top anchor as in Pavier (1998), *Experimental
/// and theoretical simulations of climbing falls*, Sports Engineering 1 (from memory).
pub fn arrest_over_edge(fall: &Fall, edge: &Edge) -> Result<EdgeArrest, FallError> {
    apart_from_span(fall)?;
    let belay_m = positive("belay_rope", edge.belay_rope)?;
    let wrap_rad = non_negative("wrap", edge.wrap)?;
    let ratio = (non_negative("mu", edge.mu)? * wrap_rad).exp();
    if !ratio.is_finite() {
        return Err(FallError::Overflow { result: "tension ratio over the edge" });
    }
    let end = |ratio: f64| -> Result<EdgeEnd, FallError> {
        let arrest = Stop::new(fall)?.beyond(belay_m, ratio).arrest()?;
        let peak_n = arrest.impact_force.si();
        let share = 1.0 / ratio;
        Ok(EdgeEnd {
            arrest,
            belay_force: FallError::finite("belay_force", peak_n * share)?,
            anchor_load: FallError::finite("anchor_load", peak_n * resultant(share, wrap_rad))?,
        })
    };
    Ok(EdgeArrest { frictionless: end(1.0)?, full_friction: end(ratio)? })
}

/// Refuses a span: the edge is rigid.
pub(super) fn apart_from_span(fall: &Fall) -> Result<(), FallError> {
    if let Some(k) = fall.span_stiffness {
        return Err(Invalid::new("span_stiffness", print(k), "left out over an edge").into());
    }
    Ok(())
}

/// Force on an edge over the tension before it, Eq. (7); `share` is the tension behind it over the one
/// before it. The parts leave the edge at an angle of a half turn less the wrap.
pub(super) fn resultant(share: f64, wrap_rad: f64) -> f64 {
    (1.0 + share * share - 2.0 * share * wrap_rad.cos()).max(0.0).sqrt()
}
