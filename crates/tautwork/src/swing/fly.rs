//! One run of a jump, from exit to rest.

use super::course::{Loss, Outcome, run};
use super::fault::{AfterFault, Part, When};
use super::flight::{
    Catch, Clearance, EnergyBooks, Event, Extreme, Flight, FoldBound, Happening, LineResult, Rest,
    RingResult, RopeResult, TimeAbove, Work,
};
use super::jump::{Jump, Place};
use super::jumps::Jumps;
use super::model::{BODY, Model, RING};
use super::note::Note;
use super::setup::{Setup, set_up};
use super::space::three;
use super::support::{Nothing, Support};
use super::watch::{Best, Figure};
use super::{Ending, SwingError};
use crate::quantity::check::non_negative;
use crate::quantity::{Energy, Force, GRAVITY, Length, Quantity, Ratio, Speed, Time};

/// Follows a jump with the ropes of one run, stiff or soft, over its whole history.
///
/// Reduced model in space, Eq. (1) to (18): valid while the lines answer as if at rest (a
/// note says for which line that fails) and while rope mass is small against the jumper.
///
/// # Errors
/// [`SwingError`]: inputs out of range or in contradiction, a start in contact with a wall, a ring
/// without equilibrium, or more steps than allowed.
///
/// # Example
/// ```
/// use tautwork::quantity::{ReadForce, Words};
/// use tautwork::swing::{Fold, Follow, Jump, Place, Response, Rope, Run, fly};
/// let at = |x: f64, z: f64| Place { x: x.meters(), y: 0.0.meters(), z: z.meters() };
/// // Straight down from the ring on a lossless rope: F = W + sqrt(W² + 2 W EA f) with f = 1.
/// let jump = Jump {
///     mass: 80.0.kilograms(),
///     drag_area: 0.0.square_meters(),
///     exit: at(0.0, 0.0),
///     exit_speed_x: 0.0.meters_per_second(),
///     exit_speed_y: 0.0.meters_per_second(),
///     exit_speed_z: 0.0.meters_per_second(),
///     ropes: vec![Rope {
///         name: "rope".to_owned(),
///         rest_length: 10.0.meters(),
///         linear_density: 0.0.grams_per_meter(),
///         response: Response::Pair {
///             stiff: 20.0.kilonewtons(),
///             soft: 10.0.kilonewtons(),
///             relaxation: None,
///         },
///     }],
///     lines: vec![],
///     ring_mass: 0.0.kilograms(),
///     fixed_ring: Some(at(0.0, 0.0)),
///     ring_at_exit: None,
///     ring_damping: None,
///     line_mass_share: None,
///     rope_drag_area: None,
///     air_density: None,
///     wind: None,
///     wind_y: None,
///     fold: Fold::Neglected,
///     faults: vec![],
///     walls: vec![],
///     body_radius: 1.0.meters(),
///     launch_zone: None,
///     timed_forces: vec![],
///     run: Run::Stiff,
///     follow: Follow { horizon: 4.0.seconds(), ..Follow::default() },
/// };
/// let flight = fly(&jump)?;
/// assert!((flight.resultant.value.in_kilonewtons() - 6.442).abs() < 1e-3);
/// assert!(fly(&Jump { mass: 0.0.kilograms(), ..jump }).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn fly(jump: &Jump) -> Result<Flight, SwingError> {
    if jump.fixed_ring.is_some() {
        return on_fixed_ring(jump);
    }
    Jumps::new(&jump.lines)?.fly(jump)
}

/// A jump from a ring that does not move.
pub(super) fn on_fixed_ring(jump: &Jump) -> Result<Flight, SwingError> {
    finish(jump, set_up(jump, Nothing, [0.0; 3])?)
}

/// Runs a jump that is set up, with its faults.
pub(super) fn finish<S: Support + Clone>(
    jump: &Jump,
    mut setup: Setup<S>,
) -> Result<Flight, SwingError> {
    let standing = standing(&mut setup.model, &setup.start, jump.lines.len())?;
    setup.course.faults = faults(jump, &setup)?;
    let out = run(&mut setup.model, &setup.course, setup.start.clone())?;
    let model = &mut setup.model;
    let catch = catch(&out);
    let mut notes = notes(jump, model, &setup.start, &out);
    let rise = catch.as_ref().and_then(|c| c.rise_time);
    let lines = lines(jump, &out, &standing, rise, &mut notes);
    let rest = match setup.rest {
        None => None,
        Some(Ok((ring, body))) => Some(Rest { ring: place(ring), body: place(body) }),
        Some(Err(problem)) => {
            notes.push(Note::NoRest { problem: problem.to_string() });
            None
        }
    };
    let low = best(&out, Figure::Low)?;
    let resultant = best(&out, Figure::Resultant)?;
    let weight_n = model.body_kg * GRAVITY;
    let clearance = |figure, wall: String| {
        out.watch.best(figure).map(|b| {
            let value = Length::from_si((-b.value - setup.course.radius_m).max(0.0));
            Clearance { wall, least: Extreme { value, ..at_body(b, 1.0) } }
        })
    };
    let exit_clearance = clearance(Figure::Exit, String::new()).map(|mut c| {
        let at = [c.least.place.x.si(), c.least.place.y.si(), c.least.place.z.si()];
        let nearest =
            setup.course.walls.iter().min_by(|a, b| a.away_m(at).total_cmp(&b.away_m(at)));
        c.wall = nearest.map_or_else(String::new, |w| w.name.clone());
        c
    });
    let walls = setup.course.walls.iter().enumerate();
    let clearances: Vec<Clearance> =
        walls.filter_map(|(i, w)| clearance(Figure::Wall(i), w.name.clone())).collect();
    let ropes = jump.ropes.iter().enumerate().map(|(i, rope)| {
        Ok(RopeResult {
            name: rope.name.clone(),
            tension: at_body(best(&out, Figure::Rope(i))?, 1.0),
        })
    });
    let ropes = ropes.collect::<Result<_, SwingError>>()?;
    let ring_extreme = |figure, sign| Ok::<_, SwingError>(at_ring(best(&out, figure)?, sign));
    let ring = RingResult {
        start: place(three(&setup.start, RING)),
        lowest: ring_extreme(Figure::RingLow, -1.0)?,
        highest: ring_extreme(Figure::RingHigh, 1.0)?,
        nearest: ring_extreme(Figure::RingNear, -1.0)?,
        farthest: ring_extreme(Figure::RingFar, 1.0)?,
    };
    let first_lowest = out.risen.map(|(t_s, p)| Extreme {
        value: Length::from_si(p[2]),
        time: Time::from_si(t_s),
        place: place(p),
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
        first_lowest,
        leftmost: at_body(best(&out, Figure::Left)?, 1.0),
        rightmost: at_body(best(&out, Figure::Right)?, -1.0),
        top_speed: at_body(best(&out, Figure::Speed)?, 1.0),
        lines,
        ring,
        exit_clearance,
        clearances,
        rest,
        settled: out.settled_s.map(Time::from_si),
        swing_period: period(&out.passes_s),
        swings: swings(&out),
        turned: Ratio::from_si(out.turned_rad),
        after_fault: after_fault(jump, &out),
        energy: books(model, &out, drop_m),
        fold: fold(model, catch.as_ref()),
        series: out.series,
        notes,
        assumed: setup.assumed,
        work: Work { steps: out.steps, attempts: out.attempts },
        catch,
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

fn place(p: [f64; 3]) -> Place {
    let [x, y, z] = p.map(Length::from_si);
    Place { x, y, z }
}

/// The best value of a figure that every run has.
fn best(out: &Outcome, figure: Figure) -> Result<Best, SwingError> {
    let time = || crate::quantity::print(Time::from_si(out.t_s));
    out.watch.best(figure).ok_or_else(|| SwingError::Stalled { time: time() })
}

fn extreme<Q: Quantity>(b: Best, p: [f64; 3], scale: f64) -> Extreme<Q> {
    Extreme { value: Q::from_si(scale * b.value), time: Time::from_si(b.t_s), place: place(p) }
}

fn at_body<Q: Quantity>(b: Best, scale: f64) -> Extreme<Q> {
    extreme(b, b.body_m, scale)
}

fn at_ring<Q: Quantity>(b: Best, scale: f64) -> Extreme<Q> {
    extreme(b, b.ring_m, scale)
}

/// Tensions at both anchors of each line before the jump.
fn standing<S: Support>(
    model: &mut Model<S>,
    start: &[f64],
    lines: usize,
) -> Result<Vec<[f64; 2]>, SwingError> {
    let ring = three(start, RING);
    let mut of = |line, end| {
        model.support.anchor_n(ring, line, end).map_err(|problem| SwingError::Lines {
            time: crate::quantity::print(Time::from_si(0.0)),
            problem,
        })
    };
    (0..lines).map(|line| Ok([of(line, 0)?, of(line, 1)?])).collect()
}

/// When each fault happens. Peaks are those of the jump in which nothing fails.
fn faults<S: Support + Clone>(
    jump: &Jump,
    setup: &Setup<S>,
) -> Result<Vec<(f64, Loss)>, SwingError> {
    let mut faults = Vec::new();
    let mut intact: Option<Outcome> = None;
    for (i, fault) in jump.faults.iter().enumerate() {
        let key = format!("faults[{i}]");
        let index = fault.part.index(jump, &key)?;
        let at_s = if let When::Time { at } = fault.when {
            non_negative(&format!("{key}.when.at"), at)?
        } else {
            if intact.is_none() {
                let mut model = setup.model.clone();
                intact = Some(run(&mut model, &setup.course, setup.start.clone())?);
            }
            let figure = match (&fault.when, &fault.part) {
                (When::PartPeak, Part::Rope { .. }) => Figure::Rope(index),
                (When::PartPeak, Part::NearAnchor { .. } | Part::Line { .. }) => {
                    Figure::NearAnchor(index)
                }
                (When::PartPeak, Part::FarAnchor { .. }) => Figure::FarAnchor(index),
                _ => Figure::Resultant,
            };
            intact.as_ref().and_then(|out| out.watch.best(figure)).map_or(0.0, |best| best.t_s)
        };
        faults.push((at_s, Loss { part: fault.part.clone(), index }));
    }
    faults.sort_by(|a, b| a.0.total_cmp(&b.0));
    Ok(faults)
}

/// Peaks from the first fault on.
fn after_fault(jump: &Jump, out: &Outcome) -> Option<AfterFault> {
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
    Some(AfterFault {
        time: Time::from_si(*t_s),
        resultant: at_body(watch.best(Figure::Resultant)?, 1.0),
        ropes: peaks(jump.ropes.iter().map(|r| &r.name).collect(), Figure::Rope, at_body),
        lines_near: peaks(lines(), Figure::NearAnchor, at_ring),
        lines_far: peaks(lines(), Figure::FarAnchor, at_ring),
        lowest: at_body(watch.best(Figure::Low)?, -1.0),
    })
}

/// Results of the lines, with a note for each whose quasi-static answer does not hold, Eq. (12).
fn lines(
    jump: &Jump,
    out: &Outcome,
    standing: &[[f64; 2]],
    rise: Option<Time>,
    notes: &mut Vec<Note>,
) -> Vec<LineResult> {
    let mut results = Vec::new();
    for (i, line) in jump.lines.iter().enumerate() {
        let [near_n, far_n] = standing[i];
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
        let peak = |figure, standing_n| match out.watch.best(figure) {
            Some(b) => at_ring(b, 1.0),
            None => Extreme {
                value: Force::from_si(standing_n),
                time: Time::from_si(0.0),
                place: place(three(&out.start, RING)),
            },
        };
        let near: Extreme<Force> = peak(Figure::NearAnchor(i), near_n);
        let far: Extreme<Force> = peak(Figure::FarAnchor(i), far_n);
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
        events.push(Event { time: Time::from_si(b.t_s), place: place(b.body_m), what });
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
        place: place(*p),
        what: what.clone(),
    }));
    let end = place(three(&out.end, BODY));
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

/// Eq. (9) and (10).
fn books<S: Support>(model: &Model<S>, out: &Outcome, drop_m: f64) -> EnergyBooks {
    let [kinetic_0, height_0, ropes_0, lines_0] = out.start_j;
    let [kinetic, height, ropes, lines] = out.end_j;
    let [drag, ring, rope_loss, fold] = model.lost_j(&out.end);
    let fall_j = kinetic_0 + model.low_kg * GRAVITY * drop_m.abs();
    EnergyBooks {
        kinetic_at_exit: Energy::from_si(kinetic_0),
        ropes_at_exit: Energy::from_si(ropes_0),
        from_height: Energy::from_si(height_0 - height),
        kinetic: Energy::from_si(kinetic),
        ropes: Energy::from_si(ropes),
        lines: Energy::from_si(lines - lines_0),
        lost_to_drag: Energy::from_si(drag),
        lost_in_ropes: Energy::from_si(rope_loss),
        lost_at_ring: Energy::from_si(ring),
        lost_at_fold: Energy::from_si(fold),
        failed: Energy::from_si(out.failed_j),
        drift: Ratio::from_si(out.drift_j / fall_j.max(f64::MIN_POSITIVE)),
    }
}

/// Bound on what the falling fold adds, Eq. (13) and (14).
fn fold<S>(model: &Model<S>, catch: Option<&Catch>) -> FoldBound {
    let m = model.ropes.iter().map(|r| r.mass_kg).sum::<f64>();
    let length = model.ropes.iter().map(|r| r.rest_m).fold(0.0, f64::max);
    let mass = model.body_kg;
    if m == 0.0 {
        return FoldBound {
            acceleration_over_g: Ratio::from_si(1.0),
            speed_excess: Ratio::from_si(0.0),
        };
    }
    let y = catch.map_or(length, |c| c.drop.si().clamp(0.0, length));
    let top = 4.0 * mass * length + 2.0 * m * length - m * y;
    let bottom = m * length - m * y + 2.0 * mass * length;
    FoldBound {
        acceleration_over_g: Ratio::from_si(1.0 + m * y * top / (2.0 * bottom * bottom)),
        speed_excess: Ratio::from_si((top / (2.0 * bottom)).sqrt() - 1.0),
    }
}
