//! Raised frames: legs that push, guys that pull, pinned at one head.

mod buckling;
mod checked;
mod footing;
mod forces;
mod hobble;
mod input;
mod lift;
mod loss;
mod pole;
mod share;
mod stand;
mod stiffness;
mod window;

pub use buckling::{Buckling, BucklingNote, buckling};
pub use forces::{FrameForces, FrameNote, MemberForce, frame_forces};
pub use hobble::{Hobble, HobbleForces, HobbleRange};
pub use input::{Frame, FrameGuy, FrameLeg, HeadPulley, HeadRope};
pub use lift::{FrameLift, LiftPlace, LiftStep, MemberWorst, frame_lift};
pub use loss::{AfterLoss, GuyLoss, MemberPeak, StandsAfter, lose_guy};
pub(crate) use loss::{frame_without, lose_members};
pub use pole::{FactorRange, Pole, PoleFigures, PoleMaterial, PoleSection};
pub use window::{FrameWindow, WindowNote, WindowSide, frame_window};

#[cfg(test)]
mod tests;
