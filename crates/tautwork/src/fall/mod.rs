#![doc = include_str!("README.md")]

mod error;
mod factor;

pub use error::FallError;
pub use factor::{fall_factor, impact_force, implied_axial_rigidity};

#[cfg(test)]
mod tests;
