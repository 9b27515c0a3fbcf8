//! Bolts, natural anchors and hitches; the page is part of the docs of `anchor`.

mod block;
mod bolt;
mod group;
mod hitch;
mod interaction;
mod plate;
mod sling;
mod tree;

pub use block::{Block, BlockHold, BlockNote, FirstToGo, block_hold};
pub use bolt::{BoltLimits, BoltReduction, BoltUse, bolt_use};
pub use group::{
    BearingPoint, BoltForces, BoltGroup, BoltGroupForces, PlateBolt, PressedRule, bolt_group,
};
pub use hitch::{Hitch, HitchFactor, HitchForm, HitchNote, HitchStrength, hitch_strength};
pub use interaction::{InteractionRule, RuleSource, interaction_rules};
pub use sling::{
    ModeFactor, SlingMode, choke_angle_factor, sling_mode_factor, wire_rope_sling_limit,
};
pub use tree::{TreeStress, Trunk, tree_stress};

#[cfg(test)]
mod tests;
