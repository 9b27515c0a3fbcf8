//! A haul, stroke by stroke: its theory is on the page of this folder, joined to that of `pulley`.

mod by;
mod plan;

pub use by::{HaulWith, OwnSystem};
pub use plan::{Haul, HaulWork, Hauls, compare_hauls, haul_work};

#[cfg(test)]
mod tests;
