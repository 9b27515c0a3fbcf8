//! Falls that a slipping device makes softer.

mod arrest;

pub use arrest::{Slip, SlipArrest, SlipState, arrest_with_slip};

#[cfg(test)]
mod tests;
