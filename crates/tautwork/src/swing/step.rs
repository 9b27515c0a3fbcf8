//! A step of the integrator, read anywhere between its ends.

use super::beat::{Beat, Turn, angle};
use super::dop853::BETWEEN;

/// Vectors of components are filled up with zeros to whole blocks.
pub(super) const BLOCK: usize = 4;
/// Components of a jump with one to four ropes and stops, which are read at a time.
const MANY: usize = 20;
/// Weights of the stages, in the order of [`BETWEEN`]: from the start of the step to its end.
type Weights = [f64; BETWEEN.len()];

/// One step, readable anywhere between its ends.
#[derive(Debug, Clone, Default)]
pub(super) struct Step {
    /// Time at the start, s.
    pub t_s: f64,
    /// Length of the step, s.
    pub h_s: f64,
    /// Components without those that fill up the last block.
    pub size: usize,
    /// State at the start, whole blocks.
    pub from: Vec<f64>,
    /// State at the end, whole blocks.
    pub to: Vec<f64>,
    /// The same as it is carried.
    pub carried: Vec<f64>,
    /// Rates of all stages, one after the other; of the numbers carried, where some are.
    pub k: Vec<f64>,
    /// What the numbers read are carried by.
    pub turn: Option<Turn>,
}

impl Step {
    /// State at the fraction `theta` of the step, to sixth order; exact at both ends.
    pub fn read(&self, theta: f64, out: &mut [f64]) {
        let weights = weights(theta, self.h_s);
        let n = out.len();
        if self.from.len() == MANY {
            out.copy_from_slice(&self.sum::<MANY>(0, theta, &weights)[..n]);
        } else {
            for (block, out) in out.chunks_mut(BLOCK).enumerate() {
                let sum = self.sum::<BLOCK>(BLOCK * block, theta, &weights);
                out.copy_from_slice(&sum[..out.len()]);
            }
        }
        if let Some(turn) = self.turn {
            turn.carry(out, angle(turn.beat.per_s * theta * self.h_s));
        }
    }

    /// One component at the fraction `theta` of the step.
    pub fn component(&self, i: usize, theta: f64) -> f64 {
        let weights = weights(theta, self.h_s);
        match self.turn {
            Some(turn) if [turn.beat.place, turn.beat.speed].contains(&i) => {
                let Beat { place, speed, per_s } = turn.beat;
                let mut both = [place, speed].map(|i| self.one(i, theta, &weights));
                turn.carry_pair(&mut both, angle(per_s * theta * self.h_s));
                both[usize::from(i == speed)]
            }
            _ => self.one(i, theta, &weights),
        }
    }

    /// One component, as it is carried.
    fn one(&self, i: usize, theta: f64, weights: &Weights) -> f64 {
        self.sum::<1>(i, theta, weights)[0]
    }

    /// N components from the number `at` on, as they are carried.
    #[inline]
    fn sum<const N: usize>(&self, at: usize, theta: f64, weights: &Weights) -> [f64; N] {
        let share = share(theta);
        let (from, to) = (&self.from[at..at + N], &self.carried[at..at + N]);
        let mut sum = core::array::from_fn(|i| from[i] + share * (to[i] - from[i]));
        for ((stage, _), weight) in BETWEEN.iter().zip(weights) {
            let k = &self.k[stage * self.from.len() + at..][..N];
            for i in 0..N {
                sum[i] += weight * k[i];
            }
        }
        sum
    }

    /// State at the end.
    pub fn end(&self) -> &[f64] {
        &self.to[..self.size]
    }
}

/// What the difference of both ends counts at a fraction of a step.
pub(super) fn share(theta: f64) -> f64 {
    theta * theta * (3.0 - 2.0 * theta)
}

/// What the rates of the stages in [`BETWEEN`] count at a fraction of a step of the length h.
pub(super) fn weights(theta: f64, h: f64) -> Weights {
    let rest = 1.0 - theta;
    let scale = h * theta * theta * rest * rest;
    let mut all = BETWEEN.map(|(_, [p, q, r])| scale * (p + theta * (q + theta * r)));
    let [start, .., end] = &mut all;
    *start += h * theta * rest * rest;
    *end -= h * theta * theta * rest;
    all
}
