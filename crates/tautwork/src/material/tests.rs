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

/// A published table of wire rope strength over sheaves and pins: its points, and no jump between them.
#[test]
fn wire_rope_over_a_bend() {
    let left = |ratio: f64| wire_rope_bend(ratio.ratio()).unwrap().low.in_percent();
    for (ratio, percent) in [
        (40.0, 95.0),
        (30.0, 93.0),
        (20.0, 91.0),
        (15.0, 89.0),
        (10.0, 86.0),
        (8.0, 83.0),
        (6.0, 79.0),
        (4.0, 75.0),
        (2.0, 65.0),
        (1.0, 50.0),
        (1e300, 95.0),
    ] {
        assert!((left(ratio) - percent).abs() < 1e-9, "{ratio}");
    }
    let steps: Vec<f64> = (10..500).map(|i| left(f64::from(i) * 0.1)).collect();
    assert!(steps.windows(2).all(|two| two[1] >= two[0] && two[1] - two[0] < 1.6));
    for bad in [0.99, -1.0, f64::NAN, f64::INFINITY] {
        assert!(wire_rope_bend(bad.ratio()).is_err());
    }
}

#[test]
fn ratings_by_their_basis() {
    let kn = |rating: Rating| {
        let strength = rated_strength(&rating).unwrap();
        (strength.low.in_kilonewtons(), strength.high.in_kilonewtons())
    };
    assert_eq!(kn(Rating::Minimum { strength: 22.0.kilonewtons() }), (22.0, 22.0));
    // EN 13414-1 and EN 1492: factors 5 and 7.
    for factor in [5.0, 7.0] {
        let limit = Rating::WorkingLoadLimit { limit: 2.0.kilonewtons(), factor: factor.ratio() };
        assert_eq!(kn(limit), (2.0 * factor, 2.0 * factor));
    }
    let tests = |deviation: f64| Rating::ThreeSigma {
        mean: 30.0.kilonewtons(),
        deviation: deviation.kilonewtons(),
    };
    assert_eq!(kn(tests(2.0)), (24.0, 36.0));
    assert_eq!(kn(tests(0.0)), (30.0, 30.0));
    let error = rated_strength(&tests(10.0)).unwrap_err().to_string();
    assert_eq!(error, "deviation is 10 kN; it must be below a third of mean, 30 kN");
    let less = Rating::WorkingLoadLimit { limit: 2.0.kilonewtons(), factor: 0.5.ratio() };
    let case = StrengthCase { rating: less, at_place: vec![], everywhere: vec![] };
    let error = strength_left(&case).unwrap_err().to_string();
    assert_eq!(error, "rating.factor is 0.5; it must be 1 or more");
}

/// The two ways to what is left agree, and every published factor is a range that names its source.
#[test]
fn a_rated_strength_with_its_factors() {
    let factors = strength_factors();
    assert!(factors.iter().all(|f| f.check().is_ok() && !f.source.is_empty()));
    let rating = Rating::Minimum { strength: 22.0.kilonewtons() };
    let (at_place, everywhere) = (factors[..2].to_vec(), factors[12..14].to_vec());
    let plain = derated(BreakingStrength(22.0.kilonewtons()), &at_place, &everywhere).unwrap();
    let left = strength_left(&StrengthCase { rating, at_place, everywhere }).unwrap();
    assert!((left.low.si() - plain.low.si()).abs() < 1e-9);
    assert!((left.high.si() - plain.high.si()).abs() < 1e-9);
    assert_eq!(left.sources.len(), 4);
    assert_eq!(left.rated.low.in_kilonewtons(), 22.0);
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
    fn any_rating_gives_an_answer_or_an_error(a in any::<f64>(), b in any::<f64>(), c in any::<f64>()) {
        for rating in [
            Rating::Minimum { strength: a.newtons() },
            Rating::ThreeSigma { mean: a.newtons(), deviation: b.newtons() },
            Rating::WorkingLoadLimit { limit: a.newtons(), factor: b.ratio() },
        ] {
            if let Ok(strength) = rated_strength(&rating) {
                prop_assert!(strength.low.si().is_finite() && strength.high.si().is_finite());
                prop_assert!(strength.low.si() >= 0.0 && strength.low <= strength.high);
            }
        }
        if let Ok(bend) = wire_rope_bend(c.ratio()) {
            prop_assert!((0.5..=0.95).contains(&bend.low.si()));
        }
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
