//! Losses where a rope turns: the theory is on the page of this folder, joined to that of `pulley`.

mod friction;

pub use friction::{Friction, SheaveLoss, sheave_loss};
pub(super) use friction::{far_from_half_turn, loss};

#[cfg(test)]
mod tests;
