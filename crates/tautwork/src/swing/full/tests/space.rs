//! In space.

use super::*;

/// A quarter turn to the left about the vertical.
fn turned(p: Place) -> Place {
    Place { x: -p.y, y: p.x, z: p.z }
}

/// The demo rig in short, with a run to the side and wind across.
fn aslant() -> Jump {
    let mut jump = demo();
    jump.walls.clear();
    jump.lines.truncate(2);
    jump.exit.y = 3.0.meters();
    jump.exit_speed_y = (-1.5).meters_per_second();
    jump.wind = Some(2.0.meters_per_second());
    jump.wind_y = Some(5.0.meters_per_second());
    jump.follow.horizon = 6.0.seconds();
    jump
}

#[test]
fn a_turned_rig_flies_the_turned_jump() {
    let one = aslant();
    let mut two = one.clone();
    two.exit = turned(one.exit);
    (two.exit_speed_x, two.exit_speed_y) = (-one.exit_speed_y, one.exit_speed_x);
    (two.wind, two.wind_y) = (one.wind_y.map(|w| -w), one.wind);
    for line in &mut two.lines {
        (line.near, line.far) = (turned(line.near), turned(line.far));
    }
    let mesh = Mesh { rope_drag_width: Some(0.01.meters()), ..mesh(10) };
    let (a, b) = (fly_full(&one, &mesh).unwrap(), fly_full(&two, &mesh).unwrap());
    assert!(a.series.y_m.iter().any(|y| y.abs() > 2.0));
    for k in 0..a.series.t_s.len() {
        assert!((a.series.x_m[k] - b.series.y_m[k]).abs() < 1e-3);
        assert!((a.series.y_m[k] + b.series.x_m[k]).abs() < 1e-3);
        assert!((a.series.z_m[k] - b.series.z_m[k]).abs() < 1e-3);
    }
    assert!((a.resultant.value.si() / b.resultant.value.si() - 1.0).abs() < 1e-4);
}

// Both models drift alike in wind from the side; rope that the body has to drag along takes some of its way.
#[test]
fn both_models_drift_alike() {
    let jump = aslant();
    let (full, reduced) = (fly_full(&jump, &mesh(20)).unwrap(), fly(&jump).unwrap());
    let at = |t: &[f64], y: &[f64]| y[t.iter().position(|t| *t >= 3.0).unwrap()];
    let (a, b) =
        (at(&full.series.t_s, &full.series.y_m), at(&reduced.series.t_s, &reduced.series.y_m));
    println!("y after 3 s: full {a:.4} m, reduced {b:.4} m");
    let way = b - jump.exit.y.si();
    assert!(way.abs() > 1.0 && (a - b).abs() < 0.07 * way.abs());
}

// A conical pendulum: at angle θ from the vertical on a rope of length l it goes round in
// 2 π √(l cos θ / g) (textbook, from memory), here with the rope as a stiff light row.
#[test]
fn a_conical_pendulum_goes_round() {
    let (length, ea) = (10.0, 2e6);
    let mut jump = plain(at(0.0, 0.0), length, ea);
    let angle = 0.6_f64;
    let tension = 80.0 * 9.81 / angle.cos();
    let stretched = length * (1.0 + tension / ea);
    let (radius, depth) = (stretched * angle.sin(), stretched * angle.cos());
    jump.exit = at(radius, -depth);
    jump.exit_speed_y = (9.81 * radius * angle.tan()).sqrt().meters_per_second();
    let period = 2.0 * core::f64::consts::PI * (depth / 9.81).sqrt();
    jump.follow.horizon = period.seconds();
    jump.follow.sample_every = period.seconds();
    let flight = fly_full(&jump, &Mesh::default()).unwrap();
    let s = &flight.series;
    println!("back at {:.5}, {:.5}, {:.5}", s.x_m[1], s.y_m[1], s.z_m[1]);
    assert!((s.x_m[1] - radius).abs() < 1e-3 && s.y_m[1].abs() < 1e-2);
    assert!((s.z_m[1] + depth).abs() < 1e-3);
}

// A stabiliser: two stops, one from each side, hold the ring after their travel, as in the reduced model.
#[test]
fn stops_hold_the_ring_after_their_travel() {
    let mut jump = demo();
    jump.walls.clear();
    jump.lines.truncate(2);
    jump.follow.horizon = 8.0.seconds();
    let ring = fly_full(&jump, &mesh(20)).unwrap().ring;
    let free = (ring.nearest.value, ring.farthest.value);
    for (name, anchor) in [("near", at(0.0, 0.0)), ("far", at(130.0, -3.0))] {
        let travel = 0.05.meters();
        jump.stops.push(Stop { name: name.into(), anchor, travel, response: lossless(1e6) });
    }
    let (full, reduced) = (fly_full(&jump, &mesh(20)).unwrap(), fly(&jump).unwrap());
    let moved = |a: Length, b: Length| b.si() - a.si();
    let (before, after) =
        (moved(free.0, free.1), moved(full.ring.nearest.value, full.ring.farthest.value));
    let other = moved(reduced.ring.nearest.value, reduced.ring.farthest.value);
    println!("ring moves {before:.3} m free, {after:.3} m with stops, {other:.3} m reduced");
    assert!(after < 0.9 * before && (after / other - 1.0).abs() < 0.3);
    assert!(full.energy.drift.si() < 1e-3 && full.ring.load.value.si() > 2e3);
}
