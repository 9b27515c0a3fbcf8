//! A state at a point of a step, and what is asked of it more than once.

use super::figure::{ready_count, ready_values};
use super::model::{Model, RING, VISCOUS, towards_ring};
use super::space::{size, three};
use super::support::Support;

/// A state at a point of a step, with what several figures share in it.
#[derive(Debug, Clone)]
pub(super) struct Look {
    pub y: Vec<f64>,
    pub seen: Seen,
    /// Values of the figures that cost little.
    pub values: Vec<f64>,
    /// Pulls of all lines on their near and far anchors, N, once they are asked for.
    pulls_n: Vec<[[f64; 3]; 2]>,
    pulled: bool,
}

/// What several figures share in a state.
#[derive(Debug, Clone, Copy)]
pub(super) struct Seen {
    /// Force of the ropes on the jumper, N.
    pub force_n: f64,
    /// Unit vector from body to ring, and their distance, m.
    pub toward: [f64; 3],
    pub distance_m: f64,
    pub acceleration: f64,
}

impl Look {
    pub fn new<S: Support>(model: &Model<S>, y: &[f64], lines: usize) -> Self {
        let pulls_n = vec![[[0.0; 3]; 2]; lines];
        let (seen, values) = (Seen::new(model, y), vec![0.0; ready_count(model)]);
        let mut look = Self { y: y.to_vec(), seen, values, pulls_n, pulled: false };
        look.renew(model);
        look
    }

    pub fn renew<S: Support>(&mut self, model: &Model<S>) {
        self.seen = Seen::new(model, &self.y);
        ready_values(model, &self.y, &self.seen, &mut self.values);
        self.pulled = false;
    }

    pub fn pulls_n<S: Support>(&mut self, model: &mut Model<S>) -> &[[[f64; 3]; 2]] {
        if !self.pulled {
            model.support.anchor_pulls_n(three(&self.y, RING), &mut self.pulls_n);
            self.pulled = true;
        }
        &self.pulls_n
    }

    /// Pull of one line on its anchor, N, once [`Self::pulls_n`] was asked.
    pub fn pulled_n(&self, line: usize, end: usize) -> [f64; 3] {
        self.pulls_n[line][end]
    }

    /// Tension of a cord before clipping, N.
    pub fn trial_n<S: Support>(&self, model: &Model<S>, cord: usize) -> f64 {
        match model.ropes.get(cord) {
            Some(rope) => rope.trial_n(rope.strain(self.seen.distance_m), self.y[VISCOUS + cord]),
            None => model.trial_n(&self.y, cord),
        }
    }
}

impl Seen {
    pub fn new<S: Support>(model: &Model<S>, y: &[f64]) -> Self {
        let (toward, distance_m) = towards_ring(y);
        let pull = model.pull(y, (toward, distance_m));
        Self {
            force_n: pull.size_n * model.body_kg / model.low_kg,
            toward,
            distance_m,
            acceleration: size(model.body_acceleration(y, pull)),
        }
    }
}
