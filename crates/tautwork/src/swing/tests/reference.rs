//! Against SciPy on the same reduced model in space: 100 seeded rigs whose ring hangs on linear springs.

use serde_json::Value;

use super::super::course::{Course, Outcome, run};
use super::super::model::{BODY, BOOKS, Model, RING, RingMass};
use super::super::rope;
use super::super::support::Spring;
use super::super::terrain::Body;
use crate::quantity::Words;

fn numbers(case: &Value, key: &str) -> Vec<f64> {
    case[key].as_array().unwrap().iter().map(|v| v.as_f64().unwrap()).collect()
}

fn fly_on_a_spring(case: &Value, rtol: f64, horizon_s: f64) -> Outcome {
    let number = |key: &str| case[key].as_f64().unwrap();
    let vector = |key: &str| -> [f64; 3] { numbers(case, key).try_into().unwrap() };
    let [wind, wind_y, _] = vector("wind_m_per_s");
    let [rest, long, arm, relaxation] =
        ["rest_m", "long_n", "arm_n", "relaxation_s"].map(|key| numbers(case, key));
    let ropes: Vec<_> = (0..rest.len())
        .map(|i| rope::Rope::new(rest[i], 0.0, long[i], arm[i], relaxation[i]))
        .collect();
    let course = Course {
        rope_names: (0..ropes.len()).map(|i| format!("rope {i}")).collect(),
        stop_names: Vec::new(),
        walls: Vec::new(),
        body: Body::new(["radius", "length"], 1.0.meters(), None).unwrap(),
        zone_m: 3.0,
        forces_n: Vec::new(),
        lines: 0,
        anchors: Vec::new(),
        rest_m: [0.0; 2],
        ahead: [1.0, 0.0],
        faults: Vec::new(),
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
        stops: Vec::new(),
        body_kg: number("low_kg"),
        low_kg: number("low_kg"),
        ring: Some(RingMass {
            weighs_kg: number("ring_weighs_kg"),
            moves_kg: number("ring_moves_kg"),
            damping_n_s_per_m: number("damping_n_s_per_m"),
        }),
        drag_kg_per_m: number("drag_kg_per_m"),
        wind_m_per_s: [wind, wind_y],
        fold: super::Fold::Neglected,
        support: Spring { at_m: vector("spring_m"), k_n_per_m: vector("k_n_per_m") },
        failure: None,
    };
    let mut start = vec![0.0; model.size()];
    start[BODY..BODY + 3].copy_from_slice(&vector("start_m"));
    start[BODY + 3..BODY + 6].copy_from_slice(&vector("start_m_per_s"));
    start[RING..RING + 3].copy_from_slice(&vector("ring_m"));
    run(&mut model, &course, &start).unwrap()
}

fn reference() -> Value {
    serde_json::from_str(include_str!("../../../../../tests/reference/reduced_jump.json")).unwrap()
}

/// Largest difference over positions, speeds and viscous strains.
fn off(out: &Outcome, want: &[f64]) -> f64 {
    assert_eq!(out.end.len(), want.len() + BOOKS);
    out.end.iter().zip(want).map(|(got, want)| (got - want).abs()).fold(0.0, f64::max)
}

/// Quartiles of a list.
fn quartiles(mut list: Vec<f64>) -> [f64; 3] {
    list.sort_by(f64::total_cmp);
    [1, 2, 3].map(|q| list[(list.len() - 1) * q / 4])
}

// DOP853 at 1e-12 (tests/reference/reduced_jump.py). A rig is chaotic if a start moved by 1e-7 m moves its
// end more than a thousandfold: its state in the middle is compared, and of all ends the quartiles.
#[test]
fn seeded_rigs_agree_with_scipy() {
    let all = reference();
    let rigs = all["rigs"].as_array().unwrap();
    assert_eq!(rigs.len(), 100);
    let end_s = all["end_s"].as_f64().unwrap();
    let chaotic = all["chaotic"].as_f64().unwrap();
    let (mut changes, mut excluded, mut worst) = (0, 0, 0.0_f64);
    let (mut got_z, mut want_z) = (Vec::new(), Vec::new());
    for (i, case) in rigs.iter().enumerate() {
        let calm = case["growth"].as_f64().unwrap() < chaotic;
        excluded += usize::from(!calm);
        for (key, horizon_s) in [("middle", 0.5 * end_s), ("end", end_s)] {
            let out = fly_on_a_spring(case, 1e-12, horizon_s);
            let want = numbers(case, key);
            let error = off(&out, &want);
            if calm {
                worst = worst.max(error);
                assert!(error < 1e-6, "rig {i} {key}: {error:e}");
            }
            if key == "end" {
                got_z.push(out.end[BODY + 2]);
                want_z.push(want[BODY + 2]);
                let taut_s = case["taut_s"].as_f64().unwrap();
                assert!((out.caught.unwrap().t_s - taut_s).abs() < 1e-9, "rig {i}");
                let seen = out.events.iter().filter(|(_, _, what)| {
                    use super::Happening::{Slack, Taut};
                    matches!(what, Taut { .. } | Slack { .. })
                });
                let want = case["changes"].as_u64().unwrap();
                if calm {
                    assert_eq!(seen.count() as u64, want, "rig {i}");
                }
                changes += want;
            }
        }
    }
    println!("worst of {} calm rigs {worst:.1e}, {excluded} chaotic", 100 - excluded);
    assert!(excluded < 20, "most rigs are to be compared by state");
    assert!(changes > 500, "the rigs are to be rich in events");
    for (got, want) in quartiles(got_z).into_iter().zip(quartiles(want_z)) {
        assert!((got - want).abs() < 0.1, "{got} {want}");
    }
}

#[test]
fn a_tighter_tolerance_comes_nearer_to_scipy() {
    for case in &reference()["rigs"].as_array().unwrap()[..4] {
        let error = |rtol| off(&fly_on_a_spring(case, rtol, 6.0), &numbers(case, "middle"));
        let (coarse, middle, fine) = (error(1e-6), error(1e-8), error(1e-10));
        assert!(coarse < 1e-2 && middle < coarse && fine < middle && fine < 1e-6);
    }
}
