//! Least distances in time, Eq. (N1) and (N2).

use super::super::space::{along, between_segments, from, size};
use super::super::{Place, SwingError};
use super::loops::crossings;
use super::scene::{Apart, PairApart, Scene, Thing};
use crate::quantity::{Length, Quantity, Time};

/// The least distance is known to this, m.
const CLOSE_M: f64 = 1e-3;
/// Most distances looked at.
const MOST_LOOKS: usize = 10_000_000;

/// How near things come to each other, and whether a body goes through a loop, Eq. (N1) to (N3).
///
/// # Errors
/// [`SwingError`]: times that do not rise, tracks of another length, values that are not finite, unknown or
/// repeated names, or more looks than allowed.
///
/// # Example
/// ```
/// use tautwork::quantity::{ReadLength, ReadTime, Words};
/// use tautwork::swing::{Place, Scene, Thing, Track, least_apart};
/// let at = |x: f64, y: f64, z: f64| Place { x: x.meters(), y: y.meters(), z: z.meters() };
/// // A body of 0.5 m falls past an upright rope, 2 m to its side.
/// let body = Track { x_m: vec![0.0], y_m: vec![0.0], z_m: vec![0.0] };
/// let rope = vec![Track::still(at(2.0, 0.0, 5.0)), Track::still(at(2.0, 0.0, -20.0))];
/// let thing = |name: &str, radius: f64, points| Thing {
///     name: name.to_owned(),
///     radius: radius.meters(),
///     points,
///     is_loop: false,
/// };
/// let scene = Scene {
///     t_s: vec![0.0],
///     things: vec![thing("body", 0.5, vec![body]), thing("haul rope", 0.0, rope)],
///     joined: vec![],
/// };
/// assert!((least_apart(&scene)?.pairs[0].least.in_meters() - 1.5).abs() < 1e-9);
/// assert!(least_apart(&Scene { t_s: vec![f64::NAN], ..scene }).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn least_apart(scene: &Scene) -> Result<Apart, SwingError> {
    scene.check()?;
    let mut pairs = Vec::new();
    let mut looks = 0;
    for (i, first) in scene.things.iter().enumerate() {
        for second in &scene.things[i + 1..] {
            if !scene.are_joined(&first.name, &second.name) {
                pairs.push(pair(scene, first, second, &mut looks)?);
            }
        }
    }
    pairs.sort_by(|a: &PairApart, b| a.least.si().total_cmp(&b.least.si()));
    Ok(Apart { pairs, crossings: crossings(scene) })
}

/// Nearest points of two things.
#[derive(Debug, Clone, Copy)]
struct Near {
    away_m: f64,
    t_s: f64,
    points: [[f64; 3]; 2],
}

fn pair(
    scene: &Scene,
    first: &Thing,
    second: &Thing,
    looks: &mut usize,
) -> Result<PairApart, SwingError> {
    let cost = first.points.len() * second.points.len();
    let mut look = |k: usize, share: f64| {
        *looks += cost;
        if *looks > MOST_LOOKS {
            let problem = format!("more than {MOST_LOOKS} distances would have to be looked at");
            return Err(SwingError::contradiction("things", &problem));
        }
        let t_s =
            scene.t_s[k] + scene.t_s.get(k + 1).map_or(0.0, |next| share * (next - scene.t_s[k]));
        Ok(nearest(&placed(first, k, share), &placed(second, k, share), t_s))
    };
    let mut at_samples = Vec::with_capacity(scene.t_s.len());
    for k in 0..scene.t_s.len() {
        at_samples.push(look(k, 0.0)?);
    }
    let mut best = at_samples[0];
    for near in &at_samples {
        if near.away_m < best.away_m {
            best = *near;
        }
    }
    for k in 0..scene.t_s.len() - 1 {
        let way_m = moved_m(first, k) + moved_m(second, k);
        let mut open = vec![(0.0, 1.0, at_samples[k].away_m, at_samples[k + 1].away_m)];
        while let Some((a, b, from_m, to_m)) = open.pop() {
            let least_m = 0.5 * (from_m + to_m - way_m * (b - a));
            if least_m.max(0.0) >= best.away_m - CLOSE_M {
                continue;
            }
            let middle = 0.5 * (a + b);
            let near = look(k, middle)?;
            if near.away_m < best.away_m {
                best = near;
            }
            open.push((a, middle, from_m, near.away_m));
            open.push((middle, b, near.away_m, to_m));
        }
    }
    let least_m = (best.away_m - first.radius.si() - second.radius.si()).max(0.0);
    Ok(PairApart {
        first: first.name.clone(),
        second: second.name.clone(),
        least: Length::from_si(least_m),
        time: Time::from_si(best.t_s),
        first_place: Place::of_m(best.points[0]),
        second_place: Place::of_m(best.points[1]),
    })
}

/// Points of a thing within an interval.
fn placed(thing: &Thing, k: usize, share: f64) -> Vec<[f64; 3]> {
    let each = thing.points.iter().map(|track| {
        if share == 0.0 { track.at_m(k) } else { along(track.at_m(k), track.at_m(k + 1), share) }
    });
    each.collect()
}

/// Longest way of a point in an interval, m.
fn moved_m(thing: &Thing, k: usize) -> f64 {
    let ways = thing.points.iter().map(|track| size(from(track.at_m(k), track.at_m(k + 1))));
    ways.fold(0.0, f64::max)
}

fn nearest(a: &[[f64; 3]], b: &[[f64; 3]], t_s: f64) -> Near {
    let pieces = |points: &[[f64; 3]]| -> Vec<[[f64; 3]; 2]> {
        if let [only] = points {
            return vec![[*only, *only]];
        }
        points.windows(2).map(|w| [w[0], w[1]]).collect()
    };
    let mut best = Near { away_m: f64::INFINITY, t_s, points: [a[0], b[0]] };
    let others = pieces(b);
    for p in pieces(a) {
        for q in &others {
            let points = between_segments(p, *q);
            let away_m = size(from(points[0], points[1]));
            if away_m < best.away_m {
                best = Near { away_m, t_s, points };
            }
        }
    }
    best
}
