//! The full model: its theory is on the page of this folder, joined to that of `swing`.

mod answer;
mod fly;
mod grid;
mod hang;
mod mesh;
mod motion;
mod plan;
mod report;
mod rest;
mod ropes;
mod run;
mod springs;
mod table;
mod watch;

pub use answer::{FullBooks, FullFlight, FullLine, FullNote, FullRope, FullSeries, RopeClearance};
pub use fly::fly_full;
pub use mesh::{LineLoss, Mesh, MeshReport};

#[cfg(test)]
mod tests;
