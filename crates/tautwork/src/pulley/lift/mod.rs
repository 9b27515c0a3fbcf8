//! A load that moves on the haul line: its theory is on the page of this folder, joined to that of `pulley`.

mod climb;
mod jerk;
mod lip;
mod pendulum;

pub use climb::{Climb, ClimbBounce, climb_bounce};
pub use jerk::{HaulJerk, haul_jerk};
pub use lip::{Lip, LipPull, pull_over_lip};
pub use pendulum::{LiftedPendulum, LiftedSwing, lifted_pendulum};

#[cfg(test)]
mod tests;
