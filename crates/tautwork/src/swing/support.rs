//! What holds the ring: the quasi-static force of the lines on it.

use super::space::size;

/// The lines as the ring feels them. A call says what is wrong in the words of the line model.
pub(super) trait Support {
    /// Net force of all lines on the ring, N, their own weight included.
    fn force_n(&mut self, ring_m: [f64; 3]) -> Result<[f64; 3], String>;
    /// The energy of which the force is minus the derivative, J.
    fn potential_j(&mut self, ring_m: [f64; 3]) -> Result<f64, String>;
    /// Pull of one line on its near (0) or far (1) anchor, N.
    fn anchor_pull_n(
        &mut self,
        ring_m: [f64; 3],
        line: usize,
        end: usize,
    ) -> Result<[f64; 3], String>;
    /// Tension of one line at its near (0) or far (1) anchor, N.
    fn anchor_n(&mut self, ring_m: [f64; 3], line: usize, end: usize) -> Result<f64, String> {
        Ok(size(self.anchor_pull_n(ring_m, line, end)?))
    }
    /// Pulls of all lines on their near and far anchors, N; NaN without a solution.
    fn anchor_pulls_n(&mut self, ring_m: [f64; 3], pulls_n: &mut [[[f64; 3]; 2]]) {
        for (line, pulls_n) in pulls_n.iter_mut().enumerate() {
            for (end, pull_n) in pulls_n.iter_mut().enumerate() {
                *pull_n = self.anchor_pull_n(ring_m, line, end).unwrap_or([f64::NAN; 3]);
            }
        }
    }
    /// Bounds of the tension of each line at both anchors while the ring goes through three places: those
    /// of which something is known.
    fn anchors_at_most_n(&self, _rings_m: [[f64; 3]; 3], _most_n: &mut [[f64; 2]]) {}
    /// Minus the derivative of the force by the position, N/m.
    fn stiffness_n_per_m(&mut self, ring_m: [f64; 3]) -> Result<[[f64; 3]; 3], String>;
    /// Mass of the halves that are drawn straight at a ring position, kg.
    fn taut_kg(&self, _ring_m: [f64; 3]) -> f64 {
        0.0
    }
    /// Takes away the near, the far or both halves of a line.
    fn lose(&mut self, _line: usize, _ends: [bool; 2]) {}
}

/// No lines: the ring is fixed, or falls.
#[derive(Debug, Clone)]
pub(super) struct Nothing;

impl Support for Nothing {
    fn force_n(&mut self, _: [f64; 3]) -> Result<[f64; 3], String> {
        Ok([0.0; 3])
    }

    fn potential_j(&mut self, _: [f64; 3]) -> Result<f64, String> {
        Ok(0.0)
    }

    fn anchor_pull_n(&mut self, _: [f64; 3], _: usize, _: usize) -> Result<[f64; 3], String> {
        Ok([0.0; 3])
    }

    fn stiffness_n_per_m(&mut self, _: [f64; 3]) -> Result<[[f64; 3]; 3], String> {
        Ok([[0.0; 3]; 3])
    }
}

/// Linear spring of zero rest length, for checks against exact solutions.
#[cfg(test)]
#[derive(Debug, Clone)]
pub(super) struct Spring {
    pub at_m: [f64; 3],
    pub k_n_per_m: [f64; 3],
}

#[cfg(test)]
impl Support for Spring {
    fn force_n(&mut self, p: [f64; 3]) -> Result<[f64; 3], String> {
        Ok([0, 1, 2].map(|i| self.k_n_per_m[i] * (self.at_m[i] - p[i])))
    }

    fn potential_j(&mut self, p: [f64; 3]) -> Result<f64, String> {
        let part = |i: usize| 0.5 * self.k_n_per_m[i] * (self.at_m[i] - p[i]).powi(2);
        Ok(part(0) + part(1) + part(2))
    }

    fn anchor_pull_n(&mut self, p: [f64; 3], _: usize, _: usize) -> Result<[f64; 3], String> {
        self.force_n(p).map(|f| f.map(|f| -f))
    }

    fn stiffness_n_per_m(&mut self, _: [f64; 3]) -> Result<[[f64; 3]; 3], String> {
        let mut k = [[0.0; 3]; 3];
        for (i, row) in k.iter_mut().enumerate() {
            row[i] = self.k_n_per_m[i];
        }
        Ok(k)
    }
}
