//! Distances of one triangle, Eq. (T2), (T3) and (T5).

use parry3d_f64::math::Vector;
use parry3d_f64::query::PointQuery;
use parry3d_f64::shape::Triangle;

use super::super::space::{along, between_segments, cross, dot, from, size};
use super::near::Near;
use super::soup::Corners;

pub(super) fn vector([x, y, z]: [f64; 3]) -> Vector {
    Vector::new(x, y, z)
}

fn corners(triangle: &Triangle) -> Corners {
    [triangle.a, triangle.b, triangle.c].map(|v| v.to_array())
}

/// Lengths of the sides.
pub(super) fn sides_m([a, b, c]: Corners) -> [f64; 3] {
    [size(from(a, b)), size(from(b, c)), size(from(c, a))]
}

pub(super) fn area_m2([a, b, c]: Corners) -> f64 {
    0.5 * size(cross(from(a, b), from(a, c)))
}

/// Nearest point of the triangle, Eq. (T2).
pub(super) fn nearest_point(p: [f64; 3], triangle: &Triangle) -> Near {
    let q = triangle.project_local_point(vector(p), false).point.to_array();
    Near { away_m: size(from(p, q)), on_m: p, wall_m: q }
}

/// Nearest points of the segment from p to q and the triangle, Eq. (T3).
pub(super) fn nearest_to_segment(p: [f64; 3], q: [f64; 3], triangle: &Triangle) -> Near {
    if let Some(share) = crossing(p, q, triangle) {
        let at = along(p, q, share);
        return Near { away_m: 0.0, on_m: at, wall_m: at };
    }
    let [a, b, c] = corners(triangle);
    let mut best = nearest_point(p, triangle).nearer(nearest_point(q, triangle));
    for side in [[a, b], [b, c], [c, a]] {
        let [on_m, wall_m] = between_segments([p, q], side);
        best = best.nearer(Near { away_m: size(from(on_m, wall_m)), on_m, wall_m });
    }
    best
}

/// Where the path from p to q meets the triangle, as a share of it, Eq. (T5). A path in its plane is left to the
/// distance.
pub(super) fn crossing(p: [f64; 3], q: [f64; 3], triangle: &Triangle) -> Option<f64> {
    let d = from(p, q);
    let [a, b, c] = corners(triangle).map(|corner| from(p, corner));
    let turns = [dot(d, cross(c, b)), dot(d, cross(a, c)), dot(d, cross(b, a))];
    let one_way = turns.iter().all(|t| *t >= 0.0) || turns.iter().all(|t| *t <= 0.0);
    if !one_way || turns == [0.0; 3] {
        return None;
    }
    let normal = cross(from(a, b), from(a, c));
    let (here, there) = (dot(normal, a), dot(normal, from(d, a)));
    let meets = here <= 0.0 && there >= 0.0 || here >= 0.0 && there <= 0.0;
    (meets && here != there).then(|| here / (here - there))
}
