//! Limits of standards, and ratings.

use tautwork::material::GearRating;

use crate::Call;

pub(crate) const CALLS: &[Call] =
    &[call!(material::gear_limits() => Always), call!(material::rating_check { &GearRating })];
