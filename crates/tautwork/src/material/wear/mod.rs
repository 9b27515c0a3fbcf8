//! What rubbing and stretching use up: its theory is on the page of this folder, joined to that of `material`.

mod recovery;
mod rub;

pub use recovery::{Recovered, Recovery, rope_recovery};
pub use rub::{RubCase, RubWear, rub_wear};

#[cfg(test)]
mod tests;
