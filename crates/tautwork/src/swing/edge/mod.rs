//! A rope over an edge: its theory is on the page of this folder, joined to that of `swing`.

mod answer;
mod case;
mod follow;
mod line;

pub use answer::{EdgeTouch, RopeOnEdge, TouchEnd};
pub use case::{RockEdge, RopeEdgeCase};
pub use follow::rope_on_edge;

#[cfg(test)]
mod tests;
