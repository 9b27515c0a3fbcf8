//! Rope around surfaces that do not turn: the theory is on the page of this folder, joined to that of `pulley`.

mod edges;
mod hold;

pub use edges::{EdgeForce, EdgesHold, RopeEdge, RopeOverEdges, over_edges};
pub use hold::{Interval, capstan_hold, capstan_ratio, implied_mu};

#[cfg(test)]
mod tests;
