#![doc = include_str!("README.md")]
#![doc = include_str!("adjust/README.md")]
#![doc = include_str!("fixing/README.md")]
#![doc = include_str!("frame/README.md")]
#![doc = include_str!("system/README.md")]

mod adjust;
mod angle;
mod bracket;
mod cone;
mod error;
mod fixing;
mod frame;
mod knots;
mod legs;
mod loss;
mod rest;
mod system;
mod turning;

pub use adjust::{
    AdjustedCone, AdjustedDrop, AdjustedLoss, AdjustedPoint, AdjustedRest, AdjustingCone,
    AdjustingPoint, ConePoint, HeldDrop, PeakOnPoint, SelfAdjusting, adjusted_cone, adjusted_loss,
    adjusted_rest,
};
pub use angle::{sling_factor, v_angle_factor};
pub use error::AnchorError;
pub use fixing::{
    BearingPoint, Block, BlockHold, BlockNote, BoltForces, BoltGroup, BoltGroupForces, BoltLimits,
    BoltReduction, BoltUse, FirstToGo, Hitch, HitchFactor, HitchForm, HitchNote, HitchStrength,
    InteractionRule, ModeFactor, PlateBolt, PressedRule, RuleSource, SlingMode, TreeStress, Trunk,
    block_hold, bolt_group, bolt_use, choke_angle_factor, hitch_strength, interaction_rules,
    sling_mode_factor, tree_stress, wire_rope_sling_limit,
};
pub use frame::{
    AfterLoss, Buckling, BucklingNote, FactorRange, Frame, FrameForces, FrameGuy, FrameLeg,
    FrameLift, FrameNote, FrameWindow, GuyLoss, HeadPulley, HeadRope, Hobble, HobbleForces,
    HobbleRange, LiftPlace, LiftStep, MemberForce, MemberPeak, MemberWorst, Pole, PoleFigures,
    PoleMaterial, PoleSection, StandsAfter, WindowNote, WindowSide, buckling, frame_forces,
    frame_lift, frame_window, lose_guy,
};
pub(crate) use frame::{frame_without, lose_members};
pub use legs::{Anchor, Equilibrium, Leg, LegAtRest, equilibrium};
pub use loss::{LegLoss, LegPeak, lose_leg};
pub use system::{
    AnchorSystem, BreakEvent, ConeLeg, ConeMap, FixedPoint, FixedState, Junction, JunctionState,
    LegPart, LegPeakInTime, LegState, Loss, LossStage, Losses, Overshoot, PullCone, PullLine,
    SystemBreak, SystemBroken, SystemLeg, SystemRest, break_in_time, pull_cone, system_losses,
    system_rest,
};
pub(crate) use system::{cascade, lose_at_once};

#[cfg(test)]
mod tests;
