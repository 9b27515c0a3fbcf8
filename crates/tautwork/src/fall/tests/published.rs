//! Published values, each with its source.

use super::*;

/// Axial rigidity by impact force, 80 kg, factor 1.77: Wexler (1950), Goldstone (2006), equation from
/// memory, values recomputed; no published numbers.
#[test]
fn rigidity_by_impact_force() {
    for (force_kn, ea_kn) in [
        (7.5, 16.0097),
        (8.0, 18.5168),
        (8.5, 21.2039),
        (9.0, 24.0709),
        (10.0, 30.3449),
        (12.0, 45.0526),
    ] {
        let ea = implied_axial_rigidity(80.0.kilograms(), 1.77.ratio(), f64::kilonewtons(force_kn))
            .unwrap();
        assert!((ea.in_kilonewtons() - ea_kn).abs() < 1e-4, "{force_kn}");
        let stopped = arrest(&fall(80.0, 1.77, 1.0, linear(ea.si()))).unwrap();
        assert!((stopped.impact_force.in_kilonewtons() - force_kn).abs() < 1e-9);
        if force_kn == 9.0 {
            assert!((stopped.strain.in_percent() - 37.3895).abs() < 1e-4);
        }
    }
    let half = implied_axial_rigidity(55.0.kilograms(), 1.77.ratio(), 8.0.kilonewtons()).unwrap();
    assert!((half.in_kilonewtons() - 28.988).abs() < 1e-3);
}

/// EN 892 / UIAA 101 drop, 4.8 m on 2.7 m (from memory; the factor 1.77 was read): factor 1.78; energy
/// per rope length 1389.1 J/m before the stretch and 1663.78 J/m with a strain of 0.35, recomputed.
#[test]
fn standard_drop() {
    let f = fall_factor(4.8.meters(), 2.7.meters()).unwrap().si();
    assert!((f - 1.78).abs() < 0.005);
    // The rope that stops at 0.35: EA = 2 · 1663.78 N / 0.35².
    let stopped = arrest(&fall(80.0, 1.77 * 2.7, 2.7, linear(2.0 * 1663.776 / 0.1225))).unwrap();
    assert!((stopped.strain.si() - 0.35).abs() < 1e-6);
    assert!((stopped.energy.si() / 2.7 - 1663.78).abs() < 0.01);
    let before = stopped.energy.si() - 784.8 * stopped.extension.si();
    assert!((before / 2.7 - 1389.1).abs() < 0.01);
}

/// Load on the top anchor over the impact force, 1 + 1/r: about 1.6 to 1.66 in drop tests (Pavier 1998
/// and the EN 892 literature, from memory).
#[test]
fn load_on_the_top_anchor() {
    for (r, multiplier, mu) in [
        (1.5_f64, 1.66667, 0.129_064),
        (1.66, 1.60241, 0.161_325),
        (1.7, 1.58824, 0.168_904),
        (1.874_456, 1.53349, 0.2),
    ] {
        assert!((r.ln() / std::f64::consts::PI - mu).abs() < 1e-6);
        let edge = Edge { belay_rope: 3.0.meters(), wrap: 180.0.degrees(), mu: mu.ratio() };
        let ends = arrest_over_edge(&fall(80.0, 4.0, 2.0, linear(20e3)), &edge).unwrap();
        let over = |e: &EdgeEnd| e.anchor_load.si() / e.arrest.impact_force.si();
        assert!((over(&ends.full_friction) - multiplier).abs() < 1e-5, "{r}");
        assert!((over(&ends.frictionless) - 2.0).abs() < 1e-12);
    }
}

/// Gere & Goodno, *Mechanics of Materials*, Example 2-16 (from memory): a 20 kg collar falls 150 mm
/// onto the end of a steel bar 2 m long and 15 mm thick.
#[test]
fn falling_collar() {
    let area = std::f64::consts::PI * 0.015_f64.powi(2) / 4.0;
    let stopped = arrest(&fall(20.0, 0.150, 2.0, linear(210e9 * area))).unwrap();
    assert!((stopped.extension.in_millimeters() - 1.79).abs() < 0.005);
    assert!((stopped.impact_force.si() / area / 1e6 - 188.0).abs() < 0.5);
    let static_mm = 20.0 * GRAVITY * 2.0 / (210e9 * area) * 1e3;
    assert!((static_mm - 0.0106).abs() < 0.00005);
    assert!((stopped.extension.in_millimeters() / static_mm - 169.0).abs() < 0.5);
}

/// Suddenly applied load: twice the static force for a linear rope (Timoshenko; Gere, from memory).
#[test]
fn suddenly_applied_load() {
    let stopped = arrest(&fall(80.0, 0.0, 7.0, linear(20e3))).unwrap();
    assert!((stopped.impact_force.si() / (80.0 * GRAVITY) - 2.0).abs() < 1e-9);
}

/// EN 892, limits from memory.
#[test]
fn en892_limits() {
    let at = |force_kn: f64| En892Figures {
        impact_force: Some(force_kn.kilonewtons()),
        static_elongation: Some(10.0.percent()),
        dynamic_elongation: Some(40.1.percent()),
    };
    let checks = en892_checks(RopeClass::Single, &at(12.0)).unwrap();
    let within: Vec<bool> = checks.iter().map(|c| c.within).collect();
    assert_eq!(within, [true, true, false]);
    assert!((checks[2].of_limit - 40.1 / 40.0).abs() < 1e-12);
    let half = en892_checks(RopeClass::Half, &at(8.1)).unwrap();
    assert!(!half[0].within && half[1].of_limit < 1.0);
    assert!(en892_checks(RopeClass::Twin, &En892Figures::default()).unwrap().is_empty());
}
