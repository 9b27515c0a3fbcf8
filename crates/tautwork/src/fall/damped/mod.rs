//! Falls on a damped rope, in time and one after the other.

mod arrest;
mod motion;
mod repeated;
mod solid;

pub use arrest::{
    DampedArrest, DampedFall, FallBooks, FallSeries, Rebound, RopeDamping, TimeAboveForce,
    arrest_damped,
};
pub use repeated::{RepeatedFall, RepeatedFalls, arrest_repeated};

#[cfg(test)]
mod tests;
