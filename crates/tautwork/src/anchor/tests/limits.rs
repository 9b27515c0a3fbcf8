//! Limits, signs, the loss of a leg, and errors.

use super::*;

#[test]
fn legs_in_one_line_follow_the_cubic_law() {
    // Energy 2 · ½ k (√(L² + d²) − L)² ≈ k d⁴ / (4 L²), so P = k d³ / L² for small d.
    let (k, rest_m) = (1e6, 1.0);
    for pull in [1.0, 8.0, 64.0] {
        let anchor = Anchor {
            legs: vec![
                leg("left", [-rest_m, 0.0, 0.0], rest_m, k),
                leg("right", [rest_m, 0.0, 0.0], rest_m, k),
            ],
            pull: newtons([0.0, 0.0, -pull]),
        };
        let d = -equilibrium(&anchor).unwrap().master_point[2].si();
        let law = (pull * rest_m * rest_m / k).cbrt();
        assert!((d / law - 1.0).abs() < law * law, "{d} {law}");
    }
}

#[test]
fn a_pull_against_the_legs_turns_the_knot_over() {
    let anchor = Anchor {
        legs: vec![leg("a", [-1.0, 0.0, 0.0], 2.0, 1e5), leg("b", [1.0, 0.0, 0.0], 2.0, 1e5)],
        pull: newtons([0.0, 0.0, 1000.0]),
    };
    let up = equilibrium(&anchor).unwrap();
    assert!(up.master_point[2].si() > 3.0_f64.sqrt());
    assert!(up.legs.iter().all(|l| !l.slack && l.direction[2] < 0.0));
}

#[test]
fn strength_gives_a_factor_and_slack_gives_none() {
    let mut anchor = Anchor {
        legs: vec![leg("a", [0.0, 0.0, 1.0], 1.0, 1e5), leg("b", [0.0, 0.0, 1.0], 1.5, 1e5)],
        pull: newtons([0.0, 0.0, -5000.0]),
    };
    anchor.legs[0].strength = Some(22.0.kilonewtons());
    anchor.legs[1].strength = Some(22.0.kilonewtons());
    let rest = equilibrium(&anchor).unwrap();
    assert!((rest.legs[0].factor.unwrap().si() - 4.4).abs() < 1e-9);
    assert!(rest.legs[1].slack && rest.legs[1].tension.si() == 0.0);
    assert_eq!(rest.legs[1].factor, None);
}

/// Gere & Goodno, *Mechanics of Materials* (from memory): a load applied at once gives twice the static
/// force, and the rise above the new rest equals the drop to it.
#[test]
fn losing_a_leg_in_line_overshoots_by_the_share_lost() {
    let anchor = Anchor {
        legs: vec![leg("a", [0.0, 0.0, 1.0], 1.0, 3e4), leg("b", [0.0, 0.0, 1.0], 1.0, 1e4)],
        pull: newtons([0.0, 0.0, -4000.0]),
    };
    // 3000 N and 1000 N; without b 4000 N at rest, so 5000 N at the peak.
    let loss = lose_leg(&anchor, "b", 4.0.kilograms()).unwrap();
    assert!((loss.after.legs[0].tension.si() - 4000.0).abs() < 1e-8);
    assert!((loss.peaks[0].tension.si() - 5000.0).abs() < 1e-6);
    assert!((loss.peaks[0].dynamic_factor.unwrap().si() - 1.25).abs() < 1e-9);
    // Extension 1000 N / 30 kN/m, energy half of that times 1000 N, speed from ½ m v².
    let extension = 1000.0 / 3e4;
    assert!((loss.extension.si() - extension).abs() < 1e-12);
    assert!((loss.energy_released.si() - 500.0 * extension).abs() < 1e-9);
    assert!((loss.speed.si().powi(2) * 2.0 - 500.0 * extension).abs() < 1e-9);
}

#[test]
fn slack_before_the_catch_raises_the_peak() {
    // A slack backup: after 0.1 m of free drop, P (s + x) = ½ k x².
    let (k, p, s) = (1e5_f64, 2000.0_f64, 0.1);
    let anchor = Anchor {
        legs: vec![
            leg("main", [0.0, 0.0, 1.0], 1.0, 1e9),
            leg("backup", [0.0, 0.0, 1.0], 1.0 + s, k),
        ],
        pull: newtons([0.0, 0.0, -p]),
    };
    let loss = lose_leg(&anchor, "main", 2.0.kilograms()).unwrap();
    let peak = p + (p * p + 2.0 * k * p * (s - p / 1e9)).sqrt();
    assert!((loss.peaks[0].tension.si() / peak - 1.0).abs() < 1e-9);
    assert!(loss.peaks[0].dynamic_factor.unwrap().si() > 2.0);
}

#[test]
fn losing_a_slack_leg_changes_nothing() {
    let anchor = Anchor {
        legs: vec![leg("a", [0.0, 0.0, 1.0], 1.0, 1e5), leg("b", [0.0, 0.0, 1.0], 2.0, 1e5)],
        pull: newtons([0.0, 0.0, -2000.0]),
    };
    let loss = lose_leg(&anchor, "b", 2.0.kilograms()).unwrap();
    assert_eq!(loss.energy_released.si(), 0.0);
    assert!((loss.peaks[0].tension.si() - 2000.0).abs() < 1e-9);
}

#[test]
fn errors_say_what_is_wrong() {
    let good = Anchor {
        legs: vec![leg("a", [-1.0, 0.0, 0.0], 2.0, 1e5), leg("b", [1.0, 0.0, 0.0], 2.0, 1e5)],
        pull: newtons([0.0, 0.0, -1000.0]),
    };
    let fails = |change: &dyn Fn(&mut Anchor)| {
        let mut anchor = good.clone();
        change(&mut anchor);
        equilibrium(&anchor).unwrap_err()
    };
    assert_eq!(
        fails(&|a| a.legs[1].rest_length = 0.0.meters()).to_string(),
        "b.rest_length is 0 m; it must be above zero"
    );
    assert_eq!(
        fails(&|a| a.legs[0].fixing[2] = f64::NAN.meters()).to_string(),
        "a.fixing.z is NaN m; it must be a finite number"
    );
    let both = fails(&|a| a.legs[0].axial_rigidity = Some(1.0.kilonewtons()));
    assert_eq!(both, AnchorError::OneStiffness { leg: "a".to_owned() });
    let neither = fails(&|a| a.legs[0].stiffness = None);
    assert_eq!(neither, AnchorError::OneStiffness { leg: "a".to_owned() });
    assert_eq!(fails(&|a| a.pull = newtons([0.0; 3])), AnchorError::NoPull);
    let twice = fails(&|a| a.legs[1].name = "a".to_owned());
    assert_eq!(twice, AnchorError::DuplicateName { name: "a".to_owned() });
    let empty = fails(&|a| a.legs.clear());
    assert!(matches!(empty, AnchorError::TooFew { .. }));
    let mut single = good.clone();
    single.legs.pop();
    let last = lose_leg(&single, "a", 1.0.kilograms()).unwrap_err();
    assert!(matches!(last, AnchorError::TooFew { .. }));
    assert!(lose_leg(&good, "z", 1.0.kilograms()).is_err());
    assert!(lose_leg(&good, "a", 0.0.kilograms()).is_err());
}

#[test]
fn an_anchor_survives_json() {
    let mut anchor = Anchor {
        legs: vec![leg("a", [-1.0, 0.0, 0.0], 2.0, 1e5), leg("b", [1.0, 0.0, 0.0], 2.0, 1e5)],
        pull: newtons([0.0, 0.0, -1000.0]),
    };
    anchor.legs[0].strength = Some(22.0.kilonewtons());
    let text = serde_json::to_string(&anchor).unwrap();
    assert_eq!(serde_json::from_str::<Anchor>(&text).unwrap(), anchor);
    let loss = lose_leg(&anchor, "a", 1.0.kilograms()).unwrap();
    let text = serde_json::to_string(&loss).unwrap();
    assert_eq!(serde_json::from_str::<LegLoss>(&text).unwrap(), loss);
}
