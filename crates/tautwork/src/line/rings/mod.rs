//! Rings that slide on lines, with friction and stops.

mod hold;
mod losses;
mod slip;
mod solve;

pub use hold::{RingHold, RingHoldKind, RingHoldState, RingLine, RingsState};
pub use losses::{RingLoss, RingLosses, ring_losses};
pub use solve::{RingsSolution, solve_rings, sweep_rings};

#[cfg(test)]
mod tests;
