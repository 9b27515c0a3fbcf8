//! Bodies that go through loops of rope, Eq. (N3).

use super::super::Place;
use super::super::space::{cross, dot, from};
use super::scene::{LoopCrossing, Scene, Thing};
use crate::quantity::{Quantity, Time};

/// Twice within this it is the same crossing, on an edge of two triangles, as a share of an interval.
const SAME: f64 = 1e-9;

/// Every crossing, in order of time.
pub(super) fn crossings(scene: &Scene) -> Vec<LoopCrossing> {
    let mut all = Vec::new();
    let bodies = || scene.things.iter().filter(|thing| thing.points.len() == 1);
    for ring in scene.things.iter().filter(|t| t.is_loop && t.points.len() > 2) {
        for body in bodies().filter(|body| !scene.are_joined(&body.name, &ring.name)) {
            through(scene, body, ring, &mut all);
        }
    }
    all.sort_by(|a, b| a.time.si().total_cmp(&b.time.si()));
    all
}

fn through(scene: &Scene, body: &Thing, ring: &Thing, all: &mut Vec<LoopCrossing>) {
    for k in 0..scene.t_s.len() - 1 {
        let (t_s, dt_s) = (scene.t_s[k], scene.t_s[k + 1] - scene.t_s[k]);
        let mut shares: Vec<(f64, [f64; 3])> = Vec::new();
        for i in 1..ring.points.len() - 1 {
            let corners = [0, i, i + 1].map(|i| &ring.points[i]);
            let at = |share: f64| {
                let of = |track: &super::Track| {
                    let (a, b) = (track.at_m(k), track.at_m(k + 1));
                    [0, 1, 2].map(|i| a[i] + share * (b[i] - a[i]))
                };
                (of(&body.points[0]), corners.map(of))
            };
            for share in meets(&at) {
                let (p, triangle) = at(share);
                let new = shares.iter().all(|(other, _)| (share - other).abs() > SAME);
                if new && inside(p, triangle) {
                    shares.push((share, p));
                }
            }
        }
        for (share, p) in shares {
            all.push(LoopCrossing {
                body: body.name.clone(),
                through: ring.name.clone(),
                time: Time::from_si(t_s + share * dt_s),
                place: Place::of_m(p),
            });
        }
    }
}

/// Shares of an interval at which the body is in the plane of the triangle: from after its start to its end.
fn meets(at: &impl Fn(f64) -> ([f64; 3], [[f64; 3]; 3])) -> Vec<f64> {
    let volume = |share: f64| {
        let (p, [a, b, c]) = at(share);
        dot(from(a, p), cross(from(a, b), from(a, c)))
    };
    // The cubic through four of its values.
    let f = [0.0, 1.0 / 3.0, 2.0 / 3.0, 1.0].map(volume);
    let a3 = 4.5 * (f[3] - f[0]) - 13.5 * (f[2] - f[1]);
    let a2 = 9.0 * f[0] - 22.5 * f[1] + 18.0 * f[2] - 4.5 * f[3];
    let a1 = -5.5 * f[0] + 9.0 * f[1] - 4.5 * f[2] + f[3];
    let largest = f.iter().fold(0.0_f64, |m, f| m.max(f.abs()));
    let (_, [a, b, c]) = at(0.0);
    let spread = dot(from(a, b), from(a, b)).max(dot(from(a, c), from(a, c)));
    // In the plane all the time, to rounding.
    if largest <= 1e-12 * spread * spread.sqrt() {
        return Vec::new();
    }
    let found = roots::find_roots_cubic(a3, a2, a1, f[0]);
    found.as_ref().iter().copied().filter(|share| *share > 0.0 && *share <= 1.0).collect()
}

fn inside(p: [f64; 3], [a, b, c]: [[f64; 3]; 3]) -> bool {
    let n = cross(from(a, b), from(a, c));
    let side = |q: [f64; 3], r: [f64; 3]| dot(cross(from(q, r), from(q, p)), n) >= 0.0;
    dot(n, n) > 0.0 && side(a, b) && side(b, c) && side(c, a)
}
