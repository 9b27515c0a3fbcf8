//! A rope along a mesh: each edge that it comes to lie over.

use serde::{Deserialize, Serialize};

use super::super::SwingError;
use super::super::apart::Track;
use super::super::terrain::TerrainMesh;
use super::answer::RopeOnEdge;
use super::case::{RockEdge, RopeEdgeCase};
use super::folds::{Meet, MeshEdge, mesh_edges};
use super::follow::rope_on_edge;
use crate::quantity::{Angle, AxialRigidity, MaybeText, Quantity, Ratio, Text};

/// A rope that moves past a mesh.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RopeMeshCase {
    /// Times of the samples, rising.
    pub t_s: Vec<f64>,
    /// Where the rope is tied: one value for a fixed anchor, or a path.
    pub anchor: Track,
    /// The other end.
    pub body: Track,
    /// Tension at the body: one value, or one for each time.
    pub tension_n: Vec<f64>,
    /// The rock.
    pub mesh: TerrainMesh,
    /// Edges that fold by less are not looked at: the roundness of a survey.
    #[serde(with = "Text::<Angle>")]
    pub least_fold: Angle,
    /// Valleys are looked at too: for a file whose triangles turn the other way.
    #[serde(default)]
    pub valleys: bool,
    /// Friction of rope on rock.
    #[serde(with = "Text::<Ratio>")]
    pub mu: Ratio,
    /// Rigidity of the rope, for the rope that stretches over the edge.
    #[serde(with = "MaybeText::<AxialRigidity>", default)]
    pub axial_rigidity: Option<AxialRigidity>,
}

/// The edges of a mesh that a rope touches.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RopeOnMesh {
    /// Edges looked at.
    pub looked_at: usize,
    /// Each edge that is touched, as if it were the only one; the one pressed hardest first.
    pub touched: Vec<MeshTouch>,
    /// Edges of which it cannot be told, and why.
    pub unclear: Vec<UnclearEdge>,
}

/// An edge and the rope on it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct MeshTouch {
    /// The edge.
    pub edge: MeshEdge,
    /// When, how hard, how far it rubs.
    pub rope: RopeOnEdge,
}

/// An edge without an answer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct UnclearEdge {
    /// The edge.
    pub edge: MeshEdge,
    /// Why.
    pub reason: String,
}

/// Every edge of a mesh that a rope comes to lie over, each as in [`rope_on_edge`] and as if it were the only one.
///
/// # Errors
/// [`SwingError`]: as [`rope_on_edge`] for what is the same for every edge, and a fold that is not from 0 to 180°.
///
/// # Example
/// ```
/// use tautwork::quantity::{ReadForce, Words};
/// use tautwork::swing::{MeshFile, Place, Placing, RopeMeshCase, TerrainMesh, Track, Up, rope_on_mesh};
/// // A block with its top at z = 0; the rope goes down past its edge at x = 0.
/// let obj = "v -3 -2 0\nv 0 -2 0\nv 0 2 0\nv -3 2 0\nv 0 -2 -9\nv 0 2 -9\nf 1 2 3 4\nf 2 5 6 3";
/// let at = |x: f64, z: f64| Place { x: x.meters(), y: 0.0.meters(), z: z.meters() };
/// let case = RopeMeshCase {
///     t_s: vec![0.0, 2.0],
///     anchor: Track::still(at(-2.0, 0.5)),
///     body: Track { x_m: vec![4.0, 0.5], y_m: vec![0.0; 2], z_m: vec![1.0, -4.0] },
///     tension_n: vec![1000.0],
///     mesh: TerrainMesh::new(MeshFile::Obj(obj.to_owned()), Placing::aligned(1.0.meters(), Up::Z))?,
///     least_fold: 20.0.degrees(),
///     valleys: false,
///     mu: 0.3.ratio(),
///     axial_rigidity: None,
/// };
/// let on = rope_on_mesh(&case)?;
/// assert_eq!(on.touched.len(), 1);
/// assert!(on.touched[0].rope.greatest_force.unwrap().value.in_newtons() > 1000.0);
/// assert!(rope_on_mesh(&RopeMeshCase { t_s: vec![0.0], ..case }).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn rope_on_mesh(case: &RopeMeshCase) -> Result<RopeOnMesh, SwingError> {
    let far = RockEdge::Corner { at: super::super::Place::of_m([0.0; 3]) };
    let mut one = RopeEdgeCase {
        t_s: case.t_s.clone(),
        anchor: case.anchor.clone(),
        body: case.body.clone(),
        tension_n: case.tension_n.clone(),
        edge: far,
        starts_over: false,
        mu: case.mu,
        axial_rigidity: case.axial_rigidity,
    };
    // What is wrong with the motion is wrong for every edge.
    one.check()?;
    let reach = [reach(&case.anchor), reach(&case.body)];
    let near = |edge: &MeshEdge| {
        let RockEdge::Segment { from, to } = edge.edge else { return true };
        let (p, q) = (from.m(), to.m());
        (0..3).all(|i| {
            let low = reach[0][i][0].min(reach[1][i][0]);
            let high = reach[0][i][1].max(reach[1][i][1]);
            p[i].max(q[i]) >= low && p[i].min(q[i]) <= high
        })
    };
    let edges = mesh_edges(&case.mesh, case.least_fold)?;
    let edges = edges.into_iter().filter(|e| case.valleys || e.meet != Meet::Valley).filter(near);
    let mut on = RopeOnMesh { looked_at: 0, touched: Vec::new(), unclear: Vec::new() };
    for edge in edges {
        on.looked_at += 1;
        one.edge = edge.edge;
        match rope_on_edge(&one) {
            Ok(rope) if rope.touches.is_empty() => {}
            Ok(rope) => on.touched.push(MeshTouch { edge, rope }),
            Err(error) => on.unclear.push(UnclearEdge { edge, reason: error.to_string() }),
        }
    }
    let force = |t: &MeshTouch| t.rope.greatest_force.map_or(0.0, |f| f.value.si());
    on.touched.sort_by(|a, b| force(b).total_cmp(&force(a)));
    Ok(on)
}

/// Least and greatest x, y and z of a track.
fn reach(track: &Track) -> [[f64; 2]; 3] {
    [&track.x_m, &track.y_m, &track.z_m].map(|column| {
        let low = column.iter().copied().fold(f64::INFINITY, f64::min);
        let high = column.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        [low, high]
    })
}
