//! From the question to the model: checks, defaults and the state at exit.

use super::SwingError;
use super::course::Course;
use super::flight::Assumed;
use super::jump::{Jump, Place, Response, Run};
use super::model::{BODY, BOOKS, Model, RING, RingMass, SPEED, VISCOUS};
use super::rest::{Hanging, hanging, waiting};
use super::rope::Rope;
use super::space::{from, size};
use super::support::Support;
use super::terrain::Wall;
use crate::quantity::check::{between, count, finite, non_negative, positive};
use crate::quantity::{Damping, Invalid, Length, Quantity, Ratio, Time, Words, print};

/// Everything needed to run, and where body and ring come to rest.
pub(super) struct Setup<S> {
    pub model: Model<S>,
    pub course: Course,
    pub start: Vec<f64>,
    pub rest: Option<Result<Hanging, SwingError>>,
    pub assumed: Vec<Assumed>,
}

fn point(name: &str, place: Place) -> Result<[f64; 3], Invalid> {
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

fn rope(rope: &super::jump::Rope, run: Run) -> Result<Rope, Invalid> {
    let rest_m = positive("rest_length", rope.rest_length)?;
    let mass_kg = rest_m * non_negative("linear_density", rope.linear_density)?;
    let (long_n, arm_n, relaxation) = match &rope.response {
        Response::Solid { long_term, arm, relaxation_low, relaxation_high } => {
            let low = positive("relaxation_low", *relaxation_low)?;
            between("relaxation_high", *relaxation_high, *relaxation_low, Time::from_si(1e6))?;
            let time = if run == Run::Stiff { relaxation_high.si() } else { low };
            (positive("long_term", *long_term)?, non_negative("arm", *arm)?, time)
        }
        Response::Pair { stiff, soft, relaxation } => {
            let soft_n = positive("soft", *soft)?;
            let stiff_n = positive("stiff", *stiff)?;
            if stiff_n < soft_n {
                let allowed = format!("at least soft, {}", print(*soft));
                let (parameter, value) = ("stiff".to_owned(), print(*stiff));
                return Err(Invalid::new(parameter, value, allowed));
            }
            let long = if run == Run::Stiff { stiff_n } else { soft_n };
            match relaxation {
                Some(time) => (long, long, positive("relaxation", *time)?),
                None => (long, 0.0, 1.0),
            }
        }
    };
    Ok(Rope { rest_m, mass_kg, long_n, arm_n, relaxation_s: relaxation, lost: false })
}

fn ropes(jump: &Jump) -> Result<Vec<Rope>, Invalid> {
    let each = |(i, r)| rope(r, jump.run).map_err(|e| e.within(&format!("ropes[{i}]")));
    jump.ropes.iter().enumerate().map(each).collect()
}

fn walls(jump: &Jump) -> Result<Vec<Wall>, SwingError> {
    let mut walls = Vec::new();
    for (i, wall) in jump.walls.iter().enumerate() {
        let key = format!("walls[{i}].points");
        let mut corners_m: Vec<[f64; 2]> = Vec::new();
        for (k, place) in wall.points.iter().enumerate() {
            let [x, y, z] = point(&format!("{key}[{k}]"), *place)?;
            if y != 0.0 {
                return Err(SwingError::contradiction(&key, "a wall is a profile: its y is zero"));
            }
            let corner = [x, z];
            if corners_m.last() == Some(&corner) {
                return Err(SwingError::contradiction(&key, "two points in a row are the same"));
            }
            corners_m.push(corner);
        }
        if corners_m.len() < 2 {
            return Err(SwingError::contradiction(&key, "a wall needs at least two points"));
        }
        walls.push(Wall { name: wall.name.clone(), corners_m });
    }
    Ok(walls)
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
        walls: walls(jump)?,
        radius_m: non_negative("body_radius", jump.body_radius)?,
        zone_m: positive("launch_zone", zone)?,
        forces_n,
        lines: jump.lines.len(),
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
    support: S,
    hang_m: [f64; 3],
) -> Result<Setup<S>, SwingError> {
    let mut assumed = Vec::new();
    let body_kg = positive("mass", jump.mass)?;
    let ropes = ropes(jump)?;
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
    clear_of_walls(&course, body)?;
    let at_rest = ring_at_rest(jump, &mut model, body, hang_m)?;
    let ring = match jump.ring_at_exit {
        Some(place) => point("ring_at_exit", place)?,
        None => at_rest,
    };
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
    start.extend([0.0; BOOKS]);
    Ok(Setup { model, course, start, rest, assumed })
}

fn third() -> Ratio {
    (1.0 / 3.0).ratio()
}

fn none() -> Damping {
    0.0.newton_seconds_per_meter()
}

fn clear_of_walls(course: &Course, body: [f64; 3]) -> Result<(), SwingError> {
    for wall in &course.walls {
        let distance = wall.away_m(body);
        if distance <= course.radius_m {
            return Err(SwingError::StartsInContact {
                wall: wall.name.clone(),
                distance: print(Length::from_si(distance)),
                radius: print(Length::from_si(course.radius_m)),
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
