//! The events of a jump, looked for inside each step.

use super::branch::leaves;
use super::course::{Caught, Course, Loss, Outcome};
use super::fault::Part;
use super::flight::{Ending, Happening, Series};
use super::inside::crossing;
use super::look::Look;
use super::model::{BODY, Model, RING, SPEED, speed};
use super::space::{from, size, three};
use super::step::Step;
use super::support::Support;
use super::terrain::Wall;
use super::watch::{GRID, Phase, Watch};
use crate::quantity::{Quantity, Speed};

/// An event closer than this to the start of a step happens at the start, or this much after it, s.
const AT_ONCE_S: f64 = 1e-9;
/// Halvings of a half step in the search for a touch: at 30 m/s the body moves 6 mm between looks.
const TOUCH_DEPTH: usize = 8;

/// Something that ends a step early. Cords are jump ropes, and after those stops of the ring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Cut {
    Cords,
    LeftZone,
    Risen,
    Contact(usize),
}

/// The state of a run between two steps, and its record so far.
pub(super) struct Walk<'a> {
    pub course: &'a Course,
    /// Whether each cord changes its branch at the first event of cords in the step.
    changes: Vec<bool>,
    pub phase: Phase,
    /// On which side of the rest position the body is.
    pub side: Option<bool>,
    pub still_since_s: Option<f64>,
    pub samples: usize,
    /// The present step at the points of [`GRID`].
    pub looks: [Look; 3],
    pub scratch: Vec<f64>,
    pub pulls_n: Vec<[[f64; 3]; 2]>,
    pub out: Outcome,
}

impl<'a> Walk<'a> {
    pub fn new<S: Support>(model: &mut Model<S>, course: &'a Course, start: &[f64]) -> Self {
        for cord in 0..model.cords() {
            model.put(cord, model.trial_n(start, cord) > 0.0);
        }
        let start_j = model.energy_j(start);
        let columns = |n: usize| vec![Vec::new(); n];
        let mut walk = Self {
            course,
            changes: vec![false; model.cords()],
            phase: Phase::default(),
            side: None,
            still_since_s: None,
            samples: 0,
            looks: core::array::from_fn(|_| Look::new(model, start, course.lines)),
            pulls_n: vec![[[0.0; 3]; 2]; course.lines],
            scratch: start.to_vec(),
            out: Outcome {
                watch: Watch::new(model, course),
                events: vec![(0.0, three(start, BODY), Happening::LeavesEdge)],
                caught: None,
                risen: None,
                left_zone: false,
                ending: Ending::Horizon,
                t_s: 0.0,
                start: start.to_vec(),
                end: start.to_vec(),
                drift_j: 0.0,
                start_j,
                end_j: start_j,
                failed_j: 0.0,
                after: None,
                passes_s: Vec::new(),
                turned_rad: 0.0,
                settled_s: None,
                series: Series {
                    rope_tension_n: columns(model.ropes.len()),
                    stop_tension_n: columns(model.stops.len()),
                    line_near_tension_n: columns(course.lines),
                    line_far_tension_n: columns(course.lines),
                    anchor_force_n: columns(course.anchors.len()),
                    ..Series::default()
                },
                steps: 0,
                attempts: 0,
            },
        };
        if model.hangs() {
            walk.catch(0.0, start);
        }
        walk
    }

    /// The record of the whole run.
    pub fn done(self) -> Outcome {
        Outcome { left_zone: self.phase.left_zone, ..self.out }
    }

    /// Reads a step after its start, which is the end of the step before.
    pub fn look<S: Support>(&mut self, model: &Model<S>, step: &Step) {
        let [_, middle, end] = &mut self.looks;
        step.read(GRID[1], &mut middle.y);
        end.y.copy_from_slice(step.end());
        middle.renew(model);
        end.renew(model);
    }

    /// The first event inside a step, as a fraction of it.
    pub fn look_for_events<S: Support>(
        &mut self,
        model: &Model<S>,
        step: &Step,
    ) -> Option<(f64, Cut)> {
        let mut first: Option<(f64, Cut)> = None;
        let mut offer = |theta: Option<f64>, cut: Cut| {
            if let Some(theta) = theta
                && first.as_ref().is_none_or(|(t, _)| theta < *t)
            {
                first = Some((theta, cut));
            }
        };
        // Ropes of one length go taut together.
        let at_once = (AT_ONCE_S / step.h_s).min(1.0);
        let mut soonest = f64::INFINITY;
        for cord in 0..self.changes.len() {
            let change = self.change(model, step, cord).filter(|theta| *theta <= soonest + at_once);
            self.changes[cord] = change.is_some();
            if let Some(theta) = change {
                if theta < soonest - at_once {
                    self.changes[..cord].fill(false);
                }
                soonest = theta.min(soonest);
                offer(change, Cut::Cords);
            }
        }
        if !self.phase.left_zone {
            let exit = three(&self.out.start, BODY);
            let zone_m = self.course.zone_m;
            let outside = |y: &[f64]| size(from(exit, three(y, BODY))) > zone_m;
            // It was inside, or this would have been booked.
            offer(self.turns(step, false, outside), Cut::LeftZone);
        }
        if self.phase.caught && !self.phase.risen {
            let rises = |y: &[f64]| y[BODY + SPEED + 2] > 0.0;
            let rising = rises(&self.looks[0].y);
            offer(self.turns(step, rising, rises), Cut::Risen);
        }
        if !self.course.walls.is_empty()
            && let Some((theta, wall)) = self.contact(model, step)
        {
            offer(Some(theta), Cut::Contact(wall));
        }
        // A body at rest turns by rounding alone, too soon after the start for a step up to there.
        first.map(|(theta, cut)| (theta.max(at_once), cut))
    }

    /// Where a condition first turns true in a step, from what it was at the start.
    fn turns(
        &mut self,
        step: &Step,
        mut before: bool,
        holds: impl Fn(&[f64]) -> bool,
    ) -> Option<f64> {
        for k in 1..GRID.len() {
            let now = holds(&self.looks[k].y);
            if now && !before {
                let scratch = &mut self.scratch;
                return Some(crossing(GRID[k - 1], GRID[k], |theta| {
                    step.read(theta, scratch);
                    holds(scratch)
                }));
            }
            before = now;
        }
        None
    }

    /// Where a cord goes taut or slack in a step.
    fn change<S: Support>(&mut self, model: &Model<S>, step: &Step, cord: usize) -> Option<f64> {
        let trials_n = [0, 1, 2].map(|k: usize| self.looks[k].trial_n(model, cord));
        let scratch = &mut self.scratch;
        leaves(trials_n, model.cord(cord).taut, |theta| {
            step.read(theta, scratch);
            model.trial_n(scratch, cord)
        })
    }

    /// First contact inside a step: the body within its radius of a wall, or its path across one.
    fn contact<S: Support>(&mut self, model: &Model<S>, step: &Step) -> Option<(f64, usize)> {
        let course = self.course;
        let body = &course.body;
        let taut = model.hangs();
        let gap = |axis: [[f64; 3]; 2]| {
            let nearest = course.walls.iter().map(|w| body.away_m(w, axis));
            nearest.fold(f64::INFINITY, f64::min) - body.radius_m
        };
        let fast = |look: &Look| {
            let speeds = [speed(&look.y, BODY), speed(&look.y, RING)];
            body.speed_m_per_s(speeds, look.seen.distance_m, taut)
        };
        let axis = |y: &[f64]| body.axis(three(y, BODY), three(y, RING), taut);
        // The path between two looks is no longer than the greatest speed allows, with a margin for
        // the speed between the looks.
        let fastest = 1.25 * self.looks.iter().map(fast).fold(0.0, f64::max);
        let ends = [0, 2].map(|k: usize| axis(&self.looks[k].y));
        if gap(ends[0]) + gap(ends[1]) > fastest * step.h_s {
            return None;
        }
        let scratch = &mut self.scratch;
        let mut at = |theta: f64| {
            step.read(theta, scratch);
            axis(scratch)
        };
        let mut open: Vec<(f64, f64, usize)> =
            (1..GRID.len()).rev().map(|k| (GRID[k - 1], GRID[k], 0)).collect();
        while let Some((from, to, depth)) = open.pop() {
            let (p, q) = (at(from), at(to));
            let touches = |wall: &Wall, q| body.touches(wall, p, q);
            if course.walls.iter().any(|wall| touches(wall, q)) {
                let theta = crossing(from, to, |theta| {
                    let q = at(theta);
                    course.walls.iter().any(|wall| touches(wall, q))
                });
                let q = at(theta);
                let wall = course.walls.iter().position(|wall| touches(wall, q)).unwrap_or(0);
                return Some((theta, wall));
            }
            if depth < TOUCH_DEPTH && gap(p) + gap(q) <= fastest * step.h_s * (to - from) {
                let middle = 0.5 * (from + to);
                open.push((middle, to, depth + 1));
                open.push((from, middle, depth + 1));
            }
        }
        None
    }

    /// Books the event at the end of a step; true if it ends the run.
    pub fn pass_event<S: Support>(
        &mut self,
        model: &mut Model<S>,
        cut: Cut,
        t_s: f64,
        y: &[f64],
    ) -> bool {
        let place = three(y, BODY);
        match cut {
            Cut::Cords => {
                for cord in 0..self.changes.len() {
                    if self.changes[cord] {
                        let taut = !model.cord(cord).taut;
                        model.put(cord, taut);
                        book(self.course, &mut self.out, (cord, taut), t_s, y);
                    }
                }
                // What the fold does changes with the branch.
                self.looks[0].renew(model);
                if model.hangs() && !self.phase.caught {
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
    pub fn fail<S: Support>(&mut self, model: &mut Model<S>, loss: &Loss, t_s: f64, y: &[f64]) {
        match &loss.part {
            Part::Rope { .. } => {
                let rope = &mut model.ropes[loss.index];
                (rope.lost, rope.taut) = (true, false);
            }
            Part::Stop { .. } => {
                let rope = &mut model.stops[loss.index].rope;
                (rope.lost, rope.taut) = (true, false);
            }
            Part::Line { .. } => model.support.lose(loss.index, [true, true]),
            Part::NearAnchor { .. } => model.support.lose(loss.index, [true, false]),
            Part::FarAnchor { .. } => model.support.lose(loss.index, [false, true]),
        }
        self.looks[0].renew(model);
        self.out.events.push((t_s, three(y, BODY), Happening::Failed { part: loss.part.clone() }));
        self.out.watch.broken();
        match &mut self.out.after {
            Some((_, after)) => after.broken(),
            after @ None => *after = Some((t_s, self.out.watch.again())),
        }
    }

    fn catch(&mut self, t_s: f64, y: &[f64]) {
        self.phase.caught = true;
        self.out.caught = Some(caught(&self.out.start, t_s, y));
    }

    pub fn settled(&mut self, t_s: f64) -> bool {
        let Some(since_s) = self.still_since_s else { return false };
        let settled = t_s - since_s >= self.course.settled_for_s;
        if settled {
            self.out.settled_s = Some(since_s);
            self.out.ending = Ending::Settled;
        }
        settled
    }
}

fn caught(start: &[f64], t_s: f64, y: &[f64]) -> Caught {
    Caught { t_s, drop_m: start[BODY + 2] - y[BODY + 2], speed_m_per_s: speed(y, BODY) }
}

/// Books a cord that went taut or slack.
fn book(course: &Course, out: &mut Outcome, (cord, taut): (usize, bool), t_s: f64, y: &[f64]) {
    let ropes = course.rope_names.len();
    let what = match (cord.checked_sub(ropes), taut) {
        (None, true) => Happening::Taut { rope: course.rope_names[cord].clone() },
        (None, false) => Happening::Slack { rope: course.rope_names[cord].clone() },
        (Some(i), true) => Happening::StopTaut { stop: course.stop_names[i].clone() },
        (Some(i), false) => Happening::StopSlack { stop: course.stop_names[i].clone() },
    };
    out.events.push((t_s, three(y, BODY), what));
}
