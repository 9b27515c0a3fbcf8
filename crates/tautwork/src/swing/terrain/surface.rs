//! Triangles in a tree of boxes.

use parry3d_f64::bounding_volume::Aabb;
use parry3d_f64::math::Vector;
use parry3d_f64::partitioning::{Bvh, BvhBuildStrategy, BvhNode};
use parry3d_f64::query::PointQuery;
use parry3d_f64::shape::{Segment, Triangle};

use super::near::Near;
use super::soup::Corners;
use super::triangle::{crossing, nearest_point, nearest_to_segment, vector};

/// A mesh that answers where it is nearest.
#[derive(Debug)]
pub(super) struct Surface {
    triangles: Vec<Triangle>,
    tree: Bvh,
}

impl Surface {
    /// From triangles that have passed their checks.
    pub fn new(soup: &[Corners]) -> Self {
        let triangle = |t: &Corners| Triangle::new(vector(t[0]), vector(t[1]), vector(t[2]));
        let triangles: Vec<Triangle> = soup.iter().map(triangle).collect();
        let boxes: Vec<Aabb> = triangles.iter().map(Triangle::local_aabb).collect();
        Self { tree: Bvh::from_leaves(BvhBuildStrategy::Binned, &boxes), triangles }
    }

    pub fn corners(&self) -> impl Iterator<Item = Corners> {
        self.triangles.iter().map(|t| [t.a, t.b, t.c].map(|v| v.to_array()))
    }

    /// Nearest point to p; infinitely far where squares leave the range of doubles.
    pub fn nearest_point(&self, p: [f64; 3]) -> Near {
        let at = vector(p);
        let least = |node: &BvhNode| gap(node, at, at);
        self.nearest(f64::MAX, least, |triangle| nearest_point(p, triangle)).unwrap_or(Near {
            away_m: f64::INFINITY,
            on_m: p,
            wall_m: p,
        })
    }

    /// Nearest points of the surface and the segment from p to q, if they are nearer than `most_m`.
    pub fn nearest_to_segment(&self, p: [f64; 3], q: [f64; 3], most_m: f64) -> Option<Near> {
        let segment = Segment::new(vector(p), vector(q));
        let (low, high) = (segment.a.min(segment.b), segment.a.max(segment.b));
        // Eq. (T6).
        let least = |node: &BvhNode| {
            let from_middle = segment.distance_to_local_point(node.center(), true);
            let reach = 0.5 * (node.maxs() - node.mins()).length();
            gap(node, low, high).max(from_middle - reach)
        };
        self.nearest(most_m, least, |triangle| nearest_to_segment(p, q, triangle))
    }

    fn nearest(
        &self,
        most_m: f64,
        least_m: impl Fn(&BvhNode) -> f64,
        near: impl Fn(&Triangle) -> Near,
    ) -> Option<Near> {
        let leaf = |index: u32, _| {
            let near = near(&self.triangles[index as usize]);
            Some((near.away_m, near))
        };
        self.tree.find_best(most_m, |node, _| least_m(node), leaf).map(|(_, (_, near))| near)
    }

    /// Where the path from p to q first meets the surface, as a share of it.
    pub fn first_crossing(&self, p: [f64; 3], q: [f64; 3]) -> Option<f64> {
        let (a, b) = (vector(p), vector(q));
        let (low, high) = (a.min(b), a.max(b));
        let away = |node: &BvhNode| if gap(node, low, high) > 0.0 { f64::MAX } else { 0.0 };
        let leaf = |index: u32, _| crossing(p, q, &self.triangles[index as usize]);
        self.tree.find_best(f64::MAX, |node, _| away(node), leaf).map(|(_, share)| share)
    }

    /// Distance straight down from a point, m.
    pub fn below_m(&self, p: [f64; 3]) -> Option<f64> {
        let down_m = p[2] - (self.tree.root_aabb().mins.z - 1.0);
        let foot = [p[0], p[1], p[2] - down_m];
        (down_m > 0.0).then(|| self.first_crossing(p, foot)).flatten().map(|share| share * down_m)
    }
}

/// Distance of the box of a node from another box.
fn gap(node: &BvhNode, low: Vector, high: Vector) -> f64 {
    (node.mins() - high).max(low - node.maxs()).max(Vector::ZERO).length()
}
