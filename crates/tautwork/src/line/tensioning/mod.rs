//! Drawing a line in, and what changes its tension afterwards.

mod bring;
mod changes;
mod draw;
mod integral;
mod load_cell;
mod pull_in;

pub use bring::{BringItem, BringLine, Knot, LengthsToBring, LineToBring, Wrap, lengths_to_bring};
pub(super) use changes::standing;
pub use changes::{ChangeRates, ChangedLine, Changes, StandingLine, change_line};
pub(super) use draw::Span;
pub(super) use integral::integral;
pub use load_cell::{LoadCell, LoadCellReading, load_cell_reading};
pub(super) use pull_in::check_samples;
pub use pull_in::{PullIn, PullInCurve, pull_in};

#[cfg(test)]
mod tests;
