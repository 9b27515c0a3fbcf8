//! Devices that slip in time, and a body that is not rigid.

use proptest::prelude::*;

use super::*;
use crate::fall::{Slip, arrest_with_slip};

fn slip(force_n: f64, travel_m: f64) -> Slip {
    Slip { force: force_n.newtons(), travel: travel_m.meters() }
}

fn soft(share: f64, stiffness: f64, damping: f64) -> SoftBody {
    SoftBody {
        share: share.ratio(),
        stiffness: stiffness.newtons_per_meter(),
        damping: damping.newton_seconds_per_meter(),
    }
}

#[derive(serde::Deserialize)]
struct Parts {
    parts: Vec<Row>,
}

#[derive(serde::Deserialize)]
struct Row {
    mass_kg: f64,
    rope_m: f64,
    height_m: f64,
    ea_n: f64,
    arm_n: f64,
    relaxation_s: f64,
    duration_s: f64,
    #[serde(default)]
    slips: Vec<[f64; 2]>,
    body: Option<RowBody>,
    impact_force_n: f64,
    extension_m: f64,
    slipped_m: f64,
    end_depth_m: f64,
    end_speed_m_per_s: f64,
    end_soft_m: f64,
}

#[derive(serde::Deserialize)]
struct RowBody {
    share: f64,
    stiffness_n_per_m: f64,
    damping_n_s_per_m: f64,
}

/// SciPy, DOP853 at 1e-12, where the strain of a slipping rope follows from its force and the soft part
/// has a depth of its own: tests/reference/fall.py.
#[test]
fn slip_and_soft_bodies_agree_with_scipy() {
    let text = include_str!("../../../../../../tests/reference/fall.json");
    let rows = serde_json::from_str::<Parts>(text).unwrap().parts;
    assert_eq!(rows.len(), 16);
    let (mut worst, mut drift) = (0.0_f64, 0.0_f64);
    for (n, row) in rows.iter().enumerate() {
        let damping = sls(row.arm_n, row.relaxation_s);
        let mut fall = case(row.height_m, row.rope_m, linear(row.ea_n), damping);
        fall.mass = row.mass_kg.kilograms();
        fall.duration = row.duration_s.seconds();
        fall.slips = row.slips.iter().map(|[force, travel]| slip(*force, *travel)).collect();
        let stiffness = row.body.as_ref().map_or(1.0, |body| body.stiffness_n_per_m);
        fall.body = row
            .body
            .as_ref()
            .map(|body| soft(body.share, body.stiffness_n_per_m, body.damping_n_s_per_m));
        let got = arrest_damped(&fall).unwrap();
        let mut near = |name: &str, x: f64, y: f64, scale: f64| {
            let error = (x - y).abs() / y.abs().max(scale);
            worst = worst.max(error);
            assert!(error < 1e-8, "{n} {name}: {x} {y}");
        };
        near("force", got.impact_force.si(), row.impact_force_n, 0.0);
        near("extension", got.extension.si(), row.extension_m, 0.0);
        near("depth", *got.series.extension_m.last().unwrap(), row.end_depth_m, row.height_m);
        let speed = (2.0 * GRAVITY * row.height_m).sqrt();
        near("speed", *got.series.speed_m_per_s.last().unwrap(), row.end_speed_m_per_s, speed);
        near("slipped", got.slips.iter().map(|s| s.slipped.si()).sum(), row.slipped_m, 0.1);
        let soft_m = (2.0 * got.books.stored_in_body.si() / stiffness).sqrt();
        near("soft", soft_m, row.end_soft_m.abs(), 0.1);
        // The weaker device, second in the input, is at its end.
        if let [strong, weak] = &got.slips[..] {
            assert!(weak.at_end && !strong.at_end && strong.slipped.si() > 0.0);
        }
        drift = drift.max(got.residual);
    }
    println!("largest difference from SciPy {worst:.1e}, drift of the energy books {drift:.1e}");
    assert!(drift < 1e-9);
}

#[test]
fn slip_without_damping_is_the_energy_balance() {
    // Nothing slips back and later bounces are lower, so one way down tells all.
    for slips in [
        vec![slip(4e3, 5.0)],
        vec![slip(6e3, 5.0), slip(3e3, 0.1)],
        vec![slip(3e3, 0.05), slip(3e3, 0.1)],
        vec![slip(4e3, 0.0), slip(50e3, 1.0)],
        vec![slip(500.0, 0.3)],
    ] {
        let mut fall = case(4.0, 4.0, stiffening(), NONE);
        fall.slips.clone_from(&slips);
        let plain = Fall {
            mass: fall.mass,
            height: fall.height,
            rope: fall.rope,
            stretch: stiffening(),
            span_stiffness: None,
        };
        let (moved, balance) =
            (arrest_damped(&fall).unwrap(), arrest_with_slip(&plain, &slips).unwrap());
        let near = |x: f64, y: f64| assert!((x - y).abs() < 1e-6 * y.abs().max(0.01), "{x} {y}");
        near(moved.impact_force.si(), balance.arrest.impact_force.si());
        near(moved.drop.si(), balance.arrest.drop.si());
        for (a, b) in moved.slips.iter().zip(&balance.slips) {
            near(a.slipped.si(), b.slipped.si());
            near(a.energy.si(), b.energy.si());
            assert_eq!(a.at_end, b.at_end);
        }
        let lost: f64 = balance.slips.iter().map(|s| s.energy.si()).sum();
        near(moved.books.lost_in_slips.si(), lost);
    }
}

/// A tension that a device holds stands still at its force: the time above it is zero, just below it is
/// the time of slipping, which on a stiff rope is that of a constant brake: t = v / (F / m − g).
#[test]
fn a_constant_brake_takes_its_time() {
    let mut fall = case(4.0, 2.0, linear(1e7), NONE);
    fall.slips = vec![slip(4e3, 20.0)];
    fall.thresholds = vec![4001.0.newtons(), 3999.0.newtons()];
    fall.duration = 1.13.seconds();
    let stopped = arrest_damped(&fall).unwrap();
    let speed = (2.0 * GRAVITY * 4.0_f64).sqrt();
    let exact = speed / (4e3 / 80.0 - GRAVITY);
    assert_eq!(stopped.above[0].time.si(), 0.0);
    assert!((stopped.above[1].time.si() / exact - 1.0).abs() < 1e-2, "{exact}");
    assert_eq!(stopped.impact_force.si(), 4e3);
}

#[test]
fn the_next_fall_finds_the_device_as_it_was_left() {
    let mut fall = case(4.0, 5.0, linear(15e3), sls(8e3, 0.3));
    fall.slips = vec![slip(3.5e3, 0.4)];
    let falls = RepeatedFalls {
        fall: fall.clone(),
        falls: 3,
        between: 60.0.seconds(),
        set_per_fall: 0.0.ratio(),
        stiffening_per_fall: 0.0.ratio(),
    };
    let results = arrest_repeated(&falls).unwrap();
    let slipped: Vec<f64> = results.iter().map(|r| r.arrest.slips[0].slipped.si()).collect();
    assert!((slipped.iter().sum::<f64>() - 0.4).abs() < 1e-12, "{slipped:?}");
    assert!(slipped[0] > 0.0 && slipped[2] == 0.0 && results[2].arrest.slips[0].at_end);
    // With nothing left the rope is as without a device, let go that much higher.
    fall.slips.clear();
    fall.height = 4.4.meters();
    let bare = arrest_damped(&fall).unwrap().impact_force.si();
    assert!((results[2].arrest.impact_force.si() / bare - 1.0).abs() < 1e-6);
    assert!(results[2].arrest.impact_force > results[0].arrest.impact_force);
}

#[test]
fn a_body_is_rigid_in_its_limits_and_softens_between() {
    let force = |body| {
        let mut fall = case(4.0, 5.0, linear(15e3), sls(8e3, 0.3));
        fall.body = body;
        let stopped = arrest_damped(&fall).unwrap();
        assert!(stopped.residual < 1e-9);
        stopped.impact_force.si()
    };
    let rigid = force(None);
    assert!((force(Some(soft(0.5, 1e8, 1e4))) / rigid - 1.0).abs() < 1e-3);
    assert!((force(Some(soft(1e-4, 2e4, 10.0))) / rigid - 1.0).abs() < 1e-3);
    let mut last = rigid;
    for stiffness in [60e3, 30e3, 15e3, 8e3] {
        let now = force(Some(soft(0.6, stiffness, 400.0)));
        assert!(now < last, "{stiffness}: {now} {last}");
        last = now;
    }
}

/// Free fall leaves the parts of a body at rest to each other, drag or not.
#[test]
fn a_soft_body_falls_as_one() {
    let mut fall = case(500.0, 500.0, linear(20e3), NONE);
    fall.drag_area = 0.7.square_meters();
    let rigid = arrest_damped(&fall).unwrap();
    fall.body = Some(soft(0.4, 1e4, 100.0));
    let parts = arrest_damped(&fall).unwrap();
    assert!((parts.drop.si() - rigid.drop.si()).abs() < 1e-9);
    assert!(parts.books.lost_in_body.si() < 1e-9 && parts.books.stored_in_body.si() < 1e-9);
    let drag = parts.books.lost_to_drag.si() / rigid.books.lost_to_drag.si();
    assert!((drag - 1.0).abs() < 1e-9);
}

#[test]
fn bad_devices_and_bodies_are_named() {
    let named = |fall: &DampedFall, name: &str| match arrest_damped(fall) {
        Err(FallError::Invalid(invalid)) => assert_eq!(invalid.parameter, name),
        other => panic!("{name}: {other:?}"),
    };
    let plain = case(4.0, 5.0, linear(15e3), NONE);
    let with = |body| DampedFall { body: Some(body), ..plain.clone() };
    named(&with(soft(1.0, 1e4, 1.0)), "body.share");
    named(&with(soft(0.5, 0.0, 1.0)), "body.stiffness");
    named(&with(soft(0.5, 1e4, -1.0)), "body.damping");
    let slips = vec![slip(1e3, 1.0), slip(-1.0, 1.0)];
    named(&DampedFall { slips, ..plain.clone() }, "slips[1].force");
    let text = serde_json::to_string(&with(soft(0.5, 1e4, 1.0))).unwrap();
    assert_eq!(serde_json::from_str::<DampedFall>(&text).unwrap(), with(soft(0.5, 1e4, 1.0)));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn books_balance_with_every_part(
        h in 0.0..20.0_f64, l in 2.0..20.0_f64, tau in 0.02..2.0_f64, f in 1e3..6e3_f64,
        travel in 0.0..2.0_f64, share in 0.1..0.7_f64, k in 5e3..5e4_f64, c in 10.0..900.0_f64,
        curved in any::<bool>(), kv in any::<bool>(),
    ) {
        let stretch = if curved { stiffening() } else { linear(15e3) };
        let damping = if kv { kelvin(tau * 0.1) } else { sls(8e3, tau) };
        let mut fall = case(h, l, stretch, damping);
        fall.slips = vec![slip(f, travel), slip(2.0 * f, 50.0)];
        fall.body = Some(soft(share, k, c));
        fall.drag_area = 0.5.square_meters();
        let stopped = arrest_damped(&fall).unwrap();
        prop_assert!(stopped.residual < 1e-8);
        prop_assert!(stopped.impact_force.si() <= 2.0 * f * (1.0 + 1e-12));
        let b = &stopped.books;
        for lost in [b.lost, b.lost_to_drag, b.lost_in_slips, b.lost_in_body] {
            prop_assert!(lost.si() >= 0.0);
        }
        prop_assert!(stopped.series.force_n.iter().all(|n| *n >= 0.0));
        prop_assert!(stopped.slips.iter().all(|s| s.slipped.si() >= 0.0));
    }

    #[test]
    fn any_part_gives_an_answer_or_an_error(
        f in bad(), s in bad(), share in bad(), k in bad(), c in bad(), kv in any::<bool>(),
    ) {
        let damping = if kv { kelvin(0.05) } else { sls(8e3, 0.2) };
        let mut fall = case(4.0, 5.0, linear(15e3), damping);
        for (slips, body) in [
            (vec![slip(f * 100.0, s), slip(k, c)], None),
            (Vec::new(), Some(soft(share / 50.0, k * 100.0, c))),
            (vec![slip(f * 100.0, s)], Some(soft(share / 50.0, k * 100.0, c))),
        ] {
            (fall.slips, fall.body) = (slips, body);
            if let Ok(stopped) = arrest_damped(&fall) {
                prop_assert!(stopped.impact_force.si().is_finite() && stopped.residual <= 1e-8);
                prop_assert!(stopped.slips.iter().all(|s| s.energy.si().is_finite()));
            }
        }
    }
}
