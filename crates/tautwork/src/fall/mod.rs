#![doc = include_str!("README.md")]
#![doc = include_str!("damped/README.md")]
#![doc = include_str!("slip/README.md")]
#![doc = include_str!("redirect/README.md")]
#![doc = include_str!("leash/README.md")]
#![doc = include_str!("dropped/README.md")]

mod arrest;
mod damped;
mod dropped;
mod edge;
mod error;
mod factor;
mod leash;
mod redirect;
mod slip;
mod standard;

pub use arrest::{Arrest, Fall, FallNote, arrest, series_stiffness};
pub use damped::{
    DampedArrest, DampedFall, FallBooks, FallSeries, Rebound, RepeatedFall, RepeatedFalls,
    RopeDamping, SoftBody, TimeAboveForce, arrest_damped, arrest_repeated,
};
pub use dropped::{DropZone, DroppedThing, dropped};
pub use edge::{Edge, EdgeArrest, EdgeEnd, arrest_over_edge};
pub use error::FallError;
pub use factor::{fall_factor, impact_force, implied_axial_rigidity};
pub use leash::{LeashArrest, LeashFall, leash_fall};
pub use redirect::{
    EdgesArrest, EdgesEnd, EdgesFall, SharedArrest, SharedFall, SharedRope, SharedState,
    arrest_over_edges, arrest_shared,
};
pub use slip::{Slip, SlipArrest, SlipState, arrest_with_slip};
pub use standard::{En892Check, En892Figure, En892Figures, RopeClass, en892_checks};

#[cfg(test)]
mod tests;
