#![doc = include_str!("README.md")]

mod condition;
mod cordage;
mod curve;
mod error;
mod knots;
pub(crate) mod standards;
mod strength;
mod stretch;
mod viscoelastic;

pub use condition::Condition;
pub use cordage::Cordage;
pub(crate) use curve::Law;
pub use error::MaterialError;
pub use knots::knot_factors;
pub use strength::{BreakingStrength, DeratedStrength, Derating, DeratingKind, derated};
pub use stretch::{Stretch, StretchBasis};
pub use viscoelastic::Viscoelastic;

#[cfg(test)]
mod tests;
