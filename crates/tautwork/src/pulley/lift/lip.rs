//! A body that is pulled over the lip.

use serde::{Deserialize, Serialize};

use super::super::{PulleyError, capstan_ratio};
use crate::quantity::check::{between, non_negative, positive};
use crate::quantity::{Angle, Force, GRAVITY, Mass, Quantity, Ratio, Text, Words};

/// A body on the rock at the lip.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lip {
    /// Mass of the body.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
    /// Slope of the rock from level, to 90 degrees.
    #[serde(with = "Text::<Angle>")]
    pub slope: Angle,
    /// Friction of the body on it.
    #[serde(with = "Text::<Ratio>")]
    pub body_friction: Ratio,
    /// Angle of the rope above the slope, from 0 to 90 degrees.
    #[serde(with = "Text::<Angle>")]
    pub rope_angle: Angle,
    /// Friction of the rope on the edge behind.
    #[serde(with = "Text::<Ratio>")]
    pub edge_friction: Ratio,
    /// Angle by which that edge turns the rope.
    #[serde(with = "Text::<Angle>")]
    pub edge_turn: Angle,
}

/// What it takes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LipPull {
    /// Pull at the body, Eq. (K6).
    #[serde(with = "Text::<Force>")]
    pub at_body: Force,
    /// Pull behind the edge.
    #[serde(with = "Text::<Force>")]
    pub behind_edge: Force,
    /// Force of the body on the rock, upright to it.
    #[serde(with = "Text::<Force>")]
    pub on_rock: Force,
    /// Angle of the rope at which the least pull does, Eq. (K7).
    #[serde(with = "Text::<Angle>")]
    pub best_angle: Angle,
    /// The least pull at the body.
    #[serde(with = "Text::<Force>")]
    pub least: Force,
    /// The greatest pull at the body over all slopes, with the rope along the slope.
    #[serde(with = "Text::<Force>")]
    pub worst_slope: Force,
}

/// The pull that draws a body up over the rock at the lip, Eq. (K6) and (K7).
///
/// A rope so steep that it lifts the body off the rock carries the weight's part along the rope instead: then the
/// rock bears nothing.
///
/// # Errors
/// [`PulleyError::Invalid`] for values out of range; [`PulleyError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::pulley::{Lip, pull_over_lip};
/// use tautwork::quantity::{ReadForce, Words};
/// // 100 kg on a slope of 45 degrees with friction 0.5, rope along it: 981 · (sin 45° + 0.5 cos 45°).
/// let lip = Lip {
///     mass: 100.0.kilograms(),
///     slope: 45.0.degrees(),
///     body_friction: 0.5.ratio(),
///     rope_angle: 0.0.degrees(),
///     edge_friction: 0.0.ratio(),
///     edge_turn: 0.0.degrees(),
/// };
/// assert!((pull_over_lip(&lip)?.at_body.in_newtons() - 1040.5).abs() < 0.1);
/// assert!(pull_over_lip(&Lip { slope: 120.0.degrees(), ..lip }).is_err());
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
pub fn pull_over_lip(lip: &Lip) -> Result<LipPull, PulleyError> {
    let weight_n = positive("mass", lip.mass)? * GRAVITY;
    let right = 90.0.degrees();
    let slope = between("slope", lip.slope, 0.0.degrees(), right)?;
    let above = between("rope_angle", lip.rope_angle, 0.0.degrees(), right)?;
    let mu = non_negative("body_friction", lip.body_friction)?;
    let edge = capstan_ratio(lip.edge_friction, lip.edge_turn)?.si();
    let (sin, cos) = slope.sin_cos();
    let pull_n = |beta: f64| {
        let (up, along) = beta.sin_cos();
        let slides_n = weight_n * (sin + mu * cos) / (along + mu * up);
        // Off the rock where the rope's part away from it outweighs the weight's part onto it: then it hangs.
        let pressed_n = weight_n * cos - slides_n * up;
        if pressed_n >= 0.0 { (slides_n, pressed_n) } else { (weight_n, 0.0) }
    };
    let (at_body_n, on_rock_n) = pull_n(above);
    let best = mu.atan();
    let behind_n = at_body_n * edge;
    let worst_n = weight_n * (1.0 + mu * mu).sqrt();
    if !(behind_n + worst_n).is_finite() {
        return Err(PulleyError::Overflow { result: "pull_over_lip" });
    }
    Ok(LipPull {
        at_body: Force::from_si(at_body_n),
        behind_edge: Force::from_si(behind_n),
        on_rock: Force::from_si(on_rock_n),
        best_angle: Angle::from_si(best),
        least: Force::from_si(pull_n(best).0),
        worst_slope: Force::from_si(worst_n),
    })
}
