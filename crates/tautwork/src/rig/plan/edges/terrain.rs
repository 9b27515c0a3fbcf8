//! Jump ropes on edges that the document does not name: corners of profiles and ridges of meshes.

use super::super::flight::Site;
use super::pieces::Piece;
use super::{Touches, longest};
use crate::quantity::{Angle, Quantity, Ratio, show};
use crate::rig::EdgeEntry;
use crate::swing::{Place, RockEdge, RopeMeshCase, SwingError, TerrainMesh, rope_on_mesh};

/// Meshes of more triangles are not looked at for ropes on their edges.
const MOST_TRIANGLES: usize = 20_000;
/// Edges of a mesh that fold by less count as round, rad.
const LEAST_FOLD: f64 = 0.35;

/// A jump rope on the corners of profiles and the ridges of meshes, beyond the edges that are named: of each terrain
/// the one that it touches first, since nothing is known of the motion after that.
pub(super) fn terrain(site: &Site<'_>, piece: &Piece, found: &mut Touches) {
    for wall in site.walls() {
        let edges = match &wall.mesh {
            None => {
                let named = |point: &&Place| {
                    let at = |edge: &EdgeEntry| {
                        edge.position[0] == point.x && edge.position[2] == point.z
                    };
                    site.rig.edge.iter().any(at)
                };
                let corners = wall.points.iter().filter(|point| !named(point));
                corners.map(|at| RockEdge::Corner { at: *at }).collect()
            }
            Some(mesh) if mesh.triangles() > MOST_TRIANGLES => {
                let many = mesh.triangles();
                let note = format!(
                    "jump ropes on edges of the {}: not looked at, {many} triangles",
                    wall.name
                );
                if !found.notes.contains(&note) {
                    found.notes.push(note);
                }
                continue;
            }
            Some(mesh) => match ridges(piece, mesh) {
                Ok(edges) => edges,
                Err(error) => {
                    found.unclear(&wall.name, piece, &error);
                    continue;
                }
            },
        };
        let touched = edges.into_iter().filter_map(|edge| {
            let none = Ratio::from_si(0.0);
            // A rope that starts on a corner starts in contact, which the jump refuses.
            let rope = longest(&piece.case(edge, none, false)).ok()?.0;
            Some((rope.first_touch?, rope))
        });
        let first = touched.min_by(|a, b| a.0.si().total_cmp(&b.0.si()));
        if let Some((_, rope)) = first {
            let name = corner(&wall.name, rope.touches.first().map(|touch| touch.place));
            found.take((&name, None, None, None), piece, &rope, None);
        }
    }
}

/// Edges of a mesh that a rope touches, or of which that is not clear.
fn ridges(piece: &Piece, mesh: &TerrainMesh) -> Result<Vec<RockEdge>, SwingError> {
    let on = rope_on_mesh(&RopeMeshCase {
        t_s: piece.t_s.clone(),
        anchor: piece.start.clone(),
        body: piece.end.clone(),
        tension_n: piece.tension_n.clone(),
        mesh: mesh.clone(),
        least_fold: Angle::from_si(LEAST_FOLD),
        valleys: false,
        mu: Ratio::from_si(0.0),
        axial_rigidity: piece.rigidity,
    })?;
    let touched = on.touched.into_iter().map(|touch| touch.edge.edge);
    Ok(touched.chain(on.unclear.into_iter().map(|unclear| unclear.edge.edge)).collect())
}

fn corner(wall: &str, at: Option<Place>) -> String {
    at.map_or_else(
        || wall.to_owned(),
        |p| format!("{wall} at x {}, z {}", show(p.x, "m", 1), show(p.z, "m", 1)),
    )
}
