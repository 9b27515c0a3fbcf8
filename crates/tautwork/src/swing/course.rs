//! Follows the motion from event to event.

use super::SwingError;
use super::books::Books;
use super::eighth::Eighth;
use super::fault::Part;
use super::flight::{Ending, Happening, Series};
use super::jump::Jump;
use super::model::{BODY, Model, RING, SPEED};
use super::space::size;
use super::support::Support;
use super::terrain::{Body, Wall};
use super::walk::{Cut, Walk};
use super::watch::Watch;
use crate::ode::{Control, Halt};
use crate::quantity::{GRAVITY, Quantity, Time, print};

/// Longest step, s: bounds what can happen unseen between the points of a step.
const LONGEST_S: f64 = 0.1;

/// A step shorter than this is not halved for its books, s.
const SHORT_S: f64 = 1e-4;

/// Everything that does not enter the rates.
#[derive(Debug, Clone)]
pub(super) struct Course {
    pub rope_names: Vec<String>,
    pub stop_names: Vec<String>,
    pub walls: Vec<Wall>,
    pub body: Body,
    pub zone_m: f64,
    pub forces_n: Vec<f64>,
    pub lines: usize,
    pub anchors: Vec<Anchor>,
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

/// What pulls at one anchor.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Anchor {
    pub at_m: [f64; 3],
    /// Lines, each with its near (0) or far (1) end.
    pub ends: Vec<(usize, usize)>,
    pub stops: Vec<usize>,
}

impl Anchor {
    /// Names of what ends there.
    pub fn parts(&self, jump: &Jump) -> Vec<String> {
        let lines = self.ends.iter().map(|(line, _)| jump.lines[*line].name.clone());
        lines.chain(self.stops.iter().map(|stop| jump.stops[*stop].name.clone())).collect()
    }

    /// Size of the sum of all pulls, N, with those of the line ends as they are told.
    pub fn pull_n<S: Support>(
        &self,
        model: &mut Model<S>,
        y: &[f64],
        mut line_n: impl FnMut(&mut Model<S>, usize, usize) -> [f64; 3],
    ) -> f64 {
        let mut sum = [0.0; 3];
        for (line, end) in &self.ends {
            let pull = line_n(model, *line, *end);
            sum = [0, 1, 2].map(|i| sum[i] + pull[i]);
        }
        for stop in &self.stops {
            let pull = model.stop_pull_n(y, *stop);
            // What it does to the ring, it does to the anchor the other way round.
            sum = [0, 1, 2].map(|i| sum[i] - pull[i]);
        }
        size(sum)
    }
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

/// Runs the motion from the state `start` to contact, rest or horizon.
pub(super) fn run<S: Support>(
    model: &mut Model<S>,
    course: &Course,
    start: &[f64],
) -> Result<Outcome, SwingError> {
    // Errors are relative to the size of the jump too, so that they do not depend on where the origin is.
    let long_m = model.ropes.iter().map(|r| r.rest_m).fold(1.0, f64::max);
    let mut atol = vec![course.rtol; model.size()];
    for at in [BODY, RING] {
        atol[at..at + SPEED].fill(course.rtol * long_m);
        atol[at + SPEED..at + 2 * SPEED].fill(course.rtol * (GRAVITY * long_m).sqrt());
    }
    atol[model.books()..].fill(course.rtol * model.low_kg * GRAVITY * long_m);
    let control =
        Control { rtol: course.rtol, atol, longest_s: LONGEST_S, budget: course.most_steps };
    let mut walk = Walk::new(model, course, start);
    let mut ode = Eighth::new(model, start, model.books(), control);
    let mut books = Books::new(model, course.rtol, ode.y());
    let mut faults = course.faults.iter().peekable();
    while ode.t_s < course.horizon_s * (1.0 - 1e-14) {
        while let Some((_, loss)) = faults.next_if(|(at_s, _)| *at_s <= ode.t_s) {
            walk.fail(model, loss, ode.t_s, ode.y());
            walk.out.failed_j += books.restart(model, ode.y());
            ode.restart(model);
        }
        let until_s = faults.peek().map_or(course.horizon_s, |(at_s, _)| *at_s);
        loop {
            ode.advance(model, until_s.min(course.horizon_s) - ode.t_s)
                .map_err(|halt| stopped(halt, &ode, model, course))?;
            if books.hold(model, ode.step.end()) || ode.step.h_s <= SHORT_S {
                break;
            }
            ode.halve();
        }
        walk.look(model, &ode.step);
        let cut = walk.look_for_events(model, &ode.step);
        if let Some((theta, _)) = cut
            && theta < 1.0
        {
            ode.shorten(model, theta).map_err(|halt| stopped(halt, &ode, model, course))?;
            walk.look(model, &ode.step);
            books.hold(model, ode.step.end());
        }
        model.failure = None;
        walk.keep(model, &ode.step);
        ode.commit();
        if !books.keep() {
            return Err(stopped(Halt::Stalled, &ode, model, course));
        }
        walk.out.steps += 1;
        if let Some((_, cut)) = cut {
            if walk.pass_event(model, cut, ode.t_s, ode.y()) {
                break;
            }
            if cut == Cut::Cords {
                ode.renew(model);
            }
        }
        if walk.settled(ode.t_s) {
            break;
        }
    }
    let mut out = walk.done();
    out.drift_j = books.drift_j;
    out.t_s = ode.t_s;
    out.attempts = ode.attempts;
    out.end_j = model.energy_j(ode.y());
    out.end = ode.y().to_vec();
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
