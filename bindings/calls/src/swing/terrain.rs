//! Terrain.

use tautwork::swing::{ClearanceCase, RopeClearanceCase, TerrainMesh};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(swing::clearance_history { &ClearanceCase }),
    call!(swing::rope_clearance_history { &RopeClearanceCase }),
    call!(swing::terrain_facts { &TerrainMesh } => Always),
];
