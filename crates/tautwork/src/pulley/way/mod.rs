//! The way back to the lip: its theory is on the page of this folder, joined to that of `pulley`.

mod back;
mod fails;

pub use back::{WayBack, WayPlaces, WayRope, way_back};
pub use fails::{HaulFailure, haul_fails};

#[cfg(test)]
mod tests;
