//! Checks between the entries of a document: names, references, choices of one among several keys.

mod anchor;
mod edge;
mod haul;
mod stop;

use std::collections::BTreeSet;

use super::document::{
    CordageEntry, JumpRopeEntry, LineEntry, Place, Response, Rig, StretchEntry, TerrainEntry,
};
use super::read::{Reader, unknown};
use crate::quantity::Quantity;

/// Adds every mistake between the entries to the reader.
pub(super) fn validate(rig: &Rig, reader: &mut Reader) {
    names(rig, reader);
    for (name, cordage) in &rig.cordage {
        stretch(cordage, &format!("cordage.{name:?}.stretch"), reader);
    }
    for (i, anchor) in rig.anchor.iter().enumerate() {
        anchor::check_anchor(rig, anchor, &format!("anchor[{i}]"), reader);
    }
    for (i, line) in rig.line.iter().enumerate() {
        check_line(rig, line, &format!("line[{i}]"), reader);
    }
    for (i, state) in rig.state.iter().enumerate() {
        let lines: Vec<_> = rig.line.iter().map(|l| l.name.as_str()).collect();
        for (j, name) in state.lines.iter().enumerate() {
            reference(reader, &format!("state[{i}].lines[{j}]"), name, &lines);
        }
        if state.lines.is_empty() {
            reader.mistake_at(&format!("state[{i}]"), "name at least one line that is on");
        }
    }
    check_jump(rig, reader);
    check_winds(rig, reader);
    for (i, terrain) in rig.terrain.iter().enumerate() {
        check_terrain(terrain, &format!("terrain[{i}]"), reader);
    }
    edge::check_edges(rig, reader);
    stop::check_stops(rig, reader);
    haul::check_haul(rig, reader);
    haul::check_hobble(rig, reader);
    haul::check_rescue(rig, reader);
    check_kit(rig, reader);
    let places = gear_places(rig);
    for (i, gear) in rig.gear.iter().enumerate() {
        reference(reader, &format!("gear[{i}].at"), &gear.at, &places);
        if gear.end.is_some() && rig.line.iter().all(|line| line.name != gear.at) {
            reader
                .mistake_at(&format!("gear[{i}].end"), "only gear at a line is at one of its ends");
        }
    }
}

fn check_terrain(terrain: &TerrainEntry, path: &str, reader: &mut Reader) {
    let Some(mesh) = &terrain.mesh else {
        if terrain.points.len() < 2 {
            let message = "give at least two points, or a mesh";
            reader.mistake_at(&format!("{path}.points"), message);
        }
        return;
    };
    if !terrain.points.is_empty() {
        reader.mistake_at(&format!("{path}.points"), "a mesh is given too: leave one of them out");
    }
    if mesh.obj.is_some() == mesh.stl.is_some() {
        reader.mistake_at(&format!("{path}.mesh"), "give exactly one of obj and stl");
    }
}

/// Places at which a piece of gear may take load.
pub(super) fn gear_places(rig: &Rig) -> Vec<&str> {
    let mut places = vec!["ring", "jumper"];
    places.extend(rig.anchor.iter().map(|a| a.name.as_str()));
    places.extend(rig.line.iter().map(|l| l.name.as_str()));
    places.extend(rig.jump.rope.iter().map(|r| r.name.as_str()));
    places.extend(rig.stop.iter().map(|s| s.name.as_str()));
    places
}

fn reference(reader: &mut Reader, path: &str, name: &str, known: &[&str]) {
    if !known.contains(&name) {
        reader.mistake_at(path, unknown(name, known));
    }
}

fn cordage_reference(rig: &Rig, reader: &mut Reader, path: &str, name: &str) {
    let known: Vec<_> = rig.cordage.keys().map(String::as_str).collect();
    reference(reader, path, name, &known);
}

/// Paths and names of a list, for [`unique`].
fn named<'a, T>(path: &str, list: &'a [T], name: fn(&'a T) -> &'a str) -> Vec<(String, &'a str)> {
    list.iter().enumerate().map(|(i, item)| (format!("{path}[{i}].name"), name(item))).collect()
}

fn unique(reader: &mut Reader, names: &[(String, &str)], taken: &[&str]) {
    let mut seen: BTreeSet<&str> = taken.iter().copied().collect();
    for (path, name) in names {
        if !name.is_empty() && !seen.insert(name) {
            reader.mistake_at(path, format!("the name \"{name}\" is taken; choose another"));
        }
    }
}

fn names(rig: &Rig, reader: &mut Reader) {
    // Anchors, lines and jump ropes share one set of names: gear and results refer to any of them.
    let mut shared = named("anchor", &rig.anchor, |a| &a.name);
    shared.extend(named("line", &rig.line, |l| &l.name));
    shared.extend(named("jump.rope", &rig.jump.rope, |r| &r.name));
    shared.extend(named("stop", &rig.stop, |s| &s.name));
    unique(reader, &shared, &["ring", "jumper"]);
    unique(reader, &named("terrain", &rig.terrain, |t| &t.name), &[]);
    unique(reader, &named("wind", &rig.wind, |w| &w.name), &["still air"]);
    unique(reader, &named("edge", &rig.edge, |e| &e.name), &[]);
    unique(reader, &named("gear", &rig.gear, |g| &g.name), &[]);
    unique(reader, &named("state", &rig.state, |s| &s.name), &[]);
    if let Some(frame) = &rig.frame {
        let mut members = named("frame.leg", &frame.leg, |m| &m.name);
        members.extend(named("frame.guy", &frame.guy, |m| &m.name));
        unique(reader, &members, &[]);
    }
}

fn stretch(cordage: &CordageEntry, path: &str, reader: &mut Reader) {
    let s: &StretchEntry = &cordage.stretch;
    let forms = [
        s.axial_rigidity.is_some(),
        s.elongation.is_some(),
        s.table.is_some(),
        s.en892_static_elongation.is_some() || s.en892_impact_force.is_some(),
        s.en1891_elongation.is_some(),
    ];
    match forms.iter().filter(|given| **given).count() {
        0 => reader.mistake_at(
            path,
            "say how the cordage stretches: axial_rigidity, elongation with at, table, \
             en892_static_elongation, en892_impact_force or en1891_elongation",
        ),
        1 => {}
        _ => reader.mistake_at(path, "give one way of stretching, not several"),
    }
    if s.elongation.is_some() != s.at.is_some() {
        reader.mistake_at(path, "elongation and at belong together: give both");
    }
}

fn check_line(rig: &Rig, line: &LineEntry, path: &str, reader: &mut Reader) {
    cordage_reference(rig, reader, &format!("{path}.cordage"), &line.cordage);
    let anchors: Vec<_> = rig.anchor.iter().map(|a| a.name.as_str()).collect();
    reference(reader, &format!("{path}.from"), &line.from, &anchors);
    reference(reader, &format!("{path}.to"), &line.to, &anchors);
    if line.from == line.to {
        reader
            .mistake_at(&format!("{path}.to"), "a line must end at another anchor than it begins");
    }
    let lengths = [line.rest_length.is_some(), line.tension.is_some(), line.sag.is_some()];
    if lengths.iter().filter(|given| **given).count() != 1 {
        reader.mistake_at(path, "give exactly one of rest_length, tension and sag");
    }
    if line.tension.is_none() && (line.tension_end.is_some() || line.tension_state.is_some()) {
        reader.mistake_at(path, "tension_end and tension_state need a tension");
    }
    if line.ring_at.is_some_and(|at| at.si() >= 1.0) {
        reader.mistake_at(
            &format!("{path}.ring_at"),
            "the ring must sit before the far end, below 1",
        );
    }
}

fn check_jump(rig: &Rig, reader: &mut Reader) {
    if rig.line.is_empty() {
        reader.mistake_at("line", "the rig has no line: add a [[line]]");
    }
    if rig.jump.rope.is_empty() {
        reader.mistake_at("jump.rope", "the jump has no rope: add a [[jump.rope]]");
    }
    let levels = &rig.jump.force_levels;
    if levels.windows(2).any(|pair| pair[0] >= pair[1]) {
        reader.mistake_at("jump.force_levels", "the levels must rise");
    }
    let plane = "the jump is solved in the plane of the span: the second value must be zero";
    if rig.jump.exit[1].si() != 0.0 {
        reader.mistake_at("jump.exit", plane);
    }
    if rig.jump.velocity[1].si() != 0.0 {
        reader.mistake_at("jump.velocity", plane);
    }
    for (i, rope) in rig.jump.rope.iter().enumerate() {
        check_jump_rope(rig, rope, &format!("jump.rope[{i}]"), reader);
    }
}

fn check_jump_rope(rig: &Rig, rope: &JumpRopeEntry, path: &str, reader: &mut Reader) {
    cordage_reference(rig, reader, &format!("{path}.cordage"), &rope.cordage);
    for (i, factor) in rope.factor.iter().enumerate() {
        if factor.at == Some(Place::Ring) {
            let at = format!("{path}.factor[{i}].at");
            reader.mistake_at(&at, "of a jump rope, \"near\" is the ring and \"far\" the jumper");
        }
    }
    let Some(cordage) = rig.cordage.get(&rope.cordage) else { return };
    let s = &cordage.stretch;
    let both = s.en892_static_elongation.is_some() && s.en892_impact_force.is_some();
    if !both {
        let message = "a jump rope needs both figures of EN 892: en892_static_elongation and \
                       en892_impact_force";
        reader.mistake_at(&format!("cordage.{:?}.stretch", rope.cordage), message);
    }
    if cordage.relaxation.is_none() && rig.jump.response == Response::StandardLinearSolid {
        let message = "the standard linear solid needs the relaxation time of the jump rope";
        reader.mistake_at(&format!("cordage.{:?}.relaxation", rope.cordage), message);
    }
}

/// Fastest wind of a plan, m/s.
const MOST_WIND: f64 = 100.0;

fn check_winds(rig: &Rig, reader: &mut Reader) {
    for (i, wind) in rig.wind.iter().enumerate() {
        let path = format!("wind[{i}]");
        let speed = wind.speed_m_per_s();
        if !(speed > 0.0 && speed <= MOST_WIND) {
            let message = "a wind blows with more than zero and at most 100 m/s; still air is always looked at";
            reader.mistake_at(&format!("{path}.velocity"), message);
        }
        if wind.most.is_some_and(|most| most.si() < speed || most.si() > MOST_WIND) {
            let message = "the greatest wind looked at lies between this wind and 100 m/s";
            reader.mistake_at(&format!("{path}.most"), message);
        }
    }
}

fn check_kit(rig: &Rig, reader: &mut Reader) {
    for (i, item) in rig.kit.iter().flat_map(|kit| kit.item.iter().enumerate()) {
        let path = format!("kit.item[{i}]");
        let Some(name) = &item.cordage else { continue };
        cordage_reference(rig, reader, &format!("{path}.cordage"), name);
        if item.length.is_none() {
            reader.mistake_at(&path, "what is cut from a cordage needs a length");
        }
        for (key, given) in [("mass", item.mass.is_some()), ("kind", item.kind.is_some())] {
            if given {
                let message = format!("the cordage gives the {key}: leave this key out");
                reader.mistake_at(&format!("{path}.{key}"), message);
            }
        }
    }
}
