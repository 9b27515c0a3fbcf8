//! The elastic line against mpmath with 50 digits: 60 seeded cases, from slack to taut, with the script
//! that made them, `tests/reference/elastic_catenary.py`.

use serde_json::Value;
use tautwork::line::{ElasticBatch, solve_elastic_batch};

#[test]
fn elastic_lines_agree_with_fifty_digits() {
    let text = include_str!("reference/elastic_catenary.json");
    let cases: Vec<Value> = serde_json::from_str(text).unwrap();
    let column =
        |key: &str| -> Vec<f64> { cases.iter().map(|c| c[key].as_f64().unwrap()).collect() };
    let rigidity = column("axial_rigidity_n");
    let got = solve_elastic_batch(&ElasticBatch {
        span_m: &column("span_m"),
        rise_m: &column("rise_m"),
        rest_length_m: &column("rest_length_m"),
        weight_n_per_m: &column("weight_n_per_m"),
        axial_rigidity_n: &rigidity,
    })
    .unwrap();
    let forces = [
        ("h_n", &got.h_n),
        ("v_near_n", &got.v_near_n),
        ("tension_near_n", &got.tension_near_n),
        ("tension_far_n", &got.tension_far_n),
    ];
    for (key, got) in forces {
        for (i, (got, want)) in got.iter().zip(column(key)).enumerate() {
            // A change of the rest length in its last place changes the tension by EA times that.
            let tension = cases[i]["tension_near_n"].as_f64().unwrap();
            let allowed = 1e-12 * tension + 4.0 * f64::EPSILON * rigidity[i];
            assert!((got - want).abs() <= allowed, "{key} of case {i}: {got}, want {want}");
        }
    }
    let lengths = [
        ("stretched_length_m", &got.stretched_length_m),
        ("sag_below_chord_m", &got.sag_below_chord_m),
    ];
    for (key, got) in lengths {
        for (i, (got, want)) in got.iter().zip(column(key)).enumerate() {
            let rest = cases[i]["rest_length_m"].as_f64().unwrap();
            assert!(
                (got - want).abs() <= 1e-11 * rest.max(want),
                "{key} of case {i}: {got}, want {want}"
            );
        }
    }
    assert_eq!(cases.len(), 60);
    let scale = column("rest_length_m");
    assert!(got.residual_m.iter().zip(scale).all(|(r, l)| *r <= 2e-13 * l));
}
