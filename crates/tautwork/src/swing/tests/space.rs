//! In space: exact solutions, symmetry, wind.

use super::super::course::run;
use super::super::model::{BODY, SPEED};
use super::super::setup::set_up;
use super::super::space::three;
use super::super::support::Nothing;
use super::*;

fn place(x: f64, y: f64, z: f64) -> Place {
    Place { x: x.meters(), y: y.meters(), z: z.meters() }
}

// The pull of a fixed ring and gravity have no moment about the vertical through the ring.
#[test]
fn a_spherical_pendulum_keeps_its_angular_momentum() {
    let mut jump = plain(place(30.0, 0.0, -30.0), 45.0, 30e3);
    jump.exit_speed_y = 6.0.meters_per_second();
    jump.exit_speed_x = 2.0.meters_per_second();
    jump.follow.horizon = 60.0.seconds();
    jump.follow.tolerance = 1e-10.ratio();
    let mut setup = set_up(&jump, Nothing, [0.0; 3]).unwrap();
    let out = run(&mut setup.model, &setup.course, &setup.start).unwrap();
    let about_z = |y: &[f64]| {
        let (p, v) = (three(y, BODY), three(y, BODY + SPEED));
        p[0] * v[1] - p[1] * v[0]
    };
    assert!((about_z(&out.end) / about_z(&out.start) - 1.0).abs() < 1e-8);
    // It did leave the plane, and went slack and taut on the way.
    assert!(out.end[BODY + 1].abs() > 0.1 && out.events.len() > 3);
}

// v² = g r tan θ (textbook): a conical pendulum keeps its height.
#[test]
fn a_conical_pendulum_keeps_its_height() {
    let (l, angle): (f64, f64) = (40.0, 0.6);
    let (r, z) = (l * angle.sin(), -l * angle.cos());
    let speed = (9.81 * r * angle.tan()).sqrt();
    // As much shorter at rest as it is stretched.
    let ea = 1e6;
    let rest = l / (1.0 + 80.0 * 9.81 / angle.cos() / ea);
    let mut jump = plain(place(r, 0.0, z), rest, ea);
    jump.exit_speed_y = speed.meters_per_second();
    jump.follow.horizon = 30.0.seconds();
    let flight = fly(&jump).unwrap();
    assert!(flight.series.z_m.iter().all(|at| (at - z).abs() < 1e-5));
    let want = 80.0 * 9.81 / angle.cos();
    assert!((flight.resultant.value.si() / want - 1.0).abs() < 1e-6);
    assert!((flight.leftmost.value.si() - r).abs() < 1e-4);
    // The rope turns at sin θ times the rate around the axis.
    let turned = speed / r * angle.sin() * flight.duration.si();
    assert!((flight.turned.si() / turned - 1.0).abs() < 1e-3, "{:?} {turned}", flight.turned);
    assert!((flight.rightmost.value.si() + r).abs() < 1e-4);
}

#[test]
fn a_turned_rig_flies_the_turned_jump() {
    let mut jump = demo();
    jump.walls.clear();
    jump.exit.y = 3.0.meters();
    jump.exit_speed_y = (-0.7).meters_per_second();
    jump.wind = Some(2.0.meters_per_second());
    jump.wind_y = Some(3.0.meters_per_second());
    jump.follow.horizon = 15.0.seconds();
    let (sin, cos) = 0.5_f64.sin_cos();
    let turn = |x: f64, y: f64| (cos * x - sin * y, sin * x + cos * y);
    let mut turned = jump.clone();
    let move_place = |p: &mut Place| {
        let (x, y) = turn(p.x.si(), p.y.si());
        (p.x, p.y) = (x.meters(), y.meters());
    };
    let move_pair = |a: &mut Speed, b: &mut Speed| {
        let (x, y) = turn(a.si(), b.si());
        (*a, *b) = (x.meters_per_second(), y.meters_per_second());
    };
    move_place(&mut turned.exit);
    move_pair(&mut turned.exit_speed_x, &mut turned.exit_speed_y);
    let (mut along, mut left) = (turned.wind.unwrap(), turned.wind_y.unwrap());
    move_pair(&mut along, &mut left);
    (turned.wind, turned.wind_y) = (Some(along), Some(left));
    for line in &mut turned.lines {
        move_place(&mut line.near);
        move_place(&mut line.far);
    }
    let (one, two) = (fly(&jump).unwrap(), fly(&turned).unwrap());
    assert!((one.resultant.value.si() / two.resultant.value.si() - 1.0).abs() < 1e-6);
    for k in 0..one.series.t_s.len() {
        let (x, y) = turn(one.series.x_m[k], one.series.y_m[k]);
        assert!((x - two.series.x_m[k]).abs() < 1e-4 && (y - two.series.y_m[k]).abs() < 1e-4);
        assert!((one.series.z_m[k] - two.series.z_m[k]).abs() < 1e-4);
    }
    assert!(one.energy.drift.si() < 1e-6);
}

#[test]
fn without_anything_lateral_a_jump_stays_in_its_plane() {
    let mut jump = demo();
    jump.follow.horizon = 20.0.seconds();
    let flight = fly(&jump).unwrap();
    assert!(flight.series.y_m.iter().chain(&flight.series.ring_y_m).all(|y| *y == 0.0));
}

// At rest the rope points along drag and weight together: tan = k v² / W.
#[test]
fn wind_from_the_side_blows_the_body_off_the_plane() {
    let mut jump = plain(place(1.0, 0.0, -45.0), 45.0, 30e3);
    jump.drag_area = 1.0.square_meters();
    jump.wind_y = Some(10.0.meters_per_second());
    jump.follow.horizon = 600.0.seconds();
    jump.follow.settled_speed = 0.02.meters_per_second();
    let flight = fly(&jump).unwrap();
    let drag = 0.5 * 1.2 * 100.0;
    let rest = flight.rest.as_ref().unwrap().body;
    let slope = rest.y.si() / -rest.z.si();
    assert!((slope / (drag / (80.0 * 9.81)) - 1.0).abs() < 1e-12);
    let last = flight.series.y_m.last().unwrap();
    assert!((last - rest.y.si()).abs() < 0.3, "{last} {rest:?}");
    assert!(flight.leftmost.value > rest.y && flight.rightmost.value.si() < 1e-9);
    jump.wind_y = Some((-10.0).meters_per_second());
    let mirrored = fly(&jump).unwrap();
    assert!((mirrored.rightmost.value.si() + flight.leftmost.value.si()).abs() < 1e-6);
}
