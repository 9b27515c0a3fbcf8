#![doc = include_str!("README.md")]
#![doc = include_str!("gear/README.md")]
#![doc = include_str!("wear/README.md")]

mod condition;
mod cordage;
mod curve;
mod error;
mod factors;
mod gear;
mod knots;
mod rating;
pub(crate) mod standards;
mod strength;
mod stretch;
mod viscoelastic;
mod wear;

pub use condition::Condition;
pub use cordage::Cordage;
pub(crate) use curve::Law;
pub use error::MaterialError;
pub use factors::{strength_factors, wire_rope_bend};
pub use gear::{
    Bound, Certainty, GearKind, GearRating, RatingCheck, RatingFinding, RatingRule, StandardLimit,
    gear_limits, rating_check,
};
pub use knots::knot_factors;
pub use rating::{Rating, StrengthCase, StrengthLeft, rated_strength, strength_left};
pub use strength::{BreakingStrength, DeratedStrength, Derating, DeratingKind, derated};
pub use stretch::{Stretch, StretchBasis};
pub use viscoelastic::Viscoelastic;
pub use wear::{Recovered, Recovery, RubCase, RubWear, rope_recovery, rub_wear};

#[cfg(test)]
mod tests;
