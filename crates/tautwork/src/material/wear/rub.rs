//! Force times travel of a rub, and the rigger's rule to retire.

use serde::{Deserialize, Serialize};

use crate::material::MaterialError;
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{Energy, Force, Invalid, Length, MaybeText, Quantity, Ratio, Text};

/// A rub, sampled.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RubCase {
    /// Contact force at each sample.
    pub contact_n: Vec<f64>,
    /// Rub travel up to each sample.
    pub travel_m: Vec<f64>,
    /// Friction coefficient, if the work of friction is wanted.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub friction: Option<Ratio>,
    /// Force times travel at which the rigger retires the part.
    #[serde(with = "MaybeText::<Energy>", default, skip_serializing_if = "Option::is_none")]
    pub retire_at: Option<Energy>,
    /// Force times travel that it has borne before; nothing if left out.
    #[serde(with = "MaybeText::<Energy>", default, skip_serializing_if = "Option::is_none")]
    pub done: Option<Energy>,
}

/// What a rub uses up.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct RubWear {
    /// Rub travel.
    #[serde(with = "Text::<Length>")]
    pub travel: Length,
    /// Greatest contact force.
    #[serde(with = "Text::<Force>")]
    pub greatest_contact: Force,
    /// Force times travel, Eq. (E1).
    #[serde(with = "Text::<Energy>")]
    pub force_travel: Energy,
    /// Work of friction, Eq. (E2); none without a friction coefficient.
    #[serde(with = "MaybeText::<Energy>")]
    pub work: Option<Energy>,
    /// Times that the same may be done before the part is retired, Eq. (E3); none without a rule or if
    /// nothing rubs.
    pub jumps_left: Option<u32>,
}

/// Most samples.
const MAX_SAMPLES: usize = 1_000_000;

/// How much a rub wears, and how often it may be done before the rigger's rule retires the part, Eq. (E1) to
/// (E3).
///
/// # Errors
/// [`MaterialError::Invalid`] unless both series have the same number of finite samples, contact forces are
/// zero or more and the travel never falls.
///
/// # Example
/// ```
/// use tautwork::material::{RubCase, rub_wear};
/// use tautwork::quantity::{ReadEnergy, Words};
/// let case = RubCase {
///     contact_n: vec![2000.0, 2000.0],
///     travel_m: vec![0.0, 0.05],
///     retire_at: Some(0.25.kilojoules()),
///     ..RubCase::default()
/// };
/// let wear = rub_wear(&case)?;
/// assert!((wear.force_travel.in_joules() - 100.0).abs() < 1e-9);
/// assert_eq!(wear.jumps_left, Some(2));
/// assert!(rub_wear(&RubCase { travel_m: vec![0.0], ..case }).is_err());
/// # Ok::<(), tautwork::material::MaterialError>(())
/// ```
pub fn rub_wear(case: &RubCase) -> Result<RubWear, MaterialError> {
    let (travel_m, greatest_n, product_nm) = sums(case)?;
    let work = match case.friction {
        Some(mu) => {
            Some(MaterialError::finite("work", non_negative("friction", mu)? * product_nm)?)
        }
        None => None,
    };
    let done = case.done.map_or(Ok(0.0), |done| non_negative("done", done))?;
    let jumps_left = match case.retire_at {
        Some(limit) => {
            let left = positive("retire_at", limit)? - done;
            (product_nm > 0.0).then(|| whole(left / product_nm))
        }
        None => None,
    };
    Ok(RubWear {
        travel: Length::from_si(travel_m),
        greatest_contact: Force::from_si(greatest_n),
        force_travel: MaterialError::finite("force_travel", product_nm)?,
        work,
        jumps_left,
    })
}

/// Whole jumps that are left.
fn whole(jumps: f64) -> u32 {
    // Clamped to the range of the type; one billion jumps are enough to say.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    {
        (jumps * (1.0 + 1e-12)).floor().clamp(0.0, 1e9) as u32
    }
}

/// Travel, greatest contact force and force times travel.
fn sums(case: &RubCase) -> Result<(f64, f64, f64), MaterialError> {
    let (n, s) = (&case.contact_n, &case.travel_m);
    crate::quantity::check::count("contact_n", n.len(), 0, MAX_SAMPLES)?;
    if n.len() != s.len() {
        let given = format!("{} samples", s.len());
        return Err(Invalid::new("travel_m", given, "as many as in contact_n").into());
    }
    for (i, (&force, &travel)) in n.iter().zip(s).enumerate() {
        if !(force.is_finite() && force >= 0.0) {
            let given = format!("{force} N");
            return Err(Invalid::new(format!("contact_n[{i}]"), given, "zero or more").into());
        }
        if !travel.is_finite() || (i > 0 && travel < s[i - 1]) {
            let given = format!("{travel} m");
            let allowed = "finite and at least the one before";
            return Err(Invalid::new(format!("travel_m[{i}]"), given, allowed).into());
        }
    }
    let travel_m = s.last().zip(s.first()).map_or(0.0, |(last, first)| last - first);
    let greatest_n = n.iter().copied().fold(0.0, f64::max);
    let pairs = n.windows(2).zip(s.windows(2));
    let product_nm = pairs.map(|(n, s)| f64::midpoint(n[0], n[1]) * (s[1] - s[0])).sum();
    if !travel_m.is_finite() {
        return Err(MaterialError::Overflow { result: "travel" });
    }
    Ok((travel_m, greatest_n, product_nm))
}
