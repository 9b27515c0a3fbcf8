use proptest::prelude::*;

use crate::line::*;
use crate::material::Stretch;
use crate::quantity::*;

fn line(span_m: f64, rest_m: f64, weight: f64, ea_n: f64) -> ElasticLine {
    ElasticLine {
        span: span_m.meters(),
        rise: 0.0.meters(),
        rest_length: rest_m.meters(),
        weight: weight.newtons_per_meter(),
        stretch: Stretch::axial_rigidity(ea_n.newtons()).unwrap(),
    }
}

fn error(line: &ElasticLine, load_n: f64, name: &str) -> f64 {
    let rules = rules_of_thumb(line, load_n.newtons()).unwrap();
    rules.iter().find(|r| r.name == name).unwrap().error.si()
}

/// Beer and Johnston, Statics, sample problem 7.9 (from memory): 0.75 kg/m over 40 m with 0.5 m of sag has
/// T₀ = 2943 N and a length of 40.017 m.
#[test]
fn the_parabola_of_a_textbook() {
    let stiff = line(40.0, 40.0, 0.75 * GRAVITY, 1e12);
    let length = rest_length_for_sag(&stiff, 0.5.meters()).unwrap();
    let stiff = ElasticLine { rest_length: length, ..stiff };
    let rules = rules_of_thumb(&stiff, 1.0.newtons()).unwrap();
    let exact = solve_elastic(&stiff).unwrap();
    assert!((exact.h.si() - 2943.0).abs() < 1.0, "{:?}", exact.h);
    assert!((rules[0].rule - 0.5).abs() < 1e-3 && rules[0].error.si().abs() < 1e-3);
    assert!((rules[1].rule - 40.017).abs() < 1e-3 && rules[1].error.si().abs() < 1e-6);
}

#[test]
fn each_rule_is_exact_in_its_limit() {
    // A heavy load on a light line: straight halves.
    let light = line(100.0, 101.0, 1e-4, 1e6);
    for name in ["tension_from_angle", "two_straight_halves", "tension_from_sag_and_weight"] {
        assert!(error(&light, 1e3, name).abs() < 1e-3, "{name}: {}", error(&light, 1e3, name));
    }
    // P l / (4 d) is H, less than T by the cosine.
    let d = 0.5 * (101.0_f64 * 101.0 - 1e4).sqrt();
    let cos = 50.0 / 50.0_f64.hypot(d);
    assert!((1.0 + error(&light, 1e3, "tension_from_sag") - cos).abs() < 0.02);
    // A light load on a tight line does not change the tension.
    let tight = line(100.0, 99.0, 1e-5, 1e6);
    assert!(error(&tight, 1.0, "sag_from_standing_tension").abs() < 0.01);
    // As long as its chord, without weight to speak of: the leading order of the cube root.
    let chord = line(100.0, 100.0, 1e-6, 1e6);
    for (load, most) in [(1000.0, 0.02), (1.0, 0.0005)] {
        assert!(error(&chord, load, "no_standing_tension").abs() < most);
    }
}

#[test]
fn signs_of_the_errors() {
    let webbing = line(130.0, 127.7, 0.667, 2.5e5);
    // The load stretches the line and raises its tension: less sag than the standing tension promises.
    assert!(error(&webbing, 800.0, "sag_from_standing_tension") > 0.0);
    // Forgetting the line's weight promises less tension than there is.
    assert!(error(&webbing, 800.0, "tension_from_sag") < 0.0);
    // A slack line hangs deeper than its parabola of equal H.
    let slack = line(130.0, 160.0, 0.667, 2.5e5);
    assert!(error(&slack, 1.0, "sag_of_the_empty_line") < 0.0);
}

#[test]
fn a_chart_holds_the_same_errors() {
    let webbing = line(130.0, 1.0, 0.667, 2.5e5);
    let chart = rules_chart(&webbing, &[2e3, 5e3], &[200.0, 400.0, 800.0]).unwrap();
    assert_eq!(chart.rules.len(), 8);
    let at = ElasticLine { rest_length: chart.rest_length_m[1].meters(), ..webbing };
    for rule in &chart.rules {
        assert_eq!((rule.error.len(), rule.error[0].len()), (2, 3));
        assert_eq!(rule.error[1][2], error(&at, 800.0, &rule.name));
    }
    let wrong = rules_chart(&at, &[2e3, -1.0], &[1.0]).unwrap_err().to_string();
    assert!(wrong.starts_with("at index 1: tension is -1 N"), "{wrong}");
}

proptest! {
    #[test]
    fn any_line_gives_rules_or_an_error(
        span in prop_oneof![1.0..200.0_f64, Just(0.0), Just(f64::NAN), Just(1e300)],
        rest in prop_oneof![1.0..200.0_f64, Just(-1.0), Just(1e-300)],
        weight in prop_oneof![0.01..2.0_f64, Just(0.0), Just(f64::INFINITY), Just(1e-300)],
        load in prop_oneof![1.0..1e4_f64, Just(0.0), Just(f64::NAN), Just(1e305)],
    ) {
        if let Ok(rules) = rules_of_thumb(&line(span, rest, weight, 1e5), load.newtons()) {
            prop_assert!(rules.iter().all(|r| r.rule.is_finite() && r.exact.is_finite()));
        }
    }
}
