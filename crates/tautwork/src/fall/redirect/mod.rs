//! Falls over several edges and on several ropes.

mod edges;
mod shared;

pub use edges::{EdgesArrest, EdgesEnd, EdgesFall, arrest_over_edges};
pub use shared::{SharedArrest, SharedFall, SharedRope, SharedState, arrest_shared};

#[cfg(test)]
mod tests;
