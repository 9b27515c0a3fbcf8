//! Walls and ground as polylines in the plane of the jump.

/// A named polyline.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Wall {
    /// Name, for the results.
    pub name: String,
    /// Corners (x, z) in metres, at least two.
    pub corners_m: Vec<[f64; 2]>,
}

impl Wall {
    /// Least distance from a point, m.
    pub fn distance_m(&self, p: [f64; 2]) -> f64 {
        let pieces = self.corners_m.windows(2);
        pieces.map(|w| from_segment_m2(p, w[0], w[1])).fold(f64::INFINITY, f64::min).sqrt()
    }

    /// Least distance of a point in space from the profile, m.
    pub fn away_m(&self, p: [f64; 3]) -> f64 {
        self.distance_m([p[0], p[2]])
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

    /// Whether the straight path from `p` to `q` meets the polyline.
    pub fn crossed(&self, p: [f64; 3], q: [f64; 3]) -> bool {
        let (p, q) = ([p[0], p[2]], [q[0], q[2]]);
        self.corners_m.windows(2).any(|w| meet(p, q, w[0], w[1]))
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

/// Whether two segments cross or touch; collinear overlap is left to the distance.
fn meet(p: [f64; 2], q: [f64; 2], a: [f64; 2], b: [f64; 2]) -> bool {
    let (u, v) = (turn(a, b, p), turn(a, b, q));
    let (r, s) = (turn(p, q, a), turn(p, q, b));
    u * v <= 0.0 && r * s <= 0.0 && !(u == 0.0 && v == 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distance_to_sides_and_corners() {
        let wall =
            Wall { name: "step".into(), corners_m: vec![[0.0, 0.0], [0.0, -10.0], [10.0, -10.0]] };
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
        assert!(wall.crossed([1.0, 0.0, -5.0], [-1.0, 9.0, -5.0]));
        assert!(!wall.crossed([1.0, 0.0, 1.0], [-1.0, 0.0, 1.0]));
        assert!(!wall.crossed([1.0, 0.0, -5.0], [3.0, 0.0, -5.0]));
    }
}
