#![doc = include_str!("README.md")]

mod angle;
mod error;
mod frame;
mod legs;
mod loss;
mod members;
mod rest;

pub use angle::{sling_factor, v_angle_factor};
pub use error::AnchorError;
pub use frame::{Frame, FrameForces, FrameMember, FrameNote, HeadRope, MemberForce, frame_forces};
pub use legs::{Anchor, Equilibrium, Leg, LegAtRest, equilibrium};
pub use loss::{LegLoss, LegPeak, lose_leg};

#[cfg(test)]
mod tests;
