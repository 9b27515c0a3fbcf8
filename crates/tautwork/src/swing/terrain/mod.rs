//! Terrain: its theory is on the page of this folder, joined to that of `swing`.

mod body;
mod error;
mod facts;
mod form;
mod history;
mod mesh;
mod near;
mod obj;
mod profile;
mod soup;
mod stl;
mod surface;
mod sweep;
mod triangle;
mod wall;

pub(super) use body::Body;
pub use error::TerrainError;
pub use facts::{TerrainFacts, terrain_facts};
pub use history::{
    ClearanceCase, ClearanceHistory, RopeClearanceCase, RopeClearanceHistory, RopeHistory,
    WallHistory, clearance_history, rope_clearance_history,
};
pub use mesh::{MeshFile, Placing, TerrainMesh, Up};
pub(super) use soup::{Corners, FARTHEST_M};
pub(super) use wall::Wall;
pub(crate) use wall::walls;

#[cfg(test)]
mod tests;
