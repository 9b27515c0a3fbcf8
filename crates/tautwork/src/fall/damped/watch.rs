//! What is read from the motion: peaks, stops, durations and samples.

use super::motion::Course;
use super::state::{DEPTH, Mode, Numbers, Phase, SPEED, STATE};
use crate::ode::Step;

/// Parts of a step that are looked at: a tension that rises and falls within one part is missed.
const PARTS: usize = 8;
/// Halvings of a part, to the last bit of a time.
const HALVINGS: usize = 60;

/// What happened.
#[derive(Debug, Default)]
pub(super) struct Outcome {
    pub peak_n: f64,
    pub peak_s: f64,
    pub taut_s: Option<f64>,
    pub deepest_m: f64,
    /// Greatest geometric strain.
    pub strain: f64,
    /// Time at which the mass first stops on its way down.
    pub stopped_s: Option<f64>,
    /// Time, depth and whether the rope is slack at the first highest point after that.
    pub rebound: Option<(f64, f64, bool)>,
    pub above_s: Vec<f64>,
    /// State at the end.
    pub end: Numbers,
    pub stored_start_j: f64,
    pub stored_j: f64,
    pub series: [Vec<f64>; 4],
    pub attempts: usize,
}

impl Outcome {
    /// Reads peaks, stops, durations and samples from a step.
    pub fn keep(&mut self, mode: &Mode<'_, '_>, step: &Step, base_s: f64) {
        let course = mode.course;
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
            for (k, force_n) in course.thresholds_n.iter().enumerate() {
                let (low, high) = (at[i - 1] > *force_n, at[i] > *force_n);
                let part = match (low, high) {
                    (true, true) => b - a,
                    (false, false) => 0.0,
                    _ => {
                        let cross = bisect(a, b, |x| (tension(x) > *force_n) == high);
                        if high { b - cross } else { cross - a }
                    }
                };
                self.above_s[k] += part * step.h_s;
            }
            let speed = |theta: f64| read(theta)[SPEED];
            if speed(b) <= 0.0 && speed(a) > 0.0 {
                let theta = bisect(a, b, |x| speed(x) <= 0.0);
                self.stopped_s.get_or_insert(time(theta));
                self.lower(course, &read(theta));
            } else if self.stopped_s.is_some()
                && self.rebound.is_none()
                && speed(b) >= 0.0
                && speed(a) < 0.0
            {
                let theta = bisect(a, b, |x| speed(x) >= 0.0);
                self.rebound = Some((time(theta), read(theta)[DEPTH], mode.phase == Phase::Slack));
            }
            self.lower(course, &read(b));
            self.strain = self.strain.max(mode.strain(&read(b)).0);
        }
        let best = (0..at.len()).max_by(|a, b| at[*a].total_cmp(&at[*b])).unwrap_or(0);
        // A peak between the points is above them by less than the curvature allows.
        if mode.phase != Phase::Slack && at[best] > self.peak_n * 0.99 {
            let last = grid.len() - 1;
            let theta = golden(grid[best.max(1) - 1], grid[(best + 1).min(last)], tension);
            for theta in [grid[best], theta] {
                if tension(theta) > self.peak_n {
                    (self.peak_n, self.peak_s) = (tension(theta), time(theta));
                }
            }
        }
        while self.series[0].len() < course.samples {
            let t_s = course.duration_s * self.series[0].len() as f64 / (course.samples - 1) as f64;
            let theta = (t_s - base_s - step.t_s) / step.h_s;
            if theta > 1.0 + 1e-9 {
                break;
            }
            let y = read(theta.clamp(0.0, 1.0));
            for (list, x) in
                self.series.iter_mut().zip([t_s, mode.tension_n(&y), y[DEPTH], y[SPEED]])
            {
                list.push(x);
            }
        }
    }

    /// Keeps the lowest point; a rebound counts from there.
    fn lower(&mut self, course: &Course<'_>, y: &Numbers) {
        let rounding_m = 1e-9 * (course.height_m + y[DEPTH].abs());
        if y[DEPTH] > self.deepest_m + rounding_m {
            self.rebound = None;
        }
        self.deepest_m = self.deepest_m.max(y[DEPTH]);
    }
}

/// First fraction of a step at which `over` holds, within the parts looked at.
pub(super) fn first(step: &Step, over: impl Fn(&[f64]) -> bool) -> Option<f64> {
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
