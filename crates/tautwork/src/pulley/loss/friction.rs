//! How a sheave, a bar, an edge or a roller takes tension from a rope.

use std::f64::consts::{FRAC_PI_2, PI};

use serde::{Deserialize, Serialize};

use super::super::PulleyError;
use crate::quantity::check::{between, count, fraction, non_negative, positive};
use crate::quantity::{Angle, Invalid, Quantity, Ratio, Text, Words};

/// How a turn takes tension.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "law", rename_all = "snake_case", deny_unknown_fields)]
pub enum Friction {
    /// One efficiency whatever the wrap, Eq. (L1).
    Fixed {
        /// Tension behind over tension ahead.
        #[serde(with = "Text::<Ratio>")]
        efficiency: Ratio,
    },
    /// A wheel on an axle by its figure at half a turn, Eq. (L3).
    Axle {
        /// Efficiency at a half turn.
        #[serde(with = "Text::<Ratio>")]
        efficiency_180: Ratio,
    },
    /// A wheel on an axle by what it is made of, Eq. (L4).
    Bearing {
        /// Friction of the axle in its bearing.
        #[serde(with = "Text::<Ratio>")]
        mu: Ratio,
        /// Radius of the axle over that of the middle of the rope.
        #[serde(with = "Text::<Ratio>")]
        radius_ratio: Ratio,
    },
    /// Rope sliding on a surface that does not turn: a bar, a carabiner, an edge. Eq. (L5).
    Capstan {
        /// Friction of rope on the surface.
        #[serde(with = "Text::<Ratio>")]
        mu: Ratio,
    },
    /// Rope sliding in a V-groove that does not turn, Eq. (L6).
    Groove {
        /// Friction of rope on the walls.
        #[serde(with = "Text::<Ratio>")]
        mu: Ratio,
        /// Angle between the two walls.
        #[serde(with = "Text::<Angle>")]
        angle: Angle,
    },
    /// Rollers in a row that share the turn, as in edge protection. Eq. (L7).
    Rollers {
        /// Efficiency of each at a half turn.
        #[serde(with = "Text::<Ratio>")]
        efficiency_180: Ratio,
        /// How many.
        count: u32,
    },
}

/// What one turn does.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SheaveLoss {
    /// Tension behind over tension ahead.
    #[serde(with = "Text::<Ratio>")]
    pub efficiency: Ratio,
    /// Tension ahead over tension behind: what raising costs.
    #[serde(with = "Text::<Ratio>")]
    pub factor: Ratio,
    /// Force on the axle or the edge over the tension behind, raising.
    #[serde(with = "Text::<Ratio>")]
    pub on_axle: Ratio,
    /// Whether a figure of half a turn is used at a quarter turn or less, where it takes too much.
    pub far_from_half_turn: bool,
}

/// What a turn by `wrap` takes, Eq. (L1) to (L7).
///
/// # Errors
/// [`PulleyError::Invalid`] for values out of range.
///
/// # Example
/// ```
/// use tautwork::pulley::{Friction, sheave_loss};
/// use tautwork::quantity::{ReadRatio, Words};
/// // A pulley of 0.8 takes a fifth at half a turn, and a twentieth at 30°.
/// let pulley = Friction::Axle { efficiency_180: 0.8.ratio() };
/// assert!((sheave_loss(pulley, 180.0.degrees())?.efficiency.in_ratio() - 0.8).abs() < 1e-12);
/// assert!((sheave_loss(pulley, 30.0.degrees())?.efficiency.in_ratio() - 0.944).abs() < 1e-3);
/// assert!(sheave_loss(pulley, (-30.0).degrees()).is_err());
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
///
/// # Source
/// Friction circle and Euler–Eytelwein; Beer & Johnston, *Statics*, from memory.
pub fn sheave_loss(friction: Friction, wrap: Angle) -> Result<SheaveLoss, PulleyError> {
    let wrap_rad = non_negative("wrap", wrap)?;
    let eta = loss(friction, wrap_rad)?;
    let k = 1.0 / eta;
    let s = (wrap_rad / 2.0).sin();
    // |T_a u_a − T_b u_b| over T_b, written so that nothing cancels.
    let on_axle = (k - 1.0).hypot(2.0 * s * k.sqrt());
    if !(k.is_finite() && on_axle.is_finite()) {
        return Err(PulleyError::Overflow { result: "sheave_loss" });
    }
    Ok(SheaveLoss {
        efficiency: Ratio::from_si(eta),
        factor: Ratio::from_si(k),
        on_axle: Ratio::from_si(on_axle),
        far_from_half_turn: far_from_half_turn(friction, wrap_rad),
    })
}

/// Whether the valid range of Eq. (L1) is left.
pub(in super::super) fn far_from_half_turn(friction: Friction, wrap_rad: f64) -> bool {
    // Rounding of a quarter turn is not outside it.
    matches!(friction, Friction::Fixed { efficiency } if efficiency.si() < 1.0)
        && wrap_rad < FRAC_PI_2 * (1.0 - 1e-9)
}

/// Efficiency of a turn by `wrap_rad`, zero or more.
pub(in super::super) fn loss(friction: Friction, wrap_rad: f64) -> Result<f64, Invalid> {
    let wrap = Angle::from_si(wrap_rad);
    let eta = match friction {
        Friction::Fixed { efficiency } => fraction("efficiency", efficiency)?,
        Friction::Axle { efficiency_180 } => {
            between("wrap", wrap, 0.0.turns(), 1.0.turns())?;
            wheel(circle("efficiency_180", efficiency_180)?, wrap_rad)
        }
        Friction::Bearing { mu, radius_ratio } => {
            between("wrap", wrap, 0.0.turns(), 1.0.turns())?;
            let c = non_negative("mu", mu)? * positive("radius_ratio", radius_ratio)?;
            if c >= 1.0 {
                let allowed = "so small that mu times it is below 1";
                let value = radius_ratio.si().to_string();
                return Err(Invalid::new("radius_ratio", value, allowed));
            }
            wheel((c, (1.0 - c) * (1.0 + c)), wrap_rad)
        }
        Friction::Capstan { mu } => (-non_negative("mu", mu)? * wrap_rad).exp(),
        Friction::Groove { mu, angle } => {
            let half = 0.5 * between("angle", angle, Angle::from_si(0.0), 0.5.turns())?;
            (-non_negative("mu", mu)? * wrap_rad / half.sin().abs()).exp()
        }
        Friction::Rollers { efficiency_180, count: n } => {
            count("count", n as usize, 1, 1000)?;
            between("wrap", wrap, 0.0.turns(), (0.5 * f64::from(n)).turns())?;
            let each = wrap_rad / f64::from(n);
            wheel(circle("efficiency_180", efficiency_180)?, each).powi(n.cast_signed())
        }
    };
    // A loss that underflows to zero would divide by zero; a groove of no angle gives NaN.
    if eta > 0.0 { Ok(eta) } else { Err(Invalid::new("efficiency", eta.to_string(), "above 0")) }
}

/// The friction circle c of Eq. (L3), and 1 − c² without cancellation.
fn circle(name: &str, efficiency_180: Ratio) -> Result<(f64, f64), Invalid> {
    let eta = fraction(name, efficiency_180)?;
    Ok(((1.0 - eta) / (1.0 + eta), 4.0 * eta / (1.0 + eta).powi(2)))
}

/// Efficiency by Eq. (L2) at a wrap up to one turn.
fn wheel((c, rest): (f64, f64), wrap_rad: f64) -> f64 {
    let s = (wrap_rad.min(2.0 * PI) / 2.0).sin().abs();
    let s_2 = s * s;
    let gain = 2.0 * c * s * (c * s + (1.0 - c * c * (1.0 - s_2)).max(0.0).sqrt()) / rest;
    1.0 / (1.0 + gain)
}
