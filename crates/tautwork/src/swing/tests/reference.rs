//! Against SciPy on the same reduced model: 20 seeded rigs whose ring hangs on a linear spring.

use serde_json::Value;

use super::super::course::{Course, Outcome, run};
use super::super::model::{BODY, Model, RING, RingMass, VISCOUS};
use super::super::rope;
use super::super::support::Spring;

fn numbers(case: &Value, key: &str) -> Vec<f64> {
    case[key].as_array().unwrap().iter().map(|v| v.as_f64().unwrap()).collect()
}

fn fly_on_a_spring(case: &Value, rtol: f64, horizon_s: f64) -> Outcome {
    let number = |key: &str| case[key].as_f64().unwrap();
    let pair = |key: &str| -> [f64; 2] { numbers(case, key).try_into().unwrap() };
    let [rest, long, arm, relaxation] =
        ["rest_m", "long_n", "arm_n", "relaxation_s"].map(|key| numbers(case, key));
    let ropes: Vec<_> = (0..rest.len())
        .map(|i| rope::Rope {
            rest_m: rest[i],
            mass_kg: 0.0,
            long_n: long[i],
            arm_n: arm[i],
            relaxation_s: relaxation[i],
        })
        .collect();
    let course = Course {
        rope_names: (0..ropes.len()).map(|i| format!("rope {i}")).collect(),
        walls: Vec::new(),
        radius_m: 1.0,
        zone_m: 3.0,
        forces_n: Vec::new(),
        lines: 0,
        rest_x_m: 0.0,
        horizon_s,
        rtol,
        sample_s: horizon_s,
        most_steps: 1_000_000,
        settled_speed_m_per_s: 0.0,
        settled_force: 0.0,
        settled_for_s: 1e3,
    };
    let mut model = Model {
        ropes,
        body_kg: number("low_kg"),
        low_kg: number("low_kg"),
        ring: Some(RingMass {
            weighs_kg: number("ring_weighs_kg"),
            moves_kg: number("ring_moves_kg"),
            damping_n_s_per_m: number("damping_n_s_per_m"),
        }),
        drag_kg_per_m: number("drag_kg_per_m"),
        wind_m_per_s: number("wind_m_per_s"),
        support: Spring { at_m: pair("spring_m"), k_n_per_m: pair("k_n_per_m") },
        failure: None,
    };
    let mut start = vec![0.0; model.size()];
    start[BODY..BODY + 2].copy_from_slice(&pair("start_m"));
    start[BODY + 2..BODY + 4].copy_from_slice(&pair("start_m_per_s"));
    start[RING..RING + 2].copy_from_slice(&pair("ring_m"));
    run(&mut model, &course, start).unwrap()
}

fn cases() -> Vec<Value> {
    serde_json::from_str(include_str!("../../../../../tests/reference/reduced_jump.json")).unwrap()
}

/// Largest difference over positions, speeds and viscous strains.
fn off(out: &Outcome, want: &[f64]) -> f64 {
    let ropes = want.len() - VISCOUS;
    let both = out.end[..VISCOUS + ropes].iter().zip(want);
    both.map(|(got, want)| (got - want).abs()).fold(0.0, f64::max)
}

// DOP853 at 1e-12 (tests/reference/reduced_jump.py).
#[test]
fn seeded_rigs_agree_with_scipy() {
    let cases = cases();
    assert_eq!(cases.len(), 20);
    let mut changes = 0;
    for (i, case) in cases.iter().enumerate() {
        let end_s = case["end_s"].as_f64().unwrap();
        for (key, horizon_s) in [("middle", 0.5 * end_s), ("end", end_s)] {
            let out = fly_on_a_spring(case, 1e-11, horizon_s);
            let worst = off(&out, &numbers(case, key));
            println!("rig {i} {key}: {worst:.1e} after {} steps", out.steps);
            assert!(worst < 1e-8, "rig {i} {key}: {worst:e}");
            if key == "end" {
                let taut_s = case["taut_s"].as_f64().unwrap();
                assert!((out.caught.unwrap().t_s - taut_s).abs() < 1e-9, "rig {i}");
                let seen = out.events.iter().filter(|(_, _, what)| {
                    use super::Happening::{Slack, Taut};
                    matches!(what, Taut { .. } | Slack { .. })
                });
                assert_eq!(seen.count() as u64, case["changes"].as_u64().unwrap(), "rig {i}");
                changes += case["changes"].as_u64().unwrap();
            }
        }
    }
    assert!(changes > 200, "the rigs are to be rich in events");
}

#[test]
fn a_tighter_tolerance_comes_nearer_to_scipy() {
    for case in &cases()[..4] {
        let error = |rtol| off(&fly_on_a_spring(case, rtol, 6.0), &numbers(case, "middle"));
        let (coarse, middle, fine) = (error(1e-6), error(1e-8), error(1e-10));
        assert!(coarse < 1e-2 && middle < coarse && fine < middle && fine < 1e-6);
    }
}
