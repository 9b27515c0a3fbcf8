//! Energy and momentum.

use super::super::grid::Grid;
use super::super::motion::{Lump, Motion, stable_s};
use super::super::plan::{End, Spring, Strand};
use super::super::rest::Still;
use super::*;
use crate::material::Law;

// 1e-3 of the energy of the fall over a minute without any loss, and 400 nodes.
#[test]
fn energy_keeps_for_a_minute_without_loss() {
    let mut jump = demo();
    jump.walls.clear();
    jump.drag_area = 0.0.square_meters();
    for rope in &mut jump.ropes {
        rope.response = lossless(22e3);
    }
    jump.follow.horizon = 60.0.seconds();
    let flight = fly_full(&jump, &mesh(16)).unwrap();
    println!("drift {:e} in {:?}", flight.energy.drift.si(), flight.mesh);
    assert!(flight.energy.drift.si() < 1e-3 && flight.notes == [FullNote::NotSettled]);
    let e = &flight.energy;
    assert_eq!((e.lost_in_material.si(), e.lost_to_drag.si()), (0.0, 0.0));
    let now = e.kinetic + e.stored_in_ropes + e.stored_in_lines;
    let then = e.kinetic_at_exit + e.stored_at_exit + e.from_height;
    assert!((now - then).si().abs() < 1e-3 * 58e3);
}

#[test]
fn the_books_of_a_lossy_jump_close() {
    let mut jump = demo();
    jump.wind = Some(3.0.meters_per_second());
    jump.ring_damping = Some(20.0.newton_seconds_per_meter());
    jump.follow.horizon = 15.0.seconds();
    let loss =
        LineLoss { line: "backup".into(), arm: 50.0.kilonewtons(), relaxation: 0.05.seconds() };
    let mesh = Mesh {
        rope_drag_width: Some(10.0.millimeters()),
        line_drag_width: Some(20.0.millimeters()),
        line_losses: vec![loss],
        ..mesh(16)
    };
    let flight = fly_full(&jump, &mesh).unwrap();
    let e = &flight.energy;
    println!("{e:?}");
    assert!(e.drift.si() < 1e-3);
    assert!(
        e.lost_in_material.si() > 0.0 && e.lost_to_drag.si() > 0.0 && e.lost_at_ring.si() > 0.0
    );
}

/// A rope in a loop between a held ring and a free body, under way.
fn loop_of(arm_n: f64) -> (Vec<Strand>, Motion, f64) {
    let spring = Spring { law: Law::Linear { ea_n: 1e4 }, arm_n, relaxation_s: 0.02 };
    let strands = vec![Strand::new((End::Ring, End::Body), 12.0, 0.07, 12, spring)];
    let ring = Lump { held: true, mass_kg: 1.0, ..Lump::default() };
    let body = Lump {
        at_m: [5.0, 0.0, 0.0],
        v_m_per_s: [1.0, 0.5, 0.0],
        mass_kg: 10.0,
        ..Lump::default()
    };
    let held = Lump { held: true, ..body };
    let still = Still::find(&strands, &ring, &held, [0.0; 3], "waiting").unwrap();
    let grid = Grid::new(&strands, &still.points_m(), 1.2);
    let dt_s = 0.2 * stable_s(&strands, &grid, &ring, &body);
    let mut motion = Motion::new(grid, Vec::new(), ring, body, [0.0; 3]);
    motion.grid.set_step(&strands, dt_s);
    (strands, motion, dt_s)
}

#[test]
fn momentum_is_the_impulse_of_gravity_and_anchor() {
    let (_, mut motion, dt_s) = loop_of(1e4);
    let (mut impulse, mut most_n) = ([0.0; 3], 0.0_f64);
    let total = |m: &Motion| {
        let mut p = m.body.v_m_per_s.map(|v| v * m.body.mass_kg);
        for i in 0..m.grid.x_m.len() {
            p[0] += m.grid.mass_kg[i] * m.grid.vx_m_per_s[i];
            p[1] += m.grid.mass_kg[i] * m.grid.vy_m_per_s[i];
            p[2] += m.grid.mass_kg[i] * m.grid.vz_m_per_s[i];
        }
        p
    };
    let kg = 10.0 + motion.grid.mass_kg.iter().sum::<f64>();
    let start = total(&motion);
    for _ in 0..20_000 {
        // The first segment pulls the rope towards the ring.
        for (impulse, n) in impulse.iter_mut().zip(motion.on_ring_n) {
            *impulse -= dt_s * n;
        }
        impulse[2] -= dt_s * kg * GRAVITY;
        most_n = most_n.max(motion.on_ring_n[2].abs());
        motion.advance(dt_s, dt_s);
        motion.pull();
    }
    let end = total(&motion);
    assert!(most_n > 200.0, "the rope is to have been taut: {most_n}");
    for k in 0..3 {
        assert!((end[k] - start[k] - impulse[k]).abs() < 1e-9 * most_n, "{end:?} {impulse:?}");
    }
}

#[test]
fn no_segment_ever_gains_from_its_arm() {
    let (_, mut motion, dt_s) = loop_of(1.5e4);
    let mut before = motion.grid.lost_j.clone();
    for _ in 0..20_000 {
        motion.advance(dt_s, dt_s);
        motion.pull();
        for (now, was) in motion.grid.lost_j.iter().zip(&before) {
            // A difference of stored energies, so to rounding.
            assert!(now - was >= -1e-13 * (1.0 + was), "{now} {was}");
        }
        before.clone_from(&motion.grid.lost_j);
    }
    assert!(before.iter().sum::<f64>() > 1.0);
}
