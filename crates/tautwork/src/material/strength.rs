//! Breaking strength and what takes from it.

use serde::{Deserialize, Serialize};

use super::MaterialError;
use crate::quantity::check::{fraction, positive};
use crate::quantity::{Force, Invalid, Quantity, Ratio, Text, print};

/// Minimum breaking strength. Its own type, so that it is not mistaken for a tension.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct BreakingStrength(#[serde(with = "Text::<Force>")] pub Force);

/// What takes from the strength.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum DeratingKind {
    /// A knot.
    Knot,
    /// A bend over an edge, pin or sheave.
    Bend,
    /// A splice.
    Splice,
    /// A sewn end.
    Sewn,
    /// Wet or frozen cordage.
    Wet,
    /// Age and wear.
    Age,
    /// Heat.
    Heat,
    /// Anything else, named in the source.
    Other,
}

/// Fraction of the strength that is left, as a range, with its source.
///
/// Published knot figures differ by 20 to 30 points: one number would pretend.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Derating {
    /// What takes from the strength.
    pub kind: DeratingKind,
    /// Which one, such as "figure-eight loop".
    pub name: String,
    /// Least fraction left.
    #[serde(with = "Text::<Ratio>")]
    pub low: Ratio,
    /// Greatest fraction left.
    #[serde(with = "Text::<Ratio>")]
    pub high: Ratio,
    /// Where the figures come from.
    pub source: String,
}

impl Derating {
    /// Checks `0 < low <= high <= 1`.
    ///
    /// # Errors
    /// [`MaterialError::Invalid`].
    pub fn check(&self) -> Result<(f64, f64), MaterialError> {
        let low = fraction("low", self.low).map_err(|e| e.within(&self.name))?;
        let high = fraction("high", self.high).map_err(|e| e.within(&self.name))?;
        if low > high {
            let allowed = format!("at most high, {}", print(self.high));
            let parameter = format!("{}.low", self.name);
            return Err(Invalid::new(parameter, print(self.low), allowed).into());
        }
        Ok((low, high))
    }
}

/// Strength left at one place.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct DeratedStrength {
    /// With the least of each factor.
    #[serde(with = "Text::<Force>")]
    pub low: Force,
    /// With the greatest of each factor.
    #[serde(with = "Text::<Force>")]
    pub high: Force,
}

/// Strength left at one place: breaking strength times the factors that act there (knot, bend, splice)
/// times those that act everywhere (wet, age), Eq. (8).
///
/// # Errors
/// [`MaterialError::Invalid`] unless the strength is above zero and each factor is in (0, 1].
///
/// # Example
/// ```
/// use tautwork::material::{BreakingStrength, Derating, DeratingKind, derated};
/// use tautwork::quantity::{ReadForce, Words};
/// let knot = Derating {
///     kind: DeratingKind::Knot,
///     name: "loop".to_owned(),
///     low: 0.6.ratio(),
///     high: 0.8.ratio(),
///     source: "example".to_owned(),
/// };
/// let left = derated(BreakingStrength(22.0.kilonewtons()), &[knot.clone()], &[])?;
/// assert!((left.low.in_kilonewtons() - 13.2).abs() < 1e-9);
/// assert!(derated(BreakingStrength(0.0.kilonewtons()), &[knot], &[]).is_err());
/// # Ok::<(), tautwork::material::MaterialError>(())
/// ```
pub fn derated(
    strength: BreakingStrength,
    at_place: &[Derating],
    everywhere: &[Derating],
) -> Result<DeratedStrength, MaterialError> {
    let strength_n = positive("breaking_strength", strength.0)?;
    let (low, high) = multiplied(strength_n, at_place.iter().chain(everywhere))?;
    Ok(DeratedStrength { low: Force::from_si(low), high: Force::from_si(high) })
}

/// A number times the least and times the greatest of each factor.
pub(super) fn multiplied<'a>(
    by: f64,
    factors: impl Iterator<Item = &'a Derating>,
) -> Result<(f64, f64), MaterialError> {
    let (mut low, mut high) = (by, by);
    for factor in factors {
        let (l, h) = factor.check()?;
        low *= l;
        high *= h;
    }
    Ok((low, high))
}
