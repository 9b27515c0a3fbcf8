//! The pull of several lines on one moving ring: the field of force in which a jump is computed.

use nalgebra::{Matrix3, Vector3};

use super::LineError;
use super::strand::Strand;
use crate::material::Law;

/// One line from a fixed anchor to the ring.
#[derive(Debug, Clone)]
pub(crate) struct HalfLine {
    pub anchor_m: [f64; 3],
    pub rest_m: f64,
    /// Weight and wind per rest length, as a vector (z up, so weight is negative).
    pub load_n_per_m: [f64; 3],
    pub law: Law,
}

/// Lines from fixed anchors to one ring. Each call starts from the state of the last, so that a ring
/// that moves a little costs one or two Newton steps a line; nothing is allocated.
#[derive(Debug, Clone)]
pub(crate) struct RingField {
    anchors: Vec<Vector3<f64>>,
    strands: Vec<Strand>,
}

impl RingField {
    pub fn new(lines: Vec<HalfLine>) -> Self {
        let anchors = lines.iter().map(|l| Vector3::from(l.anchor_m)).collect();
        let strands = lines
            .into_iter()
            .map(|l| Strand::new(l.rest_m, Vector3::from(l.load_n_per_m), l.law))
            .collect();
        Self { anchors, strands }
    }

    /// Force of all lines on the ring, their weight included.
    ///
    /// # Errors
    /// [`LineError::NotConverged`] names no line that is merely slack: a slack weightless line pulls
    /// nothing.
    pub fn force(&mut self, ring_m: [f64; 3]) -> Result<[f64; 3], LineError> {
        let ring = Vector3::from(ring_m);
        let mut force = Vector3::zeros();
        for (anchor, strand) in self.anchors.iter().zip(&mut self.strands) {
            strand.solve(&(ring - anchor))?;
            force += strand.end_pull_n();
        }
        Ok(force.into())
    }

    /// Tension of each line at its anchor and at the ring, in the last state.
    pub fn tensions_n(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        self.strands.iter().map(Strand::tensions_n)
    }

    /// Pull of one line on its anchor, in the last state.
    pub fn anchor_pull_n(&self, line: usize) -> Option<[f64; 3]> {
        self.strands.get(line).map(|s| s.start_pull_n().into())
    }

    /// Tangent stiffness in the last state: minus the derivative of the force by the position.
    pub fn stiffness_n_per_m(&self) -> [[f64; 3]; 3] {
        let sum: Matrix3<f64> = self.strands.iter().map(Strand::stiffness_n_per_m).sum();
        sum.into()
    }
}
