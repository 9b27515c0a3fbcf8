//! Errors of lines.

use super::planar::Stop;
use crate::quantity::Invalid;

/// Why a line cannot be computed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LineError {
    /// A parameter is outside its range.
    #[error(transparent)]
    Invalid(#[from] Invalid),
    /// A cordage figure is outside its range.
    #[error(transparent)]
    Material(#[from] crate::material::MaterialError),
    /// A line that does not stretch cannot be shorter than its chord.
    #[error(
        "rest_length is {rest_length_m} m; a line that does not stretch must be longer than its \
         chord, {chord_m} m"
    )]
    TooShort {
        /// The rest length given.
        rest_length_m: f64,
        /// Distance between the ends.
        chord_m: f64,
    },
    /// A weightless line longer than its chord hangs in no particular shape.
    #[error(
        "a weightless slack line has no unique shape: give it a weight or a shorter rest length"
    )]
    NotUnique,
    /// The solver used its budget, or a number left the range of doubles.
    #[error("no equilibrium found: residual {residual:e} {unit} after {iterations} iterations")]
    NotConverged {
        /// What is left of the equation that should vanish.
        residual: f64,
        /// Unit of the residual.
        unit: &'static str,
        /// Iterations made.
        iterations: u32,
    },
    /// No rest length, load or position gives the wanted figure.
    #[error("{wanted} cannot be reached: {reason}")]
    Unreachable {
        /// The figure wanted.
        wanted: String,
        /// Why not.
        reason: String,
    },
    /// The result is too large for a double.
    #[error("{result} overflows with these inputs")]
    Overflow {
        /// Name of the result.
        result: &'static str,
    },
    /// An element of a batch, a piece of a chain or a line of a bundle is at fault.
    #[error("at index {index}: {source}")]
    At {
        /// Index from zero.
        index: usize,
        /// What is wrong there.
        source: Box<LineError>,
    },
}

impl LineError {
    /// Says which element of a list is at fault.
    #[must_use]
    pub(crate) fn at(self, index: usize) -> Self {
        Self::At { index, source: Box::new(self) }
    }
}

/// Refuses a result that holds a number beyond the range of doubles.
pub(super) fn all_finite(values: &[f64], result: &'static str) -> Result<(), LineError> {
    if values.iter().all(|v| v.is_finite()) { Ok(()) } else { Err(LineError::Overflow { result }) }
}

impl From<Stop> for LineError {
    fn from(stop: Stop) -> Self {
        match stop {
            Stop::Slack => Self::NotUnique,
            Stop::Stalled { residual_m, iterations } => unsolved(residual_m, "m", iterations),
            Stop::Unbalanced { residual_n, iterations } => unsolved(residual_n, "N", iterations),
        }
    }
}

/// A residual that is no number comes from inputs at the edge of the range.
fn unsolved(residual: f64, unit: &'static str, iterations: u32) -> LineError {
    if residual.is_finite() {
        LineError::NotConverged { residual, unit, iterations }
    } else {
        LineError::Overflow { result: "equilibrium" }
    }
}
