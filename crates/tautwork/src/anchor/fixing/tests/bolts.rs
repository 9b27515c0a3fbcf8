//! Rules for tension and shear at once against published points.

use super::*;

/// Shear ratio at which a rule is at its limit for a tension ratio, by bisection on the public call.
fn shear_at_limit(rule: InteractionRule, tension: f64) -> f64 {
    let limits = limits(1.0, 1.0, rule);
    let (mut low, mut high) = (0.0, 2.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        let force = newtons([1e3 * middle, 0.0, 1e3 * tension]);
        let used = bolt_use(&limits, [0.0, 0.0, 1.0], force).unwrap().utilisation.si();
        if used < 1.0 { low = middle } else { high = middle }
    }
    low
}

/// ACI 318-19 17.8.3 and R17.8, EN 1992-4 7.2.3: the shear ratio left at half the tension.
#[test]
fn the_rules_leave_their_published_shear_at_half_the_tension() {
    use InteractionRule::*;
    for (rule, left) in [
        (Linear, 0.5),
        (TriLinear, 0.7),
        (FiveThirds, 0.796_933),
        (ThreeHalves, 0.747_633),
        (Quadratic, 0.866_025),
    ] {
        near(shear_at_limit(rule, 0.5), left, 1e-6);
    }
}

/// ACI 318-19 17.8: shear up to a fifth of its resistance takes nothing from the tension.
#[test]
fn a_fifth_of_shear_is_free_in_the_tri_linear_rule() {
    near(shear_at_limit(InteractionRule::TriLinear, 0.999_999), 0.200_001, 1e-9);
    near(shear_at_limit(InteractionRule::TriLinear, 0.2), 1.0, 1e-9);
}

/// EN 1993-1-8 table 3.4, from memory: an M20 8.8 bolt (94.08 kN in shear, 141.12 kN in tension) under
/// 100 kN of tension bears 46.461 kN of shear.
#[test]
fn an_m20_bolt_by_en_1993() {
    let limits = limits(141.12, 94.08, InteractionRule::En199318);
    let force = newtons([46_461.0, 0.0, 100e3]);
    let bolt = bolt_use(&limits, [0.0, 0.0, 1.0], force).unwrap();
    near(bolt.utilisation.si(), 1.0, 1e-5);
}

/// AISC Design Examples, J.3, from memory: 3/4 in A325-N (Fnt 90 ksi, Fnv 54 ksi, area 0.442 in²,
/// phi 0.75), Vu 7.996 kips: the tension it bears is 25.5 kips.
#[test]
fn a_bolt_by_aisc_j3() {
    let kip = 4.448_222_615_260_5;
    let (tension, shear) = (0.75 * 90.0 * 0.442 * kip, 0.75 * 54.0 * 0.442 * kip);
    let limits = limits(tension, shear, InteractionRule::AiscJ37);
    let use_at = |kips: f64| {
        let force = newtons([7.996e3 * kip, 0.0, 1e3 * kips * kip]);
        bolt_use(&limits, [0.0, 0.0, 1.0], force).unwrap().utilisation.si()
    };
    assert!(use_at(25.45) < 1.0 && use_at(25.46) > 1.0);
    // Required: 23.4 kips.
    assert!(use_at(23.4) < 1.0);
}

#[test]
fn compression_is_reported_as_such() {
    let limits = limits(15.0, 25.0, InteractionRule::TriLinear);
    let bolt = bolt_use(&limits, [0.0, 0.0, 2.0], newtons([5e3, 0.0, -8e3])).unwrap();
    assert_eq!(bolt.tension.si(), 0.0);
    assert_eq!(bolt.compression.si(), 8e3);
    assert_eq!(bolt.utilisation.si(), 0.2);
    assert_eq!(bolt.scale.unwrap().si(), 5.0);
    // Nothing but compression uses up nothing, and no scale reaches the limit.
    let pressed = bolt_use(&limits, [0.0, 0.0, 1.0], newtons([0.0, 0.0, -1.0])).unwrap();
    assert_eq!((pressed.utilisation.si(), pressed.scale), (0.0, None));
}

#[test]
fn reductions_multiply_and_are_named() {
    let mut case = limits(20.0, 30.0, InteractionRule::Linear);
    let reduction = |name: &str, tension: f64, shear: f64| BoltReduction {
        name: name.to_owned(),
        tension: tension.ratio(),
        shear: shear.ratio(),
    };
    case.reductions = vec![reduction("edge distance", 0.8, 0.5), reduction("spacing", 0.5, 1.0)];
    let bolt = bolt_use(&case, [0.0, 0.0, 1.0], newtons([3e3, 0.0, 2e3])).unwrap();
    near(bolt.tension_resistance.si(), 8e3, 1e-9);
    near(bolt.shear_resistance.si(), 15e3, 1e-9);
    near(bolt.utilisation.si(), 0.45, 1e-12);
    case.reductions[0].shear = 1.2.ratio();
    let error = bolt_use(&case, [0.0, 0.0, 1.0], newtons([3e3, 0.0, 2e3])).unwrap_err();
    assert_eq!(
        error.to_string(),
        "limits.reductions.edge distance.shear is 1.2; it must be above 0 and at most 1"
    );
}

#[test]
fn an_axis_has_a_direction() {
    let case = limits(20.0, 30.0, InteractionRule::Linear);
    for axis in [[0.0; 3], [f64::NAN, 0.0, 1.0], [f64::INFINITY, 0.0, 1.0]] {
        let error = bolt_use(&case, axis, newtons([1.0, 0.0, 0.0])).unwrap_err();
        assert!(error.to_string().starts_with("axis is ["), "{error}");
    }
    // Any length will do.
    for scale in [1e-310, 1e300] {
        let bolt = bolt_use(&case, [0.0, 0.0, scale], newtons([0.0, 0.0, 1e3])).unwrap();
        near(bolt.tension.si(), 1e3, 1e-9);
    }
}
