//! Parallel ropes as columns, in the order in which each rope runs.

use std::fmt::Write as _;

use nalgebra::Vector3;

use super::super::{BodyKind, Solution, State, System};
use super::picture::{about, bare};
use super::scene::{Arrow, Bar, Chip, GrabMark, Label, Line, Scene, Wheel, against};
use crate::quantity::Quantity;

/// Distance of two columns: the diameter of a sheave.
const PITCH: f64 = 66.0;
/// Distance of two bodies, one above the other.
const LEVEL: f64 = 194.0;
const LEFT: f64 = 44.0;

fn place_of(system: &System, body: usize) -> Vector3<f64> {
    Vector3::from(system.bodies[body].position.map(Quantity::si))
}

fn up(system: &System) -> Vector3<f64> {
    let haul = Vector3::from(system.haul.unwrap_or([0.0, 0.0, 1.0]));
    haul / haul.amax().max(f64::MIN_POSITIVE)
}

/// Bodies that each rope touches, in order. The names were found when the system was solved.
pub(super) fn stops(system: &System, rope: usize) -> Vec<usize> {
    let rope = &system.ropes[rope];
    let names = [&rope.from].into_iter().chain(rope.over.iter().map(|s| &s.on)).chain([&rope.to]);
    let find = |name: &String| system.bodies.iter().position(|b| b.name == *name);
    names.filter_map(find).collect()
}

/// Whether all parts run within 30° of the haul direction or against it.
pub(super) fn parallel(system: &System) -> bool {
    let up = up(system).normalize();
    (0..system.ropes.len()).all(|r| {
        stops(system, r).windows(2).all(|pair| {
            let way = place_of(system, pair[1]) - place_of(system, pair[0]);
            let way = way / way.amax().max(f64::MIN_POSITIVE);
            way.dot(&up).abs() > 0.866 * way.norm()
        })
    })
}

/// One part on paper.
struct Part {
    x: f64,
    rises: bool,
}

/// Places a system.
pub(super) fn place(system: &System, solved: &Solution, state: &State) -> Scene {
    let up = up(system);
    let height: Vec<f64> = (0..system.bodies.len()).map(|b| place_of(system, b).dot(&up)).collect();
    let mut levels = height.clone();
    levels.sort_by(|a, b| b.total_cmp(a));
    levels.dedup();
    let level = |b: usize| levels.iter().position(|l| *l == height[b]).unwrap_or(0) as f64;
    let y: Vec<f64> = (0..system.bodies.len()).map(|b| 40.0 + LEVEL * level(b)).collect();
    let mut scene = Scene::default();
    let mut reach: Vec<Option<(f64, f64)>> = vec![None; system.bodies.len()];
    // How many more parts leave a body downwards than upwards.
    let mut leaves = vec![0.0; system.bodies.len()];
    let mut x = LEFT;
    let mut part_number = 0;
    for (r, rope) in system.ropes.iter().enumerate() {
        let stops = stops(system, r);
        // A rope that turns back takes a new column, one that goes on stays in its own.
        let mut parts: Vec<Part> = Vec::with_capacity(stops.len());
        for pair in stops.windows(2) {
            let rises = y[pair[1]] < y[pair[0]];
            let down = if rises { -1.0 } else { 1.0 };
            leaves[pair[0]] += down;
            leaves[pair[1]] -= down;
            if parts.last().is_some_and(|p| p.rises != rises) {
                x += PITCH;
            }
            parts.push(Part { x, rises });
        }
        let mut path = format!("M{x0:.1} {y0:.1}", x0 = parts[0].x, y0 = y[stops[0]]);
        for (j, &body) in stops.iter().enumerate() {
            let (before, after) = (j.checked_sub(1).map(|i| &parts[i]), parts.get(j));
            let here = [before, after].into_iter().flatten().map(|p| p.x);
            let (low, high) = reach[body].unwrap_or((f64::INFINITY, f64::NEG_INFINITY));
            reach[body] = Some((here.clone().fold(low, f64::min), here.fold(high, f64::max)));
            let (Some(before), Some(after)) = (before, after) else {
                if let (Some(before), BodyKind::Hand) = (before, system.bodies[body].kind) {
                    let away = if before.rises { -1.0 } else { 1.0 };
                    let end = (before.x, y[body] + 34.0 * away);
                    scene.arrows.push(Arrow { from: (before.x, y[body]), to: end });
                } else if let (Some(after), BodyKind::Hand) = (after, system.bodies[body].kind) {
                    let away = if after.rises { 1.0 } else { -1.0 };
                    let end = (after.x, y[body] + 34.0 * away);
                    scene.arrows.push(Arrow { from: (after.x, y[body]), to: end });
                }
                if j > 0 {
                    let _ = write!(path, "V{:.1}", y[body]);
                }
                continue;
            };
            // The sheave stands on the side to which both parts leave.
            let side = if before.rises { 1.0 } else { -1.0 };
            let sheave = &rope.over[j - 1];
            if before.rises == after.rises {
                if let Some(holds) = sheave.grab {
                    let along = (0.0, -side);
                    let at = (before.x, y[body]);
                    scene.grabs.push(GrabMark { at, against: against(holds, along) });
                }
            } else {
                let centre = (0.5 * (before.x + after.x), y[body] + 0.72 * PITCH * side);
                let radius = 0.5 * (after.x - before.x).abs();
                let _ = write!(path, "V{:.1}", centre.1);
                let sweep = u8::from((side > 0.0) == (after.x > before.x));
                let _ = write!(
                    path,
                    "A{radius:.1} {radius:.1} 0 0 {sweep} {:.1} {:.1}",
                    after.x, centre.1
                );
                scene.wheels.push(Wheel { at: centre, radius, hangs_from: (centre.0, y[body]) });
                if let Some(holds) = sheave.grab {
                    // On the part that leads to it, as the captures of sheaves sit.
                    let at = (before.x, centre.1 + 14.0 * side);
                    scene.grabs.push(GrabMark { at, against: against(holds, (0.0, -side)) });
                }
            }
        }
        for (j, pair) in stops.windows(2).enumerate() {
            let part = &parts[j];
            // Above the sheave at its lower end, where no other body is in the way.
            let at = (part.x, y[pair[0]].max(y[pair[1]]) - 0.5 * LEVEL);
            let text = bare(state.parts[part_number].tension);
            scene.chips.push(Chip { at, text });
            part_number += 1;
        }
        scene.ropes.push(Line { path, rope: r, name: rope.name.clone() });
        x += PITCH;
    }
    let right = x - PITCH + 34.0;
    for (b, body) in system.bodies.iter().enumerate() {
        let (low, high) = reach[b].unwrap_or((LEFT, LEFT));
        scene.bars.push(Bar {
            kind: body.kind,
            middle: (0.5 * (low + high), y[b]),
            half: 0.5 * (high - low) + 22.0,
            degrees: if leaves[b] < 0.0 { 180.0 } else { 0.0 },
        });
        let leader_from = (high + 22.0, y[b]);
        scene.labels.push(Label {
            at: leader_from,
            leader_from,
            lines: about(system, solved, state, b),
        });
    }
    scene.height = 40.0 + LEVEL * (levels.len() as f64 - 1.0) + 70.0;
    scene.margin(right + 18.0);
    scene
}
