//! What comes near what in a jump.

use super::super::space::{from, size};
use super::super::terrain::Body;
use super::super::{Jump, SwingError, fly};
use super::least::least_apart;
use super::loops::crossings;
use super::scene::{Apart, Scene, Thing, Track};
use crate::quantity::{Length, Quantity};

/// Least distances between body, jump ropes, lines and parked ropes over a jump, and whether the body
/// goes through a loop, Eq. (N1) to (N4).
///
/// A body with a `body_length` is a capsule, Eq. (T4): each end of its axis goes through a loop by itself.
///
/// Names of the jump's own things: `body`, and those of its ropes and lines. What is parked has other names,
/// such as `haul rope`.
///
/// # Errors
/// [`SwingError`]: as [`fly`] and [`least_apart`].
///
/// # Example
/// ```
/// use tautwork::quantity::{ReadLength, Words};
/// use tautwork::swing::*;
/// let at = |x: f64, y: f64, z: f64| Place { x: x.meters(), y: y.meters(), z: z.meters() };
/// let jump = Jump {
///     mass: 80.0.kilograms(),
///     drag_area: 0.0.square_meters(),
///     exit: at(10.0, 0.0, 0.0),
///     exit_speed_x: 0.0.meters_per_second(),
///     exit_speed_y: 0.0.meters_per_second(),
///     exit_speed_z: 0.0.meters_per_second(),
///     ropes: vec![Rope {
///         name: "rope".to_owned(),
///         rest_length: 20.0.meters(),
///         linear_density: 0.0.grams_per_meter(),
///         response: Response::Pair {
///             stiff: 20.0.kilonewtons(),
///             soft: 10.0.kilonewtons(),
///             relaxation: None,
///         },
///     }],
///     lines: vec![],
///     stops: vec![],
///     ring_mass: 0.0.kilograms(),
///     fixed_ring: Some(at(0.0, 0.0, 0.0)),
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
///     body_radius: 0.5.meters(),
///     body_length: None,
///     launch_zone: None,
///     timed_forces: vec![],
///     run: Run::Stiff,
///     follow: Follow { horizon: 1.5.seconds(), ..Follow::default() },
/// };
/// // A rope hung upright, 3 m to the left of the fall.
/// let parked = Thing {
///     name: "haul rope".to_owned(),
///     radius: 0.0.meters(),
///     points: vec![Track::still(at(10.0, 3.0, 1.0)), Track::still(at(10.0, 3.0, -30.0))],
///     is_loop: false,
/// };
/// let apart = apart_in_flight(&jump, &[parked])?;
/// let body = apart.pairs.iter().find(|p| p.first == "body").unwrap();
/// assert!((body.least.in_meters() - 2.5).abs() < 1e-3);
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn apart_in_flight(jump: &Jump, parked: &[Thing]) -> Result<Apart, SwingError> {
    let series = fly(jump)?.series;
    let of_body = Body::of(jump)?;
    let body = Track { x_m: series.x_m, y_m: series.y_m, z_m: series.z_m };
    let ring = Track { x_m: series.ring_x_m, y_m: series.ring_y_m, z_m: series.ring_z_m };
    let thin = Length::from_si(0.0);
    let thing = |name: &String, radius, points| Thing {
        name: name.clone(),
        radius,
        points,
        is_loop: false,
    };
    let mut ends = vec![body.clone()];
    if !of_body.is_ball() {
        ends.push(Track::default());
        for k in 0..series.t_s.len() {
            let taut = series.rope_tension_n.iter().any(|tension_n| tension_n[k] > 0.0);
            let [_, end_m] = of_body.axis(body.at_m(k), ring.at_m(k), taut);
            ends[1].push_m(end_m);
        }
    }
    let mut things = vec![thing(&"body".to_owned(), jump.body_radius, ends.clone())];
    for rope in &jump.ropes {
        let bottom = bottom(&ring, &body, rope.rest_length.si(), series.t_s.len());
        things.push(thing(&rope.name, thin, vec![ring.clone(), bottom, body.clone()]));
    }
    for line in &jump.lines {
        let points = vec![Track::still(line.near), ring.clone(), Track::still(line.far)];
        things.push(thing(&line.name, thin, points));
    }
    let own: Vec<String> = things.iter().map(|thing| thing.name.clone()).collect();
    let mut joined = Vec::new();
    for (i, a) in own.iter().enumerate() {
        for (k, b) in own.iter().enumerate().skip(i + 1) {
            // Only body and lines are not tied to each other.
            if i > 0 || k <= jump.ropes.len() {
                joined.push([a.clone(), b.clone()]);
            }
        }
    }
    things.extend(parked.iter().cloned());
    let mut scene = Scene { t_s: series.t_s, things, joined };
    let mut apart = least_apart(&scene)?;
    if ends.len() > 1 {
        // Through a loop goes a point: each end of the axis.
        for end in ends {
            scene.things[0].points = vec![end];
            apart.crossings.extend(crossings(&scene));
        }
        apart.crossings.sort_by(|a, b| a.time.si().total_cmp(&b.time.si()));
    }
    Ok(apart)
}

/// Where the loop of a slack rope can be lowest, Eq. (N4); half way along a taut one.
fn bottom(ring: &Track, body: &Track, length_m: f64, samples: usize) -> Track {
    let mut bottom = Track::default();
    for k in 0..samples {
        let (a, b) = (ring.at_m(k), body.at_m(k));
        let r = from(a, b);
        let level_m = r[0].hypot(r[1]);
        let mut share = 0.5;
        let mut z_m = 0.5 * (a[2] + b[2]);
        if size(r) < length_m {
            let upright = (1.0 - (level_m / length_m).powi(2)).sqrt();
            share = 0.5 * (1.0 - r[2] / (upright * length_m));
            z_m = a[2] - share * length_m * upright;
        }
        bottom.push_m([a[0] + share * r[0], a[1] + share * r[1], z_m]);
    }
    bottom
}
