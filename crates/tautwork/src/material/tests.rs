use proptest::prelude::*;

use super::curve::{Curve, Law};
use super::*;
use crate::quantity::*;

fn table(rows: &[(f64, f64)]) -> Result<Stretch, MaterialError> {
    Stretch::table(rows.iter().map(|(t, e)| (t.newtons(), e.ratio())).collect())
}

#[test]
fn standard_figures_give_their_rigidity() {
    let ea = |s: Stretch| s.tangent_rigidity(0.0.newtons()).unwrap().in_newtons();
    // FAL-08: EN 892 limit of 10 %; FAL-07: EN 1891 limit of 5 %. Recomputed from the test loads.
    assert!((ea(Stretch::en892_static_elongation(10.0.percent()).unwrap()) - 7357.5).abs() < 1e-9);
    assert!((ea(Stretch::en1891_elongation(5.0.percent()).unwrap()) - 19_620.0).abs() < 1e-9);
    assert!(
        (ea(Stretch::elongation(4.0.percent(), 10.0.kilonewtons()).unwrap()) - 2.5e5).abs() < 1e-9
    );
    // FAL-01: axial rigidity from the rated impact force, Wexler's equation (from memory).
    for (force, want) in [(7.5, 16.0097), (8.0, 18.5168), (9.0, 24.0709), (12.0, 45.0526)] {
        let got = ea(Stretch::en892_impact_force(force.kilonewtons()).unwrap());
        assert!((got / 1e3 - want).abs() < 5e-5, "{got}");
    }
}

#[test]
fn a_curve_meets_its_points_and_goes_on_straight() {
    let rows = [(2e3, 0.012), (5e3, 0.022), (10e3, 0.04)];
    let s = table(&rows).unwrap();
    for (t, e) in rows {
        assert!((s.strain(t.newtons()).unwrap().si() - e).abs() < 1e-15);
        assert!((s.tension(e.ratio()).unwrap().si() / t - 1.0).abs() < 1e-12);
    }
    let past = s.tangent_rigidity(11.0.kilonewtons()).unwrap();
    assert_eq!(past, s.tangent_rigidity(20.0.kilonewtons()).unwrap());
    assert!(s.is_past_table(10.1.kilonewtons()) && !s.is_past_table(10.0.kilonewtons()));
    // One point is a straight line.
    let one = table(&[(10e3, 0.04)]).unwrap();
    assert!((one.strain(3.0.kilonewtons()).unwrap().si() - 0.012).abs() < 1e-15);
}

#[test]
fn tables_that_do_not_rise_are_errors() {
    for rows in [
        &[][..],
        &[(0.0, 0.0)],
        &[(0.0, 0.01), (1e3, 0.02)],
        &[(1e3, 0.0), (2e3, 0.01)],
        &[(1e3, 0.01), (1e3, 0.02)],
        &[(1e3, 0.01), (2e3, 0.01)],
        &[(2e3, 0.01), (1e3, 0.02)],
        &[(1e3, f64::NAN)],
        &[(f64::INFINITY, 0.1)],
    ] {
        assert!(table(rows).is_err(), "{rows:?}");
    }
}

#[test]
fn document_forms_are_read_and_written() {
    for text in [
        r#"{"axial_rigidity":"250 kN"}"#,
        r#"{"elongation":"0.04","at":"10 kN"}"#,
        r#"{"table":[["2 kN","0.012"],["10 kN","0.04"]]}"#,
        r#"{"en892_static_elongation":"0.08"}"#,
        r#"{"en892_impact_force":"8600 N"}"#,
        r#"{"en1891_elongation":"0.033"}"#,
    ] {
        let s: Stretch = serde_json::from_str(text).unwrap();
        let back: Stretch = serde_json::from_str(&serde_json::to_string(&s).unwrap()).unwrap();
        assert_eq!(s, back);
    }
    for (text, says) in [
        ("{}", "exactly one"),
        (r#"{"elongation":"4 %"}"#, "exactly one"),
        (r#"{"axial_rigidity":"1 kN","en1891_elongation":"3 %"}"#, "2 forms"),
        (r#"{"axial_rigidity":"1 m"}"#, "is a length"),
        (r#"{"modulus":"1 kN"}"#, "unknown field"),
        (r#"{"axial_rigidity":"0 kN"}"#, "above zero"),
        (r#"{"en892_impact_force":"1.5 kN"}"#, "1569.6 N"),
    ] {
        let error = serde_json::from_str::<Stretch>(text).unwrap_err().to_string();
        assert!(error.contains(says), "{text}: {error}");
    }
}

#[test]
fn two_figures_make_one_rope() {
    // The demo rope: 8 % static and 8.6 kN give 9.2 and 22 kN.
    let v = Viscoelastic::from_en892(8.0.percent(), 8.6.kilonewtons(), 0.02.seconds()).unwrap();
    assert!((v.long_term.in_kilonewtons() - 9.2).abs() < 0.01);
    assert!((v.sudden().in_kilonewtons() - 21.8).abs() < 0.1);
    let error = Viscoelastic::from_en892(1.0.percent(), 8.6.kilonewtons(), 0.1.seconds());
    assert!(matches!(error, Err(MaterialError::ImpactNotStiffer { .. })));
}

#[test]
fn strength_left_is_the_product_of_the_factors() {
    let factor = |low: f64, high: f64| Derating {
        kind: DeratingKind::Wet,
        name: "f".to_owned(),
        low: low.ratio(),
        high: high.ratio(),
        source: "example".to_owned(),
    };
    let b = BreakingStrength(38.0.kilonewtons());
    let left = derated(b, &[factor(0.9, 1.0)], &[factor(0.9, 0.9)]).unwrap();
    assert!((left.low.in_kilonewtons() - 30.78).abs() < 1e-9);
    assert!((left.high.in_kilonewtons() - 34.2).abs() < 1e-9);
    for wrong in [factor(0.0, 0.5), factor(0.9, 0.8), factor(0.5, 1.1), factor(f64::NAN, 1.0)] {
        assert!(derated(b, &[wrong], &[]).is_err());
    }
    assert!(knot_factors().iter().all(|k| k.check().is_ok() && !k.source.is_empty()));
}

#[test]
fn warmth_water_creep_and_set_change_the_rest_length() {
    let factor = |c: Condition| c.rest_length_factor().map(Quantity::si);
    assert_eq!(factor(Condition::default()), Ok(1.0));
    // A steel rod of 12 ppm/K, 10 m long and 50 K warmer, is 6 mm longer: by hand.
    let steel = Condition {
        temperature_change: 50.0.kelvins(),
        expansion: 12.0.ppm_per_kelvin(),
        ..Condition::default()
    };
    assert!((10e3 * (factor(steel).unwrap() - 1.0) - 6.0).abs() < 1e-9);
    let colder = Condition { temperature_change: (-50.0).kelvins(), ..steel };
    let shrinking = Condition { expansion: (-12.0).ppm_per_kelvin(), ..steel };
    assert!(factor(colder).unwrap() < 1.0);
    assert_eq!(factor(colder), factor(shrinking));
    // 1 % of creep on what a set of 2 % has left: 1.0302.
    let old =
        Condition { creep: 1.0.percent(), permanent_set: 2.0.percent(), ..Condition::default() };
    assert!((factor(old).unwrap() - 1.0302).abs() < 1e-15);
    for bad in [
        Condition { wet_change: (-100.0).percent(), ..steel },
        Condition { creep: (-1.0).percent(), ..steel },
        Condition { permanent_set: f64::NAN.ratio(), ..steel },
        Condition { temperature_change: f64::INFINITY.kelvins(), ..steel },
        Condition { expansion: (-1.0).per_kelvin(), ..steel },
        Condition { wet_change: 1e300.ratio(), creep: 1e300.ratio(), ..steel },
    ] {
        assert!(bad.rest_length_factor().is_err(), "{bad:?}");
    }
    let text = r#"{"temperature_change":"-15 K","expansion":"80 ppm/K","wet_change":"1 %"}"#;
    let read: Condition = serde_json::from_str(text).unwrap();
    assert!((factor(read).unwrap() - (1.0 - 0.0012) * 1.01).abs() < 1e-15);
    let back = serde_json::from_str(&serde_json::to_string(&read).unwrap()).unwrap();
    assert_eq!(read, back);
    assert!(serde_json::from_str::<Condition>(r#"{"temperature_change":"20 °C"}"#).is_err());
}

fn rows() -> impl Strategy<Value = Vec<(f64, f64)>> {
    proptest::collection::vec((0.01..10.0_f64, 0.0001..0.2_f64), 1..7).prop_map(|steps| {
        steps
            .into_iter()
            .scan((0.0, 0.0), |at, (t, e)| {
                *at = (at.0 + 1e3 * t, at.1 + e);
                Some(*at)
            })
            .collect()
    })
}

proptest! {
    #[test]
    fn a_curve_rises_and_its_inverse_undoes_it(rows in rows(), share in 0.0..1.3_f64) {
        let (mut t, mut e) = (vec![0.0], vec![0.0]);
        t.extend(rows.iter().map(|r| r.0));
        e.extend(rows.iter().map(|r| r.1));
        let last = t[t.len() - 1];
        let law = Law::Curve(Curve::new(t, e));
        let mut before = 0.0;
        for i in 1..=300 {
            let strain = law.strain(last * f64::from(i) / 250.0);
            prop_assert!(strain > before);
            before = strain;
        }
        let at = share * last;
        prop_assert!((law.tension(law.strain(at)) - at).abs() <= 1e-7 * last);
        // Energy is the integral of tension over strain, by the trapezoid between the points.
        let n = 500;
        let mut sum = 0.0;
        let mut from = 0.0;
        for to in law.knots().iter().copied().chain([f64::INFINITY]) {
            let to = at.min(to);
            for i in 0..n {
                let step = (to - from) / f64::from(n);
                let (a, b) = (from + step * f64::from(i), from + step * f64::from(i + 1));
                sum += 0.5 * (a + b) * (law.strain(b) - law.strain(a));
            }
            from = to;
        }
        prop_assert!((law.energy_n(at) - sum).abs() <= 1e-5 * (sum + 1e-9));
    }

    #[test]
    fn any_number_gives_an_answer_or_an_error(a in any::<f64>(), b in any::<f64>(), t in any::<f64>()) {
        for s in [
            Stretch::axial_rigidity(a.newtons()),
            Stretch::elongation(a.ratio(), b.newtons()),
            table(&[(a, b), (2.0 * a, 2.5 * b)]),
            Stretch::en892_static_elongation(a.ratio()),
            Stretch::en892_impact_force(a.newtons()),
            Stretch::en1891_elongation(a.ratio()),
        ].into_iter().flatten() {
            if let Ok(e) = s.strain(t.newtons()) {
                prop_assert!(e.si().is_finite());
            }
            if let Ok(f) = s.tension(t.ratio()) {
                prop_assert!(f.si().is_finite());
            }
        }
        let v = Viscoelastic::from_en892(a.ratio(), b.newtons(), t.seconds());
        prop_assert!(v.is_err() || v.unwrap().check().is_ok());
    }
}
