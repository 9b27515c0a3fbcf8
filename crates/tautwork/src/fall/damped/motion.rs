//! The motion of one fall, from event to event.

use super::super::FallError;
use super::solid::{Damper, Solid};
use crate::ode::{Control, DormandPrince, Halt, Rates, Step};
use crate::quantity::GRAVITY;

/// Local error kept in each step, relative to the scale of each number.
const TOLERANCE: f64 = 1e-12;
/// Steps tried before the run is given up.
pub(super) const BUDGET: usize = 50_000;
/// Parts of a step that are looked at: a tension that rises and falls within one part is missed.
const PARTS: usize = 8;
/// Halvings of a part, to the last bit of a time.
const HALVINGS: usize = 60;

const DEPTH: usize = 0;
const SPEED: usize = 1;
const DAMPER: usize = 2;
/// How many numbers: after these come what rope and air have turned into heat.
const STATE: usize = 5;

/// What to follow.
pub(super) struct Course<'a> {
    pub solid: Solid<'a>,
    pub mass_kg: f64,
    pub height_m: f64,
    /// Half the air density times the drag area.
    pub drag_kg_per_m: f64,
    /// State of the damper at the start.
    pub damper: f64,
    pub duration_s: f64,
    pub thresholds_n: &'a [f64],
    pub samples: usize,
}

/// What happened.
#[derive(Debug, Default)]
pub(super) struct Outcome {
    pub peak_n: f64,
    pub peak_s: f64,
    pub taut_s: Option<f64>,
    pub deepest_m: f64,
    /// Time at which the mass first stops on its way down.
    pub stopped_s: Option<f64>,
    /// Time, depth and whether the rope is slack at the first highest point after that.
    pub rebound: Option<(f64, f64, bool)>,
    pub above_s: Vec<f64>,
    /// Depth, speed, damper, loss in the rope and in the air at the end.
    pub end: [f64; STATE],
    pub stored_start_j: f64,
    pub stored_j: f64,
    pub series: [Vec<f64>; 4],
    pub attempts: usize,
}

/// Right-hand side in one mode, taut or slack.
struct Mode<'a, 'b> {
    course: &'a Course<'b>,
    taut: bool,
}

impl Mode<'_, '_> {
    fn strain(&self, y: &[f64]) -> (f64, f64) {
        (y[DEPTH] / self.course.solid.rest_m, y[SPEED] / self.course.solid.rest_m)
    }

    fn tension_n(&self, y: &[f64]) -> f64 {
        let (e, rate) = self.strain(y);
        if self.taut { self.course.solid.trial_n(e, rate, y[DAMPER]).max(0.0) } else { 0.0 }
    }

    fn margin(&self, y: &[f64]) -> f64 {
        let (e, rate) = self.strain(y);
        self.course.solid.margin(e, rate, y[DAMPER], self.taut)
    }

    /// Whether the mode has ended in this state.
    fn over(&self, y: &[f64]) -> bool {
        if self.taut { self.margin(y) < 0.0 } else { self.margin(y) > 0.0 }
    }

    fn turn(&mut self, y: &mut [f64]) {
        self.taut = !self.taut;
        if let Damper::Beside { .. } = self.course.solid.damper {
            // Both ways the strain of the rope and the geometric one are the same here.
            y[DAMPER] = self.strain(y).0;
        }
    }

    fn stored_j(&self, y: &[f64]) -> f64 {
        self.course.solid.stored_j(self.strain(y).0, y[DAMPER], self.taut)
    }
}

impl Rates for Mode<'_, '_> {
    fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
        let (e, rate) = self.strain(y);
        // Not clipped: smooth past the event that ends the mode.
        let t_n = if self.taut { self.course.solid.trial_n(e, rate, y[DAMPER]) } else { 0.0 };
        let (damper, loss) = self.course.solid.rates(e, rate, y[DAMPER], self.taut);
        let drag_n = self.course.drag_kg_per_m * y[SPEED] * y[SPEED].abs();
        let pull = GRAVITY - (t_n + drag_n) / self.course.mass_kg;
        dy.copy_from_slice(&[y[SPEED], pull, damper, loss, drag_n * y[SPEED]]);
    }
}

impl Course<'_> {
    /// Follows the mass from rest at its height to the end of the duration.
    pub fn run(&self) -> Result<Outcome, FallError> {
        let start = vec![-self.height_m, 0.0, self.damper, 0.0, 0.0];
        let rest_m = self.solid.rest_m * self.solid.rest_strain(self.damper);
        let mut mode = Mode { course: self, taut: -self.height_m >= rest_m };
        let speed = (2.0 * GRAVITY * (self.height_m + rest_m)).sqrt();
        let speed = speed.max(GRAVITY * 0.01);
        let length = self.height_m + 0.01 * self.solid.rest_m;
        let energy = self.mass_kg * GRAVITY * length;
        let atol =
            [length, speed, length / self.solid.rest_m, energy, energy].map(|a| a * TOLERANCE);
        let control = Control {
            rtol: TOLERANCE,
            atol: atol.to_vec(),
            longest_s: self.duration_s / 20.0,
            budget: BUDGET,
        };
        let mut out = Outcome {
            deepest_m: -self.height_m,
            above_s: vec![0.0; self.thresholds_n.len()],
            taut_s: mode.taut.then_some(0.0),
            stored_start_j: mode.stored_j(&start),
            ..Outcome::default()
        };
        let mut ode = DormandPrince::new(&mut mode, start, control.clone());
        let (mut base_s, mut attempts) = (0.0, 0);
        while base_s + ode.t_s < self.duration_s * (1.0 - 1e-14) {
            let halted = |halt: Halt, ode: &DormandPrince| FallError::Unfinished {
                reached_s: base_s + ode.t_s,
                wanted_s: self.duration_s,
                steps: attempts + ode.attempts,
                stalled: halt == Halt::Stalled,
            };
            let left_s = self.duration_s - base_s - ode.t_s;
            ode.advance(&mut mode, left_s).map_err(|h| halted(h, &ode))?;
            let cut = first(&ode.step, |y| mode.over(y));
            if let Some(theta) = cut
                && theta < 1.0
            {
                ode.shorten(&mut mode, theta).map_err(|h| halted(h, &ode))?;
            }
            self.keep(&mode, &ode.step, base_s, &mut out);
            ode.commit();
            if cut.is_some() {
                let mut y = ode.y.clone();
                mode.turn(&mut y);
                base_s += ode.t_s;
                attempts += ode.attempts;
                if mode.taut {
                    out.taut_s.get_or_insert(base_s);
                }
                // The rates jump here, so the integrator begins anew with what is left of the budget.
                let control =
                    Control { budget: BUDGET.saturating_sub(attempts), ..control.clone() };
                ode = DormandPrince::new(&mut mode, y, control);
            }
        }
        out.attempts = attempts + ode.attempts;
        out.end.copy_from_slice(&ode.y);
        out.stored_j = mode.stored_j(&ode.y);
        Ok(out)
    }

    /// Reads peaks, stops, durations and samples from a step.
    fn keep(&self, mode: &Mode<'_, '_>, step: &Step, base_s: f64, out: &mut Outcome) {
        let read = |theta: f64| {
            let mut y = [0.0; STATE];
            step.read(theta, &mut y);
            y
        };
        let tension = |theta: f64| mode.tension_n(&read(theta));
        let time = |theta: f64| base_s + step.t_s + theta * step.h_s;
        let grid: [f64; PARTS + 1] = std::array::from_fn(|i| i as f64 / PARTS as f64);
        let at = grid.map(tension);
        for i in 1..grid.len() {
            let (a, b) = (grid[i - 1], grid[i]);
            for (k, force_n) in self.thresholds_n.iter().enumerate() {
                let (low, high) = (at[i - 1] > *force_n, at[i] > *force_n);
                let part = match (low, high) {
                    (true, true) => b - a,
                    (false, false) => 0.0,
                    _ => {
                        let cross = bisect(a, b, |x| (tension(x) > *force_n) == high);
                        if high { b - cross } else { cross - a }
                    }
                };
                out.above_s[k] += part * step.h_s;
            }
            let speed = |theta: f64| read(theta)[SPEED];
            if out.stopped_s.is_none() && speed(b) <= 0.0 && speed(a) > 0.0 {
                let theta = bisect(a, b, |x| speed(x) <= 0.0);
                out.stopped_s = Some(time(theta));
                out.deepest_m = read(theta)[DEPTH];
            } else if out.stopped_s.is_some()
                && out.rebound.is_none()
                && speed(b) >= 0.0
                && speed(a) < 0.0
            {
                let theta = bisect(a, b, |x| speed(x) >= 0.0);
                out.rebound = Some((time(theta), read(theta)[DEPTH], !mode.taut));
            }
        }
        if out.stopped_s.is_none() {
            out.deepest_m = read(1.0)[DEPTH];
        }
        let best = (0..at.len()).max_by(|a, b| at[*a].total_cmp(&at[*b])).unwrap_or(0);
        // A peak between the points is above them by less than the curvature allows.
        if mode.taut && at[best] > out.peak_n * 0.99 {
            let last = grid.len() - 1;
            let theta = golden(grid[best.max(1) - 1], grid[(best + 1).min(last)], tension);
            for theta in [grid[best], theta] {
                if tension(theta) > out.peak_n {
                    (out.peak_n, out.peak_s) = (tension(theta), time(theta));
                }
            }
        }
        while out.series[0].len() < self.samples {
            let t_s = self.duration_s * out.series[0].len() as f64 / (self.samples - 1) as f64;
            let theta = (t_s - base_s - step.t_s) / step.h_s;
            if theta > 1.0 + 1e-9 {
                break;
            }
            let y = read(theta.clamp(0.0, 1.0));
            for (list, x) in
                out.series.iter_mut().zip([t_s, mode.tension_n(&y), y[DEPTH], y[SPEED]])
            {
                list.push(x);
            }
        }
    }
}

/// First fraction of a step at which `over` holds, within the parts looked at.
fn first(step: &Step, over: impl Fn(&[f64]) -> bool) -> Option<f64> {
    let read = |theta: f64| {
        let mut y = [0.0; STATE];
        step.read(theta, &mut y);
        over(&y)
    };
    let mut a = 0.0;
    for i in 1..=PARTS {
        let b = i as f64 / PARTS as f64;
        if read(b) {
            return Some(bisect(a, b, read));
        }
        a = b;
    }
    None
}

/// Where `after` begins to hold between a, where it does not, and b, where it does.
fn bisect(mut a: f64, mut b: f64, after: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..HALVINGS {
        let mid = 0.5 * (a + b);
        if after(mid) { b = mid } else { a = mid }
    }
    b
}

/// Where `f` is greatest between a and b, by golden section.
fn golden(mut a: f64, mut b: f64, f: impl Fn(f64) -> f64) -> f64 {
    let share = 0.5 * (5.0_f64.sqrt() - 1.0);
    let (mut c, mut d) = (b - share * (b - a), a + share * (b - a));
    let (mut at_c, mut at_d) = (f(c), f(d));
    for _ in 0..HALVINGS {
        if at_c > at_d {
            (b, d, at_d) = (d, c, at_c);
            c = b - share * (b - a);
            at_c = f(c);
        } else {
            (a, c, at_c) = (c, d, at_d);
            d = a + share * (b - a);
            at_d = f(d);
        }
    }
    0.5 * (a + b)
}

/// State of the damper of a slack rope after a time, Eqs. (D3) and (D5).
pub(super) fn relaxed(solid: &Solid<'_>, damper: f64, seconds: f64) -> Result<f64, FallError> {
    match solid.damper {
        Damper::None => Ok(0.0),
        Damper::Beside { retardation_s } => {
            let t_n = solid.law.tension(damper) * (-seconds / retardation_s).exp();
            Ok(solid.law.strain(t_n))
        }
        Damper::Arm { arm_n, relaxation_s } => {
            if let crate::material::Law::Linear { ea_n } = solid.law {
                let long = solid.scale * ea_n;
                return Ok(damper * (-seconds / relaxation_s * (long / (long + arm_n))).exp());
            }
            curved(solid, damper, seconds, relaxation_s)
        }
    }
}

fn curved(solid: &Solid<'_>, damper: f64, seconds: f64, unit_s: f64) -> Result<f64, FallError> {
    struct Slack<'a, 'b>(&'a Solid<'b>);
    impl Rates for Slack<'_, '_> {
        fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
            dy[0] = self.0.rates(-1.0, 0.0, y[0], false).0;
        }
    }
    let control = Control {
        rtol: TOLERANCE,
        atol: vec![TOLERANCE * 1e-3],
        longest_s: unit_s,
        budget: BUDGET,
    };
    let mut slack = Slack(solid);
    let mut ode = DormandPrince::new(&mut slack, vec![damper], control);
    while ode.t_s < seconds * (1.0 - 1e-14) && ode.y[0] > 1e-9 * damper {
        let left_s = seconds - ode.t_s;
        ode.advance(&mut slack, left_s).map_err(|halt| FallError::Unfinished {
            reached_s: ode.t_s,
            wanted_s: seconds,
            steps: ode.attempts,
            stalled: halt == Halt::Stalled,
        })?;
        ode.commit();
    }
    Ok(ode.y[0])
}
