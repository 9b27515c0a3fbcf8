//! One bolt in tension and shear.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::InteractionRule;
use crate::anchor::AnchorError;
use crate::quantity::check::{finite, fraction, positive};
use crate::quantity::{Force, Invalid, MaybeText, Quantity, Ratio, Text};

/// What a bolt resists, and the rule for both at once.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BoltLimits {
    /// Resistance in tension alone, by the code of the rule.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Resistance in shear alone, by the code of the rule.
    #[serde(with = "Text::<Force>")]
    pub shear: Force,
    /// Rule for tension and shear at once.
    pub rule: InteractionRule,
    /// Edge distance, spacing and the like; none where left out.
    #[serde(default)]
    pub reductions: Vec<BoltReduction>,
}

/// What takes from the resistance of a bolt: the user's factors.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BoltReduction {
    /// Such as "edge distance".
    pub name: String,
    /// Part of the resistance in tension that is left, in (0, 1].
    #[serde(with = "Text::<Ratio>")]
    pub tension: Ratio,
    /// Part of the resistance in shear that is left, in (0, 1].
    #[serde(with = "Text::<Ratio>")]
    pub shear: Ratio,
}

/// How far a force uses up a bolt.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BoltUse {
    /// Force along the axis, out of the rock.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Force across the axis.
    #[serde(with = "Text::<Force>")]
    pub shear: Force,
    /// Force along the axis, into the rock; it uses up nothing here.
    #[serde(with = "Text::<Force>")]
    pub compression: Force,
    /// Resistance in tension with its reductions.
    #[serde(with = "Text::<Force>")]
    pub tension_resistance: Force,
    /// Resistance in shear with its reductions.
    #[serde(with = "Text::<Force>")]
    pub shear_resistance: Force,
    /// Tension over its resistance.
    #[serde(with = "Text::<Ratio>")]
    pub tension_ratio: Ratio,
    /// Shear over its resistance.
    #[serde(with = "Text::<Ratio>")]
    pub shear_ratio: Ratio,
    /// Utilisation by the rule; the limit is at 1.
    #[serde(with = "Text::<Ratio>")]
    pub utilisation: Ratio,
    /// Scale of the force at which the limit is reached; none if nothing is used up.
    #[serde(with = "MaybeText::<Ratio>", skip_serializing_if = "Option::is_none")]
    pub scale: Option<Ratio>,
    /// Where the rule is written.
    pub source: &'static str,
}

/// Tension, shear and utilisation of a bolt with this axis, which points out of the rock, under a
/// force, Eqs. (F1) to (F6).
///
/// Valid for resistances of the rule's own code; compression is reported and uses up nothing.
///
/// # Errors
/// [`AnchorError::Invalid`] for a resistance that is not above zero, a reduction outside (0, 1], an
/// axis without direction; [`AnchorError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::anchor::{BoltLimits, InteractionRule, bolt_use};
/// use tautwork::quantity::{ReadForce, ReadRatio, Words};
///
/// let mut limits = BoltLimits {
///     tension: 15.0.kilonewtons(),
///     shear: 25.0.kilonewtons(),
///     rule: InteractionRule::Linear,
///     reductions: vec![],
/// };
/// // 3 kN out of the wall and 5 kN down it: 3 / 15 + 5 / 25 = 0.4.
/// let force = [3.0.kilonewtons(), 0.0.kilonewtons(), (-5.0).kilonewtons()];
/// let bolt = bolt_use(&limits, [1.0, 0.0, 0.0], force)?;
/// assert!((bolt.shear.in_kilonewtons() - 5.0).abs() < 1e-12);
/// assert!((bolt.utilisation.in_ratio() - 0.4).abs() < 1e-12);
/// limits.shear = 0.0.kilonewtons();
/// assert!(bolt_use(&limits, [1.0, 0.0, 0.0], force).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
///
/// # Source
/// Those of [`interaction_rules`](super::interaction_rules).
pub fn bolt_use(
    limits: &BoltLimits,
    axis: [f64; 3],
    force: [Force; 3],
) -> Result<BoltUse, AnchorError> {
    let axis = direction("axis", axis)?;
    let force = vector("force", force)?;
    let along = force.dot(&axis);
    let across = force - axis * along;
    let shear_n = length(&across);
    let (tension_r, shear_r) = limits.reduced()?;
    // `0.0 +` makes a negative zero a zero.
    let (tension_n, compression_n) = (0.0 + along.max(0.0), 0.0 + (-along).max(0.0));
    let (n, v) = (tension_n / tension_r, shear_n / shear_r);
    let utilisation = limits.rule.utilisation(n, v);
    let scale = (utilisation > 0.0).then(|| 1.0 / utilisation);
    Ok(BoltUse {
        tension: AnchorError::finite("tension", tension_n)?,
        shear: AnchorError::finite("shear", shear_n)?,
        compression: AnchorError::finite("compression", compression_n)?,
        tension_resistance: Force::from_si(tension_r),
        shear_resistance: Force::from_si(shear_r),
        tension_ratio: AnchorError::finite("tension_ratio", n)?,
        shear_ratio: AnchorError::finite("shear_ratio", v)?,
        utilisation: AnchorError::finite("utilisation", utilisation)?,
        scale: scale.map(|scale| AnchorError::finite("scale", scale)).transpose()?,
        source: limits.rule.source(),
    })
}

impl BoltLimits {
    /// Resistances in tension and shear with their reductions, Eq. (F2).
    pub(super) fn reduced(&self) -> Result<(f64, f64), AnchorError> {
        let mut tension_n = positive("limits.tension", self.tension)?;
        let mut shear_n = positive("limits.shear", self.shear)?;
        for reduction in &self.reductions {
            let named = |e: Invalid| e.within(&format!("limits.reductions.{}", reduction.name));
            tension_n *= fraction("tension", reduction.tension).map_err(named)?;
            shear_n *= fraction("shear", reduction.shear).map_err(named)?;
        }
        if tension_n > 0.0 && shear_n > 0.0 {
            Ok((tension_n, shear_n))
        } else {
            Err(AnchorError::Overflow { result: "resistance" })
        }
    }
}

/// The unit vector along a direction of any length.
pub(super) fn direction(parameter: &str, along: [f64; 3]) -> Result<Vector3<f64>, AnchorError> {
    let most = along.iter().fold(0.0_f64, |m, c| m.max(c.abs()));
    if !along.iter().all(|c| c.is_finite()) || most == 0.0 {
        let [x, y, z] = along;
        let value = format!("[{x}, {y}, {z}]");
        return Err(Invalid::new(parameter, value, "three finite numbers, not all zero").into());
    }
    // Divided first, so that no square leaves the number range.
    Ok((Vector3::from(along) / most).normalize())
}

/// Length of a vector, without squares that leave the number range.
pub(super) fn length(v: &Vector3<f64>) -> f64 {
    v.x.hypot(v.y).hypot(v.z)
}

pub(super) fn vector<Q: Quantity>(
    parameter: &str,
    [x, y, z]: [Q; 3],
) -> Result<Vector3<f64>, Invalid> {
    Ok(Vector3::new(finite(parameter, x)?, finite(parameter, y)?, finite(parameter, z)?))
}
