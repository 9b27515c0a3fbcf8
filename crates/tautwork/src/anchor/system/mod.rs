//! Anchors of anchors: their theory is on the page of this folder, joined to that of `anchor`.

mod cascade;
mod cone;
mod dynamic;
mod input;
mod model;
mod motion;
mod overshoot;
mod record;
mod rest;

pub use cascade::{Loss, LossStage, Losses, system_losses};
pub(crate) use cascade::{cascade, lose_at_once};
pub use cone::{ConeLeg, ConeMap, PullCone, pull_cone};
pub use dynamic::{BreakEvent, LegPeakInTime, SystemBreak, SystemBroken, break_in_time};
pub use input::{AnchorSystem, FixedPoint, Junction, LegPart, PullLine, SystemLeg};
pub use overshoot::Overshoot;
pub use rest::{FixedState, JunctionState, LegState, SystemRest, system_rest};

#[cfg(test)]
mod tests;
