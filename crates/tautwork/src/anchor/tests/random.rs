//! Random anchors: a minimisation by SciPy, and properties.

use super::*;

#[derive(serde::Deserialize)]
struct Case {
    fixing_m: Vec<[f64; 3]>,
    rest_m: Vec<f64>,
    k_n_per_m: Vec<f64>,
    pull_n: [f64; 3],
    master_point_m: [f64; 3],
    tension_n: Vec<f64>,
    share: Vec<f64>,
}

/// SciPy: `minimize` of the tension-only energy, sharpened with `root`; see tests/reference/anchor.py.
#[test]
fn agrees_with_a_minimisation_by_scipy() {
    let text = include_str!("../../../../../tests/reference/anchor.json");
    let cases: Vec<Case> = serde_json::from_str(text).unwrap();
    assert!(cases.len() > 30);
    for (i, case) in cases.iter().enumerate() {
        let legs = (0..case.rest_m.len())
            .map(|j| leg(&format!("{j}"), case.fixing_m[j], case.rest_m[j], case.k_n_per_m[j]))
            .collect();
        let anchor = Anchor { legs, pull: newtons(case.pull_n) };
        let rest = equilibrium(&anchor).unwrap();
        // 17 when written: more means that the solver has become slower.
        assert!(rest.iterations <= 20, "case {i} took {}", rest.iterations);
        for (p, reference) in rest.master_point.iter().zip(case.master_point_m) {
            assert!((p.si() - reference).abs() < 1e-8, "case {i}");
        }
        for (j, leg) in rest.legs.iter().enumerate() {
            assert!((leg.share.si() - case.share[j]).abs() < 1e-8, "case {i} leg {j}");
            let size = norm(case.pull_n);
            assert!(
                (leg.tension.si() - case.tension_n[j]).abs() < 1e-8 * size.max(leg.tension.si())
            );
            assert_eq!(leg.slack, case.tension_n[j] == 0.0, "case {i} leg {j}");
        }
    }
}

prop_compose! {
    fn some_leg()(
        at in [-2.0..2.0_f64, -2.0..2.0_f64, -0.5..0.5_f64],
        rest_m in 0.3..3.0_f64,
        log_k in 3.5..7.5_f64,
    ) -> Leg {
        leg("", at, rest_m, 10.0_f64.powf(log_k))
    }
}

prop_compose! {
    fn some_anchor()(
        mut legs in prop::collection::vec(some_leg(), 2..7),
        pull in [-1.0..1.0_f64, -1.0..1.0_f64, -2.0..-0.2_f64],
        log_size in 1.0..4.5_f64,
    ) -> Anchor {
        for (i, leg) in legs.iter_mut().enumerate() {
            leg.name = format!("leg {i}");
        }
        Anchor { legs, pull: newtons(pull.map(|c| c * 10.0_f64.powf(log_size))) }
    }
}

proptest! {
    #[test]
    fn legs_balance_the_pull_and_never_push(anchor in some_anchor()) {
        let rest = equilibrium(&anchor).unwrap();
        let size = norm(anchor.pull.map(Quantity::si));
        prop_assert!(missing_n(&anchor, &rest) < 1e-8 * size);
        prop_assert!(rest.legs.iter().all(|l| l.tension.si() >= 0.0));
        prop_assert!((rest.legs.iter().map(|l| l.share.si()).sum::<f64>() - 1.0).abs() < 1e-8);
        prop_assert!(rest.iterations < 400, "{} iterations", rest.iterations);
    }

    #[test]
    fn a_slack_leg_changes_nothing(anchor in some_anchor(), spare in some_leg()) {
        let rest = equilibrium(&anchor).unwrap();
        let mut more = anchor.clone();
        let mut spare = spare;
        spare.name = "spare".to_owned();
        let p = rest.master_point.map(Quantity::si);
        let a = spare.fixing.map(Quantity::si);
        let distance = norm([p[0] - a[0], p[1] - a[1], p[2] - a[2]]);
        spare.rest_length = (distance * 1.01).meters();
        more.legs.push(spare);
        let again = equilibrium(&more).unwrap();
        for (a, b) in rest.legs.iter().zip(&again.legs) {
            prop_assert!((a.share.si() - b.share.si()).abs() < 1e-7);
        }
        prop_assert!(again.legs.last().unwrap().slack);
    }

    #[test]
    fn rotation_turns_the_answer(anchor in some_anchor(), turn in -3.0..3.0_f64) {
        let (s, c) = turn.sin_cos();
        // About z by the turn, then x to y to z to x: both keep lengths and handedness.
        let rotate = |v: [f64; 3]| [v[2], c * v[0] - s * v[1], s * v[0] + c * v[1]];
        let mut turned = anchor.clone();
        turned.pull = newtons(rotate(anchor.pull.map(Quantity::si)));
        for leg in &mut turned.legs {
            leg.fixing = point(rotate(leg.fixing.map(Quantity::si)));
        }
        let (a, b) = (equilibrium(&anchor).unwrap(), equilibrium(&turned).unwrap());
        let expected = rotate(a.master_point.map(Quantity::si));
        for (x, y) in expected.into_iter().zip(b.master_point) {
            prop_assert!((x - y.si()).abs() < 1e-6);
        }
        for (a, b) in a.legs.iter().zip(&b.legs) {
            prop_assert!((a.share.si() - b.share.si()).abs() < 1e-6);
        }
    }

    #[test]
    fn losing_a_leg_frees_energy_and_moves_away_from_it(anchor in some_anchor()) {
        let loss = lose_leg(&anchor, "leg 0", 3.0.kilograms()).unwrap();
        prop_assert!(loss.energy_released.si() >= 0.0);
        let pull = norm(anchor.pull.map(Quantity::si));
        prop_assert!(loss.residual * loss.energy_released.si() < 1e-9 * pull);
        // Its tension times the way away from its fixing is no less than zero: energy is convex.
        let lost = &loss.before.legs[0];
        let closer: f64 = loss.travel.iter().zip(lost.direction).map(|(d, n)| d.si() * n).sum();
        prop_assert!(lost.tension.si() * closer <= 1e-9 * pull);
        for peak in &loss.peaks {
            let find = |r: &Equilibrium| {
                r.legs.iter().find(|l| l.name == peak.name).unwrap().tension.si()
            };
            let size = 1.0 + peak.tension.si();
            prop_assert!(peak.tension.si() >= find(&loss.after) - 1e-7 * size);
            prop_assert!(peak.tension.si() >= find(&loss.before) - 1e-7 * size);
        }
    }

    #[test]
    fn any_number_gives_an_answer_or_an_error(
        x in any::<f64>(), k in any::<f64>(), rest in any::<f64>(), pull in any::<f64>(),
    ) {
        let mut anchor = Anchor {
            legs: vec![leg("a", [x, 0.0, 1.0], rest, k), leg("b", [1.0, 0.0, 1.0], 1.0, 1e5)],
            pull: newtons([0.0, 0.0, -1000.0]),
        };
        let check = |anchor: &Anchor| {
            if let Ok(r) = equilibrium(anchor) {
                prop_assert!(r.legs.iter().all(|l| l.tension.si().is_finite() && l.share.si().is_finite()));
                prop_assert!(missing_n(anchor, &r) <= 1e-6 * norm(anchor.pull.map(Quantity::si)));
            }
            if let Ok(l) = lose_leg(anchor, "b", k.abs().kilograms()) {
                prop_assert!(l.peaks.iter().all(|p| p.tension.si().is_finite()));
            }
            Ok(())
        };
        check(&anchor)?;
        anchor.legs[0].rest_length = rest.abs().meters();
        anchor.legs[0].stiffness = Some(k.abs().newtons_per_meter());
        check(&anchor)?;
        anchor.pull[1] = pull.newtons();
        check(&anchor)?;
        if let Ok(f) = v_angle_factor(x.radians()) { prop_assert!(f.si().is_finite()); }
        if let Ok(f) = sling_factor(x.radians()) { prop_assert!(f.si().is_finite()); }
    }
}
