//! The elastic line and its inverse against mpmath with 50 digits: 200 seeded cases, from slack to taut,
//! with the script that made them, `tests/reference/elastic_catenary.py`; and a line in wind that follows
//! it against SciPy, `tests/reference/wind_line.py`.

#![expect(clippy::unwrap_used, reason = "a reference that cannot be read should fail the test")]

use serde_json::Value;
use tautwork::line::{
    Chain, ChainPiece, ElasticBatch, ElasticLine, Gust, LineEnd, chain_at, rest_length_for_tension,
    solve_chain, solve_elastic_batch,
};
use tautwork::material::Stretch;
use tautwork::quantity::{Length, LineLoad, Quantity, Speed, Words};

/// 1e-12 of the scale, or, where the figure is so sensitive to its inputs that their last places alone
/// move it by more, that movement: conditioning times the rounding of a double. The conditioning is the
/// change of the figure, over its scale, for a relative change of each input, summed; mpmath gives it. Four
/// stands for the roundings on the way, which act like those of the inputs.
fn allowed(conditioning: f64) -> f64 {
    f64::max(1e-12, 4.0 * f64::EPSILON * conditioning)
}

fn cases() -> Vec<Value> {
    let cases: Vec<Value> =
        serde_json::from_str(include_str!("reference/elastic_catenary.json")).unwrap();
    assert_eq!(cases.len(), 200);
    cases
}

#[test]
fn elastic_lines_agree_with_fifty_digits() {
    let cases = cases();
    let column =
        |key: &str| -> Vec<f64> { cases.iter().map(|c| c[key].as_f64().unwrap()).collect() };
    let got = solve_elastic_batch(&ElasticBatch {
        span_m: &column("span_m"),
        rise_m: &column("rise_m"),
        rest_length_m: &column("rest_length_m"),
        weight_n_per_m: &column("weight_n_per_m"),
        axial_rigidity_n: &column("axial_rigidity_n"),
    })
    .unwrap();
    let figures = [
        ("h_n", &got.h_n, "tension_near_n"),
        ("v_near_n", &got.v_near_n, "tension_near_n"),
        ("tension_near_n", &got.tension_near_n, "tension_near_n"),
        ("tension_far_n", &got.tension_far_n, "tension_far_n"),
        ("stretched_length_m", &got.stretched_length_m, "rest_length_m"),
        ("sag_below_chord_m", &got.sag_below_chord_m, "rest_length_m"),
    ];
    for (key, got, scale) in figures {
        let scales = column(scale);
        let (mut plain, mut worst) = (0, 0.0_f64);
        for (i, (got, want)) in got.iter().zip(column(key)).enumerate() {
            let allowed = allowed(cases[i]["conditioning"][key].as_f64().unwrap());
            let off = (got - want).abs() / scales[i];
            assert!(off <= allowed, "{key} of case {i}: {got}, want {want}: {off:e} > {allowed:e}");
            plain += usize::from(allowed == 1e-12);
            worst = worst.max(off / allowed);
        }
        println!("{key}: {plain} of 200 to 1e-12, worst {worst:.2} of what is allowed");
    }
    let scale = column("rest_length_m");
    assert!(got.residual_m.iter().zip(scale).all(|(r, l)| *r <= 2e-13 * l));
}

#[test]
fn rest_lengths_for_a_tension_agree_with_fifty_digits() {
    let (mut count, mut worst) = (0, 0.0_f64);
    for (i, case) in cases().iter().enumerate() {
        let number = |key: &str| case[key].as_f64().unwrap();
        let inverse = &case["inverse"];
        if inverse.is_null() {
            continue;
        }
        let line = ElasticLine {
            span: number("span_m").meters(),
            rise: number("rise_m").meters(),
            rest_length: 1.0.meters(),
            weight: number("weight_n_per_m").newtons_per_meter(),
            stretch: Stretch::axial_rigidity(number("axial_rigidity_n").newtons()).unwrap(),
        };
        let tension = inverse["tension_n"].as_f64().unwrap().newtons();
        let got = rest_length_for_tension(&line, tension, LineEnd::Near).unwrap().si();
        let want = inverse["rest_length_m"].as_f64().unwrap();
        let allowed = allowed(inverse["conditioning"].as_f64().unwrap());
        let off = (got / want - 1.0).abs();
        assert!(off <= allowed, "case {i}: {got}, want {want}: {off:e} > {allowed:e}");
        (count, worst) = (count + 1, worst.max(off / allowed));
    }
    println!("{count} inverse cases, worst {worst:.2} of what is allowed");
    assert!(count >= 100, "{count}");
}

fn triple(json: &Value) -> [f64; 3] {
    let list = json.as_array().unwrap();
    [0, 1, 2].map(|i| list[i].as_f64().unwrap())
}

/// The wind acts across each of n parts: the gap to the continuous answer falls with the square of their
/// size, and what extrapolation from 200 and 400 parts leaves is the tolerance of the reference.
#[test]
fn a_line_in_wind_that_follows_it_is_that_of_scipy() {
    let cases: Vec<Value> = serde_json::from_str(include_str!("reference/wind_line.json")).unwrap();
    assert_eq!(cases.len(), 6);
    let row = |kn: f64, percent: f64| (kn.kilonewtons(), percent.percent());
    let tape = Stretch::table(vec![row(1.0, 0.9), row(2.5, 1.6), row(10.0, 4.0)]).unwrap();
    for (i, case) in cases.iter().enumerate() {
        let number = |key: &str| case[key].as_f64().unwrap();
        let rest = number("rest_length_m");
        // The scale k is half the density times coefficient times width.
        let gust = Gust {
            drag_coefficient: (2.0 * number("k_kg_per_m2")).ratio(),
            width: 1.0.meters(),
            air_density: 1.0.kilograms_per_cubic_meter(),
            velocity: triple(&case["wind_m_per_s"]).map(Speed::from_si),
        };
        let at = |parts: usize| {
            let weight = LineLoad::from_si(number("weight_n_per_m"));
            let piece = ChainPiece::new(rest.meters(), weight, tape.clone());
            let chain = Chain {
                near: [0.0.meters(); 3],
                far: triple(&case["far_m"]).map(Length::from_si),
                pieces: vec![ChainPiece { gust: Some(gust), gust_parts: parts, ..piece }],
                loads: vec![],
                samples: 2,
            };
            let s = solve_chain(&chain).unwrap();
            assert!(s.wind_residual.si() <= 1e-11);
            let p = chain_at(&chain, &[0.5 * rest]).unwrap();
            let pulls =
                s.pull_near.iter().map(|f| f.si()).chain(s.pull_far.iter().map(|f| -f.si()));
            pulls.chain([p.x_m[0], p.y_m[0], p.z_m[0]]).collect::<Vec<f64>>()
        };
        let want =
            [triple(&case["pull_near_n"]), triple(&case["pull_far_n"]), triple(&case["middle_m"])];
        let (coarse, fine) = (at(200), at(400));
        for (j, want) in want.as_flattened().iter().enumerate() {
            let scale =
                if j < 6 { fine[..3].iter().map(|f| f * f).sum::<f64>().sqrt() } else { rest };
            let exact = fine[j] + (fine[j] - coarse[j]) / 3.0;
            assert!((exact - want).abs() < 1e-7 * scale, "case {i}, {j}: {exact} {want}");
            assert!((fine[j] - want).abs() < 1e-4 * scale, "case {i}, {j}: {} {want}", fine[j]);
        }
    }
}
