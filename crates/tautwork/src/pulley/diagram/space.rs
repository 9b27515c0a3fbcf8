//! Ropes that run in any direction, seen level from one side.

use std::fmt::Write as _;

use super::super::{BodyKind, Solution, State, System};
use super::columns::stops;
use super::paper::{MARGIN, Point, direction, facing, paper};
use super::picture::{about, bare};
use super::scene::{Arrow, Bar, Chip, GrabMark, Label, Line, Scene, Wheel, against};
use crate::quantity::Quantity;

const RADIUS: f64 = 17.0;
/// Distance of two sheaves on one body.
const SLOT: f64 = 58.0;
/// From a body's bar to the middle of its sheaves.
const LINK: f64 = 32.0;

/// One stop of a rope on paper.
#[derive(Clone, Copy)]
struct Stop {
    body: usize,
    /// Place on the bar, counted from its middle.
    slot: f64,
    /// Whether the rope turns there.
    wheel: bool,
}

/// Bodies on paper.
struct Sheet {
    places: Vec<Point>,
    facing: Vec<Point>,
    /// 1, or −1 where the stops stand on the bar in the reverse order.
    order: Vec<f64>,
}

impl Sheet {
    /// Where a stop meets its bar.
    fn tie(&self, stop: &Stop) -> Point {
        let ((x, y), (fx, fy)) = (self.places[stop.body], self.facing[stop.body]);
        let s = SLOT * stop.slot * self.order[stop.body];
        (x - fy * s, y + fx * s)
    }

    /// Centres of all stops of a rope: sheaves stand off their bar to the side to which the rope leaves.
    fn centres(&self, rope: &[Stop]) -> Vec<Point> {
        let centre = |j: usize| {
            let stop = &rope[j];
            let (x, y) = self.tie(stop);
            if !stop.wheel {
                return (x, y);
            }
            let (fx, fy) = self.facing[stop.body];
            let (here, before, after) = (
                self.places[stop.body],
                self.places[rope[j - 1].body],
                self.places[rope[j + 1].body],
            );
            let (dx, dy) = (before.0 + after.0 - 2.0 * here.0, before.1 + after.1 - 2.0 * here.1);
            let off = if dx * fx + dy * fy >= 0.0 { LINK } else { -LINK };
            (x + off * fx, y + off * fy)
        };
        (0..rope.len()).map(centre).collect()
    }

    fn length(&self, ropes: &[Vec<Stop>]) -> f64 {
        let of = |rope: &Vec<Stop>| {
            let centres = self.centres(rope);
            centres.windows(2).map(|p| (p[1].0 - p[0].0).hypot(p[1].1 - p[0].1)).sum::<f64>()
        };
        ropes.iter().map(of).sum()
    }

    /// Turns the order on a bar round where that makes the ropes shorter, so that they cross less.
    fn untangle(&mut self, ropes: &[Vec<Stop>]) {
        for b in 0..self.places.len() {
            let before = self.length(ropes);
            self.order[b] = -1.0;
            if self.length(ropes) >= before {
                self.order[b] = 1.0;
            }
        }
    }
}

/// Stops of all ropes, each with its slot.
fn all_stops(system: &System, solved: &Solution, used: &mut [usize]) -> Vec<Vec<Stop>> {
    let mut turn = 0;
    let mut ropes = Vec::new();
    for (r, rope) in system.ropes.iter().enumerate() {
        let bodies = stops(system, r);
        let last = bodies.len() - 1;
        let mut out = Vec::new();
        for (j, &body) in bodies.iter().enumerate() {
            let inner = j > 0 && j < last;
            // A grab on a rope that goes on nearly straight has no wheel.
            let grips =
                inner && rope.over[j - 1].grab.is_some() && solved.turns[turn].wrap.si() < 0.5;
            out.push(Stop { body, slot: used[body] as f64, wheel: inner && !grips });
            turn += usize::from(inner);
            used[body] += 1;
        }
        ropes.push(out);
    }
    for stop in ropes.iter_mut().flatten() {
        stop.slot -= 0.5 * (used[stop.body] as f64 - 1.0);
    }
    ropes
}

/// Places a system.
pub(super) fn place(system: &System, solved: &Solution, state: &State) -> Scene {
    let places = paper(system);
    let mut used = vec![0; places.len()];
    let ropes = all_stops(system, solved, &mut used);
    let (facing, order) = (facing(system, &places), vec![1.0; places.len()]);
    let mut sheet = Sheet { places, facing, order };
    sheet.untangle(&ropes);
    let mut scene = Scene::default();
    let mut parts = Vec::new();
    for (r, rope) in ropes.iter().enumerate() {
        let path = run(&mut scene, &sheet, system, r, rope, &mut parts);
        scene.ropes.push(Line { path, rope: r, name: system.ropes[r].name.clone() });
    }
    for (&(from, to), part) in parts.iter().zip(&state.parts) {
        let at = free_place(&scene, from, to);
        scene.chips.push(Chip { at, text: bare(part.tension) });
    }
    let mut edge = 0.0_f64;
    for (b, body) in system.bodies.iter().enumerate() {
        let ((x, y), (fx, fy)) = (sheet.places[b], sheet.facing[b]);
        let half = 0.5 * SLOT * (used[b].max(1) as f64 - 1.0) + 22.0;
        edge = edge.max(x + half * fy.abs() + LINK);
        let middle = (x, y);
        // A weight stays upright.
        let degrees = match body.kind {
            BodyKind::Load if fy < 0.0 => 180.0,
            BodyKind::Load => 0.0,
            _ => (-fx).atan2(fy).to_degrees(),
        };
        scene.bars.push(Bar { kind: body.kind, middle, half, degrees });
        scene.height = scene.height.max(y + half * fx.abs() + MARGIN);
        let leader_from = (x + 14.0, y);
        let lines = about(system, solved, state, b);
        scene.labels.push(Label { at: leader_from, leader_from, lines });
    }
    scene.margin(edge + 24.0);
    scene
}

/// Draws one rope around its wheels; says where each of its parts begins and ends.
fn run(
    scene: &mut Scene,
    sheet: &Sheet,
    system: &System,
    r: usize,
    rope: &[Stop],
    parts: &mut Vec<(Point, Point)>,
) -> String {
    let centres = sheet.centres(rope);
    let last = rope.len() - 1;
    let mut path = format!("M{:.1} {:.1}", centres[0].0, centres[0].1);
    let mut start = centres[0];
    for j in 1..=last {
        let stop = &rope[j];
        let into = direction(centres[j - 1], centres[j]);
        let (on, off) = if stop.wheel {
            let out = direction(centres[j], centres[j + 1]);
            let (on, off, clockwise) = around(centres[j], into, out);
            let _ = write!(
                path,
                "L{:.1} {:.1}A{RADIUS} {RADIUS} 0 0 {} {:.1} {:.1}",
                on.0,
                on.1,
                u8::from(clockwise),
                off.0,
                off.1
            );
            let hangs_from = sheet.tie(stop);
            scene.wheels.push(Wheel { at: centres[j], radius: RADIUS, hangs_from });
            (on, off)
        } else {
            let _ = write!(path, "L{:.1} {:.1}", centres[j].0, centres[j].1);
            (centres[j], centres[j])
        };
        if j < last
            && let Some(holds) = system.ropes[r].over[j - 1].grab
        {
            let back = if stop.wheel { 20.0 } else { 0.0 };
            let at = (on.0 - back * into.0, on.1 - back * into.1);
            scene.grabs.push(GrabMark { at, against: against(holds, into) });
        }
        parts.push((start, on));
        start = off;
    }
    for (end, next) in [(last, last - 1), (0, 1)] {
        if system.bodies[rope[end].body].kind == BodyKind::Hand {
            let u = direction(centres[next], centres[end]);
            let from = centres[end];
            scene.arrows.push(Arrow { from, to: (from.0 + 38.0 * u.0, from.1 + 38.0 * u.1) });
        }
    }
    path
}

/// The rope's path around a wheel: where it comes on, where it leaves, and whether clockwise.
fn around(centre: Point, into: Point, out: Point) -> (Point, Point, bool) {
    let clockwise = into.0 * out.1 - into.1 * out.0 >= 0.0;
    let sign = if clockwise { RADIUS } else { -RADIUS };
    // The rope has the wheel on the inside of its turn.
    let off = |u: Point| (centre.0 + sign * u.1, centre.1 - sign * u.0);
    (off(into), off(out), clockwise)
}

/// The place on a part nearest to its middle where a number covers no other mark.
fn free_place(scene: &Scene, from: Point, to: Point) -> Point {
    let at = |t: f64| (from.0 + t * (to.0 - from.0), from.1 + t * (to.1 - from.1));
    let clear = |p: &Point| {
        let far = |q: Point, x: f64, y: f64| (p.0 - q.0).abs() > x || (p.1 - q.1).abs() > y;
        scene.chips.iter().all(|c| far(c.at, 60.0, 28.0))
            && scene.wheels.iter().all(|w| far(w.at, 46.0, 30.0))
            && scene.grabs.iter().all(|g| far(g.at, 42.0, 26.0))
    };
    let tries = [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82];
    tries.map(at).into_iter().find(clear).unwrap_or(at(0.5))
}
