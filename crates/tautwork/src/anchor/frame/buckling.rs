//! The compression that a pole can take.

use serde::{Deserialize, Serialize};

use super::pole::{Pole, PoleFigures, forces, resistance};
use crate::anchor::AnchorError;
use crate::quantity::check::positive;
use crate::quantity::{Force, Length, Quantity, Ratio, Text};

/// What a pole can take.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Buckling {
    /// Effective length over radius of gyration.
    #[serde(with = "Text::<Ratio>")]
    pub slenderness: Ratio,
    /// Euler's load of a perfect elastic column with the least modulus, Eq. (F13).
    #[serde(with = "Text::<Force>")]
    pub euler_low: Force,
    /// The same with the greatest.
    #[serde(with = "Text::<Force>")]
    pub euler_high: Force,
    /// Compression that crushes a short piece, at the least strength.
    #[serde(with = "Text::<Force>")]
    pub crushing_low: Force,
    /// The same at the greatest.
    #[serde(with = "Text::<Force>")]
    pub crushing_high: Force,
    /// Capacity of a real column with the least figures, Eq. (F14).
    #[serde(with = "Text::<Force>")]
    pub capacity_low: Force,
    /// The same with the greatest.
    #[serde(with = "Text::<Force>")]
    pub capacity_high: Force,
    /// The figures that were used.
    pub figures: PoleFigures,
    /// What to know about the result.
    pub notes: Vec<BucklingNote>,
}

/// What to know about a buckling load.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BucklingNote {
    /// Euler's load is above what crushes the pole: it is stocky, and Euler's load alone misleads.
    Stocky,
    /// A cone without pinned ends was taken as thick as its thin end.
    ThinEnd,
}

/// Compression that a pole of a length can take, Eqs. (F13) and (F14).
///
/// The capacity has no factor of its own: compare it with the factor that you require, and take more off
/// timber for long loads, wet, knots and rot.
///
/// # Errors
/// [`AnchorError::Invalid`] for a value out of range: an effective length factor from 0.5, a wall up to half
/// of the diameter. [`AnchorError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::anchor::{Pole, PoleMaterial, PoleSection, buckling};
/// use tautwork::quantity::{ReadForce, Words};
///
/// let mut pole = Pole {
///     section: PoleSection::Tube { outer: 50.0.millimeters(), wall: 4.0.millimeters() },
///     material: PoleMaterial::Aluminium,
///     effective_length_factor: None,
/// };
/// // I = π (50⁴ − 42⁴) / 64 mm⁴ = 15.4 cm⁴, so π² · 70 GPa · I / (3 m)² is 11.8 kN.
/// let legs = buckling(&pole, 3.0.meters())?;
/// assert!((legs.euler_low.in_kilonewtons() - 11.83).abs() < 0.02);
/// assert!(legs.capacity_low < legs.euler_low);
/// pole.section = PoleSection::Tube { outer: 50.0.millimeters(), wall: 26.0.millimeters() };
/// assert!(buckling(&pole, 3.0.meters()).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
pub fn buckling(pole: &Pole, length: Length) -> Result<Buckling, AnchorError> {
    let found = resistance(pole, positive("length", length)?)?;
    let mut notes = Vec::new();
    if found.euler_n[1] > found.crushing_n[0] {
        notes.push(BucklingNote::Stocky);
    }
    if found.thin_end {
        notes.push(BucklingNote::ThinEnd);
    }
    let [euler_low, euler_high] = forces(found.euler_n);
    let [crushing_low, crushing_high] = forces(found.crushing_n);
    let [capacity_low, capacity_high] = forces(found.capacity_n);
    Ok(Buckling {
        slenderness: Ratio::from_si(found.slenderness),
        euler_low,
        euler_high,
        crushing_low,
        crushing_high,
        capacity_low,
        capacity_high,
        figures: pole.material.figures(),
        notes,
    })
}
