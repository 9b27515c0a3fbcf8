//! Dormand-Prince 8(5,3) with dense output, for the events of a jump.
//!
//! Contract: one explicit step at a time, of a size that keeps the scaled local error (root mean square
//! over the state) at or below one; between its ends a step is read by its seventh-order continuous
//! extension. The integrator moves only when told to, so that its owner can look for an event inside a
//! step first and retake the step up to that event at full order. Every attempt counts against a budget.
//!
//! Of eighth order because a ring on taut lines moves fast and smoothly: a tolerance of 1e-8 takes a third
//! of the steps of the fifth order.

use super::dop853::{DENSE, FIFTH, MORE, STAGES, STEP, THIRD, Term};
use crate::ode::{Control, Halt, Rates};

/// One step, readable anywhere between its ends.
#[derive(Debug, Clone, Default)]
pub(super) struct Step {
    /// Time at the start, s.
    pub t_s: f64,
    /// Length of the step, s.
    pub h_s: f64,
    /// State at the end.
    pub end: Vec<f64>,
    start: Vec<f64>,
    terms: [Vec<f64>; 7],
}

impl Step {
    /// State at the fraction `theta` of the step, to seventh order; exact at both ends.
    pub fn read(&self, theta: f64, out: &mut [f64]) {
        let rest = 1.0 - theta;
        let [a, b, c, d, e, f, g] = &self.terms;
        for (i, y) in out.iter_mut().enumerate() {
            let high = d[i] + theta * (e[i] + rest * (f[i] + theta * g[i]));
            let all = a[i] + rest * (b[i] + theta * (c[i] + rest * high));
            *y = self.start[i] + theta * all;
        }
    }

    /// State at the start.
    pub fn start(&self) -> &[f64] {
        &self.start
    }
}

/// The integrator: state, step size and work counters.
#[derive(Debug)]
pub(super) struct Eighth {
    /// Time, s.
    pub t_s: f64,
    /// State.
    pub y: Vec<f64>,
    /// Last step tried by [`Self::advance`] or [`Self::shorten`].
    pub step: Step,
    /// Attempts so far, kept or rejected.
    pub attempts: usize,
    control: Control,
    h_s: f64,
    k: [Vec<f64>; 16],
    stage: Vec<f64>,
    error: [Vec<f64>; 2],
}

/// sum += h Σ weight k
#[inline]
fn add(sum: &mut [f64], h: f64, terms: &[Term], k: &[Vec<f64>]) {
    for (i, weight) in terms {
        let a = h * weight;
        for (sum, k) in sum.iter_mut().zip(&k[*i]) {
            *sum += a * k;
        }
    }
}

impl Eighth {
    /// Ready at time zero in state `y`; the first step is a guess that the error control corrects.
    pub fn new<R: Rates>(rates: &mut R, y: Vec<f64>, control: Control) -> Self {
        let n = y.len();
        let mut k: [Vec<f64>; 16] = core::array::from_fn(|_| vec![0.0; n]);
        rates.rates(&y, &mut k[0]);
        let step = Step {
            t_s: 0.0,
            h_s: 0.0,
            start: y.clone(),
            end: y.clone(),
            terms: core::array::from_fn(|_| vec![0.0; n]),
        };
        let h_s = control.longest_s * 1e-2;
        Self {
            t_s: 0.0,
            y,
            step,
            attempts: 0,
            control,
            h_s,
            k,
            stage: vec![0.0; n],
            error: [vec![0.0; n], vec![0.0; n]],
        }
    }

    /// Finds the next step that meets the tolerance, no longer than `limit_s`, into [`Self::step`].
    pub fn advance<R: Rates>(&mut self, rates: &mut R, limit_s: f64) -> Result<(), Halt> {
        let mut rejected = false;
        loop {
            let h = self.h_s.min(self.control.longest_s).min(limit_s);
            if self.t_s + h <= self.t_s {
                return Err(Halt::Stalled);
            }
            let error = self.attempt(rates, h)?;
            // A NaN error is a rejection too.
            if error <= 1.0 {
                let grow = 0.9 * error.max(1e-10).powf(-0.125);
                let grow = grow.clamp(0.3, if rejected { 1.0 } else { 6.0 });
                // A step cut short by `limit_s` says nothing against a longer one.
                self.h_s =
                    if h < self.h_s { self.h_s.min(h * 6.0).max(h * grow) } else { h * grow };
                self.fill(rates, h);
                return Ok(());
            }
            rejected = true;
            let shrink = if error.is_finite() { 0.9 * error.powf(-0.125) } else { 0.1 };
            self.h_s = h * shrink.clamp(0.1, 0.9);
        }
    }

    /// Retakes the step found by [`Self::advance`] over its first `theta` only, at full order.
    pub fn shorten<R: Rates>(&mut self, rates: &mut R, theta: f64) -> Result<(), Halt> {
        let h = self.step.h_s * theta;
        if self.t_s + h <= self.t_s {
            return Err(Halt::Stalled);
        }
        self.attempt(rates, h)?;
        self.fill(rates, h);
        Ok(())
    }

    /// Moves to the end of the step.
    pub fn commit(&mut self) {
        self.t_s = self.step.t_s + self.step.h_s;
        self.y.copy_from_slice(&self.step.end);
        // First same as last: the rates at the end of this step begin the next one.
        self.k.swap(0, 12);
    }

    /// Takes the rates anew, after something changed at this instant.
    pub fn restart<R: Rates>(&mut self, rates: &mut R) {
        rates.rates(&self.y, &mut self.k[0]);
    }

    fn attempt<R: Rates>(&mut self, rates: &mut R, h: f64) -> Result<f64, Halt> {
        if self.attempts >= self.control.budget {
            return Err(Halt::Budget);
        }
        self.attempts += 1;
        for (s, terms) in STAGES.iter().enumerate() {
            self.stage.copy_from_slice(&self.y);
            add(&mut self.stage, h, terms, &self.k);
            rates.rates(&self.stage, &mut self.k[s + 1]);
        }
        self.stage.copy_from_slice(&self.y);
        add(&mut self.stage, h, STEP, &self.k);
        rates.rates(&self.stage, &mut self.k[12]);
        let [fifth, third] = &mut self.error;
        fifth.fill(0.0);
        third.fill(0.0);
        add(fifth, h, FIFTH, &self.k);
        add(third, h, THIRD, &self.k);
        let (mut five, mut three) = (0.0, 0.0);
        for i in 0..self.y.len() {
            let size = self.y[i].abs().max(self.stage[i].abs());
            let scale = 1.0 / (self.control.atol[i] + self.control.rtol * size);
            five += (fifth[i] * scale) * (fifth[i] * scale);
            three += (third[i] * scale) * (third[i] * scale);
        }
        if five == 0.0 && three == 0.0 {
            return Ok(0.0);
        }
        Ok(five / ((five + 0.01 * three) * self.y.len() as f64).sqrt())
    }

    fn fill<R: Rates>(&mut self, rates: &mut R, h: f64) {
        self.step.t_s = self.t_s;
        self.step.h_s = h;
        self.step.start.copy_from_slice(&self.y);
        self.step.end.copy_from_slice(&self.stage);
        for (s, terms) in MORE.iter().enumerate() {
            self.stage.copy_from_slice(&self.y);
            add(&mut self.stage, h, terms, &self.k);
            rates.rates(&self.stage, &mut self.k[13 + s]);
        }
        let [a, b, c, high @ ..] = &mut self.step.terms;
        for i in 0..self.y.len() {
            a[i] = self.step.end[i] - self.y[i];
            b[i] = h * self.k[0][i] - a[i];
            c[i] = 2.0 * a[i] - h * (self.k[0][i] + self.k[12][i]);
        }
        for (term, weights) in high.iter_mut().zip(DENSE) {
            term.fill(0.0);
            add(term, h, weights, &self.k);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// y'' = -y as a system; exact solution cos t.
    struct Circle;
    impl Rates for Circle {
        fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
            dy[0] = y[1];
            dy[1] = -y[0];
        }
    }

    fn control(rtol: f64) -> Control {
        Control { rtol, atol: vec![rtol; 2], longest_s: 2.0, budget: 100_000 }
    }

    #[test]
    fn order_conditions_hold() {
        let sum = |terms: &[Term]| terms.iter().map(|(_, w)| w).sum::<f64>();
        let mut nodes = vec![0.0];
        nodes.extend(STAGES.iter().map(|terms| sum(terms)));
        nodes.push(1.0);
        // Weights integrate powers up to the seventh exactly; the estimates vanish on lower ones.
        for (terms, order, exact) in [(STEP, 8, true), (FIFTH, 5, false), (THIRD, 3, false)] {
            for p in 0..order {
                let moment: f64 = terms.iter().map(|(i, w)| w * f64::powi(nodes[*i], p)).sum();
                let want = if exact { 1.0 / f64::from(p + 1) } else { 0.0 };
                assert!((moment - want).abs() < 1e-13, "{order} {p}: {moment}");
            }
        }
    }

    #[test]
    fn dense_output_is_seventh_order_and_steps_are_eighth() {
        let errors = |h: f64| {
            let mut ode = Eighth::new(&mut Circle, vec![1.0, 0.0], control(1e6));
            ode.h_s = h;
            ode.advance(&mut Circle, h).unwrap();
            let mut y = [0.0; 2];
            let mut dense = 0.0_f64;
            for n in 1..10 {
                let theta = f64::from(n) / 10.0;
                ode.step.read(theta, &mut y);
                dense = dense.max((y[0] - (theta * h).cos()).abs());
            }
            (dense, (ode.step.end[0] - h.cos()).abs() + (ode.step.end[1] + h.sin()).abs())
        };
        let ((dense_a, end_a), (dense_b, end_b)) = (errors(1.6), errors(0.8));
        assert!((dense_a / dense_b).log2() > 7.5, "{dense_a:e} {dense_b:e}");
        assert!((end_a / end_b).log2() > 8.5, "{end_a:e} {end_b:e}");
    }

    #[test]
    fn tolerance_governs_the_error_and_a_short_budget_halts() {
        let mut last = 1.0;
        for rtol in [1e-6, 1e-8, 1e-10] {
            let mut ode = Eighth::new(&mut Circle, vec![1.0, 0.0], control(rtol));
            while ode.t_s < 20.0 {
                ode.advance(&mut Circle, 20.0 - ode.t_s).unwrap();
                ode.commit();
            }
            let error = (ode.y[0] - 20.0_f64.cos()).abs();
            assert!(error < 40.0 * rtol && error < last / 10.0, "{rtol}: {error}");
            last = error;
        }
        let mut ode =
            Eighth::new(&mut Circle, vec![1.0, 0.0], Control { budget: 1, ..control(1e-8) });
        ode.advance(&mut Circle, 1.0).unwrap();
        ode.commit();
        assert_eq!(ode.advance(&mut Circle, 1.0), Err(Halt::Budget));
    }
}
