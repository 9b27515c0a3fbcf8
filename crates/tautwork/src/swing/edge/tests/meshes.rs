//! Edges found in a mesh.

use super::*;
use crate::swing::{MeshFile, Placing, TerrainMesh, Up};

fn mesh(obj: &str) -> TerrainMesh {
    TerrainMesh::new(MeshFile::Obj(obj.to_owned()), Placing::aligned(1.0.meters(), Up::Z)).unwrap()
}

const CUBE: &str = "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nv 0 0 1\nv 1 0 1\nv 1 1 1\nv 0 1 1\n\
    f 1 4 3 2\nf 5 6 7 8\nf 1 2 6 5\nf 2 3 7 6\nf 3 4 8 7\nf 4 1 5 8";

fn count(edges: &[MeshEdge], meet: Meet) -> usize {
    edges.iter().filter(|e| e.meet == meet).count()
}

#[test]
fn a_cube_has_twelve_ridges_and_six_flat_diagonals() {
    let all = mesh_edges(&mesh(CUBE), 0.0.degrees()).unwrap();
    assert_eq!(all.len(), 18);
    let sharp = mesh_edges(&mesh(CUBE), 1.0.degrees()).unwrap();
    assert_eq!((sharp.len(), count(&sharp, Meet::Ridge)), (12, 12));
    assert!(sharp.iter().all(|e| (e.fold.unwrap().in_degrees() - 90.0).abs() < 1e-9));
    // Seen from inside, every ridge is a valley.
    let turned: String = CUBE
        .lines()
        .map(|line| match line.strip_prefix("f ") {
            Some(face) => {
                let corners: Vec<&str> = face.split(' ').rev().collect();
                format!("f {}\n", corners.join(" "))
            }
            None => format!("{line}\n"),
        })
        .collect();
    let sharp = mesh_edges(&mesh(&turned), 1.0.degrees()).unwrap();
    assert_eq!(count(&sharp, Meet::Valley), 12);
}

#[test]
fn rims_and_unclear_edges_are_told() {
    // Two triangles that turn against each other, and three at one edge.
    let against = "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 1 1 0\nf 1 2 3\nf 2 3 4";
    let edges = mesh_edges(&mesh(against), 0.0.degrees()).unwrap();
    assert_eq!((count(&edges, Meet::Rim), count(&edges, Meet::Unclear)), (4, 1));
    let three = "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 -1 0\nv 0 0 1\nf 1 2 3\nf 2 1 4\nf 1 2 5";
    let edges = mesh_edges(&mesh(three), 0.0.degrees()).unwrap();
    assert_eq!((count(&edges, Meet::Rim), count(&edges, Meet::Unclear)), (6, 1));
    assert!(mesh_edges(&mesh(CUBE), f64::NAN.degrees()).is_err());
    assert!(mesh_edges(&mesh(CUBE), (-1.0).degrees()).is_err());
}

fn past(mesh: TerrainMesh, body: &[[f64; 3]]) -> RopeMeshCase {
    RopeMeshCase {
        t_s: (0..body.len()).map(|k| 0.1 * k as f64).collect(),
        anchor: Track::still(place([-1.0, 0.5, 2.0])),
        body: track(body),
        tension_n: vec![1000.0],
        mesh,
        least_fold: 10.0.degrees(),
        valleys: false,
        mu: 0.3.ratio(),
        axial_rigidity: None,
    }
}

#[test]
fn each_touched_edge_is_as_by_itself() {
    // Down past the upper far edge of the cube, which is the only one in its way.
    let path = [[4.0, 0.5, 2.0], [3.0, 0.5, 0.5], [1.5, 0.5, -1.0]];
    let all = past(mesh(CUBE), &path);
    let on = rope_on_mesh(&all).unwrap();
    let touched: Vec<_> = on.touched.iter().map(|t| t.edge.edge).collect();
    assert!(!touched.is_empty() && on.looked_at <= 12, "{touched:?}");
    for touch in &on.touched {
        let alone = RopeEdgeCase {
            t_s: all.t_s.clone(),
            anchor: all.anchor.clone(),
            body: all.body.clone(),
            tension_n: all.tension_n.clone(),
            edge: touch.edge.edge,
            starts_over: false,
            mu: all.mu,
            axial_rigidity: None,
        };
        assert_eq!(touch.rope, rope_on_edge(&alone).unwrap());
    }
    let forces: Vec<f64> =
        on.touched.iter().map(|t| t.rope.greatest_force.unwrap().value.si()).collect();
    assert!(forces.windows(2).all(|f| f[0] >= f[1]));
    // A rope that stays above touches nothing.
    let above = past(mesh(CUBE), &[[4.0, 0.5, 2.0], [4.0, 0.9, 3.0]]);
    assert!(rope_on_mesh(&above).unwrap().touched.is_empty());
    assert!(rope_on_mesh(&RopeMeshCase { mu: (-1.0).ratio(), ..above }).is_err());
}

proptest! {
    #[test]
    fn any_motion_past_a_mesh_gives_an_answer_or_an_error(
        x in prop_oneof![-5.0..5.0_f64, any::<f64>()], z in prop_oneof![-5.0..5.0_f64, any::<f64>()],
        y in prop_oneof![-2.0..2.0_f64, any::<f64>()], mu in prop_oneof![0.0..1.0_f64, any::<f64>()],
        fold in prop_oneof![0.0..180.0_f64, any::<f64>()],
    ) {
        let mut case = past(mesh(CUBE), &[[4.0, 0.5, 2.0], [x, y, z], [1.5, 0.5, -1.0]]);
        (case.mu, case.least_fold) = (mu.ratio(), fold.degrees());
        if let Ok(on) = rope_on_mesh(&case) {
            for touch in &on.touched {
                prop_assert!(touch.rope.force_most_n.iter().all(|f| f.is_finite() && *f >= 0.0));
            }
        }
    }
}
