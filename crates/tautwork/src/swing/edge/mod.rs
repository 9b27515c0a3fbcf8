//! A rope over an edge: its theory is on the page of this folder, joined to that of `swing`.

mod answer;
mod case;
mod folds;
mod follow;
mod line;
mod over_mesh;

pub use answer::{EdgeTouch, RopeOnEdge, TouchEnd};
pub use case::{RockEdge, RopeEdgeCase};
pub use folds::{Meet, MeshEdge, mesh_edges};
pub use follow::rope_on_edge;
pub use over_mesh::{MeshTouch, RopeMeshCase, RopeOnMesh, UnclearEdge, rope_on_mesh};

#[cfg(test)]
mod tests;
