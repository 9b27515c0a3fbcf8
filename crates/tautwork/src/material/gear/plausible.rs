//! Ratings that cannot be right for their kind.

use serde::{Deserialize, Serialize};

use super::limits::{Bound, GearKind, StandardLimit, gear_limits};
use super::table::ROWS;
use crate::material::MaterialError;
use crate::quantity::check::{between, positive};
use crate::quantity::{Force, Invalid, Length, MaybeText, Quantity, Text, Words, print};

/// A rating as someone typed it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GearRating {
    /// Kind of gear.
    pub kind: GearKind,
    /// Strength as given.
    #[serde(with = "Text::<Force>")]
    pub strength: Force,
    /// Key of the one limit to compare with, such as `en12275_b_open`; every strength of the kind where
    /// left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limit: Option<String>,
    /// Diameter of accessory cord: its minimum follows from it, Eq. (G5).
    #[serde(with = "MaybeText::<Length>", default, skip_serializing_if = "Option::is_none")]
    pub diameter: Option<Length>,
}

/// By which rule a rating stands out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RatingRule {
    /// Eq. (G1).
    BelowMinimum,
    /// Eq. (G2).
    FarAbove,
    /// Eq. (G3).
    UnitSlip,
    /// Eq. (G4).
    WorkingLoadLimit,
    /// The table has no strength for the kind: nothing is compared.
    NoMinimum,
}

/// One thing about a rating that may be wrong.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RatingFinding {
    /// The rule.
    pub rule: RatingRule,
    /// The rule in words, with its figures.
    pub because: String,
    /// What the rating would be, if a slip of units is put right.
    #[serde(with = "MaybeText::<Force>", skip_serializing_if = "Option::is_none")]
    pub would_be: Option<Force>,
}

/// A rating beside the limits of its kind.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RatingCheck {
    /// What may be wrong; nothing here is no permission.
    pub findings: Vec<RatingFinding>,
    /// Limits that the rating reaches.
    pub reached: Vec<StandardLimit>,
    /// Limits that it does not reach.
    pub not_reached: Vec<StandardLimit>,
    /// Minimum of accessory cord of the diameter given.
    #[serde(with = "MaybeText::<Force>", skip_serializing_if = "Option::is_none")]
    pub minimum_for_diameter: Option<Force>,
}

/// A rating this many times above the greatest minimum stands out.
const FAR: f64 = 4.0;
/// Least and greatest factor of working load limits.
const WORKING_LOAD: (f64, f64) = (3.0, 10.0);
/// Units that are taken for one another.
const SLIPS: [&str; 4] = ["kN", "N", "kgf", "lbf"];

/// Whether the rating of a piece of gear is plausible for its kind, Eqs. (G1) to (G5), and the limits of
/// standards that it reaches and does not reach.
///
/// It finds mistakes in numbers; a rating without findings says nothing of the piece.
///
/// # Errors
/// [`MaterialError::Invalid`] for a strength not above zero, a limit that is no strength of the kind, a
/// diameter outside 1 mm to 50 mm or of anything but accessory cord.
///
/// # Example
/// ```
/// use tautwork::material::{GearKind, GearRating, RatingRule, rating_check};
/// use tautwork::quantity::{ReadForce, Words};
/// // A sling rated "22 kgf": 22 kN was meant.
/// let mut sling = GearRating {
///     kind: GearKind::SewnSling,
///     strength: 22.0.kilograms_force(),
///     limit: None,
///     diameter: None,
/// };
/// let check = rating_check(&sling)?;
/// assert_eq!(check.findings[0].rule, RatingRule::BelowMinimum);
/// let slip = &check.findings[1];
/// assert_eq!(slip.rule, RatingRule::UnitSlip);
/// assert!((slip.would_be.unwrap().in_kilonewtons() - 22.0).abs() < 1e-9);
/// sling.strength = 0.0.newtons();
/// assert!(rating_check(&sling).is_err());
/// # Ok::<(), tautwork::material::MaterialError>(())
/// ```
///
/// # Source
/// The standards in the rows of the result; the rules are common practice, no source.
pub fn rating_check(rating: &GearRating) -> Result<RatingCheck, MaterialError> {
    let strength_n = positive("strength", rating.strength)?;
    let cord_n = rating.minimum_for_diameter()?;
    let limits = rating.compared(cord_n.is_some())?;
    let minima_n: Vec<f64> =
        limits.iter().filter_map(|l| Some(l.force?.si())).chain(cord_n).collect();
    let least_n = minima_n.iter().copied().fold(f64::INFINITY, f64::min);
    let most_n = minima_n.iter().copied().fold(0.0, f64::max);
    let mut check = RatingCheck {
        findings: findings(strength_n, least_n, most_n),
        reached: Vec::new(),
        not_reached: Vec::new(),
        minimum_for_diameter: cord_n.map(Force::from_si),
    };
    for limit in limits {
        let reached = limit.force.is_some_and(|force| strength_n >= force.si());
        if reached { &mut check.reached } else { &mut check.not_reached }.push(limit);
    }
    Ok(check)
}

fn findings(strength_n: f64, least_n: f64, most_n: f64) -> Vec<RatingFinding> {
    let finding = |rule, because| RatingFinding { rule, because, would_be: None };
    if most_n == 0.0 {
        let because = "the table has no strength for this kind: nothing is compared".to_owned();
        return vec![finding(RatingRule::NoMinimum, because)];
    }
    let show = |si| print(Force::from_si(si));
    let plausible = |si: f64| (least_n..=FAR * most_n).contains(&si);
    let mut found = Vec::new();
    if strength_n < least_n {
        let because = format!("below the least minimum of its kind, {}", show(least_n));
        found.push(finding(RatingRule::BelowMinimum, because));
    } else if strength_n > FAR * most_n {
        let because = format!("above {FAR} times the greatest minimum, {}", show(most_n));
        found.push(finding(RatingRule::FarAbove, because));
    } else {
        return found;
    }
    let slips = || Force::UNITS.iter().filter(|unit| SLIPS.contains(&unit.symbol));
    for written in slips() {
        for meant in slips() {
            let number = strength_n / written.factor;
            let Some(number) = short(number) else { continue };
            let would_be = number * meant.factor;
            if written.symbol != meant.symbol && plausible(would_be) {
                found.push(RatingFinding {
                    rule: RatingRule::UnitSlip,
                    because: format!(
                        "{number} {} may be {number} {}",
                        written.symbol, meant.symbol
                    ),
                    would_be: Some(Force::from_si(would_be)),
                });
            }
        }
    }
    let (low, high) = WORKING_LOAD;
    if strength_n < least_n && low * strength_n <= FAR * most_n && high * strength_n >= least_n {
        let because = format!(
            "may be a working load limit: {low} to {high} times it meets {}",
            show(least_n)
        );
        found.push(finding(RatingRule::WorkingLoadLimit, because));
    }
    found
}

/// A number of at most four digits, as people type them, without its rounding.
fn short(number: f64) -> Option<f64> {
    let typed: f64 = format!("{number:.3e}").parse().ok()?;
    ((number - typed).abs() <= 1e-9 * typed.abs()).then_some(typed)
}

impl GearRating {
    /// Eq. (G5).
    fn minimum_for_diameter(&self) -> Result<Option<f64>, MaterialError> {
        let Some(diameter) = self.diameter else { return Ok(None) };
        if self.kind != GearKind::AccessoryCord {
            let allowed = "left out, but for accessory cord";
            return Err(Invalid::new("diameter", print(diameter), allowed).into());
        }
        let (low, high) = (1.0.millimeters(), 50.0.millimeters());
        let mm = 1e3 * between("diameter", diameter, low, high)?;
        Ok(Some(200.0 * mm * mm))
    }

    /// The one limit named, or every strength of the kind; none where a diameter gives the minimum.
    fn compared(&self, by_diameter: bool) -> Result<Vec<StandardLimit>, MaterialError> {
        let of_kind = |limit: &StandardLimit| {
            limit.kind == self.kind && limit.bound == Bound::AtLeast && limit.force.is_some()
        };
        let Some(key) = &self.limit else {
            let rows = ROWS.iter().filter(|row| row.rated && !by_diameter);
            return Ok(rows.map(StandardLimit::from).filter(of_kind).collect());
        };
        let limits: Vec<StandardLimit> = gear_limits().into_iter().filter(of_kind).collect();
        let found: Vec<_> = limits.iter().filter(|l| l.key == key).cloned().collect();
        if found.is_empty() {
            let keys: Vec<&str> = limits.iter().map(|l| l.key).collect();
            let allowed = format!("a strength of its kind: {}", keys.join(", "));
            return Err(Invalid::new("limit", key, allowed).into());
        }
        Ok(found)
    }
}
