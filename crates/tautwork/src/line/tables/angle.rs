//! Factors of two equal legs by the angle between them.

use serde::{Deserialize, Serialize};

use crate::line::LineError;
use crate::quantity::check::finite;
use crate::quantity::{Angle, Invalid, Quantity, Ratio, Text, print};

/// One row: two equal legs, or a line turned by a block.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct AngleRow {
    /// Angle between the legs.
    #[serde(with = "Text::<Angle>")]
    pub included: Angle,
    /// Angle of each leg above the level.
    #[serde(with = "Text::<Angle>")]
    pub from_level: Angle,
    /// Tension of each leg over the load on both.
    #[serde(with = "Text::<Ratio>")]
    pub tension_over_load: Ratio,
    /// Tension of each leg over its share, half of the load.
    #[serde(with = "Text::<Ratio>")]
    pub tension_factor: Ratio,
    /// What is left of the capacity of a leg that hangs straight.
    #[serde(with = "Text::<Ratio>")]
    pub reduction_factor: Ratio,
    /// Load on a block over the tension of the line that it turns.
    #[serde(with = "Text::<Ratio>")]
    pub block_factor: Ratio,
}

/// Factors of two equal legs by the angle between them, Eq. (H4).
///
/// # Errors
/// [`LineError::At`] with the row, unless the angle is zero or more and below 180°.
///
/// # Example
/// ```
/// use tautwork::line::angle_table;
/// use tautwork::quantity::{ReadRatio, Words};
/// // At 120° each leg carries the whole load.
/// let rows = angle_table(&[120.0.degrees()])?;
/// assert!((rows[0].tension_over_load.in_ratio() - 1.0).abs() < 1e-12);
/// assert!(angle_table(&[180.0.degrees()]).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
pub fn angle_table(included: &[Angle]) -> Result<Vec<AngleRow>, LineError> {
    let row = |angle: &Angle| -> Result<AngleRow, LineError> {
        let theta = finite("included", *angle)?;
        let straight = std::f64::consts::PI;
        // Nearer to straight than a double tells apart from it, the factor says nothing.
        if !(0.0..straight * (1.0 - f64::EPSILON)).contains(&theta) {
            return Err(LineError::Invalid(Invalid::new(
                "included",
                print(*angle),
                "0° or more and below 180°",
            )));
        }
        let share = (0.5 * theta).cos();
        Ok(AngleRow {
            included: *angle,
            from_level: Angle::from_si(0.5 * (straight - theta)),
            tension_over_load: Ratio::from_si(0.5 / share),
            tension_factor: Ratio::from_si(1.0 / share),
            reduction_factor: Ratio::from_si(share),
            block_factor: Ratio::from_si(2.0 * share),
        })
    };
    included.iter().enumerate().map(|(i, angle)| row(angle).map_err(|e| e.at(i))).collect()
}
