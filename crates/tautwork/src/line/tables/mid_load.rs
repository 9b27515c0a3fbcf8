//! Tension under a load in the middle, by the sag.

use serde::{Deserialize, Serialize};

use crate::line::LineError;
use crate::quantity::check::positive;
use crate::quantity::{Angle, Force, Quantity, Ratio, Text};

/// One row: a line without weight, with a load in the middle.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct MidLoadRow {
    /// Sag over span.
    #[serde(with = "Text::<Ratio>")]
    pub sag_over_span: Ratio,
    /// Angle of both sides below the level.
    #[serde(with = "Text::<Angle>")]
    pub angle: Angle,
    /// Tension over load.
    #[serde(with = "Text::<Ratio>")]
    pub tension_over_load: Ratio,
    /// Horizontal part of the tension over load.
    #[serde(with = "Text::<Ratio>")]
    pub h_over_load: Ratio,
    /// Tension.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
}

/// Tension of a line with a load in the middle, by its sag under the load, Eq. (H3).
///
/// # Errors
/// [`LineError::Invalid`] unless the load is above zero; [`LineError::At`] with the row unless the sag is.
///
/// # Example
/// ```
/// use tautwork::line::mid_load_table;
/// use tautwork::quantity::{ReadForce, Words};
/// // 4 m over 6 m of span: sides of 5 m, 1000 N / (2 · 4/5).
/// let rows = mid_load_table(&[(4.0 / 6.0).ratio()], 1.0.kilonewtons())?;
/// assert!((rows[0].tension.in_newtons() - 625.0).abs() < 1e-9);
/// assert!(mid_load_table(&[0.0.ratio()], 1.0.kilonewtons()).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
pub fn mid_load_table(sags_over_span: &[Ratio], load: Force) -> Result<Vec<MidLoadRow>, LineError> {
    let load_n = positive("load", load)?;
    let row = |sag: &Ratio| -> Result<MidLoadRow, LineError> {
        let r = positive("sag_over_span", *sag)?;
        let (h, tension) = (0.25 / r, (0.25 / r).hypot(0.5));
        if !(tension * load_n).is_finite() {
            return Err(LineError::Overflow { result: "tension" });
        }
        Ok(MidLoadRow {
            sag_over_span: *sag,
            angle: Angle::from_si((2.0 * r).atan()),
            tension_over_load: Ratio::from_si(tension),
            h_over_load: Ratio::from_si(h),
            tension: Force::from_si(tension * load_n),
        })
    };
    sags_over_span.iter().enumerate().map(|(i, sag)| row(sag).map_err(|e| e.at(i))).collect()
}
