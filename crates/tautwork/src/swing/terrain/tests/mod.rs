use super::super::space::{along, from, size};
use super::near::Near;
use super::surface::Surface;
use super::*;
use crate::quantity::*;
use crate::swing::tests::{at, demo, plain};
use crate::swing::*;
// Not the one of the integration.
use crate::swing::Wall;

mod capsule;
mod exact;
mod files;
mod flight;
mod history;
mod reference;

/// A mesh in metres whose z is up.
fn mesh(obj: &str) -> TerrainMesh {
    let placing = Placing::aligned(1.0.meters(), Up::Z);
    TerrainMesh::new(MeshFile::Obj(obj.to_owned()), placing).unwrap()
}

/// OBJ text of corners and faces of any number of corners, from 0.
fn obj(corners: &[[f64; 3]], faces: &[Vec<usize>]) -> String {
    let vertices = corners.iter().map(|[x, y, z]| format!("v {x:?} {y:?} {z:?}\n"));
    let faces = faces.iter().map(|face| {
        let indices: Vec<String> = face.iter().map(|i| (i + 1).to_string()).collect();
        format!("f {}\n", indices.join(" "))
    });
    vertices.chain(faces).collect()
}

/// A profile drawn out along y, in strips whose borders are at `ys`.
fn drawn_out(points: &[(f64, f64)], ys: &[f64]) -> TerrainMesh {
    let corners: Vec<[f64; 3]> =
        points.iter().flat_map(|(x, z)| ys.iter().map(|y| [*x, *y, *z])).collect();
    let n = ys.len();
    let strip = |i: usize| {
        (1..n).map(move |j| [i * n + j - 1, i * n + j, (i + 1) * n + j, (i + 1) * n + j - 1])
    };
    let faces: Vec<Vec<usize>> =
        (0..points.len() - 1).flat_map(strip).map(|face| face.to_vec()).collect();
    mesh(&obj(&corners, &faces))
}

impl Surface {
    fn near_segment(&self, p: [f64; 3], q: [f64; 3]) -> Near {
        self.nearest_to_segment(p, q, f64::MAX).unwrap()
    }
}

/// A number in −1 to 1 from a seed.
fn draw(seed: &mut u64) -> f64 {
    *seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
    (*seed >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
}
