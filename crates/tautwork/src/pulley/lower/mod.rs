//! Lowering by hand: the theory is on the page of this folder, joined to that of `pulley`.

mod hands;

pub use hands::{LowerStep, Lowering, LoweringHolds, StepForce, Without, lowering, wrap_to_hold};

#[cfg(test)]
mod tests;
