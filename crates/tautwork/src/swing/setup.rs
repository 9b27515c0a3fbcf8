//! From the question to the model: checks, defaults and the state at exit.

use super::SwingError;
use super::course::{Anchor, Course};
use super::fault::{Part, When};
use super::flight::Assumed;
use super::jump::{Jump, Place, Response, Run};
use super::model::{BODY, BOOKS, Model, RING, RingMass, SPEED, Stop, VISCOUS};
use super::rest::{Hanging, hanging, waiting};
use super::rope::Rope;
use super::space::{from, size};
use super::support::Support;
use super::terrain::{Body, walls};
use crate::quantity::check::{between, count, finite, non_negative, positive};
use crate::quantity::{
    AxialRigidity, Damping, Invalid, Length, Quantity, Ratio, Time, Words, print,
};

/// Everything needed to run, and where body and ring come to rest.
pub(super) struct Setup<S> {
    pub model: Model<S>,
    pub course: Course,
    pub start: Vec<f64>,
    pub rest: Option<Result<Hanging, SwingError>>,
    pub assumed: Vec<Assumed>,
}

pub(super) fn point(name: &str, place: Place) -> Result<[f64; 3], Invalid> {
    Ok([
        finite(&format!("{name}.x"), place.x)?,
        finite(&format!("{name}.y"), place.y)?,
        finite(&format!("{name}.z"), place.z)?,
    ])
}

/// A value or its default, which is noted.
fn or_assumed<Q: Quantity>(
    assumed: &mut Vec<Assumed>,
    parameter: &str,
    given: Option<Q>,
    default: Q,
) -> Q {
    given.unwrap_or_else(|| {
        assumed.push(Assumed { parameter: parameter.to_owned(), value: print(default) });
        default
    })
}

/// A rigidity, in a range far beyond any use, so that no figure leaves the range of doubles.
fn rigidity(name: &str, value: AxialRigidity) -> Result<f64, Invalid> {
    positive(name, value)?;
    between(name, value, AxialRigidity::from_si(1e-3), AxialRigidity::from_si(1e12))
}

/// A relaxation time, likewise.
fn relaxation(name: &str, time: Time) -> Result<f64, Invalid> {
    positive(name, time)?;
    between(name, time, Time::from_si(1e-9), Time::from_si(1e6))
}

/// Long-term and arm rigidity, N, and relaxation time, s, in one run.
fn stretch(response: &Response, run: Run) -> Result<(f64, f64, f64), Invalid> {
    match response {
        Response::Solid { long_term, arm, relaxation_low, relaxation_high } => {
            let low = relaxation("relaxation_low", *relaxation_low)?;
            between("relaxation_high", *relaxation_high, *relaxation_low, Time::from_si(1e6))?;
            let time = if run == Run::Stiff { relaxation_high.si() } else { low };
            let none = AxialRigidity::from_si(0.0);
            non_negative("arm", *arm)?;
            let arm_n = between("arm", *arm, none, AxialRigidity::from_si(1e12))?;
            Ok((rigidity("long_term", *long_term)?, arm_n, time))
        }
        Response::Pair { stiff, soft, relaxation: time } => {
            let (soft_n, stiff_n) = (rigidity("soft", *soft)?, rigidity("stiff", *stiff)?);
            if stiff_n < soft_n {
                let allowed = format!("at least soft, {}", print(*soft));
                let (parameter, value) = ("stiff".to_owned(), print(*stiff));
                return Err(Invalid::new(parameter, value, allowed));
            }
            let long = if run == Run::Stiff { stiff_n } else { soft_n };
            match time {
                Some(time) => Ok((long, long, relaxation("relaxation", *time)?)),
                None => Ok((long, 0.0, 1.0)),
            }
        }
    }
}

fn rope(rope: &super::jump::Rope, run: Run) -> Result<Rope, Invalid> {
    positive("rest_length", rope.rest_length)?;
    let rest_m = between("rest_length", rope.rest_length, 1.0.millimeters(), 1000.0.kilometers())?;
    non_negative("linear_density", rope.linear_density)?;
    let heaviest = 1000.0.kilograms_per_meter();
    let none = 0.0.kilograms_per_meter();
    let mass_kg = rest_m * between("linear_density", rope.linear_density, none, heaviest)?;
    let (long_n, arm_n, relaxation_s) = stretch(&rope.response, run)?;
    Ok(Rope::new(rest_m, mass_kg, long_n, arm_n, relaxation_s))
}

/// The stops of a ring that is at rest while the jumper waits.
fn stops(jump: &Jump, ring_m: [f64; 3]) -> Result<Vec<Stop>, SwingError> {
    if jump.fixed_ring.is_some() && !jump.stops.is_empty() {
        return Err(SwingError::contradiction("stops", "a fixed ring has no stops"));
    }
    let mut stops = Vec::new();
    for (i, stop) in jump.stops.iter().enumerate() {
        let key = format!("stops[{i}]");
        let within = |e: Invalid| e.within(&key);
        let anchor_m = point("anchor", stop.anchor).map_err(within)?;
        let travel_m = non_negative("travel", stop.travel).map_err(within)?;
        let (long_n, arm_n, relaxation_s) = stretch(&stop.response, jump.run).map_err(within)?;
        let rest_m = size(from(anchor_m, ring_m)) + travel_m;
        if rest_m == 0.0 {
            let problem = "the ring rests at its anchor and has no travel";
            return Err(SwingError::contradiction(&key, problem));
        }
        let rope = Rope::new(rest_m, 0.0, long_n, arm_n, relaxation_s);
        stops.push(Stop { anchor_m, rope });
    }
    Ok(stops)
}

/// Places at which lines and stops end, in the order in which they are named.
fn anchors(jump: &Jump) -> Vec<Anchor> {
    let mut all: Vec<Anchor> = Vec::new();
    let mut of = |place: Place| -> usize {
        let at_m = place.m();
        let known = all.iter().position(|a| a.at_m == at_m);
        known.unwrap_or_else(|| {
            all.push(Anchor { at_m, ..Anchor::default() });
            all.len() - 1
        })
    };
    let mut ends = Vec::new();
    for (i, line) in jump.lines.iter().enumerate() {
        ends.extend([(of(line.near), i, 0), (of(line.far), i, 1)]);
    }
    let stops: Vec<_> = jump.stops.iter().map(|stop| of(stop.anchor)).collect();
    for (anchor, line, end) in ends {
        all[anchor].ends.push((line, end));
    }
    for (i, anchor) in stops.into_iter().enumerate() {
        all[anchor].stops.push(i);
    }
    all
}

fn ropes(jump: &Jump) -> Result<Vec<Rope>, Invalid> {
    let each = |(i, r)| rope(r, jump.run).map_err(|e| e.within(&format!("ropes[{i}]")));
    jump.ropes.iter().enumerate().map(each).collect()
}

fn course(jump: &Jump, assumed: &mut Vec<Assumed>) -> Result<Course, SwingError> {
    let follow = &jump.follow;
    let horizon_s = between("follow.horizon", follow.horizon, 1e-3.seconds(), 3600.0.seconds())?;
    let sample_s = positive("follow.sample_every", follow.sample_every)?;
    if horizon_s / sample_s > 1e6 {
        let problem = "gives more than a million samples up to the horizon";
        return Err(SwingError::contradiction("follow.sample_every", problem));
    }
    count("follow.most_steps", follow.most_steps, 1, 10_000_000)?;
    let zone = or_assumed(assumed, "launch_zone", jump.launch_zone, 3.0.meters());
    let mut forces_n = Vec::new();
    for (i, force) in jump.timed_forces.iter().enumerate() {
        forces_n.push(positive(&format!("timed_forces[{i}]"), *force)?);
    }
    Ok(Course {
        rope_names: jump.ropes.iter().map(|r| r.name.clone()).collect(),
        stop_names: jump.stops.iter().map(|s| s.name.clone()).collect(),
        walls: walls(&jump.walls)?,
        body: Body::of(jump)?,
        zone_m: positive("launch_zone", zone)?,
        forces_n,
        lines: jump.lines.len(),
        anchors: anchors(jump),
        rest_m: [0.0; 2],
        ahead: [1.0, 0.0],
        faults: Vec::new(),
        horizon_s,
        rtol: between("follow.tolerance", follow.tolerance, 1e-12.ratio(), 1e-3.ratio())?,
        sample_s,
        most_steps: follow.most_steps,
        settled_speed_m_per_s: positive("follow.settled_speed", follow.settled_speed)?,
        settled_force: positive("follow.settled_force", follow.settled_force)?,
        settled_for_s: positive("follow.settled_for", follow.settled_for)?,
    })
}

/// Checks and turns a jump into a model. `support` makes what holds a free ring.
/// `hang_m` is a place near which the ring hangs.
pub(super) fn set_up<S: Support>(
    jump: &Jump,
    mut support: S,
    hang_m: [f64; 3],
) -> Result<Setup<S>, SwingError> {
    let mut assumed = Vec::new();
    positive("mass", jump.mass)?;
    // Far beyond any use, but so that no figure leaves the range of doubles.
    let body_kg = between("mass", jump.mass, 1.0.grams(), 1e6.kilograms())?;
    let mut ropes = ropes(jump)?;
    leave_out(jump, &mut ropes, &mut support)?;
    let half_ropes_kg = 0.5 * ropes.iter().map(|r| r.mass_kg).sum::<f64>();
    let mut course = course(jump, &mut assumed)?;
    let density =
        or_assumed(&mut assumed, "air_density", jump.air_density, 1.2.kilograms_per_cubic_meter());
    let rope_area =
        or_assumed(&mut assumed, "rope_drag_area", jump.rope_drag_area, 0.0.square_meters());
    let area =
        non_negative("drag_area", jump.drag_area)? + non_negative("rope_drag_area", rope_area)?;
    let wind = or_assumed(&mut assumed, "wind", jump.wind, 0.0.meters_per_second());
    let wind_y = or_assumed(&mut assumed, "wind_y", jump.wind_y, 0.0.meters_per_second());
    let ring_kg = non_negative("ring_mass", jump.ring_mass)?;
    let mut share = 0.0;
    let ring = if jump.fixed_ring.is_some() {
        None
    } else {
        let given = or_assumed(&mut assumed, "line_mass_share", jump.line_mass_share, third());
        share = between("line_mass_share", given, 0.0.ratio(), 1.0.ratio())?;
        let damping = or_assumed(&mut assumed, "ring_damping", jump.ring_damping, none());
        let weighs_kg = ring_kg + half_ropes_kg;
        positive("ring_mass", crate::quantity::Mass::from_si(weighs_kg))?;
        Some(RingMass {
            weighs_kg,
            moves_kg: weighs_kg,
            damping_n_s_per_m: non_negative("ring_damping", damping)?,
        })
    };
    let mut model = Model {
        ropes,
        stops: Vec::new(),
        body_kg,
        low_kg: body_kg + half_ropes_kg,
        ring,
        drag_kg_per_m: 0.5 * non_negative("air_density", density)? * area,
        wind_m_per_s: [finite("wind", wind)?, finite("wind_y", wind_y)?],
        fold: jump.fold,
        support,
        failure: None,
    };
    let body = point("exit", jump.exit)?;
    let velocity = [
        finite("exit_speed_x", jump.exit_speed_x)?,
        finite("exit_speed_y", jump.exit_speed_y)?,
        finite("exit_speed_z", jump.exit_speed_z)?,
    ];
    let at_rest = ring_at_rest(jump, &mut model, body, hang_m)?;
    let ring = match jump.ring_at_exit {
        Some(place) => point("ring_at_exit", place)?,
        None => at_rest,
    };
    model.stops = stops(jump, at_rest)?;
    leave_out_stops(jump, &mut model.stops)?;
    let taut_kg = model.support.taut_kg(at_rest);
    if let Some(ring) = &mut model.ring {
        ring.moves_kg += share * taut_kg;
    }
    let rest = hanging(&mut model, at_rest);
    if let Some(Ok((_, place))) = &rest {
        course.rest_m = [place[0], place[1]];
        let away = [place[0] - body[0], place[1] - body[1]];
        let far_m = away[0].hypot(away[1]);
        if far_m > 0.0 {
            course.ahead = away.map(|a| a / far_m);
        }
    }
    let mut start = vec![0.0; VISCOUS];
    start[BODY..BODY + SPEED].copy_from_slice(&body);
    start[BODY + SPEED..RING].copy_from_slice(&velocity);
    start[RING..RING + SPEED].copy_from_slice(&ring);
    let distance_m = size(from(body, ring));
    // A rope taut while waiting has had time to relax.
    start.extend(model.ropes.iter().map(|r| r.strain(distance_m).max(0.0)));
    start.extend(model.stops.iter().map(|s| s.reach(ring).1.max(0.0)));
    start.extend([0.0; BOOKS]);
    let taut = (0..model.ropes.len()).any(|i| model.trial_n(&start, i) > 0.0);
    clear_of_walls(&course, course.body.axis(body, ring, taut))?;
    Ok(Setup { model, course, start, rest, assumed })
}

/// Takes away the parts that are missing before the jump, with their mass.
fn leave_out<S: Support>(
    jump: &Jump,
    ropes: &mut [Rope],
    support: &mut S,
) -> Result<(), SwingError> {
    for (i, fault) in jump.faults.iter().enumerate() {
        if fault.when != When::BeforeExit {
            continue;
        }
        let index = fault.part.index(jump, &format!("faults[{i}]"))?;
        match fault.part {
            Part::Rope { .. } => (ropes[index].lost, ropes[index].mass_kg) = (true, 0.0),
            // The stops are made where the ring comes to rest without the others.
            Part::Stop { .. } => {}
            Part::Line { .. } => support.lose(index, [true, true]),
            Part::NearAnchor { .. } => support.lose(index, [true, false]),
            Part::FarAnchor { .. } => support.lose(index, [false, true]),
        }
    }
    Ok(())
}

fn leave_out_stops(jump: &Jump, stops: &mut [Stop]) -> Result<(), SwingError> {
    for (i, fault) in jump.faults.iter().enumerate() {
        if fault.when == When::BeforeExit && matches!(fault.part, Part::Stop { .. }) {
            stops[fault.part.index(jump, &format!("faults[{i}]"))?].rope.lost = true;
        }
    }
    Ok(())
}

fn third() -> Ratio {
    (1.0 / 3.0).ratio()
}

fn none() -> Damping {
    0.0.newton_seconds_per_meter()
}

fn clear_of_walls(course: &Course, axis: [[f64; 3]; 2]) -> Result<(), SwingError> {
    for wall in &course.walls {
        let distance = course.body.away_m(wall, axis);
        if distance <= course.body.radius_m {
            return Err(SwingError::StartsInContact {
                wall: wall.name.clone(),
                distance: print(Length::from_si(distance)),
                radius: print(Length::from_si(course.body.radius_m)),
            });
        }
    }
    Ok(())
}

/// The ring while the jumper waits: fixed, or where lines, ring and ropes balance.
fn ring_at_rest<S: Support>(
    jump: &Jump,
    model: &mut Model<S>,
    body: [f64; 3],
    hang_m: [f64; 3],
) -> Result<[f64; 3], SwingError> {
    if let Some(place) = jump.fixed_ring {
        if !jump.lines.is_empty() {
            return Err(SwingError::contradiction("fixed_ring", "a fixed ring has no lines"));
        }
        return Ok(point("fixed_ring", place)?);
    }
    if jump.lines.is_empty() {
        let problem = "give the lines that hold the ring, or a fixed_ring";
        return Err(SwingError::contradiction("lines", problem));
    }
    waiting(model, body, hang_m)
}
