//! Self-adjusting legs: their theory is on the page of this folder, joined to that of `anchor`.

mod band;
mod cone;
mod input;
mod kernel;
mod loss;
mod model;
mod rest;
mod slip;

pub use cone::{AdjustedCone, AdjustingCone, ConePoint, adjusted_cone};
pub use input::{AdjustingPoint, SelfAdjusting};
pub use loss::{AdjustedDrop, AdjustedLoss, HeldDrop, PeakOnPoint, adjusted_loss};
pub use rest::{AdjustedPoint, AdjustedRest, adjusted_rest};

#[cfg(test)]
mod tests;
