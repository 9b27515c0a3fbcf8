//! A checked system in numbers: directions of rope parts, efficiencies, indices of bodies.

use nalgebra::Vector3;

use super::{Body, BodyKind, Friction, PulleyError, Rope, Sheave, System};
use crate::quantity::check::{between, finite, fraction, non_negative};
use crate::quantity::{Invalid, Quantity, Words};

/// A system ready for the linear solves.
pub(super) struct Layout {
    /// Unit direction of travel of each body; zero for an anchor.
    pub(super) travel: Vec<Vector3<f64>>,
    /// Bodies whose travel is unknown: moving bodies and the load.
    pub(super) unknown: Vec<usize>,
    /// Position in `unknown` of each body.
    pub(super) column: Vec<Option<usize>>,
    pub(super) load: usize,
    pub(super) hand: usize,
    pub(super) paths: Vec<Path>,
    /// Rope in the hand, and the part of it.
    pub(super) hand_part: (usize, usize),
}

/// One rope in numbers.
pub(super) struct Path {
    /// Bodies from start to end.
    pub(super) stops: Vec<usize>,
    /// Unit vector of each part, from its start to its end.
    pub(super) along: Vec<Vector3<f64>>,
    /// Efficiency of the sheave at each inner stop.
    pub(super) eta: Vec<f64>,
}

impl Layout {
    pub(super) fn new(system: &System) -> Result<Self, PulleyError> {
        names("bodies", system.bodies.iter().map(|b| &b.name))?;
        names("ropes", system.ropes.iter().map(|r| &r.name))?;
        let load = the_one(&system.bodies, BodyKind::Load, "load")?;
        let hand = the_one(&system.bodies, BodyKind::Hand, "hand")?;
        let haul = match system.haul {
            Some(xyz) => direction("haul", xyz)?,
            None => Vector3::z(),
        };
        let mut at = Vec::new();
        let mut travel = Vec::new();
        let mut column = Vec::new();
        let mut unknown = Vec::new();
        for (i, body) in system.bodies.iter().enumerate() {
            at.push(position(body)?);
            travel.push(body_travel(body, haul)?);
            let moves = matches!(body.kind, BodyKind::Moving | BodyKind::Load);
            column.push(moves.then_some(unknown.len()));
            if moves {
                unknown.push(i);
            }
        }
        let mut paths = Vec::new();
        for rope in &system.ropes {
            paths.push(path(rope, &system.bodies, &at)?);
        }
        let hand_part = hand_part(&paths, hand)?;
        let (rope, part) = hand_part;
        // The hand pulls away from the last sheave.
        let away = if part == 0 && paths[rope].stops[0] == hand { -1.0 } else { 1.0 };
        travel[hand] = paths[rope].along[part] * away;
        Ok(Self { travel, unknown, column, load, hand, paths, hand_part })
    }
}

fn names<'a>(
    what: &'static str,
    names: impl Iterator<Item = &'a String>,
) -> Result<(), PulleyError> {
    let mut seen = std::collections::BTreeSet::new();
    for name in names {
        if !seen.insert(name) {
            return Err(PulleyError::DuplicateName { what, name: name.clone() });
        }
    }
    Ok(())
}

fn the_one(bodies: &[Body], kind: BodyKind, word: &'static str) -> Result<usize, PulleyError> {
    let mut found = bodies.iter().enumerate().filter(|(_, b)| b.kind == kind);
    match (found.next(), found.count()) {
        (Some((i, _)), 0) => Ok(i),
        (None, _) => Err(PulleyError::NotOne { kind: word, found: 0 }),
        (Some(_), more) => Err(PulleyError::NotOne { kind: word, found: more + 1 }),
    }
}

fn position(body: &Body) -> Result<Vector3<f64>, PulleyError> {
    let mut at = Vector3::zeros();
    for (i, (axis, q)) in ["x", "y", "z"].iter().zip(body.position).enumerate() {
        at[i] = finite(axis, q).map_err(|e| e.within(&format!("{}.position", body.name)))?;
    }
    Ok(at)
}

fn body_travel(body: &Body, haul: Vector3<f64>) -> Result<Vector3<f64>, PulleyError> {
    let parameter = format!("{}.travel", body.name);
    match (body.kind, body.travel) {
        (BodyKind::Load | BodyKind::Moving, Some(xyz)) => direction(&parameter, xyz),
        (BodyKind::Load | BodyKind::Moving, None) => Ok(haul),
        (_, None) => Ok(Vector3::zeros()),
        (_, Some(xyz)) => Err(PulleyError::Invalid(Invalid::new(
            parameter,
            format!("{xyz:?}"),
            "left out for an anchor and for the hand",
        ))),
    }
}

/// Unit vector along `xyz`, scaled first so that no square leaves the number range.
fn direction(parameter: &str, xyz: [f64; 3]) -> Result<Vector3<f64>, PulleyError> {
    unit(Vector3::from(xyz)).ok_or_else(|| {
        PulleyError::Invalid(Invalid::new(
            parameter,
            format!("{xyz:?}"),
            "three finite numbers, not all zero",
        ))
    })
}

fn unit(v: Vector3<f64>) -> Option<Vector3<f64>> {
    let scale = v.amax();
    if !v.iter().all(|c| c.is_finite()) || scale == 0.0 {
        return None;
    }
    let scaled = v / scale;
    Some(scaled / scaled.norm()).filter(|u| u.iter().all(|c| c.is_finite()))
}

fn path(rope: &Rope, bodies: &[Body], at: &[Vector3<f64>]) -> Result<Path, PulleyError> {
    let find = |name: &String| {
        bodies
            .iter()
            .position(|b| b.name == *name)
            .ok_or_else(|| PulleyError::UnknownBody { rope: rope.name.clone(), body: name.clone() })
    };
    let mut stops = vec![find(&rope.from)?];
    for sheave in &rope.over {
        stops.push(find(&sheave.on)?);
    }
    stops.push(find(&rope.to)?);
    let mut along = Vec::new();
    for pair in stops.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        along.push(unit(at[b] - at[a]).ok_or_else(|| PulleyError::NoLength {
            rope: rope.name.clone(),
            from: bodies[a].name.clone(),
            to: bodies[b].name.clone(),
        })?);
    }
    let mut eta = Vec::new();
    for (i, sheave) in rope.over.iter().enumerate() {
        let turn = along[i].cross(&along[i + 1]).norm().atan2(along[i].dot(&along[i + 1]));
        eta.push(
            efficiency(sheave, turn).map_err(|e| e.within(&format!("{}.over[{i}]", rope.name)))?,
        );
    }
    Ok(Path { stops, along, eta })
}

/// Eqs. (5) to (7); `turn_rad` is the wrap by geometry.
fn efficiency(sheave: &Sheave, turn_rad: f64) -> Result<f64, Invalid> {
    let wrap_rad = match sheave.wrap {
        Some(wrap) => non_negative("wrap", wrap)?,
        None => turn_rad,
    };
    let eta = match sheave.friction {
        Friction::Fixed { efficiency } => fraction("efficiency", efficiency)?,
        Friction::Axle { efficiency_180 } => {
            // Past one turn the two parts no longer say which way the axle is pressed.
            if let Some(wrap) = sheave.wrap {
                between("wrap", wrap, 0.0.turns(), 1.0.turns())?;
            }
            1.0 - (1.0 - fraction("efficiency_180", efficiency_180)?) * (wrap_rad / 2.0).sin().abs()
        }
        Friction::Capstan { mu } => (-non_negative("mu", mu)? * wrap_rad).exp(),
    };
    // A loss that underflows to zero would divide by zero in Eq. (4).
    if eta > 0.0 { Ok(eta) } else { Err(Invalid::new("efficiency", eta.to_string(), "above 0")) }
}

fn hand_part(paths: &[Path], hand: usize) -> Result<(usize, usize), PulleyError> {
    let mut held = None;
    for (r, path) in paths.iter().enumerate() {
        let last = path.stops.len() - 1;
        for (j, &body) in path.stops.iter().enumerate() {
            if body != hand {
                continue;
            }
            if held.is_some() || (j != 0 && j != last) {
                return Err(PulleyError::Hand);
            }
            held = Some((r, j.min(last - 1)));
        }
    }
    held.ok_or(PulleyError::Hand)
}

/// The SI values of a vector of quantities, for results.
pub(super) fn triple<Q: Quantity>(v: Vector3<f64>) -> [Q; 3] {
    [Q::from_si(v.x), Q::from_si(v.y), Q::from_si(v.z)]
}
