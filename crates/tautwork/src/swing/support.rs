//! What holds the ring: the quasi-static force of the lines on it.

/// The lines as the ring feels them. A call says what is wrong in the words of the line model.
pub(super) trait Support {
    /// Net force of all lines on the ring, N, their own weight included.
    fn force_n(&mut self, ring_m: [f64; 2]) -> Result<[f64; 2], String>;
    /// Tension at the near and at the far anchor of one line, N.
    fn anchors_n(&mut self, ring_m: [f64; 2], line: usize) -> Result<[f64; 2], String>;
    /// Minus the derivative of the force by the position, N/m, as xx, xz, zz.
    fn stiffness_n_per_m(&mut self, ring_m: [f64; 2]) -> Result<[f64; 3], String>;
    /// Mass of the halves that are drawn straight at a ring position, kg.
    fn taut_kg(&self, _ring_m: [f64; 2]) -> f64 {
        0.0
    }
}

/// No lines: the ring is fixed, or falls.
#[derive(Debug, Clone)]
pub(super) struct Nothing;

impl Support for Nothing {
    fn force_n(&mut self, _: [f64; 2]) -> Result<[f64; 2], String> {
        Ok([0.0; 2])
    }

    fn anchors_n(&mut self, _: [f64; 2], _: usize) -> Result<[f64; 2], String> {
        Ok([0.0; 2])
    }

    fn stiffness_n_per_m(&mut self, _: [f64; 2]) -> Result<[f64; 3], String> {
        Ok([0.0; 3])
    }
}

/// Linear spring of zero rest length, for checks against exact solutions.
#[cfg(test)]
#[derive(Debug, Clone)]
pub(super) struct Spring {
    pub at_m: [f64; 2],
    pub k_n_per_m: [f64; 2],
}

#[cfg(test)]
impl Support for Spring {
    fn force_n(&mut self, p: [f64; 2]) -> Result<[f64; 2], String> {
        let pull = |i: usize| self.k_n_per_m[i] * (self.at_m[i] - p[i]);
        Ok([pull(0), pull(1)])
    }

    fn anchors_n(&mut self, p: [f64; 2], _: usize) -> Result<[f64; 2], String> {
        let f = self.force_n(p)?;
        Ok([f[0].hypot(f[1]); 2])
    }

    fn stiffness_n_per_m(&mut self, _: [f64; 2]) -> Result<[f64; 3], String> {
        Ok([self.k_n_per_m[0], 0.0, self.k_n_per_m[1]])
    }
}
