//! Published factors of slings: choke angle, mode of use, wire rope slings.

use serde::{Deserialize, Serialize};

use crate::anchor::AnchorError;
use crate::quantity::check::{between, fraction, positive};
use crate::quantity::{
    Angle, GRAVITY, Invalid, Length, Mass, Pressure, Quantity, Ratio, Text, Words, print,
};

/// From this angle of choke on: part of the rating as a choker, ASME B30.9.
const CHOKE: [(f64, f64); 4] = [(90.0, 0.87), (60.0, 0.74), (30.0, 0.62), (0.0, 0.49)];

/// What is left at any choke angle.
pub(super) const LEAST_CHOKE: f64 = CHOKE[3].1;

/// Part of its rating as a choker that a choked sling keeps at an angle of choke.
///
/// The angle is that between the loaded part and the eye through which it runs: above 120° it lies as it
/// falls by itself, and keeps all. At the border of two rows the lower one holds.
///
/// # Errors
/// [`AnchorError::Invalid`] unless `0 <= choke_angle <= 180°`.
///
/// # Example
/// ```
/// use tautwork::{anchor, quantity::{ReadRatio, Words}};
/// assert_eq!(anchor::choke_angle_factor(130.0.degrees())?.in_ratio(), 1.0);
/// assert_eq!(anchor::choke_angle_factor(100.0.degrees())?.in_ratio(), 0.87);
/// assert!(anchor::choke_angle_factor(190.0.degrees()).is_err());
/// # Ok::<(), anchor::AnchorError>(())
/// ```
///
/// # Source
/// ASME B30.9, table of choker ratings by angle, as printed in a rigging chart.
pub fn choke_angle_factor(choke_angle: Angle) -> Result<Ratio, AnchorError> {
    let rad = between("choke_angle", choke_angle, 0.0.degrees(), 180.0.degrees())?;
    // Compared as angles made from degrees, so that "90 deg" is at the border exactly.
    let above_120 = rad > 120.0.degrees().si();
    let row = CHOKE.iter().find(|(from, _)| rad >= from.degrees().si());
    let factor = if above_120 { 1.0 } else { row.map_or(LEAST_CHOKE, |(_, factor)| *factor) };
    Ok(Ratio::from_si(factor))
}

/// How a sling is used, by the standards' tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum SlingMode {
    /// One part, straight.
    Straight,
    /// One part, choked.
    Choked,
    /// Basket with parallel parts.
    BasketParallel,
    /// Basket whose parts lean.
    Basket,
    /// Two legs.
    TwoLegs,
    /// Two legs, choked at the load.
    TwoLegsChoked,
    /// Three or four legs.
    ThreeOrFourLegs,
    /// Three or four legs, choked at the load.
    ThreeOrFourLegsChoked,
    /// Endless sling, choked.
    EndlessChoked,
}

/// The factor of a mode of use, beside what statics gives.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ModeFactor {
    /// Load limit of the whole over that of one straight part.
    #[serde(with = "Text::<Ratio>")]
    pub factor: Ratio,
    /// Parts that are counted as loaded alike, times the cosine of the angle, times the standard's
    /// factor of a choke.
    #[serde(with = "Text::<Ratio>")]
    pub by_statics: Ratio,
    /// Where the factor is written.
    pub source: &'static str,
}

const EN1492: &str = "EN 1492-1 and EN 1492-2 (from memory)";
const BOTH: &str = "EN 13414-1; EN 1492-1 and EN 1492-2 (from memory)";
const EN13414: &str = "EN 13414-1";

impl SlingMode {
    /// Factor up to 45°, factor from there to 60°, counted parts, factor of the choke, source.
    fn row(self) -> (f64, Option<f64>, f64, f64, &'static str) {
        match self {
            Self::Straight => (1.0, None, 1.0, 1.0, BOTH),
            Self::Choked => (0.8, None, 1.0, 0.8, EN1492),
            Self::BasketParallel => (2.0, None, 2.0, 1.0, EN1492),
            Self::Basket => (1.4, Some(1.0), 2.0, 1.0, EN1492),
            Self::TwoLegs => (1.4, Some(1.0), 2.0, 1.0, BOTH),
            Self::TwoLegsChoked => (1.12, Some(0.8), 2.0, 0.8, EN1492),
            Self::ThreeOrFourLegs => (2.1, Some(1.5), 3.0, 1.0, BOTH),
            Self::ThreeOrFourLegsChoked => (1.68, Some(1.2), 3.0, 0.8, EN1492),
            Self::EndlessChoked => (1.6, None, 2.0, 0.8, EN13414),
        }
    }
}

/// Factor of a sling's mode of use for the angle of its parts from the vertical.
///
/// The standards take the worst of each band of angles, rounded down, and count four legs as three.
///
/// # Errors
/// [`AnchorError::Invalid`] unless the angle is from 0 to 60°, and zero for modes without an angle.
///
/// # Example
/// ```
/// use tautwork::anchor::{SlingMode, sling_mode_factor};
/// use tautwork::quantity::{ReadRatio, Words};
/// // Two legs, each 30° from the vertical: 1.4 by the standard, 2 cos 30° = 1.73 by statics.
/// let two = sling_mode_factor(SlingMode::TwoLegs, 30.0.degrees())?;
/// assert_eq!(two.factor.in_ratio(), 1.4);
/// assert!((two.by_statics.in_ratio() - 3.0_f64.sqrt()).abs() < 1e-12);
/// assert!(sling_mode_factor(SlingMode::TwoLegs, 70.0.degrees()).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
///
/// # Source
/// EN 13414-1, leg factors; EN 1492-1 and EN 1492-2, mode factors (from memory).
pub fn sling_mode_factor(
    mode: SlingMode,
    angle_from_vertical: Angle,
) -> Result<ModeFactor, AnchorError> {
    let parameter = "angle_from_vertical";
    let rad = between(parameter, angle_from_vertical, 0.0.degrees(), 60.0.degrees())?;
    let (near, far, parts, choke, source) = mode.row();
    let factor = match far {
        None if rad > 0.0 => {
            let allowed = "0 deg for a mode whose parts hang straight";
            return Err(Invalid::new(parameter, print(angle_from_vertical), allowed).into());
        }
        Some(far) if rad > 45.0.degrees().si() => far,
        _ => near,
    };
    let by_statics = parts * rad.cos() * choke;
    Ok(ModeFactor {
        factor: Ratio::from_si(factor),
        by_statics: Ratio::from_si(by_statics),
        source,
    })
}

/// Factor of the least breaking force of 6 × 19, 6 × 36 and 8 × 36 ropes with a steel core.
const BREAKING_FORCE_FACTOR: f64 = 0.356;
/// Coefficient of utilisation of wire rope slings.
const WIRE_ROPE_COEFFICIENT: f64 = 5.0;

/// Greatest mass that a wire rope sling with a steel core lifts by EN 13414-1, Eq. (F16): for the
/// diameter of the rope, its grade, the factor of its terminations (0.9 for ferrules) and the factor of
/// [`sling_mode_factor`].
///
/// The standard rounds to preferred numbers, by up to 2.6 %.
///
/// # Errors
/// [`AnchorError::Invalid`] for values not above zero or a termination above 1;
/// [`AnchorError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::{anchor, quantity::{ReadMass, Words}};
/// // 16 mm, grade 1770, ferrules, one leg: 2.96 t; the table has 3 t.
/// let (grade, ferrule) = (1770.0.megapascals(), 0.9.ratio());
/// let mass = anchor::wire_rope_sling_limit(16.0.millimeters(), grade, ferrule, 1.0.ratio())?;
/// assert!((mass.in_kilograms() - 2959.8).abs() < 0.1);
/// assert!(anchor::wire_rope_sling_limit(0.0.meters(), grade, ferrule, 1.0.ratio()).is_err());
/// # Ok::<(), anchor::AnchorError>(())
/// ```
///
/// # Source
/// EN 13414-1, table 4; the formula and the factor 0.356 of EN 12385-4 from memory.
pub fn wire_rope_sling_limit(
    diameter: Length,
    rope_grade: Pressure,
    termination: Ratio,
    mode_factor: Ratio,
) -> Result<Mass, AnchorError> {
    let d = positive("diameter", diameter)?;
    let grade_pa = positive("rope_grade", rope_grade)?;
    let kept = fraction("termination", termination)? * positive("mode_factor", mode_factor)?;
    let breaking_n = BREAKING_FORCE_FACTOR * d * grade_pa * d;
    AnchorError::finite("mass", breaking_n * kept / (WIRE_ROPE_COEFFICIENT * GRAVITY))
}
