//! Where a ring that slides along lines comes to rest, Eq. (F24).

use nalgebra::{DMatrix, DVector, Vector3};

use super::super::SwingError;
use super::plan::NEAREST;
use super::rest::{Loads, Still};
use crate::quantity::{Force, Quantity, print};

/// Newton steps, and changes of the set of lines that slip.
const ITERATIONS: usize = 100;
/// Error of the balance of both pulls over their sum.
const BALANCED: f64 = 1e-9;
/// The same where the masses beside the ring allow no better: one of them is taken up or set down there.
const NEARLY: f64 = 1e-3;
/// Part of the length of a line by which it is moved to see what that does.
const TRIAL: f64 = 1e-7;
/// Most of a line that goes over the ring in one step, as a part of its length.
const STRIDE: f64 = 0.1;

impl Still {
    /// Lets the lines slip at the ring until friction holds them. `settle` has found the rest without.
    pub fn slide(
        &mut self,
        loads: &Loads,
        free: [bool; 2],
        state: &'static str,
    ) -> Result<(), SwingError> {
        let slides: Vec<usize> = (0..self.chains.len())
            .step_by(2)
            .filter(|k| self.chains[*k].strand.hold.is_some())
            .collect();
        // Ropes have no friction, so a place in the list is a near half.
        if slides.is_empty() {
            return Ok(());
        }
        for _ in 0..ITERATIONS {
            let slips: Vec<(usize, f64)> =
                slides.iter().filter_map(|k| Some((*k, self.slips_to(*k)?))).collect();
            if slips.is_empty() {
                return Ok(());
            }
            let off = self.off(&slips);
            let size = off.amax();
            let n = slips.len();
            let mut by = DMatrix::zeros(n, n);
            for (j, (line, _)) in slips.iter().enumerate() {
                let before = self.clone();
                let moved_m = self.shift(*line, TRIAL * self.length_m(*line));
                self.settle(loads, free, state)?;
                by.set_column(j, &((self.off(&slips) - &off) / moved_m));
                *self = before;
            }
            let fail = || {
                let residual = print(Force::from_si(size));
                Err(SwingError::NoBalance { state, residual, iterations: ITERATIONS })
            };
            let Some(step) = by.lu().solve(&-&off) else { return fail() };
            if !step.iter().all(|s| s.is_finite()) {
                return fail();
            }
            let mut share = 1.0_f64;
            for ((line, _), step) in slips.iter().zip(step.iter()) {
                share =
                    share.min(STRIDE * self.length_m(*line) / step.abs().max(f64::MIN_POSITIVE));
            }
            let before = self.clone();
            loop {
                let mut moved = false;
                for ((line, _), step) in slips.iter().zip(step.iter()) {
                    moved |= self.shift(*line, share * step) != 0.0;
                }
                let settled = moved && self.settle(loads, free, state).is_ok();
                if settled && self.off(&slips).amax() < size {
                    break;
                }
                *self = before.clone();
                share *= 0.5;
                if share < 1e-10 {
                    // It leans against an anchor, or hops over a mass.
                    let stopped = slips.iter().all(|(line, to)| self.at_stop(*line, *to));
                    let near = slips.iter().all(|(line, _)| {
                        let (near_n, far_n, _) = self.at_ring(*line);
                        size < NEARLY * (near_n + far_n)
                    });
                    return if stopped || near { Ok(()) } else { fail() };
                }
            }
        }
        Err(SwingError::NoBalance {
            state,
            residual: print(Force::from_si(0.0)),
            iterations: ITERATIONS,
        })
    }

    /// Pulls of both halves at the ring, and the ratio that friction can hold.
    fn at_ring(&self, line: usize) -> (f64, f64, f64) {
        let pulls: [Vector3<f64>; 2] = [0, 1].map(|half| self.chains[line + half].last_pull_n());
        let [near_n, far_n] = [pulls[0].norm(), pulls[1].norm()];
        let mu = self.chains[line].strand.hold.map_or(0.0, |hold| hold.mu);
        let cos = -pulls[0].dot(&pulls[1]) / (near_n * far_n);
        let holds = if mu > 0.0 { (mu * cos.clamp(-1.0, 1.0).acos()).exp() } else { 1.0 };
        (near_n, far_n, holds)
    }

    /// Above zero where the near half takes line, below where it gives; none if friction holds it.
    fn slips_to(&self, line: usize) -> Option<f64> {
        let (near_n, far_n, holds) = self.at_ring(line);
        let sign = if near_n > far_n { 1.0 } else { -1.0 };
        let (more_n, less_n) = (near_n.max(far_n), near_n.min(far_n));
        let slips = more_n - holds * less_n > BALANCED * (more_n + less_n);
        (slips && !self.at_stop(line, sign)).then_some(sign)
    }

    /// What the pulls are out of balance where the lines slip, N.
    fn off(&self, slips: &[(usize, f64)]) -> DVector<f64> {
        let each = slips.iter().map(|(line, sign)| {
            let (near_n, far_n, holds) = self.at_ring(*line);
            if *sign > 0.0 { near_n - holds * far_n } else { holds * near_n - far_n }
        });
        DVector::from_iterator(slips.len(), each)
    }

    fn length_m(&self, line: usize) -> f64 {
        self.chains[line].strand.length_m() + self.chains[line + 1].strand.length_m()
    }

    /// Whether the ring is at the stop that it would go to.
    fn at_stop(&self, line: usize, sign: f64) -> bool {
        let near = &self.chains[line].strand;
        let Some(hold) = near.hold else { return true };
        let near_m = near.length_m();
        let spare_m = if sign > 0.0 { hold.stops_m[1] - near_m } else { near_m - hold.stops_m[0] };
        spare_m <= 1e-9 * near.rest_m
    }

    /// Brings some line over the ring from the far to the near half; how much it was, m.
    fn shift(&mut self, line: usize, by_m: f64) -> f64 {
        let (near, far) = (&self.chains[line].strand, &self.chains[line + 1].strand);
        let rest_m = near.rest_m;
        let (near_m, total) = (near.length_m(), near.segments + far.segments);
        let stops_m = near.hold.map_or([near_m; 2], |hold| hold.stops_m);
        let to_m = (near_m + by_m).max(stops_m[0]).min(stops_m[1]);
        let mut segments = near.segments;
        let last_m = |segments: usize| to_m - (segments - 1) as f64 * rest_m;
        while segments > 1 && last_m(segments) < NEAREST * rest_m {
            segments -= 1;
        }
        while segments < total - 1 && last_m(segments) > (2.0 - NEAREST) * rest_m {
            segments += 1;
        }
        let last_m = last_m(segments);
        for (half, segments, last_m) in
            [(line, segments, last_m), (line + 1, total - segments, 2.0 * rest_m - last_m)]
        {
            let strand = &mut self.chains[half].strand;
            (strand.segments, strand.last_m) = (segments, last_m);
        }
        to_m - near_m
    }
}
