//! Sag of a level line by span, weight and tension.

use serde::{Deserialize, Serialize};

use crate::line::LineError;
use crate::line::inverse::root;
use crate::quantity::check::positive;
use crate::quantity::{Angle, Force, Invalid, Length, LineLoad, Quantity, Text, print};

/// Which tension a table lists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ListedTension {
    /// At the lowest point.
    Horizontal,
    /// At the ends.
    End,
    /// The mean of both.
    Mean,
}

/// One row of a sag table, as it is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SagCase {
    /// Distance of the ends, at one height.
    #[serde(with = "Text::<Length>")]
    pub span: Length,
    /// Weight per length.
    #[serde(with = "Text::<LineLoad>")]
    pub weight: LineLoad,
    /// Tension, as listed.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
}

/// One row of a sag table.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct SagRow {
    /// Distance of the ends.
    #[serde(with = "Text::<Length>")]
    pub span: Length,
    /// Weight per length.
    #[serde(with = "Text::<LineLoad>")]
    pub weight: LineLoad,
    /// Tension, as listed.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Depth of the lowest point below the ends.
    #[serde(with = "Text::<Length>")]
    pub sag: Length,
    /// Tension at the lowest point.
    #[serde(with = "Text::<Force>")]
    pub h: Force,
    /// Tension at the ends.
    #[serde(with = "Text::<Force>")]
    pub tension_end: Force,
    /// Length of the line as it hangs.
    #[serde(with = "Text::<Length>")]
    pub length: Length,
    /// Slope at the ends.
    #[serde(with = "Text::<Angle>")]
    pub angle_end: Angle,
}

impl ListedTension {
    /// Listed tension over the weight of one span, Eq. (H2).
    fn over_weight(self, k: f64) -> f64 {
        match self {
            Self::Horizontal => 0.5 / k,
            Self::End => 0.5 * k.cosh() / k,
            Self::Mean => 0.25 * (1.0 + k.cosh()) / k,
        }
    }

    /// The k of the least listed tension.
    fn slackest(self) -> f64 {
        match self {
            // No least: as slack as a double can hold.
            Self::Horizontal => 700.0,
            // Root of k tanh k = 1.
            Self::End => 1.199_678_640_257_734,
            // Root of k tanh(k/2) = 1.
            Self::Mean => 1.543_404_638_418_208_5,
        }
    }
}

/// Sag, tensions, length and end slope of level lines from their tension, Eq. (H1) and (H2).
///
/// # Errors
/// [`LineError::At`] with the row, for values that are not above zero and tensions below the least one.
///
/// # Example
/// ```
/// use tautwork::line::{ListedTension, SagCase, sag_table};
/// use tautwork::quantity::{ReadLength, Words};
/// // A line of 20 m with a = H / w = 10 m: k = 1, sag 10 (cosh 1 - 1) m.
/// let case = SagCase {
///     span: 20.0.meters(),
///     weight: 5.0.newtons_per_meter(),
///     tension: 50.0.newtons(),
/// };
/// let rows = sag_table(&[case], ListedTension::Horizontal)?;
/// assert!((rows[0].sag.in_meters() - 10.0 * (1.0_f64.cosh() - 1.0)).abs() < 1e-9);
/// // The ends of this span carry no less than 75.4 N.
/// assert!(sag_table(&[case], ListedTension::End).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
pub fn sag_table(cases: &[SagCase], listed: ListedTension) -> Result<Vec<SagRow>, LineError> {
    cases.iter().enumerate().map(|(i, case)| row(case, listed).map_err(|e| e.at(i))).collect()
}

fn row(case: &SagCase, listed: ListedTension) -> Result<SagRow, LineError> {
    let (l, w) = (positive("span", case.span)?, positive("weight", case.weight)?);
    let t = positive("tension", case.tension)?;
    let overflow = || LineError::Overflow { result: "sag table" };
    let wanted = t / (w * l);
    if !(wanted.is_finite() && wanted > 0.0) {
        return Err(overflow());
    }
    let slackest = listed.slackest();
    let least = listed.over_weight(slackest);
    if wanted < least {
        return Err(LineError::Invalid(Invalid::new(
            "tension",
            print(case.tension),
            format!("{} or more on this span", print(Force::from_si(least * w * l))),
        )));
    }
    // Listed tensions are no less than H: k is no less than this.
    let low = 0.5 / wanted;
    let k = if listed == ListedTension::Horizontal || listed.over_weight(low) <= wanted {
        low
    } else {
        let f = |k: f64| (listed.over_weight(k) / wanted).ln();
        root(low, slackest, f).unwrap_or(slackest)
    };
    let missed = listed.over_weight(k) / wanted - 1.0;
    if missed.abs() > 1e-9 {
        return Err(LineError::NotConverged {
            residual: missed,
            unit: "of the tension",
            iterations: 200,
        });
    }
    let h_n = 0.5 * w * l / k;
    let half = (0.5 * k).sinh();
    let (sag_m, end_n, length_m) = (l * half * (half / k), h_n * k.cosh(), l * (k.sinh() / k));
    if ![h_n, sag_m, end_n, length_m].iter().all(|x| x.is_finite()) {
        return Err(overflow());
    }
    Ok(SagRow {
        span: case.span,
        weight: case.weight,
        tension: case.tension,
        sag: Length::from_si(sag_m),
        h: Force::from_si(h_n),
        tension_end: Force::from_si(end_n),
        length: Length::from_si(length_m),
        angle_end: Angle::from_si(k.sinh().atan()),
    })
}
