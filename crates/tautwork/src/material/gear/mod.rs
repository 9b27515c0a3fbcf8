//! Limits of published standards and the plausibility of ratings; the page is part of the docs of
//! `material`.

mod limits;
mod plausible;
mod table;

pub use limits::{Bound, Certainty, GearKind, StandardLimit, gear_limits};
pub use plausible::{GearRating, RatingCheck, RatingFinding, RatingRule, rating_check};

#[cfg(test)]
mod tests;
