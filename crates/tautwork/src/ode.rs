//! Dormand-Prince 5(4) with dense output.
//!
//! Contract: one explicit step at a time, of a size that keeps the largest scaled local error at or
//! below one; between its ends a step is read by its fourth-order continuous extension. The
//! integrator moves only when told to, so that its owner can look for an event inside a step first
//! and retake the step up to that event at full order. Every attempt counts against a budget.
//!
//! Our own because it must locate events reliably and build for the browser. Coefficients: Dormand
//! and Prince (1980), J. Comput. Appl. Math. 6:19; continuous extension and step control as in
//! Hairer, Nørsett and Wanner, *Solving Ordinary Differential Equations I*, II.4 to II.6 (both from
//! memory; the order conditions and the convergence order are tested).

/// Right-hand side of dy/dt = f(y).
pub(crate) trait Rates {
    /// Writes dy/dt for the state `y` into `dy`; NaN where it has none, which rejects the step.
    fn rates(&mut self, y: &[f64], dy: &mut [f64]);
}

/// Why no further step was taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Halt {
    /// The attempts allowed are used up.
    Budget,
    /// The step fell below what a double can add to the time.
    Stalled,
}

const A: [[f64; 6]; 6] = [
    [1.0 / 5.0, 0.0, 0.0, 0.0, 0.0, 0.0],
    [3.0 / 40.0, 9.0 / 40.0, 0.0, 0.0, 0.0, 0.0],
    [44.0 / 45.0, -56.0 / 15.0, 32.0 / 9.0, 0.0, 0.0, 0.0],
    [19372.0 / 6561.0, -25360.0 / 2187.0, 64448.0 / 6561.0, -212.0 / 729.0, 0.0, 0.0],
    [9017.0 / 3168.0, -355.0 / 33.0, 46732.0 / 5247.0, 49.0 / 176.0, -5103.0 / 18656.0, 0.0],
    [35.0 / 384.0, 0.0, 500.0 / 1113.0, 125.0 / 192.0, -2187.0 / 6784.0, 11.0 / 84.0],
];
/// Fifth-order weights less fourth-order weights.
const E: [f64; 7] = [
    71.0 / 57600.0,
    0.0,
    -71.0 / 16695.0,
    71.0 / 1920.0,
    -17253.0 / 339_200.0,
    22.0 / 525.0,
    -1.0 / 40.0,
];
/// Last coefficient of the continuous extension.
const D: [f64; 7] = [
    -12_715_105_075.0 / 11_282_082_432.0,
    0.0,
    87_487_479_700.0 / 32_700_410_799.0,
    -10_690_763_975.0 / 1_880_347_072.0,
    701_980_252_875.0 / 199_316_789_632.0,
    -1_453_857_185.0 / 822_651_844.0,
    69_997_945.0 / 29_380_423.0,
];

/// One step, readable anywhere between its ends.
#[derive(Debug, Clone, Default)]
pub(crate) struct Step {
    /// Time at the start, s.
    pub t_s: f64,
    /// Length of the step, s.
    pub h_s: f64,
    /// State at the end.
    pub end: Vec<f64>,
    start: Vec<f64>,
    terms: [Vec<f64>; 4],
}

impl Step {
    /// State at the fraction `theta` of the step, to fourth order; exact at both ends.
    pub fn read(&self, theta: f64, out: &mut [f64]) {
        let rest = 1.0 - theta;
        let [b, c, d, e] = &self.terms;
        for (i, y) in out.iter_mut().enumerate() {
            *y = self.start[i] + theta * (b[i] + rest * (c[i] + theta * (d[i] + rest * e[i])));
        }
    }

    /// State at the start.
    pub fn start(&self) -> &[f64] {
        &self.start
    }
}

/// Relative and absolute tolerance, longest step and attempts allowed.
#[derive(Debug, Clone)]
pub(crate) struct Control {
    /// Relative tolerance.
    pub rtol: f64,
    /// Absolute tolerance of each component.
    pub atol: Vec<f64>,
    /// Longest step, s.
    pub longest_s: f64,
    /// Attempts allowed, kept or rejected.
    pub budget: usize,
}

/// The integrator: state, step size and work counters.
#[derive(Debug)]
pub(crate) struct DormandPrince {
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
    last_error: f64,
    k: [Vec<f64>; 7],
    stage: Vec<f64>,
}

impl DormandPrince {
    /// Ready at time zero in state `y`; the first step is a guess that the error control corrects.
    pub fn new<R: Rates>(rates: &mut R, y: Vec<f64>, control: Control) -> Self {
        let n = y.len();
        let mut k: [Vec<f64>; 7] = core::array::from_fn(|_| vec![0.0; n]);
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
            last_error: 1.0,
            k,
            stage: vec![0.0; n],
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
                let grow = 0.9 * error.max(1e-10).powf(-0.14) * self.last_error.powf(0.08);
                let grow = grow.clamp(0.2, if rejected { 1.0 } else { 6.0 });
                self.last_error = error.max(1e-4);
                // A step cut short by `limit_s` says nothing against a longer one.
                self.h_s =
                    if h < self.h_s { self.h_s.min(h * 6.0).max(h * grow) } else { h * grow };
                self.fill(h);
                return Ok(());
            }
            rejected = true;
            let shrink = if error.is_finite() { 0.9 * error.powf(-0.2) } else { 0.1 };
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
        self.fill(h);
        Ok(())
    }

    /// Moves to the end of the step.
    pub fn commit(&mut self) {
        self.t_s = self.step.t_s + self.step.h_s;
        self.y.copy_from_slice(&self.step.end);
        // First same as last: the rates at the end of this step begin the next one.
        self.k.swap(0, 6);
    }

    fn attempt<R: Rates>(&mut self, rates: &mut R, h: f64) -> Result<f64, Halt> {
        if self.attempts >= self.control.budget {
            return Err(Halt::Budget);
        }
        self.attempts += 1;
        let n = self.y.len();
        for (s, row) in A.iter().enumerate() {
            for i in 0..n {
                let mut sum = 0.0;
                for (a, k) in row.iter().zip(&self.k).take(s + 1) {
                    sum += a * k[i];
                }
                self.stage[i] = self.y[i] + h * sum;
            }
            rates.rates(&self.stage, &mut self.k[s + 1]);
        }
        // The last stage sits at the fifth-order end state.
        let mut worst = 0.0_f64;
        for i in 0..n {
            let sum: f64 = E.iter().zip(&self.k).map(|(e, k)| e * k[i]).sum();
            let size = self.y[i].abs().max(self.stage[i].abs());
            let scaled = (h * sum).abs() / (self.control.atol[i] + self.control.rtol * size);
            if scaled.is_nan() {
                return Ok(f64::NAN);
            }
            worst = worst.max(scaled);
        }
        Ok(worst)
    }

    fn fill(&mut self, h: f64) {
        self.step.t_s = self.t_s;
        self.step.h_s = h;
        self.step.start.copy_from_slice(&self.y);
        self.step.end.copy_from_slice(&self.stage);
        let [b, c, d, e] = &mut self.step.terms;
        for i in 0..self.y.len() {
            b[i] = self.stage[i] - self.y[i];
            c[i] = h * self.k[0][i] - b[i];
            d[i] = b[i] - h * self.k[6][i] - c[i];
            e[i] = h * D.iter().zip(&self.k).map(|(w, k)| w * k[i]).sum::<f64>();
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
        Control { rtol, atol: vec![rtol; 2], longest_s: 1.0, budget: 100_000 }
    }

    #[test]
    fn order_conditions_hold() {
        // Row sums are the nodes; weights integrate 1, c, c2, c3, c4 exactly.
        let nodes = [0.0, 0.2, 0.3, 0.8, 8.0 / 9.0, 1.0, 1.0];
        for s in 0..6 {
            assert!((A[s].iter().sum::<f64>() - nodes[s + 1]).abs() < 1e-14);
        }
        for p in 0..5 {
            let sum: f64 = A[5].iter().zip(nodes).map(|(b, c)| b * c.powi(p)).sum();
            assert!((sum - 1.0 / f64::from(p + 1)).abs() < 1e-14);
        }
        for p in 0..4 {
            let sum: f64 = E.iter().zip(nodes).map(|(e, c)| e * c.powi(p)).sum();
            assert!(sum.abs() < 1e-15);
        }
    }

    #[test]
    fn dense_output_is_fourth_order_and_steps_are_fifth() {
        let errors = |h: f64| {
            let mut ode = DormandPrince::new(&mut Circle, vec![1.0, 0.0], control(1e6));
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
        let ((dense_a, end_a), (dense_b, end_b)) = (errors(0.2), errors(0.1));
        assert!((dense_a / dense_b).log2() > 4.7);
        assert!((end_a / end_b).log2() > 5.7);
    }

    #[test]
    fn tolerance_governs_the_error_and_a_short_budget_halts() {
        let mut last = 1.0;
        for rtol in [1e-6, 1e-8, 1e-10] {
            let mut ode = DormandPrince::new(&mut Circle, vec![1.0, 0.0], control(rtol));
            while ode.t_s < 20.0 {
                ode.advance(&mut Circle, 20.0 - ode.t_s).unwrap();
                ode.commit();
            }
            let error = (ode.y[0] - 20.0_f64.cos()).abs();
            assert!(error < 40.0 * rtol && error < last / 10.0, "{rtol}: {error}");
            last = error;
        }
        let mut ode =
            DormandPrince::new(&mut Circle, vec![1.0, 0.0], Control { budget: 1, ..control(1e-8) });
        ode.advance(&mut Circle, 1.0).unwrap();
        ode.commit();
        assert_eq!(ode.advance(&mut Circle, 1.0), Err(Halt::Budget));
    }
}
