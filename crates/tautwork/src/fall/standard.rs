//! Limits of EN 892 for dynamic ropes.

use serde::{Deserialize, Serialize};

use super::FallError;
use crate::quantity::check::positive;
use crate::quantity::{Force, MaybeText, Quantity, Ratio};

/// How a dynamic rope is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RopeClass {
    /// One strand alone, tested with 80 kg.
    Single,
    /// One strand of two that run apart, tested with 55 kg.
    Half,
    /// Two strands together, tested with 80 kg.
    Twin,
}

/// Figures of one rope, as on its leaflet or as tested. Leave out what is not known.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct En892Figures {
    /// Impact force in the first standard fall.
    #[serde(with = "MaybeText::<Force>", skip_serializing_if = "Option::is_none")]
    pub impact_force: Option<Force>,
    /// Static elongation from 5 kg to 80 kg.
    #[serde(with = "MaybeText::<Ratio>", skip_serializing_if = "Option::is_none")]
    pub static_elongation: Option<Ratio>,
    /// Dynamic elongation in the first standard fall.
    #[serde(with = "MaybeText::<Ratio>", skip_serializing_if = "Option::is_none")]
    pub dynamic_elongation: Option<Ratio>,
}

/// One figure against its limit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct En892Check {
    /// Which figure.
    pub figure: En892Figure,
    /// Figure over limit: above 1 the rope does not meet the standard.
    pub of_limit: f64,
    /// Whether it is within the limit.
    pub within: bool,
}

/// A figure that EN 892 limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum En892Figure {
    /// Impact force.
    ImpactForce,
    /// Static elongation.
    StaticElongation,
    /// Dynamic elongation.
    DynamicElongation,
}

/// Limits of EN 892, from memory: impact force in N, static and dynamic elongation.
const fn limits(class: RopeClass) -> (f64, f64, f64) {
    match class {
        RopeClass::Single | RopeClass::Twin => (12_000.0, 0.10, 0.40),
        RopeClass::Half => (8_000.0, 0.12, 0.40),
    }
}

/// Checks the figures that are given against EN 892.
///
/// # Errors
/// [`FallError::Invalid`] unless each figure is above zero.
///
/// # Example
/// ```
/// use tautwork::fall::{En892Figures, RopeClass, en892_checks};
/// use tautwork::quantity::Words;
///
/// let figures = En892Figures {
///     impact_force: Some(8.6.kilonewtons()),
///     static_elongation: Some(8.0.percent()),
///     dynamic_elongation: None,
/// };
/// let single = en892_checks(RopeClass::Single, &figures)?;
/// assert!(single.len() == 2 && single.iter().all(|c| c.within));
/// // As a half rope its impact force is over the limit of 8 kN.
/// assert!(!en892_checks(RopeClass::Half, &figures)?[0].within);
/// let none = En892Figures { impact_force: Some(0.0.newtons()), ..figures };
/// assert!(en892_checks(RopeClass::Half, &none).is_err());
/// # Ok::<(), tautwork::fall::FallError>(())
/// ```
///
/// # Source
/// EN 892, limits from memory.
pub fn en892_checks(
    class: RopeClass,
    figures: &En892Figures,
) -> Result<Vec<En892Check>, FallError> {
    let (force_n, at_rest, in_fall) = limits(class);
    let mut checks = Vec::new();
    if let Some(force) = figures.impact_force {
        checks.push(check(En892Figure::ImpactForce, "impact_force", force, force_n)?);
    }
    if let Some(e) = figures.static_elongation {
        checks.push(check(En892Figure::StaticElongation, "static_elongation", e, at_rest)?);
    }
    if let Some(e) = figures.dynamic_elongation {
        checks.push(check(En892Figure::DynamicElongation, "dynamic_elongation", e, in_fall)?);
    }
    Ok(checks)
}

fn check<Q: Quantity>(
    figure: En892Figure,
    parameter: &str,
    value: Q,
    limit: f64,
) -> Result<En892Check, FallError> {
    let value = positive(parameter, value)?;
    Ok(En892Check { figure, of_limit: value / limit, within: value <= limit })
}
