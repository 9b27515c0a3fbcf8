//! Drawing a line in, and what changes its tension afterwards.

mod bring;
mod changes;
mod draw;
mod load_cell;
mod pull_in;

pub use bring::{BringItem, BringLine, Knot, LengthsToBring, LineToBring, Wrap, lengths_to_bring};
pub use changes::{ChangeRates, ChangedLine, Changes, StandingLine, change_line};
use draw::Span;
pub use load_cell::{LoadCell, LoadCellReading, load_cell_reading};
pub use pull_in::{PullIn, PullInCurve, pull_in};

use super::LineError;
use crate::quantity::Invalid;

pub(super) fn refused(parameter: &str, value: &str, allowed: &str) -> LineError {
    LineError::Invalid(Invalid {
        parameter: parameter.to_owned(),
        value: value.to_owned(),
        allowed: allowed.to_owned(),
    })
}

#[cfg(test)]
mod tests;
