//! Falls on a damped rope, in time and one after the other.

mod arrest;
mod input;
mod motion;
mod relax;
mod repeated;
mod solid;
mod state;
mod watch;

pub use arrest::{DampedArrest, FallBooks, FallSeries, Rebound, TimeAboveForce, arrest_damped};
pub use input::{DampedFall, RopeDamping, SoftBody};
pub use repeated::{RepeatedFall, RepeatedFalls, arrest_repeated};

#[cfg(test)]
mod tests;
