//! Derivatives of the elastic line against mpmath with 50 digits, with the script that made them,
//! `tests/reference/line_derivatives.py`.

use serde_json::Value;
use tautwork::line::{ElasticLine, ForceByLine, LengthByLine, elastic_derivatives};
use tautwork::material::Stretch;
use tautwork::quantity::Words;

fn force(by: &ForceByLine) -> [f64; 5] {
    let rigidity = by.by_axial_rigidity.unwrap_or(f64::NAN);
    [by.by_span_n_per_m, by.by_rise_n_per_m, by.by_rest_length_n_per_m, by.by_weight_m, rigidity]
}

fn length(by: &LengthByLine) -> [f64; 5] {
    let rigidity = by.by_axial_rigidity_m_per_n.unwrap_or(f64::NAN);
    [by.by_span, by.by_rise, by.by_rest_length, by.by_weight_m2_per_n, rigidity]
}

#[test]
fn derivatives_agree_with_fifty_digits() {
    let text = include_str!("reference/line_derivatives.json");
    let cases: Vec<Value> = serde_json::from_str(text).unwrap();
    let names = ["span_m", "rise_m", "rest_length_m", "weight_n_per_m", "axial_rigidity_n"];
    for (c, case) in cases.iter().enumerate() {
        let [span, rise, rest, weight, ea] = names.map(|name| case[name].as_f64().unwrap());
        let line = ElasticLine {
            span: span.meters(),
            rise: rise.meters(),
            rest_length: rest.meters(),
            weight: weight.newtons_per_meter(),
            stretch: Stretch::axial_rigidity(ea.newtons()).unwrap(),
        };
        let d = elastic_derivatives(&line).unwrap();
        let figures = [
            ("tension_near", force(&d.tension_near)),
            ("tension_far", force(&d.tension_far)),
            ("h", force(&d.h)),
            ("sag_below_chord", length(&d.sag_below_chord)),
            ("stretched_length", length(&d.stretched_length)),
        ];
        for (figure, got) in figures {
            let by = |name: &str, figure: &str| case["by"][name][figure].as_f64().unwrap();
            let want = names.map(|name| by(name, figure));
            // Figures of one kind share their rounding, derivatives by lengths too, which cancel when
            // the line is moved: measured by the largest.
            let kin = |name: &str| {
                let kin: &[&str] = match figure {
                    "sag_below_chord" | "stretched_length" => {
                        &["sag_below_chord", "stretched_length"]
                    }
                    _ => &["tension_near", "tension_far", "h"],
                };
                kin.iter().fold(0.0_f64, |most, figure| most.max(by(name, figure).abs()))
            };
            let lengths = names[..3].iter().fold(0.0_f64, |most, name| most.max(kin(name)));
            for (i, (got, want)) in got.into_iter().zip(want).enumerate() {
                let size = if i < 3 { lengths } else { kin(names[i]) };
                // A slack line keeps its shape when it gets heavier: the parts of that derivative, of
                // the size of a length over the weight, cancel and leave their rounding.
                let is_length = matches!(figure, "sag_below_chord" | "stretched_length");
                let parts = if is_length && i >= 3 { rest / [weight, ea][i - 3] } else { 0.0 };
                let allowed = 1e-7 * size + 1e-13 * parts;
                assert!(
                    (got - want).abs() <= allowed,
                    "{figure} by {} of case {c}: {got}, want {want} ± {allowed}",
                    names[i]
                );
            }
        }
    }
    assert_eq!(cases.len(), 20);
}
