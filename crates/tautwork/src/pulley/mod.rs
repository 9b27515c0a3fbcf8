#![doc = include_str!("network/README.md")]
#![doc = include_str!("loss/README.md")]
#![doc = include_str!("capstan/README.md")]
#![doc = include_str!("lower/README.md")]
#![doc = include_str!("diagram/README.md")]
#![doc = include_str!("haul/README.md")]
#![doc = include_str!("way/README.md")]
#![doc = include_str!("lift/README.md")]

mod capstan;
mod diagram;
mod error;
mod haul;
mod lift;
mod loss;
mod lower;
mod network;
mod way;

pub use capstan::{
    EdgeForce, EdgesHold, Interval, RopeEdge, RopeOverEdges, capstan_hold, capstan_ratio,
    implied_mu, over_edges,
};
pub use diagram::{Shown, diagram};
pub use error::PulleyError;
pub use haul::{Haul, HaulWith, HaulWork, Hauls, OwnSystem, compare_hauls, haul_work};
pub use lift::{
    Climb, ClimbBounce, HaulJerk, LiftedPendulum, LiftedSwing, Lip, LipPull, climb_bounce,
    haul_jerk, lifted_pendulum, pull_over_lip,
};
pub use loss::{Friction, SheaveLoss, sheave_loss};
pub use lower::{LowerStep, Lowering, LoweringHolds, StepForce, Without, lowering, wrap_to_hold};
pub use network::{
    Body, BodyForce, BodyKind, Note, Ordinary, OrdinaryAbout, PartTension, Rope, Sheave, Solution,
    Sort, State, System, Throw, Towards, Travel, Turn, ordinary, ordinary_systems, solve, tackle,
};
pub use way::{HaulFailure, WayBack, WayPlaces, WayRope, haul_fails, way_back};
