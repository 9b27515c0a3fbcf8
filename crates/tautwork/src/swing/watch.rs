//! Extremes over the whole history, found inside the steps and not only at their ends.

use super::course::Course;
use super::figure::{Figure, at_most, figures, value};
use super::inside::{crossing, peak};
use super::look::Look;
use super::model::{BODY, Model, RING};
use super::space::{size, three};
use super::step::Step;
use super::support::Support;
use super::terrain::Body;

/// The greatest value so far.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Best {
    pub value: f64,
    pub t_s: f64,
    pub body_m: [f64; 3],
    pub ring_m: [f64; 3],
    /// Whether a jump rope was taut.
    pub taut: bool,
}

impl Best {
    /// Axis of the body there.
    pub fn axis(&self, body: &Body) -> [[f64; 3]; 2] {
        body.axis(self.body_m, self.ring_m, self.taut)
    }
}

/// Which phase of the jump a step belongs to; phases change only between steps.
#[expect(clippy::struct_excessive_bools, reason = "each is true or not by itself")]
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Phase {
    pub left_zone: bool,
    pub caught: bool,
    pub risen: bool,
    /// A jump rope is taut.
    pub taut: bool,
}

/// Points in a step at which figures are looked at. The error control keeps steps so short that a
/// figure has one extreme in each at most.
pub(super) const GRID: [f64; 3] = [0.0, 0.5, 1.0];
/// All figures with their best values, and the time above each force.
#[derive(Debug, Clone)]
pub(super) struct Watch {
    tracks: Vec<Track>,
    forces_n: Vec<f64>,
    /// Time of the resultant above each force, s.
    pub above_s: Vec<f64>,
    /// Bounds of the tension at both ends of each line in the present step.
    most_n: Vec<[f64; 2]>,
    taut: bool,
    scratch: Vec<f64>,
}

#[derive(Debug, Clone)]
struct Track {
    figure: Figure,
    best: Option<Best>,
    values: [f64; 3],
}

impl Watch {
    pub fn new<S: Support>(model: &Model<S>, course: &Course) -> Self {
        let track = |figure| Track { figure, best: None, values: [f64::NAN; 3] };
        Self {
            tracks: figures(model, course).into_iter().map(track).collect(),
            above_s: vec![0.0; course.forces_n.len()],
            forces_n: course.forces_n.clone(),
            most_n: vec![[f64::INFINITY; 2]; course.lines],
            taut: false,
            scratch: vec![0.0; model.size()],
        }
    }

    /// The same figures from now on.
    pub fn again(&self) -> Self {
        let track = |t: &Track| Track { figure: t.figure, best: None, values: [f64::NAN; 3] };
        Self {
            tracks: self.tracks.iter().map(track).collect(),
            above_s: vec![0.0; self.forces_n.len()],
            ..self.clone()
        }
    }

    /// The best value of a figure; none if it was never in its phase.
    pub fn best(&self, figure: Figure) -> Option<Best> {
        self.tracks.iter().find(|t| t.figure == figure)?.best
    }

    /// Looks at one step.
    pub fn take<S: Support>(
        &mut self,
        model: &mut Model<S>,
        course: &Course,
        step: &Step,
        looks: &mut [Look; 3],
        phase: Phase,
    ) {
        if phase.taut != self.taut && !course.body.is_ball() {
            // The axis has turned.
            self.broken();
        }
        self.taut = phase.taut;
        self.most_n.fill([f64::INFINITY; 2]);
        let rings_m = [0, 1, 2].map(|k: usize| three(&looks[k].y, RING));
        model.support.anchors_at_most_n(rings_m, &mut self.most_n);
        let ready = looks[0].values.len();
        for (n, track) in self.tracks.iter_mut().enumerate() {
            let figure = track.figure;
            if !in_phase(figure, phase) {
                track.values[2] = f64::NAN;
                continue;
            }
            let best = track.best.map_or(f64::NEG_INFINITY, |best| best.value);
            if n < ready {
                let values = [0, 1, 2].map(|k: usize| looks[k].values[n]);
                if reach(values) < best {
                    continue;
                }
                track.values = values;
            } else if at_most(figure, course, &self.most_n) < best {
                track.values[2] = f64::NAN;
                continue;
            } else {
                // The last value of the step before is the first of this one.
                let first = usize::from(!track.values[2].is_nan());
                track.values[0] = track.values[2];
                for (got, look) in track.values.iter_mut().zip(&mut *looks).skip(first) {
                    *got = seldom(figure, model, course, look, phase);
                }
            }
            track.improve(step, phase.taut, &mut self.scratch, |y| {
                value(model, course, (figure, phase.taut), y)
            });
        }
        self.time_above(model, step, looks);
    }

    /// Adds the time of the resultant above each force.
    fn time_above<S: Support>(&mut self, model: &Model<S>, step: &Step, looks: &[Look; 3]) {
        let values = [0, 1, 2].map(|k: usize| looks[k].seen.force_n);
        for (above_s, force_n) in self.above_s.iter_mut().zip(&self.forces_n) {
            let share = share_above(values, *force_n, |theta| {
                step.read(theta, &mut self.scratch);
                model.body_force_n(&self.scratch)
            });
            *above_s += share * step.h_s;
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
    fn improve(
        &mut self,
        step: &Step,
        taut: bool,
        scratch: &mut [f64],
        mut at: impl FnMut(&[f64]) -> f64,
    ) {
        let component = self.figure.component();
        let [a, b, c] = self.values;
        let least = self.best.map_or(f64::NEG_INFINITY, |best| best.value);
        if !(a + b + c).is_finite() || reach(self.values) < least {
            return;
        }
        let (theta, value) = peak(self.values, |theta| {
            if let Some((i, sign)) = component {
                return sign * step.component(i, theta);
            }
            step.read(theta, scratch);
            at(scratch)
        });
        if value > least && value.is_finite() {
            let y = if theta == 1.0 {
                step.end()
            } else {
                step.read(theta, scratch);
                scratch
            };
            self.best = Some(Best {
                value,
                t_s: step.t_s + theta * step.h_s,
                body_m: three(y, BODY),
                ring_m: three(y, RING),
                taut,
            });
        }
    }
}

/// What a figure with these values in a step stays below: the parabola through them exceeds them by an eighth
/// of the bend at most, and the figure differs from it by less than a part of its change in the step.
#[inline]
fn reach([a, b, c]: [f64; 3]) -> f64 {
    let (most, least) = (a.max(b).max(c), a.min(b).min(c));
    most + 0.125 * (a - 2.0 * b + c).abs() + 0.05 * (most - least)
}

/// Value of a figure that is not ready at a look.
fn seldom<S: Support>(
    figure: Figure,
    model: &mut Model<S>,
    course: &Course,
    look: &mut Look,
    phase: Phase,
) -> f64 {
    match figure {
        Figure::LineEnd(line, end) => size(look.pulls_n(model)[line][end]),
        Figure::Anchor(i) => {
            look.pulls_n(model);
            course.anchors[i].pull_n(model, &look.y, |_, line, end| look.pulled_n(line, end))
        }
        _ => value(model, course, (figure, phase.taut), &look.y),
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_share_of_a_wave_above_a_level() {
        let wave = |t: f64| (core::f64::consts::TAU * t).sin();
        let values = GRID.map(|t| wave(0.5 * t));
        assert!((share_above(values, 0.5, |t| wave(0.5 * t)) - 2.0 / 3.0).abs() < 1e-9);
    }
}
