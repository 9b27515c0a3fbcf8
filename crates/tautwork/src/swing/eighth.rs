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

/// Vectors of components are filled up with zeros to whole blocks.
const BLOCK: usize = 4;

fn padded(values: &[f64]) -> Vec<f64> {
    let mut all = values.to_vec();
    all.resize(values.len().next_multiple_of(BLOCK), 0.0);
    all
}

/// to = from + h Σ weight k, N components from the place `at`: their sums stay in registers.
#[inline]
fn part<const N: usize>(
    to: &mut [f64],
    from: &[f64],
    at: usize,
    h: f64,
    terms: &[Term],
    k: &[Vec<f64>; 16],
) {
    let mut sum = [0.0; N];
    for (stage, weight) in terms {
        if let Some(k) = k[*stage][at..].first_chunk::<N>() {
            for i in 0..N {
                sum[i] += weight * k[i];
            }
        }
    }
    let ends = (to[at..].first_chunk_mut::<N>(), from[at..].first_chunk::<N>());
    if let (Some(to), Some(from)) = ends {
        for i in 0..N {
            to[i] = from[i] + h * sum[i];
        }
    }
}

/// to = from + h Σ weight k. A jump with one or two ropes has seventeen or eighteen components.
fn advanced(to: &mut [f64], from: &[f64], h: f64, terms: &[Term], k: &[Vec<f64>; 16]) {
    if to.len() == 20 {
        part::<20>(to, from, 0, h, terms, k);
        return;
    }
    for at in (0..to.len()).step_by(BLOCK) {
        part::<BLOCK>(to, from, at, h, terms, k);
    }
}

/// One step, readable anywhere between its ends.
#[derive(Debug, Clone, Default)]
pub(super) struct Step {
    /// Time at the start, s.
    pub t_s: f64,
    /// Length of the step, s.
    pub h_s: f64,
    size: usize,
    start: Vec<f64>,
    end: Vec<f64>,
    terms: [Vec<f64>; 7],
}

impl Step {
    /// State at the fraction `theta` of the step, to seventh order; exact at both ends.
    pub fn read(&self, theta: f64, out: &mut [f64]) {
        let rest = 1.0 - theta;
        let [a, b, c, d, e, f, g] = &self.terms;
        let low = self.start.iter().zip(a).zip(b).zip(c);
        let high = d.iter().zip(e).zip(f).zip(g);
        for ((out, (((y, a), b), c)), (((d, e), f), g)) in out.iter_mut().zip(low).zip(high) {
            let high = d + theta * (e + rest * (f + theta * g));
            *out = y + theta * (a + rest * (b + theta * (c + rest * high)));
        }
    }

    /// State at the start.
    pub fn start(&self) -> &[f64] {
        &self.start[..self.size]
    }

    /// State at the end.
    pub fn end(&self) -> &[f64] {
        &self.end[..self.size]
    }
}

/// The integrator: state, step size and work counters.
#[derive(Debug)]
pub(super) struct Eighth {
    /// Time, s.
    pub t_s: f64,
    /// Last step tried by [`Self::advance`] or [`Self::shorten`].
    pub step: Step,
    /// Attempts so far, kept or rejected.
    pub attempts: usize,
    control: Control,
    h_s: f64,
    y: Vec<f64>,
    k: [Vec<f64>; 16],
    stage: Vec<f64>,
    errors: [Vec<f64>; 2],
    zero: Vec<f64>,
}

impl Eighth {
    /// Ready at time zero in state `y`; the first step is a guess that the error control corrects.
    pub fn new<R: Rates>(rates: &mut R, y: &[f64], control: Control) -> Self {
        let size = y.len();
        let y = padded(y);
        let zero = vec![0.0; y.len()];
        let terms = core::array::from_fn(|_| zero.clone());
        let step = Step { t_s: 0.0, h_s: 0.0, size, start: y.clone(), end: y.clone(), terms };
        let mut new = Self {
            t_s: 0.0,
            step,
            attempts: 0,
            h_s: control.longest_s * 1e-2,
            control,
            k: core::array::from_fn(|_| zero.clone()),
            stage: zero.clone(),
            errors: [zero.clone(), zero.clone()],
            zero,
            y,
        };
        new.restart(rates);
        new
    }

    /// The present state.
    pub fn y(&self) -> &[f64] {
        &self.y[..self.step.size]
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
                let grow = 0.85 * error.max(1e-10).powf(-0.125);
                let grow = grow.clamp(0.3, if rejected { 1.0 } else { 6.0 });
                // A step cut short by `limit_s` says nothing against a longer one.
                self.h_s =
                    if h < self.h_s { self.h_s.min(h * 6.0).max(h * grow) } else { h * grow };
                self.fill(rates, h);
                return Ok(());
            }
            rejected = true;
            let shrink = if error.is_finite() { 0.85 * error.powf(-0.125) } else { 0.1 };
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

    /// Makes the next step found by [`Self::advance`] half as long as the present one, which is not kept.
    pub fn halve(&mut self) {
        self.h_s = 0.5 * self.step.h_s;
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
            advanced(&mut self.stage, &self.y, h, terms, &self.k);
            rates.rates(&self.stage, &mut self.k[s + 1]);
        }
        advanced(&mut self.stage, &self.y, h, STEP, &self.k);
        rates.rates(&self.stage, &mut self.k[12]);
        let [fifth, third] = &mut self.errors;
        advanced(fifth, &self.zero, h, FIFTH, &self.k);
        advanced(third, &self.zero, h, THIRD, &self.k);
        let (mut five, mut three) = (0.0, 0.0);
        for (i, atol) in self.control.atol.iter().enumerate() {
            let size = self.y[i].abs().max(self.stage[i].abs());
            let scale = 1.0 / (atol + self.control.rtol * size);
            five += (fifth[i] * scale) * (fifth[i] * scale);
            three += (third[i] * scale) * (third[i] * scale);
        }
        if five == 0.0 && three == 0.0 {
            return Ok(0.0);
        }
        Ok(five / ((five + 0.01 * three) * self.control.atol.len() as f64).sqrt())
    }

    fn fill<R: Rates>(&mut self, rates: &mut R, h: f64) {
        self.step.t_s = self.t_s;
        self.step.h_s = h;
        self.step.start.copy_from_slice(&self.y);
        self.step.end.copy_from_slice(&self.stage);
        for (s, terms) in MORE.iter().enumerate() {
            advanced(&mut self.stage, &self.y, h, terms, &self.k);
            rates.rates(&self.stage, &mut self.k[13 + s]);
        }
        let [a, b, c, high @ ..] = &mut self.step.terms;
        for i in 0..self.y.len() {
            let (first, last) = (h * self.k[0][i], h * self.k[12][i]);
            let rise = self.step.end[i] - self.y[i];
            (a[i], b[i], c[i]) = (rise, first - rise, 2.0 * rise - first - last);
        }
        for (term, weights) in high.iter_mut().zip(DENSE) {
            advanced(term, &self.zero, h, weights, &self.k);
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
            let mut ode = Eighth::new(&mut Circle, &[1.0, 0.0], control(1e6));
            ode.h_s = h;
            ode.advance(&mut Circle, h).unwrap();
            let mut y = [0.0; 2];
            let mut dense = 0.0_f64;
            for n in 1..10 {
                let theta = f64::from(n) / 10.0;
                ode.step.read(theta, &mut y);
                dense = dense.max((y[0] - (theta * h).cos()).abs());
            }
            (dense, (ode.step.end()[0] - h.cos()).abs() + (ode.step.end()[1] + h.sin()).abs())
        };
        let ((dense_a, end_a), (dense_b, end_b)) = (errors(1.6), errors(0.8));
        assert!((dense_a / dense_b).log2() > 7.5, "{dense_a:e} {dense_b:e}");
        assert!((end_a / end_b).log2() > 8.5, "{end_a:e} {end_b:e}");
    }

    #[test]
    fn tolerance_governs_the_error_and_a_short_budget_halts() {
        let mut last = 1.0;
        for rtol in [1e-6, 1e-8, 1e-10] {
            let mut ode = Eighth::new(&mut Circle, &[1.0, 0.0], control(rtol));
            while ode.t_s < 20.0 {
                ode.advance(&mut Circle, 20.0 - ode.t_s).unwrap();
                ode.commit();
            }
            let error = (ode.y()[0] - 20.0_f64.cos()).abs();
            assert!(error < 40.0 * rtol && error < last / 10.0, "{rtol}: {error}");
            last = error;
        }
        let mut ode = Eighth::new(&mut Circle, &[1.0, 0.0], Control { budget: 1, ..control(1e-8) });
        ode.advance(&mut Circle, 1.0).unwrap();
        ode.commit();
        assert_eq!(ode.advance(&mut Circle, 1.0), Err(Halt::Budget));
    }
}
