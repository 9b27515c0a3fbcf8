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
        pieces.map(|w| from_segment_m(p, w[0], w[1])).fold(f64::INFINITY, f64::min)
    }

    /// Least distance of a point in space from the profile, m.
    pub fn away_m(&self, p: [f64; 3]) -> f64 {
        self.distance_m([p[0], p[2]])
    }

    /// Whether the straight path from `p` to `q` meets the polyline.
    pub fn crossed(&self, p: [f64; 3], q: [f64; 3]) -> bool {
        let (p, q) = ([p[0], p[2]], [q[0], q[2]]);
        self.corners_m.windows(2).any(|w| meet(p, q, w[0], w[1]))
    }
}

fn from_segment_m(p: [f64; 2], a: [f64; 2], b: [f64; 2]) -> f64 {
    let (ux, uz) = (b[0] - a[0], b[1] - a[1]);
    let (wx, wz) = (p[0] - a[0], p[1] - a[1]);
    let along = (wx * ux + wz * uz) / (ux * ux + uz * uz);
    let s = along.clamp(0.0, 1.0);
    (wx - s * ux).hypot(wz - s * uz)
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
        assert!(wall.crossed([1.0, 0.0, -5.0], [-1.0, 9.0, -5.0]));
        assert!(!wall.crossed([1.0, 0.0, 1.0], [-1.0, 0.0, 1.0]));
        assert!(!wall.crossed([1.0, 0.0, -5.0], [3.0, 0.0, -5.0]));
    }
}
