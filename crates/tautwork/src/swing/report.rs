//! From what happened to what is answered.

use super::books::{books, fold};
use super::course::{Course, Outcome};
use super::fault::AfterFault;
use super::figure::Figure;
use super::flight::{
    AnchorResult, Catch, Clearance, Event, Extreme, Flight, Happening, LineResult, Rest,
    RingResult, RopeResult, TimeAbove, Work,
};
use super::jump::{Jump, Place};
use super::model::{BODY, Model, RING};
use super::note::Note;
use super::setup::Setup;
use super::space::{size, three};
use super::support::Support;
use super::terrain::Wall;
use super::watch::Best;
use super::{Ending, SwingError};
use crate::quantity::{Force, GRAVITY, Length, Quantity, Ratio, Speed, Time, print};

/// Pulls of a line on its near and far anchor before the jump, N.
pub(super) type Standing = [[f64; 3]; 2];

/// Pulls of all lines on their anchors before the jump.
pub(super) fn standing<S: Support>(
    model: &mut Model<S>,
    start: &[f64],
    lines: usize,
) -> Result<Vec<Standing>, SwingError> {
    let ring = three(start, RING);
    let mut of = |line, end| {
        let failed = |problem| SwingError::Lines { time: print(Time::from_si(0.0)), problem };
        model.support.anchor_pull_n(ring, line, end).map_err(failed)
    };
    (0..lines).map(|line| Ok([of(line, 0)?, of(line, 1)?])).collect()
}

/// The whole answer.
pub(super) fn report<S: Support>(
    jump: &Jump,
    mut setup: Setup<S>,
    standing: &[Standing],
    out: Outcome,
) -> Result<Flight, SwingError> {
    let model = &mut setup.model;
    let catch = catch(&out);
    let mut notes = notes(jump, model, &setup.start, &out);
    let rise = catch.as_ref().and_then(|c| c.rise_time);
    let lines = lines(jump, &out, standing, rise, &mut notes);
    let rest = match setup.rest {
        None => None,
        Some(Ok((ring, body))) => Some(Rest { ring: Place::of_m(ring), body: Place::of_m(body) }),
        Some(Err(problem)) => {
            notes.push(Note::NoRest { problem: problem.to_string() });
            None
        }
    };
    let low = best(&out, Figure::Low)?;
    let resultant = best(&out, Figure::Resultant)?;
    let weight_n = model.body_kg * GRAVITY;
    let clearance =
        |figure, wall: String| Some(cleared(&setup.course, out.watch.best(figure)?, wall));
    let body = &setup.course.body;
    let exit_axis = out.watch.best(Figure::Exit).map(|b| b.axis(body));
    let at_exit = |wall: &Wall| exit_axis.map_or(f64::INFINITY, |axis| body.away_m(wall, axis));
    let exit_clearance = clearance(Figure::Exit, String::new()).map(|mut c| {
        let nearest = setup.course.walls.iter().min_by(|a, b| at_exit(a).total_cmp(&at_exit(b)));
        c.wall = nearest.map_or_else(String::new, |w| w.name.clone());
        c
    });
    let walls = setup.course.walls.iter().enumerate();
    let clearances: Vec<Clearance> =
        walls.filter_map(|(i, w)| clearance(Figure::Wall(i), w.name.clone())).collect();
    let ropes = cords(jump.ropes.iter().map(|r| &r.name), Figure::Rope, at_body, &out)?;
    let stops = cords(jump.stops.iter().map(|s| &s.name), Figure::Stop, at_ring, &out)?;
    let anchors = anchors(jump, model, &setup.course, standing, &out);
    let ring = ring_result(&setup.start, &out, at_ring(resultant, model.low_kg / model.body_kg))?;
    let first_lowest = out.risen.map(|(t_s, p)| Extreme {
        value: Length::from_si(p[2]),
        time: Time::from_si(t_s),
        place: Place::of_m(p),
    });
    let acceleration = best(&out, Figure::Acceleration)?;
    let drop_m = setup.start[BODY + 2] + low.value;
    Ok(Flight {
        run: jump.run,
        ending: out.ending,
        duration: Time::from_si(out.t_s),
        events: events(&out, &clearances, low, resultant),
        ropes,
        tension_over_weight: Ratio::from_si(resultant.value / weight_n),
        resultant: at_body(resultant, 1.0),
        acceleration_over_g: at_body(acceleration, 1.0 / GRAVITY),
        time_above: jump
            .timed_forces
            .iter()
            .zip(&out.watch.above_s)
            .map(|(force, s)| TimeAbove {
                force: *force,
                over_weight: Ratio::from_si(force.si() / weight_n),
                duration: Time::from_si(*s),
            })
            .collect(),
        lowest: at_body(low, -1.0),
        height_left: height_left(&setup.course, low),
        first_lowest,
        leftmost: at_body(best(&out, Figure::Left)?, 1.0),
        rightmost: at_body(best(&out, Figure::Right)?, -1.0),
        top_speed: at_body(best(&out, Figure::Speed)?, 1.0),
        lines,
        stops,
        anchors,
        ring,
        exit_clearance,
        clearances,
        rest,
        settled: out.settled_s.map(Time::from_si),
        swing_period: period(&out.passes_s),
        swings: swings(&out),
        turned: Ratio::from_si(out.turned_rad),
        after_fault: after_fault(jump, &setup.course, &out),
        energy: books(model, &out, drop_m),
        fold: fold(model, catch.as_ref()),
        series: out.series,
        notes,
        assumed: setup.assumed,
        work: Work { steps: out.steps, attempts: out.attempts },
        catch,
    })
}

/// Peak tensions of ropes or stops.
fn cords<'a>(
    names: impl Iterator<Item = &'a String>,
    figure: fn(usize) -> Figure,
    at: fn(Best, f64) -> Extreme<Force>,
    out: &Outcome,
) -> Result<Vec<RopeResult>, SwingError> {
    let each = names.enumerate().map(|(i, name)| {
        Ok(RopeResult { name: name.clone(), tension: at(best(out, figure(i))?, 1.0) })
    });
    each.collect()
}

fn ring_result(
    start: &[f64],
    out: &Outcome,
    load: Extreme<Force>,
) -> Result<RingResult, SwingError> {
    let extreme = |figure, sign| Ok::<_, SwingError>(at_ring(best(out, figure)?, sign));
    Ok(RingResult {
        start: Place::of_m(three(start, RING)),
        load,
        lowest: extreme(Figure::RingLow, -1.0)?,
        highest: extreme(Figure::RingHigh, 1.0)?,
        nearest: extreme(Figure::RingNear, -1.0)?,
        farthest: extreme(Figure::RingFar, 1.0)?,
    })
}

fn catch(out: &Outcome) -> Option<Catch> {
    let peak = out.risen.and(out.watch.best(Figure::CatchPeak));
    out.caught.map(|c| Catch {
        time: Time::from_si(c.t_s),
        drop: Length::from_si(c.drop_m),
        speed: Speed::from_si(c.speed_m_per_s),
        rise_time: peak.map(|peak| Time::from_si(peak.t_s - c.t_s)),
    })
}

/// Notes on how the run began and ended.
fn notes<S: Support>(jump: &Jump, model: &Model<S>, start: &[f64], out: &Outcome) -> Vec<Note> {
    let mut notes = Vec::new();
    if out.caught.is_none() {
        notes.push(Note::NeverTaut);
    }
    for (i, rope) in jump.ropes.iter().enumerate() {
        if model.trial_n(start, i) > 0.0 {
            notes.push(Note::TautAtExit { rope: rope.name.clone() });
        }
    }
    if !jump.walls.is_empty() && !out.left_zone {
        notes.push(Note::LaunchZoneNotLeft);
    }
    match out.ending {
        Ending::Contact => {
            let wall = out.events.iter().rev().find_map(|(_, _, what)| match what {
                Happening::Contact { wall, .. } => Some(wall.clone()),
                _ => None,
            });
            notes.push(Note::Contact { wall: wall.unwrap_or_default() });
        }
        Ending::Horizon => notes.push(Note::NotSettled),
        Ending::Settled => {}
    }
    notes
}

/// The best value of a figure that every run has.
fn best(out: &Outcome, figure: Figure) -> Result<Best, SwingError> {
    let time = || print(Time::from_si(out.t_s));
    out.watch.best(figure).ok_or_else(|| SwingError::Stalled { time: time() })
}

fn extreme<Q: Quantity>(b: Best, p: [f64; 3], scale: f64) -> Extreme<Q> {
    Extreme {
        value: Q::from_si(scale * b.value),
        time: Time::from_si(b.t_s),
        place: Place::of_m(p),
    }
}

fn at_body<Q: Quantity>(b: Best, scale: f64) -> Extreme<Q> {
    extreme(b, b.body_m, scale)
}

fn at_ring<Q: Quantity>(b: Best, scale: f64) -> Extreme<Q> {
    extreme(b, b.ring_m, scale)
}

/// Peaks from the first fault on.
fn after_fault(jump: &Jump, course: &Course, out: &Outcome) -> Option<AfterFault> {
    let (t_s, watch) = out.after.as_ref()?;
    let peaks =
        |names: Vec<&String>, figure: fn(usize) -> Figure, at: fn(Best, f64) -> Extreme<Force>| {
            let peak = |(i, name): (usize, &String)| {
                let best = watch.best(figure(i))?;
                Some(RopeResult { name: name.clone(), tension: at(best, 1.0) })
            };
            names.into_iter().enumerate().filter_map(peak).collect::<Vec<_>>()
        };
    let lines = || jump.lines.iter().map(|l| &l.name).collect::<Vec<_>>();
    let anchors = (0..course.anchors.len()).filter_map(|i| watch.best(Figure::Anchor(i)));
    let walls = course.walls.iter().enumerate().filter_map(|(i, wall)| {
        Some(cleared(course, watch.best(Figure::Wall(i))?, wall.name.clone()))
    });
    Some(AfterFault {
        time: Time::from_si(*t_s),
        resultant: at_body(watch.best(Figure::Resultant)?, 1.0),
        ropes: peaks(jump.ropes.iter().map(|r| &r.name).collect(), Figure::Rope, at_body),
        stops: peaks(jump.stops.iter().map(|s| &s.name).collect(), Figure::Stop, at_ring),
        lines_near: peaks(lines(), |i| Figure::LineEnd(i, 0), at_ring),
        lines_far: peaks(lines(), |i| Figure::LineEnd(i, 1), at_ring),
        anchors: anchors.map(|best| at_ring(best, 1.0)).collect(),
        lowest: at_body(watch.best(Figure::Low)?, -1.0),
        ring_lowest: watch.best(Figure::RingLow).map(|best| at_ring(best, -1.0)),
        clearances: walls.collect(),
    })
}

/// Nearest approach to a wall, from the negated distance of the axis of the body.
fn cleared(course: &Course, best: Best, wall: String) -> Clearance {
    let value = Length::from_si((-best.value - course.body.radius_m).max(0.0));
    Clearance { wall, least: Extreme { value, ..at_body(best, 1.0) } }
}

/// A peak at the ring, or what stood before if there is none.
fn peak_or(out: &Outcome, figure: Figure, standing_n: f64) -> Extreme<Force> {
    match out.watch.best(figure) {
        Some(best) => at_ring(best, 1.0),
        None => Extreme {
            value: Force::from_si(standing_n),
            time: Time::from_si(0.0),
            place: Place::of_m(three(&out.start, RING)),
        },
    }
}

/// Results of the lines, with a note for each whose quasi-static answer does not hold, Eq. (12).
fn lines(
    jump: &Jump,
    out: &Outcome,
    standing: &[Standing],
    rise: Option<Time>,
    notes: &mut Vec<Note>,
) -> Vec<LineResult> {
    let mut results = Vec::new();
    for (i, line) in jump.lines.iter().enumerate() {
        let [near_n, far_n] = standing[i].map(size);
        let long_m = line.near_length.si().max(line.far_length.si());
        let density = line.linear_density.si();
        let wave_s =
            if density == 0.0 { Some(0.0) } else { Some(2.0 * long_m * (density / near_n).sqrt()) };
        let wave_time = wave_s.filter(|s| s.is_finite()).map(Time::from_si);
        if let Some(rise_time) = rise
            && wave_time.is_none_or(|wave| wave.si() >= 0.5 * rise_time.si())
        {
            notes.push(Note::QuasiStaticNotValid { line: line.name.clone(), wave_time, rise_time });
        }
        let peak = |end, standing_n| peak_or(out, Figure::LineEnd(i, end), standing_n);
        let near: Extreme<Force> = peak(0, near_n);
        let far: Extreme<Force> = peak(1, far_n);
        if line.stretch.is_past_table(near.value) || line.stretch.is_past_table(far.value) {
            notes.push(Note::PastTable { line: line.name.clone() });
        }
        results.push(LineResult {
            name: line.name.clone(),
            near_standing: Force::from_si(near_n),
            far_standing: Force::from_si(far_n),
            near,
            far,
            wave_time,
        });
    }
    results
}

/// Results of the anchors.
fn anchors<S: Support>(
    jump: &Jump,
    model: &Model<S>,
    course: &Course,
    standing: &[Standing],
    out: &Outcome,
) -> Vec<AnchorResult> {
    let each = course.anchors.iter().enumerate().map(|(i, anchor)| {
        let mut sum = [0.0; 3];
        for (line, end) in &anchor.ends {
            sum = [0, 1, 2].map(|k| sum[k] + standing[*line][*end][k]);
        }
        for stop in &anchor.stops {
            let pull = model.stop_pull_n(&out.start, *stop);
            sum = [0, 1, 2].map(|k| sum[k] - pull[k]);
        }
        let standing_n = size(sum);
        AnchorResult {
            place: Place::of_m(anchor.at_m),
            parts: anchor.parts(jump),
            standing: Force::from_si(standing_n),
            peak: peak_or(out, Figure::Anchor(i), standing_n),
        }
    });
    each.collect()
}

/// Free height under the body at its lowest point.
fn height_left(course: &Course, low: Best) -> Option<Length> {
    course.body.height_m(&course.walls, low.axis(&course.body)).map(Length::from_si)
}

/// Mean time of a whole swing from the passes of the rest position, two to a swing.
fn period(passes_s: &[f64]) -> Option<Time> {
    let (first, last) = (passes_s.first()?, passes_s.last()?);
    let halves = passes_s.len() - 1;
    (halves >= 2).then(|| Time::from_si(2.0 * (last - first) / halves as f64))
}

/// Whole swings before the motion had settled: two passes each.
fn swings(out: &Outcome) -> usize {
    let until_s = out.settled_s.unwrap_or(out.t_s);
    out.passes_s.iter().filter(|t_s| **t_s <= until_s).count() / 2
}

fn events(out: &Outcome, clearances: &[Clearance], low: Best, peak: Best) -> Vec<Event> {
    let mut events = Vec::new();
    let mut at = |b: Best, what| {
        events.push(Event { time: Time::from_si(b.t_s), place: Place::of_m(b.body_m), what });
    };
    at(low, Happening::Lowest);
    if peak.value > 0.0 {
        at(peak, Happening::Peak);
    }
    for c in clearances {
        let what = Happening::NearestApproach { wall: c.wall.clone() };
        events.push(Event { time: c.least.time, place: c.least.place, what });
    }
    // The sort keeps equal times in order: what ends the run comes last.
    events.extend(out.events.iter().map(|(t_s, p, what)| Event {
        time: Time::from_si(*t_s),
        place: Place::of_m(*p),
        what: what.clone(),
    }));
    let end = Place::of_m(three(&out.end, BODY));
    match out.ending {
        Ending::Settled => {
            let time = Time::from_si(out.settled_s.unwrap_or(out.t_s));
            events.push(Event { time, place: end, what: Happening::Settled });
        }
        Ending::Horizon => {
            events.push(Event {
                time: Time::from_si(out.t_s),
                place: end,
                what: Happening::Horizon,
            });
        }
        Ending::Contact => {}
    }
    events.sort_by(|a, b| a.time.si().total_cmp(&b.time.si()));
    events
}
