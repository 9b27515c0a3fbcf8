//! Extremes over the whole history, found inside the steps and not only at their ends.

use super::model::{BODY, Model, RING};
use super::support::Support;
use super::terrain::Wall;
use crate::ode::Step;

/// A figure whose greatest value is wanted; least values are negated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Figure {
    Resultant,
    /// The resultant between the first catch and the first lowest point.
    CatchPeak,
    Acceleration,
    Speed,
    Low,
    RingLow,
    RingHigh,
    RingNear,
    RingFar,
    Rope(usize),
    /// Any wall, before the launch zone is left.
    Exit,
    /// One wall, after it.
    Wall(usize),
    NearAnchor(usize),
    FarAnchor(usize),
}

/// The greatest value so far.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Best {
    pub value: f64,
    pub t_s: f64,
    pub body_m: [f64; 2],
    pub ring_m: [f64; 2],
}

/// Which phase of the jump a step belongs to; phases change only between steps.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Phase {
    pub left_zone: bool,
    pub caught: bool,
    pub risen: bool,
}

/// Points in a step at which figures are looked at.
pub(super) const GRID: [f64; 5] = [0.0, 0.25, 0.5, 0.75, 1.0];

/// All figures with their best values, and the time above each force.
#[derive(Debug)]
pub(super) struct Watch {
    tracks: Vec<Track>,
    forces_n: Vec<f64>,
    /// Time of the resultant above each force, s.
    pub above_s: Vec<f64>,
    states: [Vec<f64>; 5],
    scratch: Vec<f64>,
}

#[derive(Debug)]
struct Track {
    figure: Figure,
    best: Option<Best>,
    values: [f64; 5],
}

impl Watch {
    pub fn new(figures: Vec<Figure>, forces_n: Vec<f64>, size: usize) -> Self {
        let track = |figure| Track { figure, best: None, values: [f64::NAN; 5] };
        Self {
            tracks: figures.into_iter().map(track).collect(),
            above_s: vec![0.0; forces_n.len()],
            forces_n,
            states: core::array::from_fn(|_| vec![0.0; size]),
            scratch: vec![0.0; size],
        }
    }

    /// The best value of a figure; none if it was never in its phase.
    pub fn best(&self, figure: Figure) -> Option<Best> {
        self.tracks.iter().find(|t| t.figure == figure)?.best
    }

    /// States at the points of [`GRID`] in the last step.
    pub fn states(&self) -> &[Vec<f64>; 5] {
        &self.states
    }

    /// Looks at one step.
    pub fn take<S: Support>(
        &mut self,
        model: &mut Model<S>,
        walls: &[Wall],
        step: &Step,
        phase: Phase,
    ) {
        for (state, theta) in self.states.iter_mut().zip(GRID) {
            step.read(theta, state);
        }
        for (k, state) in self.states.iter().enumerate() {
            for track in &mut self.tracks {
                // A figure of the lines costs a solution of all lines: every other point will do.
                let costly = matches!(track.figure, Figure::NearAnchor(_) | Figure::FarAnchor(_));
                track.values[k] = if costly && k % 2 == 1 {
                    f64::NAN
                } else if in_phase(track.figure, phase) {
                    value(model, walls, track.figure, state)
                } else {
                    f64::NAN
                };
            }
        }
        for track in &mut self.tracks {
            let mut read = |theta: f64, figure| {
                step.read(theta, &mut self.scratch);
                (value(model, walls, figure, &self.scratch), place(&self.scratch))
            };
            track.improve(step, &mut read);
            if track.figure == Figure::Resultant {
                for (above_s, force_n) in self.above_s.iter_mut().zip(&self.forces_n) {
                    let share = share_above(&track.values, *force_n, |theta| {
                        read(theta, Figure::Resultant).0
                    });
                    *above_s += share * step.h_s;
                }
            }
        }
    }
}

type Places = ([f64; 2], [f64; 2]);

fn place(y: &[f64]) -> Places {
    ([y[BODY], y[BODY + 1]], [y[RING], y[RING + 1]])
}

impl Track {
    /// Takes the greatest value in the step if it beats the best so far.
    fn improve(&mut self, step: &Step, read: &mut impl FnMut(f64, Figure) -> (f64, Places)) {
        let known = |k: &usize| !self.values[*k].is_nan();
        let points: Vec<usize> = (0..GRID.len()).filter(known).collect();
        let greater = |a: &&usize, b: &&usize| self.values[**a].total_cmp(&self.values[**b]);
        let (Some(&top), Some(&bottom)) =
            (points.iter().max_by(greater), points.iter().min_by(greater))
        else {
            return;
        };
        let (high, spread) = (self.values[top], self.values[top] - self.values[bottom]);
        // A maximum between two points overshoots them by less than the figure changes in the step.
        if self.best.is_some_and(|best| high + spread < best.value) {
            return;
        }
        let at = points.iter().position(|p| *p == top).unwrap_or(0);
        let mut low = GRID[points[at.saturating_sub(1)]];
        let mut up = GRID[points[(at + 1).min(points.len() - 1)]];
        let peak = GRID[top];
        // At an end of the step the slope tells whether the maximum lies inside.
        let nudge = 1e-3;
        let inside = if top == 0 {
            low = 0.0;
            read(nudge, self.figure).0 > high
        } else if top == GRID.len() - 1 {
            up = 1.0;
            read(1.0 - nudge, self.figure).0 > high
        } else {
            true
        };
        let theta = if inside && spread > 0.0 {
            golden(low, up, |theta| read(theta, self.figure).0)
        } else {
            peak
        };
        for theta in [peak, theta] {
            let (value, (body_m, ring_m)) = read(theta, self.figure);
            if self.best.is_none_or(|best| value > best.value) && value.is_finite() {
                let t_s = step.t_s + theta * step.h_s;
                self.best = Some(Best { value, t_s, body_m, ring_m });
            }
        }
    }
}

fn in_phase(figure: Figure, phase: Phase) -> bool {
    match figure {
        Figure::CatchPeak => phase.caught && !phase.risen,
        Figure::Exit => !phase.left_zone,
        Figure::Wall(_) => phase.left_zone,
        _ => true,
    }
}

/// Value of a figure in a state; NaN where it has none.
pub(super) fn value<S: Support>(
    model: &mut Model<S>,
    walls: &[Wall],
    figure: Figure,
    y: &[f64],
) -> f64 {
    let body = [y[BODY], y[BODY + 1]];
    let ring = [y[RING], y[RING + 1]];
    let mut anchor = |line: usize, end: usize| {
        model.support.anchors_n(ring, line).map_or(f64::NAN, |tensions| tensions[end])
    };
    match figure {
        Figure::Resultant | Figure::CatchPeak => model.body_force_n(y),
        Figure::Acceleration => {
            let [ax, az] = model.body_acceleration(y, model.pull(y));
            ax.hypot(az)
        }
        Figure::Speed => y[BODY + 2].hypot(y[BODY + 3]),
        Figure::Low => -body[1],
        Figure::RingLow => -ring[1],
        Figure::RingHigh => ring[1],
        Figure::RingNear => -ring[0],
        Figure::RingFar => ring[0],
        Figure::Rope(i) => model.tension_n(y, i),
        Figure::Exit => -walls.iter().map(|w| w.distance_m(body)).fold(f64::INFINITY, f64::min),
        Figure::Wall(i) => -walls[i].distance_m(body),
        Figure::NearAnchor(line) => anchor(line, 0),
        Figure::FarAnchor(line) => anchor(line, 1),
    }
}

/// Where a function with one maximum between `low` and `up` has it.
fn golden(mut low: f64, mut up: f64, mut f: impl FnMut(f64) -> f64) -> f64 {
    const SHARE: f64 = 0.618_033_988_749_894_8;
    let (mut a, mut b) = (up - SHARE * (up - low), low + SHARE * (up - low));
    let (mut fa, mut fb) = (f(a), f(b));
    // A maximum is flat: 2e-6 of the bracket leaves an error of the value of its square.
    for _ in 0..28 {
        if fa > fb {
            (up, b, fb) = (b, a, fa);
            a = up - SHARE * (up - low);
            fa = f(a);
        } else {
            (low, a, fa) = (a, b, fb);
            b = low + SHARE * (up - low);
            fb = f(b);
        }
    }
    0.5 * (low + up)
}

/// Share of the step in which a figure is above a level.
fn share_above(values: &[f64; 5], level: f64, mut f: impl FnMut(f64) -> f64) -> f64 {
    let mut share = 0.0;
    for k in 1..GRID.len() {
        let (a, b) = (values[k - 1], values[k]);
        let (from, to) = (GRID[k - 1], GRID[k]);
        share += match (a > level, b > level) {
            (true, true) => to - from,
            (false, false) => 0.0,
            (first, _) => {
                let at = crossing(from, to, |theta| (f(theta) > level) != first);
                if first { at - from } else { to - at }
            }
        };
    }
    share
}

/// Where a condition that is false at `from` and true at `to` turns true, by bisection down to the
/// spacing of doubles; the result is on the true side.
pub(super) fn crossing(from: f64, to: f64, mut holds: impl FnMut(f64) -> bool) -> f64 {
    let (mut low, mut up) = (from, to);
    for _ in 0..60 {
        let middle = 0.5 * (low + up);
        if middle <= low || middle >= up {
            break;
        }
        if holds(middle) {
            up = middle;
        } else {
            low = middle;
        }
    }
    up
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn golden_section_and_bisection_find_what_they_should() {
        let at = golden(0.0, 1.0, |x| -(x - 0.3) * (x - 0.3));
        assert!((at - 0.3).abs() < 1e-5);
        let root = crossing(0.0, 1.0, |x| x * x > 0.5);
        assert!((root - 0.5_f64.sqrt()).abs() < 1e-15);
        let wave = |t: f64| (core::f64::consts::TAU * t).sin();
        let values = GRID.map(wave);
        assert!((share_above(&values, 0.5, wave) - 1.0 / 3.0).abs() < 1e-9);
    }
}
