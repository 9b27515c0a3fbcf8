use proptest::prelude::*;
use serde::Deserialize;

use super::*;
use crate::quantity::*;

#[derive(Deserialize)]
struct Reference {
    from_m: f64,
    to_m: f64,
    speed_m_per_s: f64,
    angle_rad: f64,
    turn_s: Vec<f64>,
    turn_rad: Vec<f64>,
    widest_m: f64,
    load_factor: f64,
}

fn pendulum(from: f64, to: f64, speed: f64, angle: f64) -> LiftedPendulum {
    LiftedPendulum {
        from: from.meters(),
        to: to.meters(),
        speed: speed.meters_per_second(),
        angle: Angle::from_si(angle),
    }
}

/// SciPy, DOP853 at 1e-12: tests/reference/lifted.py.
#[test]
fn a_lifted_pendulum_turns_where_scipy_says() {
    let text = include_str!("../../../../../tests/reference/lifted.json");
    let cases: Vec<Reference> = serde_json::from_str(text).unwrap();
    assert_eq!(cases.len(), 20);
    for case in cases {
        let input = pendulum(case.from_m, case.to_m, case.speed_m_per_s, case.angle_rad);
        let swing = lifted_pendulum(&input).unwrap();
        assert_eq!(swing.turn_s.len(), case.turn_s.len());
        for (ours, theirs) in swing.turn_s.iter().zip(&case.turn_s) {
            assert!((ours - theirs).abs() < 1e-6, "{ours} {theirs}");
        }
        for (ours, theirs) in swing.turn_rad.iter().zip(&case.turn_rad) {
            assert!((ours - theirs).abs() < 1e-7, "{ours} {theirs}");
        }
        assert!((swing.widest.si() / case.widest_m - 1.0).abs() < 1e-3);
        assert!((swing.load_factor.si() / case.load_factor - 1.0).abs() < 1e-3);
    }
}

// A pendulum drawn up slowly: the angle grows, the swing to the side gets less (adiabatic invariant, from memory).
#[test]
fn a_slow_lift_follows_the_invariant() {
    for to in [30.0, 20.0, 10.0] {
        let swing = lifted_pendulum(&pendulum(40.0, to, 0.02, 0.01)).unwrap();
        let last = *swing.turn_length_m.last().unwrap();
        let slow = 0.01 * (40.0 / last).powf(0.75);
        assert!((swing.last_angle.si() / slow - 1.0).abs() < 2e-3, "{to}");
        assert!(last * swing.last_angle.si() < 40.0 * 0.01);
        assert!((swing.widest.si() - 40.0 * 0.01_f64.sin()).abs() < 1e-9);
    }
}

#[test]
fn hanging_still_stays_still() {
    let swing = lifted_pendulum(&pendulum(40.0, 5.0, 0.5, 0.0)).unwrap();
    assert!(swing.turn_s.is_empty());
    assert_eq!((swing.widest.si(), swing.load_factor.si()), (0.0, 1.0));
    assert!((swing.time.si() - 70.0).abs() < 1e-12);
}

#[test]
fn a_jerk_keeps_the_energy_of_the_haul() {
    let (m, k, v) = (100.0_f64, 20e3_f64, 0.5_f64);
    let jerk = haul_jerk(m.kilograms(), Stiffness::from_si(k), v.meters_per_second()).unwrap();
    // At its greatest the spring has taken up the kinetic energy beyond rest: (T − W)² / 2 k = m v² / 2.
    let beyond = jerk.greatest.si() - m * GRAVITY;
    assert!((beyond * beyond / (2.0 * k) - 0.5 * m * v * v).abs() < 1e-9);
    assert!((jerk.greatest.si() + jerk.least.si() - 2.0 * m * GRAVITY).abs() < 1e-9);
    assert!(jerk.slack_for.si() == 0.0);
    let still = haul_jerk(m.kilograms(), Stiffness::from_si(k), 0.0.meters_per_second()).unwrap();
    assert_eq!((still.load_factor.si(), still.greatest), (1.0, still.least));
}

// Fast enough to go slack: it leaves at u² = v² − g² m / k and flies 2 u / g.
#[test]
fn a_hard_jerk_leaves_the_line_slack() {
    let (m, k, v) = (100.0_f64, 20e3_f64, 1.0_f64);
    let jerk = haul_jerk(m.kilograms(), Stiffness::from_si(k), v.meters_per_second()).unwrap();
    let u = (v * v - GRAVITY * GRAVITY * m / k).sqrt();
    assert_eq!(jerk.least.si(), 0.0);
    assert!((jerk.slack_for.si() - 2.0 * u / GRAVITY).abs() < 1e-12);
    // The line slackens at the speed v √(m k) = m g: from there on, without a step.
    let edge = GRAVITY * (m / k).sqrt();
    let just =
        haul_jerk(m.kilograms(), Stiffness::from_si(k), (edge * 1.000_001).meters_per_second());
    assert!(just.unwrap().slack_for.si() < 1e-3);
}

fn lip(slope: f64, friction: f64, above: f64) -> Lip {
    Lip {
        mass: 100.0.kilograms(),
        slope: slope.degrees(),
        body_friction: friction.ratio(),
        rope_angle: above.degrees(),
        edge_friction: 0.0.ratio(),
        edge_turn: 0.0.degrees(),
    }
}

#[test]
fn the_pull_over_the_lip_balances_on_the_slope() {
    for slope in [0.0, 20.0, 45.0, 70.0, 90.0] {
        for friction in [0.0, 0.3, 0.6, 1.0] {
            for above in [0.0, 10.0, 19.0] {
                let pull = pull_over_lip(&lip(slope, friction, above)).unwrap();
                let (sin, cos) = slope.to_radians().sin_cos();
                let (up, along) = above.to_radians().sin_cos();
                let (t, n, w) = (pull.at_body.si(), pull.on_rock.si(), 981.0);
                if n > 0.0 {
                    assert!((t * along - w * sin - friction * n).abs() < 1e-9);
                    assert!((t * up + n - w * cos).abs() < 1e-9);
                } else {
                    assert!(slope + above >= 90.0 && t == w);
                }
                assert!(pull.least.si() <= t + 1e-9 && t <= pull.worst_slope.si() + 1e-9);
                assert_eq!(pull.behind_edge, pull.at_body);
            }
        }
    }
}

#[test]
fn the_best_angle_and_the_worst_slope_are_optima() {
    let at = |slope: f64, above: f64| pull_over_lip(&lip(slope, 0.4, above)).unwrap().at_body.si();
    let best = pull_over_lip(&lip(30.0, 0.4, 0.0)).unwrap();
    let angle = best.best_angle.si().to_degrees();
    assert!((at(30.0, angle) - best.least.si()).abs() < 1e-9);
    for step in [-1.0, 1.0] {
        assert!(at(30.0, angle + step) > best.least.si());
    }
    let worst = (1.0_f64 / 0.4).atan().to_degrees();
    assert!((at(worst, 0.0) - best.worst_slope.si()).abs() < 1e-9);
    for step in [-1.0, 1.0] {
        assert!(at(worst + step, 0.0) < best.worst_slope.si());
    }
}

// exp(0.5 · π / 2) = 2.193, a quarter turn over rock with friction 0.5.
#[test]
fn the_edge_behind_multiplies_the_pull() {
    let mut over = lip(60.0, 0.3, 0.0);
    (over.edge_friction, over.edge_turn) = (0.5.ratio(), 90.0.degrees());
    let pull = pull_over_lip(&over).unwrap();
    assert!((pull.behind_edge.si() / pull.at_body.si() - 2.193_280).abs() < 1e-6);
}

fn climb(period: f64, damping: f64) -> Climb {
    Climb {
        mass: 80.0.kilograms(),
        stiffness: 1.0.kilonewtons_per_meter(),
        damping_ratio: damping.ratio(),
        period: period.seconds(),
        amplitude: 100.0.newtons(),
    }
}

#[test]
fn a_slow_climb_only_pulls_and_a_quick_one_is_not_felt() {
    let weight = 80.0 * GRAVITY;
    let slow = climb_bounce(&climb(1000.0, 0.1)).unwrap();
    assert!((slow.greatest.si() - weight - 100.0).abs() < 1e-2);
    let quick = climb_bounce(&climb(0.01, 0.0)).unwrap();
    assert!((quick.greatest.si() - weight).abs() < 0.01);
    assert!((slow.greatest.si() + slow.least.si() - 2.0 * weight).abs() < 1e-9);
}

// At r = √2 the force through spring and damper is the pull itself, whatever the damping (vibration
// isolation, textbook, from memory).
#[test]
fn at_the_root_of_two_damping_has_no_say() {
    let own = 2.0 * std::f64::consts::PI * (80.0_f64 / 1000.0).sqrt();
    for damping in [0.0, 0.1, 0.5, 0.9] {
        let bounce = climb_bounce(&climb(own / 2.0_f64.sqrt(), damping)).unwrap();
        assert!((bounce.greatest.si() - 80.0 * GRAVITY - 100.0).abs() < 1e-9, "{damping}");
    }
}

#[test]
fn in_tune_without_damping_is_an_error() {
    let own = 2.0 * std::f64::consts::PI * (80.0_f64 / 1000.0).sqrt();
    assert!(matches!(
        climb_bounce(&climb(own, 0.0)),
        Err(super::super::PulleyError::Overflow { .. })
    ));
}

fn any() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => 1e-3..1e3_f64,
        1 => prop::sample::select(vec![0.0, -1.0, 1e-320, 1e300, f64::NAN, f64::INFINITY, 89.0]),
    ]
}

proptest! {
    #[test]
    fn numbers_in_give_numbers_out(a in any(), b in any(), c in any(), d in any(), e in any()) {
        if let Ok(jerk) = haul_jerk(a.kilograms(), Stiffness::from_si(b), c.meters_per_second()) {
            prop_assert!(jerk.greatest >= jerk.least && jerk.greatest.si().is_finite());
            prop_assert!(jerk.slack_for.si() >= 0.0 && jerk.period.si().is_finite());
        }
        let mut over = lip(a, b, c);
        (over.mass, over.edge_friction, over.edge_turn) = (d.kilograms(), e.ratio(), a.degrees());
        if let Ok(pull) = pull_over_lip(&over) {
            prop_assert!(pull.behind_edge.si().is_finite() && pull.behind_edge >= pull.at_body);
            prop_assert!(pull.on_rock.si() >= 0.0);
        }
        let mut up = climb(a, b);
        (up.mass, up.stiffness, up.amplitude) = (c.kilograms(), Stiffness::from_si(d), e.newtons());
        if let Ok(bounce) = climb_bounce(&up) {
            prop_assert!(bounce.greatest.si().is_finite() && bounce.least.si() >= 0.0);
        }
        if let Ok(swing) = lifted_pendulum(&pendulum(a, b, c, 0.01 * d)) {
            prop_assert!(swing.greatest_angle.si().is_finite() && swing.widest.si().is_finite());
            prop_assert!(swing.load_factor.si().is_finite() && swing.load_factor.si() > 0.0);
        }
    }
}
