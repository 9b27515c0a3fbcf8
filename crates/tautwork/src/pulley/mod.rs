#![doc = include_str!("network/README.md")]
#![doc = include_str!("loss/README.md")]
#![doc = include_str!("haul/README.md")]
#![doc = include_str!("way/README.md")]

mod capstan;
mod error;
mod haul;
mod loss;
mod network;
mod way;

pub use capstan::{Interval, capstan_hold, capstan_ratio, implied_mu};
pub use error::PulleyError;
pub use haul::{Haul, HaulWork, Hauls, compare_hauls, haul_work};
pub use loss::{Friction, SheaveLoss, sheave_loss};
pub use network::{
    Body, BodyForce, BodyKind, Note, Ordinary, OrdinaryAbout, PartTension, Rope, Sheave, Solution,
    Sort, State, System, Throw, Towards, Travel, Turn, ordinary, ordinary_systems, solve, tackle,
};
pub use way::{HaulFailure, WayBack, WayPlaces, WayRope, haul_fails, way_back};
