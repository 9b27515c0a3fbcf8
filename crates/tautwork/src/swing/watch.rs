//! Extremes over the whole history, found inside the steps and not only at their ends.

use super::eighth::Step;
use super::model::{BODY, Model, RING, speed, towards_ring};
use super::space::{size, three};
use super::support::Support;
use super::terrain::Wall;

/// A figure whose greatest value is wanted; least values are negated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Figure {
    Resultant,
    /// The resultant between the first catch and the first lowest point.
    CatchPeak,
    Acceleration,
    Speed,
    Low,
    Left,
    Right,
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
    pub body_m: [f64; 3],
    pub ring_m: [f64; 3],
}

/// Which phase of the jump a step belongs to; phases change only between steps.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Phase {
    pub left_zone: bool,
    pub caught: bool,
    pub risen: bool,
}

/// Points in a step at which figures are looked at. The error control keeps steps so short that a
/// figure has one extreme in each at most.
pub(super) const GRID: [f64; 3] = [0.0, 0.5, 1.0];
/// States at the points of [`GRID`].
pub(super) type States = [Vec<f64>; 3];

/// All figures with their best values, and the time above each force.
#[derive(Debug, Clone)]
pub(super) struct Watch {
    tracks: Vec<Track>,
    forces_n: Vec<f64>,
    /// Time of the resultant above each force, s.
    pub above_s: Vec<f64>,
    scratch: Vec<f64>,
}

#[derive(Debug, Clone)]
struct Track {
    figure: Figure,
    best: Option<Best>,
    values: [f64; 3],
}

/// What several figures share in a state.
#[derive(Debug, Clone, Copy)]
pub(super) struct Seen {
    pub force_n: f64,
    distance_m: f64,
    acceleration: f64,
}

impl Seen {
    pub fn new<S: Support>(model: &Model<S>, y: &[f64]) -> Self {
        let toward = towards_ring(y);
        let pull = model.pull(y, toward);
        Self {
            force_n: pull.size_n * model.body_kg / model.low_kg,
            distance_m: toward.1,
            acceleration: size(model.body_acceleration(y, pull)),
        }
    }
}

impl Watch {
    pub fn new(figures: Vec<Figure>, forces_n: Vec<f64>, size: usize) -> Self {
        let track = |figure| Track { figure, best: None, values: [f64::NAN; 3] };
        Self {
            tracks: figures.into_iter().map(track).collect(),
            above_s: vec![0.0; forces_n.len()],
            forces_n,
            scratch: vec![0.0; size],
        }
    }

    /// The same figures from now on.
    pub fn again(&self) -> Self {
        let figures = self.tracks.iter().map(|t| t.figure).collect();
        Self::new(figures, self.forces_n.clone(), self.scratch.len())
    }

    /// The best value of a figure; none if it was never in its phase.
    pub fn best(&self, figure: Figure) -> Option<Best> {
        self.tracks.iter().find(|t| t.figure == figure)?.best
    }

    /// Looks at one step.
    pub fn take<S: Support>(
        &mut self,
        model: &mut Model<S>,
        walls: &[Wall],
        step: &Step,
        states: (&States, &[Seen; 3]),
        phase: Phase,
    ) {
        for track in &mut self.tracks {
            if !in_phase(track.figure, phase) {
                track.values = [f64::NAN; 3];
                continue;
            }
            // The last value of the step before is the first of this one.
            let first = usize::from(!track.values[2].is_nan());
            track.values[0] = track.values[2];
            for k in first..3 {
                track.values[k] = value(model, walls, track.figure, &states.0[k], states.1[k]);
            }
            let figure = track.figure;
            track.improve(step, &mut self.scratch, |y| {
                value(model, walls, figure, y, Seen::new(model, y))
            });
            if track.figure == Figure::Resultant {
                for (above_s, force_n) in self.above_s.iter_mut().zip(&self.forces_n) {
                    let share = share_above(track.values, *force_n, |theta| {
                        step.read(theta, &mut self.scratch);
                        model.body_force_n(&self.scratch)
                    });
                    *above_s += share * step.h_s;
                }
            }
        }
    }

    /// Forgets the values at the end of the last step, after a jump of the forces.
    pub fn broken(&mut self) {
        for track in &mut self.tracks {
            track.values = [f64::NAN; 3];
        }
    }
}

impl Track {
    /// Takes the greatest value in the step if it beats the best so far.
    fn improve(&mut self, step: &Step, scratch: &mut [f64], mut at: impl FnMut(&[f64]) -> f64) {
        let [a, b, c] = self.values;
        let high = a.max(b).max(c);
        let spread = high - a.min(b).min(c);
        // A maximum between the points overshoots them by less than the figure changes in the step.
        if !spread.is_finite() || self.best.is_some_and(|best| high + spread < best.value) {
            return;
        }
        let mut read = |theta: f64| {
            step.read(theta, scratch);
            at(scratch)
        };
        // The parabola through the points tells in which half a maximum inside the step lies.
        let bend = a - 2.0 * b + c;
        let vertex = if bend < 0.0 { 0.5 + 0.25 * (a - c) / bend } else { f64::NAN };
        let peak = if b >= a && b >= c {
            Some((0.0, 1.0))
        } else if vertex > 0.0 && vertex < 0.5 {
            Some((0.0, 0.5))
        } else if (0.5..1.0).contains(&vertex) {
            Some((0.5, 1.0))
        } else {
            None
        };
        let top = if c >= a { 1.0 } else { 0.0 };
        let mut best = (top, a.max(c));
        if let Some((low, up)) = peak
            && spread > 0.0
        {
            let theta = golden(low, up, &mut read);
            let value = read(theta);
            if value > best.1 {
                best = (theta, value);
            }
        }
        let (theta, value) = best;
        if self.best.is_none_or(|best| value > best.value) && value.is_finite() {
            step.read(theta, scratch);
            self.best = Some(Best {
                value,
                t_s: step.t_s + theta * step.h_s,
                body_m: three(scratch, BODY),
                ring_m: three(scratch, RING),
            });
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
fn value<S: Support>(
    model: &mut Model<S>,
    walls: &[Wall],
    figure: Figure,
    y: &[f64],
    seen: Seen,
) -> f64 {
    match figure {
        Figure::Resultant | Figure::CatchPeak => seen.force_n,
        Figure::Acceleration => seen.acceleration,
        Figure::Speed => speed(y, BODY),
        Figure::Low => -y[BODY + 2],
        Figure::Left => y[BODY + 1],
        Figure::Right => -y[BODY + 1],
        Figure::RingLow => -y[RING + 2],
        Figure::RingHigh => y[RING + 2],
        Figure::RingNear => -y[RING],
        Figure::RingFar => y[RING],
        Figure::Rope(i) => {
            let rope = &model.ropes[i];
            rope.tension_n(rope.strain(seen.distance_m), y[super::model::VISCOUS + i])
        }
        Figure::Exit => {
            let body = three(y, BODY);
            -walls.iter().map(|w| w.away_m(body)).fold(f64::INFINITY, f64::min)
        }
        Figure::Wall(i) => -walls[i].away_m(three(y, BODY)),
        Figure::NearAnchor(line) => anchor_n(model, y, line, 0),
        Figure::FarAnchor(line) => anchor_n(model, y, line, 1),
    }
}

/// Tension of a line at an anchor.
pub(super) fn anchor_n<S: Support>(
    model: &mut Model<S>,
    y: &[f64],
    line: usize,
    end: usize,
) -> f64 {
    model.support.anchor_n(three(y, RING), line, end).unwrap_or(f64::NAN)
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
fn share_above(values: [f64; 3], level: f64, mut f: impl FnMut(f64) -> f64) -> f64 {
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

/// Where a smooth function changes from the sign of `at_from` to the other, by the Illinois form of
/// false position, down to 1e-14 of the step or of the ends; the result is on the far side but for rounding.
pub(super) fn root(
    (from, at_from): (f64, f64),
    (to, at_to): (f64, f64),
    mut f: impl FnMut(f64) -> f64,
) -> f64 {
    let (mut low, mut f_low, mut up, mut f_up) = (from, at_from, to, at_to);
    let enough = 1e-14 * (at_from.abs() + at_to.abs());
    let mut last = None;
    for _ in 0..60 {
        let mut middle = up - f_up * (up - low) / (f_up - f_low);
        if !(middle > low && middle < up) {
            middle = 0.5 * (low + up);
        }
        let value = f(middle);
        let far = (value > 0.0) == (at_to > 0.0);
        if value.abs() <= enough || up - low <= 1e-14 {
            return if far { middle } else { up.min(middle + 1e-14) };
        }
        if far {
            (up, f_up) = (middle, value);
            f_low *= if last == Some(true) { 0.5 } else { 1.0 };
        } else {
            (low, f_low) = (middle, value);
            f_up *= if last == Some(false) { 0.5 } else { 1.0 };
        }
        last = Some(far);
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
        let half = crossing(0.0, 1.0, |x| x * x > 0.5);
        assert!((half - 0.5_f64.sqrt()).abs() < 1e-15);
        let mut calls = 0;
        let half = root((0.0, -0.5), (1.0, 0.5), |x| {
            calls += 1;
            x * x - 0.5
        });
        assert!((half - 0.5_f64.sqrt()).abs() < 1e-13 && calls < 20, "{half} {calls}");
        let wave = |t: f64| (core::f64::consts::TAU * t).sin();
        let values = GRID.map(|t| wave(0.5 * t));
        assert!((share_above(values, 0.5, |t| wave(0.5 * t)) - 2.0 / 3.0).abs() < 1e-9);
    }
}
