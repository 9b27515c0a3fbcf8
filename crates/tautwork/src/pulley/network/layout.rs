//! A checked system in numbers: directions of rope parts, efficiencies, indices of bodies.

use nalgebra::Vector3;

use super::super::PulleyError;
use super::super::loss::loss;
use super::{Body, BodyKind, Rope, System, Towards};
use crate::quantity::check::{count, finite, non_negative};
use crate::quantity::{Invalid, Quantity};

/// Most grabs: each doubles the ways in which they may hold.
const MOST_GRABS: usize = 10;

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
    pub(super) grabs: Vec<Grab>,
}

/// A stop that holds rope one way.
pub(super) struct Grab {
    pub(super) path: usize,
    /// Stop of the path, from 1.
    pub(super) stop: usize,
    pub(super) holds: Towards,
}

/// A length of rope with one free tension: a rope, or what grabs that hold leave of it.
pub(super) struct Strand {
    pub(super) path: usize,
    /// First and last stop.
    pub(super) first: usize,
    pub(super) last: usize,
}

/// One rope in numbers.
pub(super) struct Path {
    /// Bodies from start to end.
    pub(super) stops: Vec<usize>,
    /// Unit vector of each part, from its start to its end.
    pub(super) along: Vec<Vector3<f64>>,
    /// Length of each part.
    pub(super) length_m: Vec<f64>,
    /// Efficiency of the sheave at each inner stop.
    pub(super) eta: Vec<f64>,
    /// Wrap at each inner stop.
    pub(super) wrap_rad: Vec<f64>,
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
        let count_bodies = system.bodies.len();
        let mut at = Vec::with_capacity(count_bodies);
        let mut travel = Vec::with_capacity(count_bodies);
        let mut column = Vec::with_capacity(count_bodies);
        let mut unknown = Vec::with_capacity(count_bodies);
        for (i, body) in system.bodies.iter().enumerate() {
            at.push(position(body)?);
            travel.push(body_travel(body, haul)?);
            let moves = matches!(body.kind, BodyKind::Moving | BodyKind::Load);
            column.push(moves.then_some(unknown.len()));
            if moves {
                unknown.push(i);
            }
        }
        let mut paths = Vec::with_capacity(system.ropes.len());
        for rope in &system.ropes {
            paths.push(path(rope, &system.bodies, &at)?);
        }
        let hand_part = hand_part(&paths, hand)?;
        let (rope, part) = hand_part;
        // The hand pulls away from the last sheave.
        let away = if part == 0 && paths[rope].stops[0] == hand { -1.0 } else { 1.0 };
        travel[hand] = paths[rope].along[part] * away;
        if !paths.iter().any(|path| path.stops.contains(&load)) {
            return Err(PulleyError::NoRopeToLoad { load: system.bodies[load].name.clone() });
        }
        let mut grabs = Vec::new();
        for (path, rope) in system.ropes.iter().enumerate() {
            for (i, sheave) in rope.over.iter().enumerate() {
                grabs.extend(sheave.grab.map(|holds| Grab { path, stop: i + 1, holds }));
            }
        }
        count("grabs", grabs.len(), 0, MOST_GRABS)?;
        Ok(Self { travel, unknown, column, load, hand, paths, hand_part, grabs })
    }

    /// What the ropes are while the grabs of `holding` hold, a bit for each.
    pub(super) fn strands(&self, holding: u32) -> Vec<Strand> {
        let mut strands = Vec::with_capacity(self.paths.len() + self.grabs.len());
        for (path, rope) in self.paths.iter().enumerate() {
            let mut first = 0;
            for (i, grab) in self.grabs.iter().enumerate() {
                if grab.path == path && holding >> i & 1 == 1 {
                    strands.push(Strand { path, first, last: grab.stop });
                    first = grab.stop;
                }
            }
            strands.push(Strand { path, first, last: rope.stops.len() - 1 });
        }
        strands
    }

    /// The strand in the hand.
    pub(super) fn hand_strand(&self, strands: &[Strand]) -> Option<usize> {
        let (rope, part) = self.hand_part;
        strands.iter().position(|s| s.path == rope && (s.first..s.last).contains(&part))
    }
}

fn names<'a>(
    what: &'static str,
    names: impl Iterator<Item = &'a String>,
) -> Result<(), PulleyError> {
    let mut sorted: Vec<&String> = names.collect();
    sorted.sort_unstable();
    match sorted.windows(2).find(|pair| pair[0] == pair[1]) {
        Some(pair) => Err(PulleyError::DuplicateName { what, name: pair[0].clone() }),
        None => Ok(()),
    }
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
    unit(Vector3::from(xyz)).map(|(unit, _)| unit).ok_or_else(|| {
        PulleyError::Invalid(Invalid::new(
            parameter,
            format!("{xyz:?}"),
            "three finite numbers, not all zero",
        ))
    })
}

/// Direction and length.
fn unit(v: Vector3<f64>) -> Option<(Vector3<f64>, f64)> {
    let scale = v.amax();
    if !v.iter().all(|c| c.is_finite()) || scale == 0.0 {
        return None;
    }
    let scaled = v / scale;
    let norm = scaled.norm();
    let unit = scaled / norm;
    unit.iter().all(|c| c.is_finite()).then_some((unit, scale * norm))
}

fn path(rope: &Rope, bodies: &[Body], at: &[Vector3<f64>]) -> Result<Path, PulleyError> {
    let find = |name: &String| {
        bodies
            .iter()
            .position(|b| b.name == *name)
            .ok_or_else(|| PulleyError::UnknownBody { rope: rope.name.clone(), body: name.clone() })
    };
    let mut stops = Vec::with_capacity(rope.over.len() + 2);
    stops.push(find(&rope.from)?);
    for sheave in &rope.over {
        stops.push(find(&sheave.on)?);
    }
    stops.push(find(&rope.to)?);
    let mut along = Vec::with_capacity(stops.len());
    let mut length_m = Vec::with_capacity(stops.len());
    for pair in stops.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let (u, length) = unit(at[b] - at[a]).ok_or_else(|| PulleyError::NoLength {
            rope: rope.name.clone(),
            from: bodies[a].name.clone(),
            to: bodies[b].name.clone(),
        })?;
        along.push(u);
        length_m.push(length);
    }
    let mut eta = Vec::with_capacity(rope.over.len());
    let mut wrap_rad = Vec::with_capacity(rope.over.len());
    for (i, sheave) in rope.over.iter().enumerate() {
        let within = |e: Invalid| e.within(&format!("{}.over[{i}]", rope.name));
        let wrap = match sheave.wrap {
            Some(wrap) => non_negative("wrap", wrap).map_err(within)?,
            None => along[i].cross(&along[i + 1]).norm().atan2(along[i].dot(&along[i + 1])),
        };
        eta.push(loss(sheave.friction, wrap).map_err(within)?);
        wrap_rad.push(wrap);
    }
    Ok(Path { stops, along, length_m, eta, wrap_rad })
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
