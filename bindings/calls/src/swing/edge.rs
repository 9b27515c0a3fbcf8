//! A rope over an edge.

use tautwork::swing::{RopeEdgeCase, RopeMeshCase, TerrainMesh};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(swing::rope_on_edge { &RopeEdgeCase }),
    call!(swing::mesh_edges(&mesh: TerrainMesh, least_fold)),
    call!(swing::rope_on_mesh { &RopeMeshCase }),
];
