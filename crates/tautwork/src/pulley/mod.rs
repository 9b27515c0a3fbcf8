#![doc = include_str!("README.md")]
#![doc = include_str!("haul/README.md")]
#![doc = include_str!("way/README.md")]

mod capstan;
mod error;
mod haul;
mod layout;
mod motion;
mod ordinary;
mod solve;
mod statics;
mod system;
mod way;

pub use capstan::{Interval, capstan_hold, capstan_ratio, implied_mu};
pub use error::PulleyError;
pub use haul::{Haul, HaulWork, Hauls, compare_hauls, haul_work};
pub use ordinary::{Ordinary, ordinary, tackle};
pub use solve::{BodyForce, Note, PartTension, Solution, State, Travel, solve};
pub use system::{Body, BodyKind, Friction, Rope, Sheave, System};
pub use way::{HaulFailure, WayBack, WayPlaces, WayRope, haul_fails, way_back};

#[cfg(test)]
mod tests;
