//! Closed forms, energy balance, limits and bad numbers.

use super::*;

#[test]
fn past_the_table_and_past_factor_two_are_noted() {
    let stopped = arrest(&fall(120.0, 25.0, 10.0, stiffening())).unwrap();
    assert_eq!(stopped.notes, vec![FallNote::PastTable, FallNote::FactorAboveTwo]);
    assert!(stopped.impact_force.in_kilonewtons() > 10.0);
}

#[test]
fn a_rigid_span_and_a_rough_edge_are_the_plain_fall() {
    let plain = fall(80.0, 2.0, 5.0, linear(20e3));
    let force = arrest(&plain).unwrap().impact_force.si();
    let mut hung = plain.clone();
    hung.span_stiffness = Some(1e12.newtons_per_meter());
    assert!((arrest(&hung).unwrap().impact_force.si() / force - 1.0).abs() < 1e-6);
    // Friction that holds the belay part still leaves the rope to the edge alone.
    let edge = Edge { belay_rope: 10.0.meters(), wrap: 3.0.turns(), mu: 1.0.ratio() };
    let ends = arrest_over_edge(&plain, &edge).unwrap();
    assert!((ends.full_friction.arrest.impact_force.si() / force - 1.0).abs() < 1e-6);
    // No wrap, no friction, no load on the edge.
    let straight = Edge { wrap: 0.0.degrees(), ..edge };
    let ends = arrest_over_edge(&plain, &straight).unwrap();
    assert_eq!(ends.full_friction, ends.frictionless);
    assert_eq!(ends.full_friction.anchor_load.si(), 0.0);
}

#[test]
fn a_fall_survives_json() {
    let mut case = fall(80.0, 2.0, 5.0, stiffening());
    case.span_stiffness = Some(2.0.kilonewtons_per_meter());
    let text = serde_json::to_string(&case).unwrap();
    assert_eq!(serde_json::from_str::<Fall>(&text).unwrap(), case);
    assert!(serde_json::from_str::<Fall>(&text.replace("\"rope\"", "\"cord\"")).is_err());
    let stopped = arrest(&case).unwrap();
    let text = serde_json::to_string(&stopped).unwrap();
    assert_eq!(serde_json::from_str::<Arrest>(&text).unwrap(), stopped);
}

proptest! {
    #[test]
    fn inverse_undoes_impact_force(m in 1.0..500.0_f64, f in 0.01..2.0_f64, ea in 1e3..1e7_f64) {
        let (m, f, ea) = (m.kilograms(), f.ratio(), ea.newtons());
        let force = impact_force(m, f, ea).unwrap();
        let back = implied_axial_rigidity(m, f, force).unwrap();
        prop_assert!((back.si() / ea.si() - 1.0).abs() < 1e-9);
    }

    #[test]
    fn linear_falls_match_their_closed_forms(
        m in 20.0..300.0_f64, h in 0.0..40.0_f64, l in 1.0..60.0_f64, ea in 3e3..1e6_f64,
        k in 300.0..1e5_f64, l2 in 0.1..60.0_f64, r in 1.0..4.0_f64,
    ) {
        let w = m * GRAVITY;
        let closed = |k: f64| w + (w * w + 2.0 * w * k * h).sqrt();
        let mut case = fall(m, h, l, linear(ea));
        let edge = Edge {
            belay_rope: l2.meters(), wrap: 0.5.turns(), mu: (r.ln() / std::f64::consts::PI).ratio(),
        };
        let ends = arrest_over_edge(&case, &edge).unwrap();
        let full = ends.full_friction.arrest.impact_force.si();
        prop_assert!((full / closed(ea / (l + l2 / r)) - 1.0).abs() < 1e-8);
        let none = ends.frictionless.arrest.impact_force.si();
        prop_assert!((none / closed(ea / (l + l2)) - 1.0).abs() < 1e-8);
        prop_assert!(full >= none * (1.0 - 1e-9));
        case.span_stiffness = Some(k.newtons_per_meter());
        let stopped = arrest(&case).unwrap();
        let series = series_stiffness((ea / l).newtons_per_meter(), k.newtons_per_meter()).unwrap();
        prop_assert!((stopped.impact_force.si() / closed(series.si()) - 1.0).abs() < 1e-8);
        prop_assert!((stopped.drop.si() - h - stopped.impact_force.si() / series.si()).abs() < 1e-8 * (1.0 + h));
        prop_assert!((stopped.energy.si() - w * stopped.drop.si()).abs() < 1e-9 * stopped.energy.si());
    }

    #[test]
    fn a_longer_fall_is_never_softer(
        m in 20.0..200.0_f64, h in 0.0..10.0_f64, more in 1.01..2.0_f64, l in 1.0..40.0_f64,
    ) {
        let force = |m: f64, h: f64| arrest(&fall(m, h, l, stiffening())).unwrap().impact_force.si();
        let one = force(m, h);
        prop_assert!(force(m, h * more) >= one * (1.0 - 1e-9));
        prop_assert!(force(m * more, h) > one);
        prop_assert!(one > m * GRAVITY);
    }

    #[test]
    fn any_number_gives_an_answer_or_an_error(
        m in any::<f64>(), f in any::<f64>(), ea in any::<f64>(), k in any::<f64>(),
    ) {
        if let Ok(force) = impact_force(m.kilograms(), f.ratio(), ea.newtons()) {
            prop_assert!(force.si().is_finite());
        }
        if let Ok(ea) = implied_axial_rigidity(m.kilograms(), f.ratio(), ea.newtons()) {
            prop_assert!(ea.si().is_finite());
        }
        for sign in [1.0, -1.0] {
            let stretch = Stretch::axial_rigidity((ea * sign).newtons()).unwrap_or(stiffening());
            let mut case = fall(m.abs(), f * sign, k.abs(), stretch);
            let edge = Edge { belay_rope: m.abs().meters(), wrap: k.radians(), mu: f.ratio() };
            if let Ok(ends) = arrest_over_edge(&case, &edge) {
                prop_assert!(ends.full_friction.anchor_load.si().is_finite());
            }
            case.span_stiffness = Some(k.newtons_per_meter());
            if let Ok(stopped) = arrest(&case) {
                prop_assert!(stopped.impact_force.si().is_finite() && stopped.residual <= 1e-9);
            }
            if let Ok(k) = series_stiffness(k.newtons_per_meter(), ea.newtons_per_meter()) {
                prop_assert!(k.si().is_finite());
            }
        }
    }
}
