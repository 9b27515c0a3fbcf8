//! The line of an edge and the ends of a rope, Eq. (K1) to (K4).

use super::super::space::{cross, dot, from, size};

/// Nearest that an end comes to the edge while the rope lies over it, m: nearer, its direction is rounding.
const CLOSE_M: f64 = 1e-6;

/// A line with a beginning, and an end if it is a segment.
#[derive(Debug, Clone, Copy)]
pub(super) struct EdgeLine {
    pub at_m: [f64; 3],
    /// Unit vector.
    pub along: [f64; 3],
    pub length_m: Option<f64>,
}

/// A rope over the edge.
#[derive(Debug, Clone, Copy)]
pub(super) struct Over {
    /// Place on the edge from its beginning, Eq. (K3).
    pub s_m: f64,
    pub at_m: [f64; 3],
    /// From the anchor to the edge.
    pub behind_m: f64,
    /// Eq. (K4).
    pub turn_rad: f64,
}

impl EdgeLine {
    /// Side of the line on which the straight rope is, Eq. (K1).
    pub fn side(&self, [a, b]: [[f64; 3]; 2]) -> f64 {
        let (a, b) = (self.across(a), self.across(b));
        dot(self.along, cross(a, b))
    }

    /// From the line to a point, square to it.
    fn across(&self, p: [f64; 3]) -> [f64; 3] {
        let r = from(self.at_m, p);
        let s = dot(r, self.along);
        [0, 1, 2].map(|i| r[i] - s * self.along[i])
    }

    /// Whether the anchor and the body are on opposite sides of the line, where the straight rope meets it.
    pub fn between(&self, [a, b]: [[f64; 3]; 2]) -> bool {
        dot(self.across(a), self.across(b)) <= 0.0
    }

    pub fn holds(&self, s_m: f64) -> bool {
        self.length_m.is_none_or(|length_m| (0.0..=length_m).contains(&s_m))
    }

    /// The shortest way over the line; none where an end lies on it.
    pub fn over(&self, [a, b]: [[f64; 3]; 2]) -> Option<Over> {
        let h = [a, b].map(|p| size(self.across(p)));
        if h[0] < CLOSE_M || h[1] < CLOSE_M {
            return None;
        }
        let [s_a, s_b] = [a, b].map(|p| dot(from(self.at_m, p), self.along));
        let s_m = s_a + (s_b - s_a) * (h[0] / (h[0] + h[1]));
        let at_m = [0, 1, 2].map(|i| self.at_m[i] + s_m * self.along[i]);
        let (to, on) = (from(a, at_m), from(at_m, b));
        // Not by the cosine, which loses half of the digits near zero.
        let turn_rad = size(cross(to, on)).atan2(dot(to, on));
        Some(Over { s_m, at_m, behind_m: size(to), turn_rad })
    }
}
