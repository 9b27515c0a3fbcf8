#![doc = include_str!("README.md")]

mod arrest;
mod edge;
mod error;
mod factor;
mod standard;

pub use arrest::{Arrest, Fall, FallNote, arrest, series_stiffness};
pub use edge::{Edge, EdgeArrest, EdgeEnd, arrest_over_edge};
pub use error::FallError;
pub use factor::{fall_factor, impact_force, implied_axial_rigidity};
pub use standard::{En892Check, En892Figure, En892Figures, RopeClass, en892_checks};

#[cfg(test)]
mod tests;
