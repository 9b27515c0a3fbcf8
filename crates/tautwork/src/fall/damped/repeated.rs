//! Fall after fall on one rope.

use serde::{Deserialize, Serialize};

use super::super::FallError;
use super::arrest::DampedArrest;
use super::input::{Before, DampedFall};
use super::relax::relaxed;
use crate::quantity::check::{count, non_negative};
use crate::quantity::{Length, Quantity, Ratio, Text, Time};

/// Falls one after the other from the same place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RepeatedFalls {
    /// The first fall.
    pub fall: DampedFall,
    /// How many, 1 to 100.
    pub falls: usize,
    /// Time from taking the mass off to letting it go again.
    #[serde(with = "Text::<Time>")]
    pub between: Time,
    /// Lasting growth of the rest length by each fall, as part of the first rest length; the caller's
    /// rule, zero if left out.
    #[serde(with = "Text::<Ratio>", default = "none")]
    pub set_per_fall: Ratio,
    /// Growth of the rigidity by each fall, as part of the first; the caller's rule, zero if left out.
    #[serde(with = "Text::<Ratio>", default = "none")]
    pub stiffening_per_fall: Ratio,
}

fn none() -> Ratio {
    Ratio::from_si(0.0)
}

/// One of several falls.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RepeatedFall {
    /// Rest length of the rope.
    #[serde(with = "Text::<Length>")]
    pub rope: Length,
    /// Strain at which the rope would go taut at the moment of letting go: what it still remembers.
    #[serde(with = "Text::<Ratio>")]
    pub rest_strain: Ratio,
    /// The fall.
    pub arrest: DampedArrest,
}

/// Follows falls one after the other on the same rope, Eqs. (D1) to (D10).
///
/// # Errors
/// Those of [`arrest_damped`](super::super::arrest_damped); [`FallError::Invalid`] unless there are 1 to
/// 100 falls and time, set and stiffening are zero or more.
///
/// # Example
/// ```
/// use tautwork::fall::{DampedFall, RopeDamping, RepeatedFalls, arrest_repeated};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, Words};
///
/// let mut falls = RepeatedFalls {
///     fall: DampedFall {
///         mass: 80.0.kilograms(),
///         height: 0.0.meters(),
///         rope: 10.0.meters(),
///         stretch: Stretch::axial_rigidity(20.0.kilonewtons())?,
///         damping: RopeDamping::None,
///         slips: Vec::new(),
///         body: None,
///         drag_area: 0.0.square_meters(),
///         air_density: 1.2.kilograms_per_cubic_meter(),
///         duration: 2.0.seconds(),
///         thresholds: Vec::new(),
///         samples: 21,
///     },
///     falls: 2,
///     between: 60.0.seconds(),
///     set_per_fall: 0.0.ratio(),
///     stiffening_per_fall: 0.0.ratio(),
/// };
/// // A rope without damping remembers nothing.
/// for fall in arrest_repeated(&falls)? {
///     assert!((fall.arrest.impact_force.in_newtons() - 1569.6).abs() < 1e-5);
/// }
/// falls.falls = 0;
/// assert!(arrest_repeated(&falls).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn arrest_repeated(falls: &RepeatedFalls) -> Result<Vec<RepeatedFall>, FallError> {
    count("falls", falls.falls, 1, 100)?;
    let between_s = non_negative("between", falls.between)?;
    let set = non_negative("set_per_fall", falls.set_per_fall)?;
    let stiffening = non_negative("stiffening_per_fall", falls.stiffening_per_fall)?;
    let mut results = Vec::with_capacity(falls.falls);
    let mut before = Before::default();
    for n in 0..falls.falls {
        before.set = n as f64 * set;
        before.stiffening = n as f64 * stiffening;
        let solid = falls.fall.solid(&before)?;
        if n > 0 {
            before.damper = relaxed(&solid, before.damper, between_s)?;
        }
        let rest_strain = FallError::finite("rest_strain", solid.rest_strain(before.damper))?;
        let rope = FallError::finite("rope", solid.rest_m)?;
        let (arrest, after) = falls.fall.follow(&before)?;
        results.push(RepeatedFall { rope, rest_strain, arrest });
        before = after;
    }
    Ok(results)
}
