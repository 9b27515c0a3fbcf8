//! Follows the motion from event to event.

use super::SwingError;
use super::eighth::{Eighth, Step};
use super::fault::Part;
use super::flight::{Ending, Happening, Series};
use super::model::{BODY, Model, RING, SPEED, speed, towards_ring};
use super::space::{from, size, three};
use super::support::Support;
use super::terrain::Wall;
use super::watch::{Figure, GRID, Phase, Seen, States, Watch, anchor_n, crossing, root};
use crate::ode::{Control, Halt};
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
    /// Where the body hangs at rest, x and y, and the direction from the exit to there, for counting
    /// passes.
    pub rest_m: [f64; 2],
    pub ahead: [f64; 2],
    /// Parts that fail, in order of time.
    pub faults: Vec<(f64, Loss)>,
    pub horizon_s: f64,
    pub rtol: f64,
    pub sample_s: f64,
    pub most_steps: usize,
    pub settled_speed_m_per_s: f64,
    pub settled_force: f64,
    pub settled_for_s: f64,
}

/// A part that fails: a rope, or ends of a line.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Loss {
    pub part: Part,
    pub index: usize,
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
    pub events: Vec<(f64, [f64; 3], Happening)>,
    pub caught: Option<Caught>,
    /// Time and place of the first lowest point.
    pub risen: Option<(f64, [f64; 3])>,
    pub left_zone: bool,
    pub ending: Ending,
    pub t_s: f64,
    pub start: Vec<f64>,
    pub end: Vec<f64>,
    pub drift_j: f64,
    /// Energy at exit, J.
    pub start_j: [f64; 4],
    /// Energy at the end, J.
    pub end_j: [f64; 4],
    /// Energy that went with the parts that failed, J.
    pub failed_j: f64,
    /// Figures since the first fault, and its time.
    pub after: Option<(f64, Watch)>,
    pub passes_s: Vec<f64>,
    /// Angle through which taut ropes turned at the ring, rad.
    pub turned_rad: f64,
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
    let start_j = model.energy_j(&start);
    let mut walk = Walk {
        course,
        taut: (0..model.ropes.len()).map(|i| model.trial_n(&start, i) > 0.0).collect(),
        phase: Phase::default(),
        side: None,
        still_since_s: None,
        samples: 0,
        states: core::array::from_fn(|_| vec![0.0; size]),
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
            start_j,
            end_j: start_j,
            failed_j: 0.0,
            after: None,
            passes_s: Vec::new(),
            turned_rad: 0.0,
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
        walk.phase.caught = true;
        walk.out.catch(0.0, &start);
    }
    let mut ode = Eighth::new(model, start, control);
    let total_j = |model: &mut Model<S>, y: &[f64]| -> f64 {
        model.energy_j(y).iter().sum::<f64>() + model.lost_j(y).iter().sum::<f64>()
    };
    let begin_j: f64 = start_j.iter().sum();
    let mut faults = course.faults.iter().peekable();
    while ode.t_s < course.horizon_s * (1.0 - 1e-14) {
        while let Some((_, loss)) = faults.next_if(|(at_s, _)| *at_s <= ode.t_s) {
            let before = total_j(model, &ode.y);
            walk.fail(model, loss, ode.t_s, &ode.y);
            walk.out.failed_j += before - total_j(model, &ode.y);
            ode.restart(model);
        }
        let until_s = faults.peek().map_or(course.horizon_s, |(at_s, _)| *at_s);
        ode.advance(model, until_s.min(course.horizon_s) - ode.t_s)
            .map_err(|halt| stopped(halt, &ode, model, course))?;
        walk.look(&ode.step);
        let cut = walk.look_for_events(model, &ode.step);
        if let Some((theta, _)) = cut
            && theta < 1.0
        {
            ode.shorten(model, theta).map_err(|halt| stopped(halt, &ode, model, course))?;
            walk.look(&ode.step);
        }
        model.failure = None;
        walk.keep(model, &ode.step);
        ode.commit();
        let error_j = (total_j(model, &ode.y) + walk.out.failed_j - begin_j).abs();
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
    out.end_j = model.energy_j(&ode.y);
    out.end = ode.y;
    Ok(out)
}

fn stopped<S>(halt: Halt, ode: &Eighth, model: &Model<S>, course: &Course) -> SwingError {
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
        Figure::Left,
        Figure::Right,
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
    /// The present step at the points of [`GRID`].
    states: States,
    scratch: Vec<f64>,
    out: Outcome,
}

impl Walk<'_> {
    /// Reads a step at the points of the grid.
    fn look(&mut self, step: &Step) {
        let [start, middle, end] = &mut self.states;
        start.copy_from_slice(step.start());
        step.read(GRID[1], middle);
        end.copy_from_slice(&step.end);
    }

    /// The first event inside a step, as a fraction of it.
    fn look_for_events<S: Support>(&mut self, model: &Model<S>, step: &Step) -> Option<(f64, Cut)> {
        let mut first: Option<(f64, Cut)> = None;
        let mut offer = |theta: f64, cut: Cut| {
            if first.as_ref().is_none_or(|(t, _)| theta < *t) {
                first = Some((theta, cut));
            }
        };
        for rope in 0..model.ropes.len() {
            let mut from = (GRID[0], model.trial_n(&self.states[0], rope));
            for (theta, state) in GRID.into_iter().zip(&self.states).skip(1) {
                let to = (theta, model.trial_n(state, rope));
                if (to.1 > 0.0) == self.taut[rope] {
                    from = to;
                    continue;
                }
                let mut trial_n = |theta: f64| {
                    step.read(theta, &mut self.scratch);
                    model.trial_n(&self.scratch, rope)
                };
                // Rounding may have left the start of the step on the far side already.
                let theta = if (from.1 > 0.0) == self.taut[rope] {
                    root(from, to, &mut trial_n)
                } else {
                    from.0
                };
                if theta * step.h_s > AT_ONCE_S {
                    offer(theta, Cut::Rope(rope));
                    break;
                }
                self.out.toggle(self.course, &mut self.taut, rope, step.t_s, step.start());
                if !self.phase.caught {
                    self.phase.caught = true;
                    self.out.catch(step.t_s, step.start());
                }
                from = to;
            }
        }
        let course = self.course;
        let scratch = &mut self.scratch;
        if !self.phase.left_zone {
            let exit = three(&self.out.start, BODY);
            let outside = |y: &[f64]| size(from(exit, three(y, BODY))) > course.zone_m;
            if let Some(k) = (1..GRID.len()).find(|k| outside(&self.states[*k])) {
                let theta = crossing(GRID[k - 1], GRID[k], |theta| {
                    step.read(theta, scratch);
                    outside(scratch)
                });
                offer(theta, Cut::LeftZone);
            }
        }
        if self.phase.caught && !self.phase.risen {
            let rises = |y: &[f64]| y[BODY + SPEED + 2] > 0.0;
            let turns = |k: &usize| !rises(&self.states[*k - 1]) && rises(&self.states[*k]);
            if let Some(k) = (1..GRID.len()).find(turns) {
                let theta = crossing(GRID[k - 1], GRID[k], |theta| {
                    step.read(theta, scratch);
                    rises(scratch)
                });
                offer(theta, Cut::Risen);
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
        let course = self.course;
        let gap = |p: [f64; 3]| {
            let nearest = course.walls.iter().map(|w| w.away_m(p));
            nearest.fold(f64::INFINITY, f64::min) - course.radius_m
        };
        // The path between two looks is no longer than the greatest speed allows, with a margin for
        // the speed between the looks.
        let fastest = 1.25 * self.states.iter().map(|y| speed(y, BODY)).fold(0.0, f64::max);
        let ends = [0, 2].map(|k: usize| three(&self.states[k], BODY));
        if gap(ends[0]) + gap(ends[1]) > fastest * step.h_s {
            return None;
        }
        let scratch = &mut self.scratch;
        let mut at = |theta: f64| -> [f64; 3] {
            step.read(theta, scratch);
            three(scratch, BODY)
        };
        let mut open: Vec<(f64, f64, usize)> =
            (1..GRID.len()).rev().map(|k| (GRID[k - 1], GRID[k], 0)).collect();
        while let Some((from, to, depth)) = open.pop() {
            let (p, q) = (at(from), at(to));
            let touches =
                |wall: &Wall, q: [f64; 3]| wall.away_m(q) <= course.radius_m || wall.crossed(p, q);
            if course.walls.iter().any(|wall| touches(wall, q)) {
                let theta = crossing(from, to, |theta| {
                    let q = at(theta);
                    course.walls.iter().any(|wall| touches(wall, q))
                });
                let q = at(theta);
                let wall = course.walls.iter().position(|wall| touches(wall, q)).unwrap_or(0);
                return Some((theta, wall));
            }
            if depth < GRAZE_DEPTH && gap(p) + gap(q) <= fastest * step.h_s * (to - from) {
                let middle = 0.5 * (from + to);
                open.push((middle, to, depth + 1));
                open.push((from, middle, depth + 1));
            }
        }
        None
    }

    /// How far the body is past its rest position.
    fn past_m(&self, y: &[f64]) -> f64 {
        let (course, p) = (self.course, three(y, BODY));
        (p[0] - course.rest_m[0]) * course.ahead[0] + (p[1] - course.rest_m[1]) * course.ahead[1]
    }

    /// Takes a step into the record: extremes, passes, stillness and samples.
    fn keep<S: Support>(&mut self, model: &mut Model<S>, step: &Step) {
        let seen = [0, 1, 2].map(|k: usize| Seen::new(model, &self.states[k]));
        let both = (&self.states, &seen);
        self.out.watch.take(model, &self.course.walls, step, both, self.phase);
        if let Some((_, after)) = &mut self.out.after {
            after.take(model, &self.course.walls, step, both, self.phase);
        }
        let weight_n = model.body_kg * GRAVITY;
        for k in 1..GRID.len() {
            let t_s = step.t_s + GRID[k] * step.h_s;
            let y = &self.states[k];
            let past = self.past_m(y);
            let side = past > 0.0;
            if self.phase.caught && self.side.is_some_and(|was| was != side) {
                let mut scratch = core::mem::take(&mut self.scratch);
                let before = self.past_m(&self.states[k - 1]);
                let theta = root((GRID[k - 1], before), (GRID[k], past), |theta| {
                    step.read(theta, &mut scratch);
                    self.past_m(&scratch)
                });
                self.scratch = scratch;
                self.out.passes_s.push(step.t_s + theta * step.h_s);
            }
            self.side = Some(side);
            let y = &self.states[k];
            if seen[k].force_n > 0.0 {
                // A chord of the unit sphere: steps turn by hundredths of a radian.
                let [u, v] = [k - 1, k].map(|k| towards_ring(&self.states[k]).0);
                self.out.turned_rad += 2.0 * (0.5 * size(from(u, v))).min(1.0).asin();
            }
            let force = (seen[k].force_n - weight_n).abs() / weight_n;
            let fastest = speed(y, BODY).max(speed(y, RING));
            let still =
                fastest <= self.course.settled_speed_m_per_s && force <= self.course.settled_force;
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
        let place = three(y, BODY);
        match cut {
            Cut::Rope(rope) => {
                self.out.toggle(self.course, &mut self.taut, rope, t_s, y);
                if !self.phase.caught {
                    self.phase.caught = true;
                    self.out.catch(t_s, y);
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
                let speed = Speed::from_si(speed(y, BODY));
                let wall = self.course.walls[wall].name.clone();
                self.out.events.push((t_s, place, Happening::Contact { wall, speed }));
                self.out.ending = Ending::Contact;
                return true;
            }
        }
        false
    }

    /// Takes a part away.
    fn fail<S: Support>(&mut self, model: &mut Model<S>, loss: &Loss, t_s: f64, y: &[f64]) {
        let place = three(y, BODY);
        match &loss.part {
            Part::Rope { .. } => {
                model.ropes[loss.index].lost = true;
                self.taut[loss.index] = false;
            }
            Part::Line { .. } => model.support.lose(loss.index, [true, true]),
            Part::NearAnchor { .. } => model.support.lose(loss.index, [true, false]),
            Part::FarAnchor { .. } => model.support.lose(loss.index, [false, true]),
        }
        self.out.events.push((t_s, place, Happening::Failed { part: loss.part.clone() }));
        self.out.watch.broken();
        match &mut self.out.after {
            Some((_, after)) => after.broken(),
            after @ None => *after = Some((t_s, self.out.watch.again())),
        }
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
    fn catch(&mut self, t_s: f64, y: &[f64]) {
        let drop_m = self.start[BODY + 2] - y[BODY + 2];
        self.caught = Some(Caught { t_s, drop_m, speed_m_per_s: speed(y, BODY) });
    }

    fn toggle(&mut self, course: &Course, taut: &mut [bool], rope: usize, t_s: f64, y: &[f64]) {
        taut[rope] = !taut[rope];
        let name = course.rope_names[rope].clone();
        let what = if taut[rope] {
            Happening::Taut { rope: name }
        } else {
            Happening::Slack { rope: name }
        };
        self.events.push((t_s, three(y, BODY), what));
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
    let [x, left, z] = three(y, BODY);
    series.x_m.push(x);
    series.y_m.push(left);
    series.z_m.push(z);
    let [x, left, z] = three(y, RING);
    series.ring_x_m.push(x);
    series.ring_y_m.push(left);
    series.ring_z_m.push(z);
    series.resultant_n.push(model.body_force_n(y));
    for (rope, column) in series.rope_tension_n.iter_mut().enumerate() {
        column.push(model.tension_n(y, rope));
    }
    for (line, column) in series.line_near_tension_n.iter_mut().enumerate().take(lines) {
        column.push(anchor_n(model, y, line, 0));
    }
}
