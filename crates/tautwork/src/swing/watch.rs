//! Extremes over the whole history, found inside the steps and not only at their ends.

use super::course::Course;
use super::eighth::Step;
use super::inside::{crossing, top};
use super::model::{BODY, Model, RING, VISCOUS, speed, towards_ring};
use super::space::{size, three};
use super::support::Support;
use super::terrain::Body;

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
    Stop(usize),
    /// Any wall, before the launch zone is left.
    Exit,
    /// One wall, after it.
    Wall(usize),
    /// A line at its near (0) or far (1) end.
    LineEnd(usize, usize),
    Anchor(usize),
}

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
/// A state at a point of a step, with what several figures share in it.
#[derive(Debug, Clone)]
pub(super) struct Look {
    pub y: Vec<f64>,
    pub seen: Seen,
    /// Pulls of all lines on their near and far anchors, N, once they are asked for.
    pulls_n: Vec<[[f64; 3]; 2]>,
    pulled: bool,
}

/// What several figures share in a state.
#[derive(Debug, Clone, Copy)]
pub(super) struct Seen {
    /// Force of the ropes on the jumper, N.
    pub force_n: f64,
    /// Unit vector from body to ring, and their distance, m.
    pub toward: [f64; 3],
    pub distance_m: f64,
    acceleration: f64,
}

impl Look {
    pub fn new<S: Support>(model: &Model<S>, y: &[f64], lines: usize) -> Self {
        let pulls_n = vec![[[0.0; 3]; 2]; lines];
        Self { y: y.to_vec(), seen: Seen::new(model, y), pulls_n, pulled: false }
    }

    pub fn renew<S: Support>(&mut self, model: &Model<S>) {
        self.seen = Seen::new(model, &self.y);
        self.pulled = false;
    }

    pub fn pulls_n<S: Support>(&mut self, model: &mut Model<S>) -> &[[[f64; 3]; 2]] {
        if !self.pulled {
            model.support.anchor_pulls_n(three(&self.y, RING), &mut self.pulls_n);
            self.pulled = true;
        }
        &self.pulls_n
    }

    /// Tension of a cord before clipping, N.
    pub fn trial_n<S: Support>(&self, model: &Model<S>, cord: usize) -> f64 {
        match model.ropes.get(cord) {
            Some(rope) => rope.trial_n(rope.strain(self.seen.distance_m), self.y[VISCOUS + cord]),
            None => model.trial_n(&self.y, cord),
        }
    }
}

impl Seen {
    pub fn new<S: Support>(model: &Model<S>, y: &[f64]) -> Self {
        let (toward, distance_m) = towards_ring(y);
        let pull = model.pull(y, (toward, distance_m));
        Self {
            force_n: pull.size_n * model.body_kg / model.low_kg,
            toward,
            distance_m,
            acceleration: size(model.body_acceleration(y, pull)),
        }
    }
}

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
        let mut figures = vec![
            Figure::Resultant,
            Figure::CatchPeak,
            Figure::Acceleration,
            Figure::Speed,
            Figure::Low,
            Figure::Left,
            Figure::Right,
            Figure::RingLow,
            Figure::RingHigh,
            Figure::RingNear,
            Figure::RingFar,
        ];
        figures.extend((0..model.ropes.len()).map(Figure::Rope));
        figures.extend((0..model.stops.len()).map(Figure::Stop));
        let ends = |line| [Figure::LineEnd(line, 0), Figure::LineEnd(line, 1)];
        figures.extend((0..course.lines).flat_map(ends));
        figures.extend((0..course.anchors.len()).map(Figure::Anchor));
        if !course.walls.is_empty() {
            figures.push(Figure::Exit);
            figures.extend((0..course.walls.len()).map(Figure::Wall));
        }
        let track = |figure| Track { figure, best: None, values: [f64::NAN; 3] };
        Self {
            tracks: figures.into_iter().map(track).collect(),
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
        for track in &mut self.tracks {
            let figure = track.figure;
            let best = track.best.map_or(f64::NEG_INFINITY, |best| best.value);
            if !in_phase(figure, phase) || at_most(figure, course, &self.most_n) < best {
                track.values = [f64::NAN; 3];
                continue;
            }
            // The last value of the step before is the first of this one.
            let first = usize::from(!track.values[2].is_nan());
            track.values[0] = track.values[2];
            for (got, look) in track.values.iter_mut().zip(&mut *looks).skip(first) {
                *got = match figure {
                    Figure::LineEnd(line, end) => size(look.pulls_n(model)[line][end]),
                    Figure::Anchor(i) => {
                        look.pulls_n(model);
                        course.anchors[i].pull_n(model, &look.y, &look.pulls_n)
                    }
                    _ => value(model, course, (figure, phase.taut), &look.y, look.seen),
                };
            }
            track.improve(step, phase.taut, &mut self.scratch, |y| {
                value(model, course, (figure, phase.taut), y, Seen::new(model, y))
            });
            if figure == Figure::Resultant {
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

/// Bound of a figure in the present step, where one is known.
fn at_most(figure: Figure, course: &Course, most_n: &[[f64; 2]]) -> f64 {
    match figure {
        Figure::LineEnd(line, end) => most_n[line][end],
        Figure::Anchor(i) if course.anchors[i].stops.is_empty() => {
            course.anchors[i].ends.iter().map(|(line, end)| most_n[*line][*end]).sum()
        }
        _ => f64::INFINITY,
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
        let [a, b, c] = self.values;
        let high = a.max(b).max(c);
        let spread = high - a.min(b).min(c);
        let bend = a - 2.0 * b + c;
        let least = self.best.map_or(f64::NEG_INFINITY, |best| best.value);
        // The parabola through the points exceeds them by an eighth of the bend at most, and the figure
        // differs from it by less than a part of its change in the step.
        if !spread.is_finite() || high + 0.125 * bend.abs() + 0.05 * spread < least {
            return;
        }
        let mut best = if c >= a { (1.0, c) } else { (0.0, a) };
        let vertex = if bend < 0.0 { (0.75 * a - b + 0.25 * c) / bend } else { f64::NAN };
        if spread > 0.0 && (vertex > 0.0 && vertex < 1.0 || b >= a && b >= c) {
            let mut read = |theta: f64| {
                step.read(theta, scratch);
                at(scratch)
            };
            // The maximum lies between points around it, one of which may be the vertex.
            let points = if b >= a && b >= c {
                [(0.0, a), (0.5, b), (1.0, c)]
            } else if vertex < 0.5 {
                [(0.0, a), (vertex, read(vertex)), (0.5, b)]
            } else {
                [(0.5, b), (vertex, read(vertex)), (1.0, c)]
            };
            let found = top(points, &mut read);
            if found.1 > best.1 {
                best = found;
            }
        }
        let (theta, value) = best;
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
    course: &Course,
    (figure, taut): (Figure, bool),
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
            rope.tension_n(rope.strain(seen.distance_m), y[VISCOUS + i])
        }
        Figure::Stop(i) => model.tension_n(y, model.ropes.len() + i),
        Figure::Exit => {
            let axis = course.body.axis(three(y, BODY), three(y, RING), taut);
            let away = course.walls.iter().map(|w| course.body.away_m(w, axis));
            -away.fold(f64::INFINITY, f64::min)
        }
        Figure::Wall(i) => {
            let axis = course.body.axis(three(y, BODY), three(y, RING), taut);
            -course.body.away_m(&course.walls[i], axis)
        }
        Figure::LineEnd(line, end) => {
            model.support.anchor_n(three(y, RING), line, end).unwrap_or(f64::NAN)
        }
        Figure::Anchor(i) => {
            let mut pulls_n = vec![[[0.0; 3]; 2]; course.lines];
            model.support.anchor_pulls_n(three(y, RING), &mut pulls_n);
            course.anchors[i].pull_n(model, y, &pulls_n)
        }
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
