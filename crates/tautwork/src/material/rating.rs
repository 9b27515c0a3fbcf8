//! Strength by the basis on which it is rated, and what is left of it.

use serde::{Deserialize, Serialize};

use super::strength::multiplied;
use super::{DeratedStrength, Derating, MaterialError};
use crate::quantity::check::{finite, non_negative, positive};
use crate::quantity::{Force, Invalid, Quantity, Ratio, Text, print};

/// On what basis a strength is stated.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
#[non_exhaustive]
pub enum Rating {
    /// No piece is to break below it.
    Minimum {
        /// Minimum breaking strength.
        #[serde(with = "Text::<Force>")]
        strength: Force,
    },
    /// Tests of many pieces: three standard deviations to either side of the mean.
    ThreeSigma {
        /// Mean of the tests.
        #[serde(with = "Text::<Force>")]
        mean: Force,
        /// Their standard deviation.
        #[serde(with = "Text::<Force>")]
        deviation: Force,
    },
    /// A working load limit, which is the minimum strength over a factor.
    WorkingLoadLimit {
        /// The limit.
        #[serde(with = "Text::<Force>")]
        limit: Force,
        /// Its factor, such as 5 for wire rope slings or 7 for textile ones.
        #[serde(with = "Text::<Ratio>")]
        factor: Ratio,
    },
}

/// A rated strength and what takes from it at one place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StrengthCase {
    /// Strength and the basis of its rating.
    pub rating: Rating,
    /// What acts at the place: knot, bend, splice, sewn end. Nothing where left out.
    #[serde(default)]
    pub at_place: Vec<Derating>,
    /// What acts everywhere: wet, age. Nothing where left out.
    #[serde(default)]
    pub everywhere: Vec<Derating>,
}

/// What is left of a rated strength.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StrengthLeft {
    /// Least of the rating with the least of each factor.
    #[serde(with = "Text::<Force>")]
    pub low: Force,
    /// Greatest of the rating with the greatest of each factor.
    #[serde(with = "Text::<Force>")]
    pub high: Force,
    /// The rating as a range.
    pub rated: DeratedStrength,
    /// Product of the least of each factor.
    #[serde(with = "Text::<Ratio>")]
    pub low_factor: Ratio,
    /// Product of the greatest of each factor.
    #[serde(with = "Text::<Ratio>")]
    pub high_factor: Ratio,
    /// Where each factor comes from, in the order given: first those at the place.
    pub sources: Vec<String>,
}

/// The breaking strength that a rating stands for, as a range, Eqs. (10) and (11).
///
/// A minimum and a working load limit say only where the range begins: low and high are the same then.
///
/// # Errors
/// [`MaterialError::Invalid`] for a force not above zero, a factor below 1, a deviation that is negative
/// or a third of the mean or more.
///
/// # Example
/// ```
/// use tautwork::material::{Rating, rated_strength};
/// use tautwork::quantity::{ReadForce, Words};
/// let tests = |deviation: f64| Rating::ThreeSigma {
///     mean: 25.0.kilonewtons(),
///     deviation: deviation.kilonewtons(),
/// };
/// let strength = rated_strength(&tests(1.0))?;
/// assert_eq!((strength.low.in_kilonewtons(), strength.high.in_kilonewtons()), (22.0, 28.0));
/// assert!(rated_strength(&tests(9.0)).is_err());
/// # Ok::<(), tautwork::material::MaterialError>(())
/// ```
///
/// # Source
/// Mean less three standard deviations: common practice of makers, no source.
pub fn rated_strength(rating: &Rating) -> Result<DeratedStrength, MaterialError> {
    let (low, high) = match rating {
        Rating::Minimum { strength } => {
            let strength_n = positive("strength", *strength)?;
            (strength_n, strength_n)
        }
        Rating::ThreeSigma { mean, deviation } => {
            let mean_n = positive("mean", *mean)?;
            let spread_n = 3.0 * non_negative("deviation", *deviation)?;
            if spread_n >= mean_n {
                let allowed = format!("below a third of mean, {}", print(*mean));
                return Err(Invalid::new("deviation", print(*deviation), allowed).into());
            }
            (mean_n - spread_n, mean_n + spread_n)
        }
        Rating::WorkingLoadLimit { limit, factor } => {
            let limit_n = positive("limit", *limit)?;
            let times = finite("factor", *factor)?;
            if times < 1.0 {
                return Err(Invalid::new("factor", print(*factor), "1 or more").into());
            }
            (limit_n * times, limit_n * times)
        }
    };
    let force = |si| MaterialError::finite("rated strength", si);
    Ok(DeratedStrength { low: force(low)?, high: force(high)? })
}

/// What is left of a rated strength at one place, Eqs. (8), (10) and (11), with the sources of its
/// factors.
///
/// # Errors
/// [`MaterialError::Invalid`] as [`rated_strength`] and for factors outside (0, 1].
///
/// # Example
/// ```
/// use tautwork::material::{Rating, StrengthCase, knot_factors, strength_left};
/// use tautwork::quantity::{ReadForce, Words};
/// // A working load limit of 4 kN with factor 5, a figure-eight loop: 66 to 80 % of 20 kN.
/// let mut case = StrengthCase {
///     rating: Rating::WorkingLoadLimit { limit: 4.0.kilonewtons(), factor: 5.0.ratio() },
///     at_place: vec![knot_factors()[0].clone()],
///     everywhere: vec![],
/// };
/// let left = strength_left(&case)?;
/// assert!((left.low.in_kilonewtons() - 13.2).abs() < 1e-9);
/// assert!((left.high.in_kilonewtons() - 16.0).abs() < 1e-9);
/// case.at_place[0].low = 0.0.ratio();
/// assert!(strength_left(&case).is_err());
/// # Ok::<(), tautwork::material::MaterialError>(())
/// ```
///
/// # Source
/// That of each factor, in the result.
pub fn strength_left(case: &StrengthCase) -> Result<StrengthLeft, MaterialError> {
    let rated = rated_strength(&case.rating).map_err(|error| match error {
        MaterialError::Invalid(invalid) => invalid.within("rating").into(),
        other => other,
    })?;
    let factors = || case.at_place.iter().chain(&case.everywhere);
    let (low, high) = multiplied(1.0, factors())?;
    Ok(StrengthLeft {
        low: Force::from_si(rated.low.si() * low),
        high: Force::from_si(rated.high.si() * high),
        rated,
        low_factor: Ratio::from_si(low),
        high_factor: Ratio::from_si(high),
        sources: factors().map(|factor| factor.source.clone()).collect(),
    })
}
