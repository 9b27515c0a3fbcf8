//! Falls that a slipping device makes softer.

mod arrest;

pub(super) use arrest::{Device, in_order};
pub use arrest::{Slip, SlipArrest, SlipState, arrest_with_slip};

#[cfg(test)]
mod tests;
