//! Edges of a mesh, Eq. (K4a).

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::super::space::{cross, dot, from, size};
use super::super::terrain::{Corners, TerrainMesh};
use super::super::{Place, SwingError};
use super::RockEdge;
use crate::quantity::check::between;
use crate::quantity::{Angle, MaybeText, Quantity, Words};

/// How two triangles meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Meet {
    /// The rock stands out: a rope may come to lie over it.
    Ridge,
    /// The rock falls in.
    Valley,
    /// Only one triangle ends here: the survey ends, or the rock.
    Rim,
    /// More than two triangles, or two that turn against each other: which it is cannot be told.
    Unclear,
}

/// An edge of a mesh.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct MeshEdge {
    /// The edge, as a segment.
    pub edge: RockEdge,
    /// How its triangles meet.
    pub meet: Meet,
    /// Angle between the planes of two triangles, zero where they lie in one; none where that has no meaning.
    #[serde(with = "MaybeText::<Angle>")]
    pub fold: Option<Angle>,
}

/// Corners as bits: triangles that share an edge have the same numbers at its ends.
type Key = [[u64; 3]; 2];

/// Every edge of a mesh that folds by at least an angle, Eq. (K4a), and every rim, in the order of the triangles.
///
/// Triangles turn to the left as seen from the air, as OBJ and STL say; where a file turns them the other
/// way, ridges and valleys change places.
///
/// # Errors
/// [`SwingError`]: a fold that is not from 0 to 180°.
///
/// # Example
/// ```
/// use tautwork::quantity::{ReadAngle, Words};
/// use tautwork::swing::{Meet, MeshFile, Placing, TerrainMesh, Up, mesh_edges};
/// // The top of a cliff and its face, which meet in the edge from y = 0 to 2 at x = 0.
/// let obj = "v -3 0 0\nv 0 0 0\nv 0 2 0\nv -3 2 0\nv 0 0 -9\nv 0 2 -9\nf 1 2 3 4\nf 2 5 6 3";
/// let mesh = TerrainMesh::new(MeshFile::Obj(obj.to_owned()), Placing::aligned(1.0.meters(), Up::Z))?;
/// let edges = mesh_edges(&mesh, 20.0.degrees())?;
/// let ridges: Vec<_> = edges.iter().filter(|e| e.meet == Meet::Ridge).collect();
/// assert_eq!(ridges.len(), 1);
/// assert!((ridges[0].fold.unwrap().in_degrees() - 90.0).abs() < 1e-9);
/// assert!(mesh_edges(&mesh, 200.0.degrees()).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn mesh_edges(mesh: &TerrainMesh, least_fold: Angle) -> Result<Vec<MeshEdge>, SwingError> {
    let least = between("least_fold", least_fold, 0.0.degrees(), 180.0.degrees())?;
    let triangles: Vec<Corners> = mesh.corners().collect();
    let mut sides: BTreeMap<Key, Vec<(usize, usize)>> = BTreeMap::new();
    for (k, corners) in triangles.iter().enumerate() {
        for side in 0..3 {
            // Minus zero and zero are one place.
            let bits = |p: [f64; 3]| p.map(|c| (c + 0.0).to_bits());
            let mut key = [bits(corners[side]), bits(corners[(side + 1) % 3])];
            key.sort_unstable();
            sides.entry(key).or_default().push((k, side));
        }
    }
    let mut found: Vec<((usize, usize), MeshEdge)> = Vec::new();
    for users in sides.values() {
        let (k, side) = users[0];
        let [a, b] = [triangles[k][side], triangles[k][(side + 1) % 3]];
        let (meet, fold) = match users.as_slice() {
            [_] => (Meet::Rim, None),
            [(i, s), (j, t)] => meeting((&triangles[*i], *s), (&triangles[*j], *t)),
            _ => (Meet::Unclear, None),
        };
        if fold.is_none_or(|fold| fold >= least) {
            let edge = RockEdge::Segment { from: Place::of_m(a), to: Place::of_m(b) };
            found.push((users[0], MeshEdge { edge, meet, fold: fold.map(Angle::from_si) }));
        }
    }
    found.sort_by_key(|(first, _)| *first);
    Ok(found.into_iter().map(|(_, edge)| edge).collect())
}

/// How two triangles meet along a side of each, and by how much they fold.
fn meeting(one: (&Corners, usize), other: (&Corners, usize)) -> (Meet, Option<f64>) {
    let square = |c: &Corners| cross(from(c[0], c[1]), from(c[0], c[2]));
    let (n, mut m) = (square(one.0), square(other.0));
    // Neighbours that turn alike pass the side in opposite directions.
    let alike = one.0[one.1] != other.0[other.1];
    if !alike {
        m = m.map(|c| -c);
    }
    let fold = size(cross(n, m)).atan2(dot(n, m));
    let opposite = other.0[(other.1 + 2) % 3];
    let above = dot(n, from(one.0[one.1], opposite));
    let meet = match (alike, above <= 0.0) {
        (false, _) => Meet::Unclear,
        (true, true) => Meet::Ridge,
        (true, false) => Meet::Valley,
    };
    (meet, Some(fold))
}
