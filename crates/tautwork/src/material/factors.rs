//! Factors other than knots: bends of wire rope by a published table, and common figures as ranges.

use super::strength::{Derating, DeratingKind};
use super::{MaterialError, knots};
use crate::quantity::check::finite;
use crate::quantity::{Invalid, Quantity, Ratio, print};

/// Diameter of the bend over that of the rope, fraction of the strength left.
const BENDS: [(f64, f64); 10] = [
    (1.0, 0.50),
    (2.0, 0.65),
    (4.0, 0.75),
    (6.0, 0.79),
    (8.0, 0.83),
    (10.0, 0.86),
    (15.0, 0.89),
    (20.0, 0.91),
    (30.0, 0.93),
    (40.0, 0.95),
];

/// What a bend leaves of the strength of wire rope, for the diameter of the bend over that of the rope:
/// Eq. (12), straight between the points of a published table, 95 % past its end.
///
/// Wire rope only: for textiles give a [`Derating`] with a range of your own.
///
/// # Errors
/// [`MaterialError::Invalid`] for a ratio below 1, which the table does not cover.
///
/// # Example
/// ```
/// use tautwork::{material, quantity::{ReadRatio, Words}};
/// // Half way between 1 (50 %) and 2 (65 %).
/// let bend = material::wire_rope_bend(1.5.ratio())?;
/// assert!((bend.low.in_percent() - 57.5).abs() < 1e-9);
/// assert!(material::wire_rope_bend(0.5.ratio()).is_err());
/// # Ok::<(), material::MaterialError>(())
/// ```
///
/// # Source
/// A published table of wire rope strength over sheaves and pins (D/d 1 to 40).
pub fn wire_rope_bend(bend_ratio: Ratio) -> Result<Derating, MaterialError> {
    let ratio = finite("bend_ratio", bend_ratio)?;
    if ratio < 1.0 {
        return Err(Invalid::new("bend_ratio", print(bend_ratio), "1 or more").into());
    }
    let pair = BENDS.windows(2).find(|pair| ratio <= pair[1].0);
    let left = pair.map_or(BENDS[9].1, |pair| {
        let ((from, low), (to, high)) = (pair[0], pair[1]);
        low + (high - low) * (ratio - from) / (to - from)
    });
    Ok(Derating {
        kind: DeratingKind::Bend,
        name: "wire rope over a bend".to_owned(),
        low: Ratio::from_si(left),
        high: Ratio::from_si(left),
        source: "published table of wire rope strength over sheaves and pins".to_owned(),
    })
}

const PRACTICE: &str = "common practice, no source";

/// Kind, name, least and greatest fraction of the strength left, source.
const FACTORS: &[(DeratingKind, &str, f64, f64, &str)] = &[
    (DeratingKind::Splice, "eye splice in rope", 0.90, 1.0, PRACTICE),
    (DeratingKind::Splice, "ferrule of a wire rope sling", 0.90, 0.90, "EN 13414-1 (from memory)"),
    (DeratingKind::Sewn, "sewn eye", 0.80, 1.0, PRACTICE),
    (DeratingKind::Wet, "wet polyamide", 0.80, 0.95, PRACTICE),
    (DeratingKind::Wet, "wet polyester or polyethylene", 0.95, 1.0, PRACTICE),
    (DeratingKind::Age, "used and weathered textile", 0.50, 1.0, PRACTICE),
    (DeratingKind::Bend, "textile over a pin as thick as itself or thicker", 0.60, 1.0, PRACTICE),
];

/// Factors of knots, splices, sewn ends, water, age and bends, as ranges with their sources.
///
/// Those of [`knot_factors`](super::knot_factors) first. Most others are common practice without a
/// source, and wide for that reason: measure your own.
///
/// # Example
/// ```
/// use tautwork::material::{DeratingKind, strength_factors};
/// let factors = strength_factors();
/// let sewn = factors.iter().find(|f| f.kind == DeratingKind::Sewn).unwrap();
/// assert_eq!(sewn.source, "common practice, no source");
/// // What melts a rope leaves no figure.
/// assert!(!factors.iter().any(|f| f.kind == DeratingKind::Heat));
/// ```
pub fn strength_factors() -> Vec<Derating> {
    let others = FACTORS.iter().map(|(kind, name, low, high, source)| Derating {
        kind: *kind,
        name: (*name).to_owned(),
        low: Ratio::from_si(*low),
        high: Ratio::from_si(*high),
        source: (*source).to_owned(),
    });
    knots::knot_factors().into_iter().chain(others).collect()
}
