//! Networks of ropes and pulleys: the theory is on the page of this folder, joined to that of `pulley`.

mod builder;
mod layout;
mod linear;
mod motion;
mod ordinary;
mod solution;
mod solve;
mod statics;
mod system;

pub use ordinary::{Ordinary, OrdinaryAbout, Sort, ordinary, ordinary_systems, tackle};
pub use solution::{BodyForce, Note, PartTension, Solution, State, Throw, Travel, Turn};
pub use solve::solve;
pub use system::{Body, BodyKind, Rope, Sheave, System, Towards};

#[cfg(test)]
mod tests;
