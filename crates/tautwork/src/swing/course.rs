//! Follows the motion from event to event.

use super::SwingError;
use super::flight::{Ending, Happening, Series};
use super::model::{BODY, Model, RING};
use super::support::Support;
use super::terrain::Wall;
use super::watch::{Figure, GRID, Phase, Watch, crossing, value};
use crate::ode::{Control, DormandPrince, Halt, Step};
use crate::quantity::{GRAVITY, Quantity, Speed, Time, print};

/// Longest step, s: bounds what can happen unseen between the points of a step.
const LONGEST_S: f64 = 0.1;
/// An event closer than this to the start of a step happens at the start, s.
const AT_ONCE_S: f64 = 1e-9;
/// Halvings of a quarter step in the search for a graze: at 30 m/s the body moves 3 mm between looks.
const GRAZE_DEPTH: usize = 8;

/// Everything that does not enter the rates.
#[derive(Debug, Clone)]
pub(super) struct Course {
    pub rope_names: Vec<String>,
    pub walls: Vec<Wall>,
    pub radius_m: f64,
    pub zone_m: f64,
    pub forces_n: Vec<f64>,
    pub lines: usize,
    /// x at which the body hangs at rest, for counting passes.
    pub rest_x_m: f64,
    pub horizon_s: f64,
    pub rtol: f64,
    pub sample_s: f64,
    pub most_steps: usize,
    pub settled_speed_m_per_s: f64,
    pub settled_force: f64,
    pub settled_for_s: f64,
}

/// First catch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Caught {
    pub t_s: f64,
    pub drop_m: f64,
    pub speed_m_per_s: f64,
}

/// What happened, in SI.
#[derive(Debug)]
pub(super) struct Outcome {
    pub watch: Watch,
    pub events: Vec<(f64, [f64; 2], Happening)>,
    pub caught: Option<Caught>,
    /// Time and place of the first lowest point.
    pub risen: Option<(f64, [f64; 2])>,
    pub left_zone: bool,
    pub ending: Ending,
    pub t_s: f64,
    pub start: Vec<f64>,
    pub end: Vec<f64>,
    pub drift_j: f64,
    pub passes_s: Vec<f64>,
    pub settled_s: Option<f64>,
    pub series: Series,
    pub steps: usize,
    pub attempts: usize,
}

/// Something that ends a step early.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Cut {
    Rope(usize),
    LeftZone,
    Risen,
    Contact(usize),
}

/// Runs the motion from the state `start` to contact, rest or horizon.
pub(super) fn run<S: Support>(
    model: &mut Model<S>,
    course: &Course,
    start: Vec<f64>,
) -> Result<Outcome, SwingError> {
    let size = model.size();
    let scale_j = model.low_kg * GRAVITY;
    let mut atol = vec![course.rtol; size];
    atol[model.books()..].fill(course.rtol * scale_j);
    let control =
        Control { rtol: course.rtol, atol, longest_s: LONGEST_S, budget: course.most_steps };
    let mut walk = Walk {
        course,
        taut: (0..model.ropes.len()).map(|i| model.trial_n(&start, i) > 0.0).collect(),
        phase: Phase::default(),
        side: None,
        still_since_s: None,
        samples: 0,
        scratch: vec![0.0; size],
        out: Outcome {
            watch: Watch::new(figures(model.ropes.len(), course), course.forces_n.clone(), size),
            events: Vec::new(),
            caught: None,
            risen: None,
            left_zone: false,
            ending: Ending::Horizon,
            t_s: 0.0,
            start: start.clone(),
            end: start.clone(),
            drift_j: 0.0,
            passes_s: Vec::new(),
            settled_s: None,
            series: Series {
                rope_tension_n: vec![Vec::new(); model.ropes.len()],
                line_near_tension_n: vec![Vec::new(); course.lines],
                ..Series::default()
            },
            steps: 0,
            attempts: 0,
        },
    };
    if walk.taut.contains(&true) {
        walk.catch(0.0, &start);
    }
    let mut ode = DormandPrince::new(model, start, control);
    let total_j = |model: &Model<S>, y: &[f64]| -> f64 {
        model.energy_j(y).iter().sum::<f64>() + model.lost_j(y).iter().sum::<f64>()
    };
    let start_j = total_j(model, &ode.y);
    while ode.t_s < course.horizon_s * (1.0 - 1e-14) {
        ode.advance(model, course.horizon_s - ode.t_s)
            .map_err(|halt| stopped(halt, &ode, model, course))?;
        let cut = walk.look_for_events(model, &ode.step);
        if let Some((theta, _)) = cut
            && theta < 1.0
        {
            ode.shorten(model, theta).map_err(|halt| stopped(halt, &ode, model, course))?;
        }
        model.failure = None;
        walk.keep(model, &ode.step);
        ode.commit();
        let error_j = (total_j(model, &ode.y) - start_j).abs();
        if !error_j.is_finite() {
            return Err(stopped(Halt::Stalled, &ode, model, course));
        }
        walk.out.drift_j = walk.out.drift_j.max(error_j);
        walk.out.steps += 1;
        if let Some((_, cut)) = cut
            && walk.pass_event(cut, ode.t_s, &ode.y)
        {
            break;
        }
        if walk.settled(ode.t_s) {
            break;
        }
    }
    let mut out = walk.out;
    out.left_zone = walk.phase.left_zone;
    out.t_s = ode.t_s;
    out.attempts = ode.attempts;
    out.end = ode.y;
    Ok(out)
}

fn stopped<S>(halt: Halt, ode: &DormandPrince, model: &Model<S>, course: &Course) -> SwingError {
    let time = print(Time::from_si(ode.t_s));
    match (halt, &model.failure) {
        (Halt::Budget, _) => SwingError::Budget {
            attempts: ode.attempts,
            time,
            horizon: print(Time::from_si(course.horizon_s)),
        },
        (Halt::Stalled, Some(problem)) => SwingError::Lines { time, problem: problem.clone() },
        (Halt::Stalled, None) => SwingError::Stalled { time },
    }
}

fn figures(ropes: usize, course: &Course) -> Vec<Figure> {
    let mut all = vec![
        Figure::Resultant,
        Figure::CatchPeak,
        Figure::Acceleration,
        Figure::Speed,
        Figure::Low,
        Figure::RingLow,
        Figure::RingHigh,
        Figure::RingNear,
        Figure::RingFar,
    ];
    all.extend((0..ropes).map(Figure::Rope));
    all.extend((0..course.lines).flat_map(|i| [Figure::NearAnchor(i), Figure::FarAnchor(i)]));
    if !course.walls.is_empty() {
        all.push(Figure::Exit);
        all.extend((0..course.walls.len()).map(Figure::Wall));
    }
    all
}

struct Walk<'a> {
    course: &'a Course,
    taut: Vec<bool>,
    phase: Phase,
    /// On which side of the rest position the body is.
    side: Option<bool>,
    still_since_s: Option<f64>,
    samples: usize,
    scratch: Vec<f64>,
    out: Outcome,
}

impl Walk<'_> {
    /// The first event inside a step, as a fraction of it.
    fn look_for_events<S: Support>(&mut self, model: &Model<S>, step: &Step) -> Option<(f64, Cut)> {
        let mut first: Option<(f64, Cut)> = None;
        let mut offer = |theta: f64, cut: Cut| {
            if first.as_ref().is_none_or(|(t, _)| theta < *t) {
                first = Some((theta, cut));
            }
        };
        for rope in 0..model.ropes.len() {
            for k in 1..GRID.len() {
                let mut taut = |theta: f64| {
                    step.read(theta, &mut self.scratch);
                    model.trial_n(&self.scratch, rope) > 0.0
                };
                if taut(GRID[k]) == self.taut[rope] {
                    continue;
                }
                let was = self.taut[rope];
                let theta = crossing(GRID[k - 1], GRID[k], |theta| taut(theta) != was);
                if theta * step.h_s > AT_ONCE_S {
                    offer(theta, Cut::Rope(rope));
                    break;
                }
                self.out.toggle(self.course, &mut self.taut, rope, step.t_s, step.start());
                if !self.phase.caught {
                    self.phase.caught = true;
                    self.out.caught = Some(caught(&self.out, step.t_s, step.start()));
                }
            }
        }
        let course = self.course;
        let scratch = &mut self.scratch;
        if !self.phase.left_zone {
            let exit = [self.out.start[BODY], self.out.start[BODY + 1]];
            let mut outside = |theta: f64| {
                step.read(theta, scratch);
                (scratch[BODY] - exit[0]).hypot(scratch[BODY + 1] - exit[1]) > course.zone_m
            };
            if let Some(k) = (1..GRID.len()).find(|k| outside(GRID[*k])) {
                offer(crossing(GRID[k - 1], GRID[k], outside), Cut::LeftZone);
            }
        }
        if self.phase.caught && !self.phase.risen {
            let mut rises = |theta: f64| {
                step.read(theta, scratch);
                scratch[BODY + 3] > 0.0
            };
            if let Some(k) = (1..GRID.len()).find(|k| !rises(GRID[*k - 1]) && rises(GRID[*k])) {
                offer(crossing(GRID[k - 1], GRID[k], rises), Cut::Risen);
            }
        }
        if !course.walls.is_empty()
            && let Some((theta, wall)) = self.contact(step)
        {
            offer(theta, Cut::Contact(wall));
        }
        first
    }

    /// First contact inside a step: the body within its radius of a wall, or its path across one.
    fn contact(&mut self, step: &Step) -> Option<(f64, usize)> {
        let (course, scratch) = (self.course, &mut self.scratch);
        let mut at = |theta: f64| -> ([f64; 2], f64) {
            step.read(theta, scratch);
            ([scratch[BODY], scratch[BODY + 1]], scratch[BODY + 2].hypot(scratch[BODY + 3]))
        };
        // The path between two looks is no longer than the greatest speed allows, with a margin for
        // the speed between the looks.
        let fastest = 1.25 * GRID.iter().map(|theta| at(*theta).1).fold(0.0, f64::max);
        let mut open: Vec<(f64, f64, usize)> =
            (1..GRID.len()).rev().map(|k| (GRID[k - 1], GRID[k], 0)).collect();
        while let Some((from, to, depth)) = open.pop() {
            let (p, q) = (at(from).0, at(to).0);
            let touches = |wall: &Wall, q: [f64; 2]| {
                wall.distance_m(q) <= course.radius_m || wall.crossed(p, q)
            };
            if course.walls.iter().any(|wall| touches(wall, q)) {
                let theta = crossing(from, to, |theta| {
                    let q = at(theta).0;
                    course.walls.iter().any(|wall| touches(wall, q))
                });
                let q = at(theta).0;
                let wall = course.walls.iter().position(|wall| touches(wall, q)).unwrap_or(0);
                return Some((theta, wall));
            }
            let gap = |p: [f64; 2]| {
                let nearest = course.walls.iter().map(|w| w.distance_m(p));
                nearest.fold(f64::INFINITY, f64::min) - course.radius_m
            };
            if depth < GRAZE_DEPTH && gap(p) + gap(q) <= fastest * step.h_s * (to - from) {
                let middle = 0.5 * (from + to);
                open.push((middle, to, depth + 1));
                open.push((from, middle, depth + 1));
            }
        }
        None
    }

    /// Takes a step into the record: extremes, passes, stillness and samples.
    fn keep<S: Support>(&mut self, model: &mut Model<S>, step: &Step) {
        self.out.watch.take(model, &self.course.walls, step, self.phase);
        let weight_n = model.body_kg * GRAVITY;
        for k in 1..GRID.len() {
            let t_s = step.t_s + GRID[k] * step.h_s;
            let y = &self.out.watch.states()[k];
            let side = y[BODY] > self.course.rest_x_m;
            if self.phase.caught && self.side.is_some_and(|was| was != side) {
                let scratch = &mut self.scratch;
                let theta = crossing(GRID[k - 1], GRID[k], |theta| {
                    step.read(theta, scratch);
                    (scratch[BODY] > self.course.rest_x_m) == side
                });
                self.out.passes_s.push(step.t_s + theta * step.h_s);
            }
            self.side = Some(side);
            let force = (model.body_force_n(y) - weight_n).abs() / weight_n;
            let speed = y[BODY + 2].hypot(y[BODY + 3]).max(y[RING + 2].hypot(y[RING + 3]));
            let still =
                speed <= self.course.settled_speed_m_per_s && force <= self.course.settled_force;
            self.still_since_s = still.then(|| self.still_since_s.unwrap_or(t_s));
        }
        let end_s = step.t_s + step.h_s;
        loop {
            let t_s = self.samples as f64 * self.course.sample_s;
            if t_s > end_s || t_s < step.t_s {
                break;
            }
            step.read(((t_s - step.t_s) / step.h_s).min(1.0), &mut self.scratch);
            sample(&mut self.out.series, model, t_s, &self.scratch, self.course.lines);
            self.samples += 1;
        }
    }

    /// Books the event at the end of a step; true if it ends the run.
    fn pass_event(&mut self, cut: Cut, t_s: f64, y: &[f64]) -> bool {
        let place = [y[BODY], y[BODY + 1]];
        match cut {
            Cut::Rope(rope) => {
                self.out.toggle(self.course, &mut self.taut, rope, t_s, y);
                if !self.phase.caught {
                    self.catch(t_s, y);
                }
            }
            Cut::LeftZone => {
                self.phase.left_zone = true;
                self.out.events.push((t_s, place, Happening::LeftLaunchZone));
            }
            Cut::Risen => {
                self.phase.risen = true;
                self.out.risen = Some((t_s, place));
                self.out.events.push((t_s, place, Happening::FirstLowest));
            }
            Cut::Contact(wall) => {
                let speed = Speed::from_si(y[BODY + 2].hypot(y[BODY + 3]));
                let wall = self.course.walls[wall].name.clone();
                self.out.events.push((t_s, place, Happening::Contact { wall, speed }));
                self.out.ending = Ending::Contact;
                return true;
            }
        }
        false
    }

    fn catch(&mut self, t_s: f64, y: &[f64]) {
        self.phase.caught = true;
        self.out.caught = Some(caught(&self.out, t_s, y));
    }

    fn settled(&mut self, t_s: f64) -> bool {
        let Some(since_s) = self.still_since_s else { return false };
        let settled = t_s - since_s >= self.course.settled_for_s;
        if settled {
            self.out.settled_s = Some(since_s);
            self.out.ending = Ending::Settled;
        }
        settled
    }
}

impl Outcome {
    fn toggle(&mut self, course: &Course, taut: &mut [bool], rope: usize, t_s: f64, y: &[f64]) {
        taut[rope] = !taut[rope];
        let name = course.rope_names[rope].clone();
        let what = if taut[rope] {
            Happening::Taut { rope: name }
        } else {
            Happening::Slack { rope: name }
        };
        self.events.push((t_s, [y[BODY], y[BODY + 1]], what));
    }
}

fn caught(out: &Outcome, t_s: f64, y: &[f64]) -> Caught {
    Caught {
        t_s,
        drop_m: out.start[BODY + 1] - y[BODY + 1],
        speed_m_per_s: y[BODY + 2].hypot(y[BODY + 3]),
    }
}

fn sample<S: Support>(
    series: &mut Series,
    model: &mut Model<S>,
    t_s: f64,
    y: &[f64],
    lines: usize,
) {
    series.t_s.push(t_s);
    series.x_m.push(y[BODY]);
    series.z_m.push(y[BODY + 1]);
    series.ring_x_m.push(y[RING]);
    series.ring_z_m.push(y[RING + 1]);
    series.resultant_n.push(model.body_force_n(y));
    for (rope, column) in series.rope_tension_n.iter_mut().enumerate() {
        column.push(model.tension_n(y, rope));
    }
    for line in 0..lines {
        let tension_n = value(model, &[], Figure::NearAnchor(line), y);
        series.line_near_tension_n[line].push(tension_n);
    }
}
