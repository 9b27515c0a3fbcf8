//! Walls and ground as polylines in the plane of the span, the same for every y.

use super::super::space::{along, from, shares_between, size};
use super::near::Near;

/// A polyline.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Profile {
    /// Corners (x, z) in metres, at least two.
    pub corners_m: Vec<[f64; 2]>,
}

impl Profile {
    /// Least distance from a point, m.
    pub fn distance_m(&self, p: [f64; 2]) -> f64 {
        let pieces = self.corners_m.windows(2);
        pieces.map(|w| from_segment_m2(p, w[0], w[1])).fold(f64::INFINITY, f64::min).sqrt()
    }

    /// Nearest points of the profile and the segment from p to q in space.
    pub(super) fn near(&self, p: [f64; 3], q: [f64; 3]) -> Near {
        if let Some(share) = self.first_crossing(p, q) {
            let at = along(p, q, share);
            return Near { away_m: 0.0, on_m: at, wall_m: at };
        }
        let flat = |p: [f64; 3]| [p[0], 0.0, p[2]];
        let segment = [flat(p), flat(q)];
        let pieces = self.corners_m.windows(2).map(|w| {
            let piece = [[w[0][0], 0.0, w[0][1]], [w[1][0], 0.0, w[1][1]]];
            let [s, t] = shares_between(segment, piece);
            let on_m = along(p, q, s);
            let wall_m = along(piece[0], piece[1], t);
            let wall_m = [wall_m[0], on_m[1], wall_m[2]];
            Near { away_m: size(from(on_m, wall_m)), on_m, wall_m }
        });
        pieces.fold(Near { away_m: f64::INFINITY, on_m: p, wall_m: p }, Near::nearer)
    }

    /// Distance straight down to the highest piece below a point, m; none if there is none.
    pub fn below_m(&self, p: [f64; 3]) -> Option<f64> {
        let pieces = self.corners_m.windows(2).filter_map(|w| {
            let (a, b) = (w[0], w[1]);
            if p[0] < a[0].min(b[0]) || p[0] > a[0].max(b[0]) {
                return None;
            }
            let height_m = if a[0] == b[0] {
                // An upright piece: its top, or the point itself on it.
                a[1].max(b[1]).min(p[2].max(a[1].min(b[1])))
            } else {
                a[1] + (b[1] - a[1]) * ((p[0] - a[0]) / (b[0] - a[0]))
            };
            (height_m <= p[2]).then_some(p[2] - height_m)
        });
        pieces.min_by(f64::total_cmp)
    }

    /// Where the straight path from `p` to `q` first meets the polyline, as a share of it.
    pub fn first_crossing(&self, p: [f64; 3], q: [f64; 3]) -> Option<f64> {
        let (p, q) = ([p[0], p[2]], [q[0], q[2]]);
        let meets = self.corners_m.windows(2).filter_map(|w| meet(p, q, w[0], w[1]));
        meets.min_by(f64::total_cmp)
    }
}

/// Square of the distance from a segment.
fn from_segment_m2(p: [f64; 2], a: [f64; 2], b: [f64; 2]) -> f64 {
    let (ux, uz) = (b[0] - a[0], b[1] - a[1]);
    let (wx, wz) = (p[0] - a[0], p[1] - a[1]);
    let along = (wx * ux + wz * uz) / (ux * ux + uz * uz);
    let s = along.clamp(0.0, 1.0);
    let (dx, dz) = (wx - s * ux, wz - s * uz);
    dx * dx + dz * dz
}

/// Twice the signed area of the triangle.
fn turn(a: [f64; 2], b: [f64; 2], c: [f64; 2]) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}

/// Share of p to q at which it crosses or touches a segment; collinear overlap is left to the distance.
fn meet(p: [f64; 2], q: [f64; 2], a: [f64; 2], b: [f64; 2]) -> Option<f64> {
    let (u, v) = (turn(a, b, p), turn(a, b, q));
    let (r, s) = (turn(p, q, a), turn(p, q, b));
    // Products of subnormal numbers vanish, so the share may be rounding.
    (u * v <= 0.0 && r * s <= 0.0 && u != v).then(|| (u / (u - v)).clamp(0.0, 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distance_to_sides_and_corners() {
        let wall = Profile { corners_m: vec![[0.0, 0.0], [0.0, -10.0], [10.0, -10.0]] };
        assert_eq!(wall.distance_m([3.0, -5.0]), 3.0);
        assert_eq!(wall.distance_m([4.0, -8.0]), 2.0);
        assert_eq!(wall.distance_m([3.0, 4.0]), 5.0);
        assert_eq!(wall.distance_m([13.0, -6.0]), 5.0);
        assert_eq!(wall.below_m([4.0, 2.0, -7.0]), Some(3.0));
        assert_eq!((wall.below_m([11.0, 0.0, 0.0]), wall.below_m([4.0, 0.0, -11.0])), (None, None));
        assert_eq!(
            (wall.below_m([0.0, 0.0, 2.0]), wall.below_m([0.0, 0.0, -4.0])),
            (Some(2.0), Some(0.0))
        );
        assert_eq!(wall.first_crossing([1.0, 0.0, -5.0], [-1.0, 9.0, -5.0]), Some(0.5));
        assert_eq!(wall.first_crossing([1.0, 0.0, 1.0], [-1.0, 0.0, 1.0]), None);
        assert_eq!(wall.first_crossing([1.0, 0.0, -5.0], [3.0, 0.0, -5.0]), None);
        // A segment with its middle nearest, and one that crosses on its way.
        let near = wall.near([1.0, 0.0, -6.0], [6.0, 10.0, -9.0]);
        assert_eq!((near.away_m, near.on_m), (1.0, [1.0, 0.0, -6.0]));
        assert_eq!(wall.near([1.0, 2.0, -6.0], [-3.0, 6.0, -6.0]).wall_m, [0.0, 3.0, -6.0]);
    }
}
