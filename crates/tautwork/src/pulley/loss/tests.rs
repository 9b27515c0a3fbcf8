use proptest::prelude::*;

use super::super::*;
use crate::quantity::*;

fn eta(friction: Friction, wrap_deg: f64) -> f64 {
    sheave_loss(friction, wrap_deg.degrees()).unwrap().efficiency.si()
}

/// Beer & Johnston, *Statics*, Sample Problem 8.6 (from memory): a pulley of 4 in on a shaft of 2 in, μ = 0.20,
/// 500 lb: 611 lb start to raise it straight down, 409 lb hold it, 577 lb start to raise it level. The book
/// rounds an angle to 4.1° for the last; unrounded it is 576.3 lb.
#[test]
fn pulley_on_a_shaft() {
    let shaft = Friction::Bearing { mu: 0.2.ratio(), radius_ratio: 0.5.ratio() };
    assert!((500.0 / eta(shaft, 180.0) - 611.0).abs() < 0.5);
    assert!((500.0 * eta(shaft, 180.0) - 409.0).abs() < 0.5);
    assert!((500.0 / eta(shaft, 90.0) - 577.0).abs() < 1.0);
}

#[test]
fn moments_about_the_axle_balance() {
    for wrap in [1e-6_f64, 0.3, 1.0, 2.0, std::f64::consts::PI, 4.0] {
        let (mu, r) = (0.3, 0.6);
        let friction = Friction::Bearing { mu: mu.ratio(), radius_ratio: r.ratio() };
        let one = sheave_loss(friction, wrap.radians()).unwrap();
        let k = one.factor.si();
        let direct = (1.0 + k * k - 2.0 * k * wrap.cos()).max(0.0).sqrt();
        assert!((one.on_axle.si() - direct).abs() < 1e-7);
        assert!(((k - 1.0) - mu * r * one.on_axle.si()).abs() < 1e-12);
    }
}

#[test]
fn no_turn_takes_nothing_and_half_a_turn_the_figure() {
    let axle = Friction::Axle { efficiency_180: 0.7.ratio() };
    assert!((eta(axle, 0.0) - 1.0).abs() < 1e-15);
    assert!((eta(axle, 180.0) - 0.7).abs() < 1e-15);
    // The first-order rule 1 − (1 − η) sin(θ/2) takes a little less.
    let rule = 1.0 - 0.3 * 45.0_f64.to_radians().sin();
    assert!(eta(axle, 90.0) < rule && eta(axle, 90.0) > rule - 0.02);
    // One and the same wheel by its figure and by its bearing.
    let bearing = Friction::Bearing { mu: (0.3 / 1.7 / 0.4).ratio(), radius_ratio: 0.4.ratio() };
    assert!((eta(axle, 77.0) - eta(bearing, 77.0)).abs() < 1e-12);
}

#[test]
fn many_rollers_are_a_capstan() {
    let one = Friction::Rollers { efficiency_180: 0.8.ratio(), count: 1 };
    assert_eq!(eta(one, 90.0), eta(Friction::Axle { efficiency_180: 0.8.ratio() }, 90.0));
    let many = Friction::Rollers { efficiency_180: 0.8.ratio(), count: 1000 };
    // The tangent of the angle whose sine is c, by the force on an axle at a small turn.
    let c = 0.2 / 1.8_f64;
    let capstan = Friction::Capstan { mu: (c / (1.0 - c * c).sqrt()).ratio() };
    assert!((eta(many, 90.0) / eta(capstan, 90.0) - 1.0).abs() < 1e-6);
    // A groove whose walls stand 60° apart grips twice as hard as a bar.
    let groove = Friction::Groove { mu: 0.1.ratio(), angle: 60.0.degrees() };
    let bar = Friction::Capstan { mu: 0.2.ratio() };
    assert!((eta(groove, 120.0) - eta(bar, 120.0)).abs() < 1e-12);
}

#[test]
fn a_figure_of_half_a_turn_says_where_it_is_used() {
    let fixed = Friction::Fixed { efficiency: 0.8.ratio() };
    assert!(sheave_loss(fixed, 30.0.degrees()).unwrap().far_from_half_turn);
    assert!(!sheave_loss(fixed, 90.0.degrees()).unwrap().far_from_half_turn);
    for (friction, wrap_deg, says) in [
        (Friction::Axle { efficiency_180: 0.9.ratio() }, 361.0, "wrap is 6.3"),
        (Friction::Rollers { efficiency_180: 0.9.ratio(), count: 0 }, 30.0, "count is 0"),
        (Friction::Rollers { efficiency_180: 0.9.ratio(), count: 1 }, 200.0, "wrap is"),
        (Friction::Bearing { mu: 2.0.ratio(), radius_ratio: 0.5.ratio() }, 30.0, "radius_ratio is"),
        (Friction::Groove { mu: 0.2.ratio(), angle: 0.0.degrees() }, 30.0, "efficiency is 0"),
    ] {
        let error = sheave_loss(friction, wrap_deg.degrees()).unwrap_err().to_string();
        assert!(error.starts_with(says), "{error}");
    }
}

proptest! {
    #[test]
    fn more_turn_takes_more(e in 0.01..1.0_f64, a in 0.0..180.0_f64, b in 0.0..180.0_f64, n in 1_u32..9) {
        let (low, high) = (a.min(b), a.max(b));
        for friction in [
            Friction::Axle { efficiency_180: e.ratio() },
            Friction::Rollers { efficiency_180: e.ratio(), count: n },
            Friction::Capstan { mu: e.ratio() },
        ] {
            prop_assert!(eta(friction, high) <= eta(friction, low) * (1.0 + 1e-12));
        }
    }

    #[test]
    fn any_number_gives_an_answer_or_an_error(a in any::<f64>(), b in any::<f64>(), wrap in any::<f64>(), n in any::<u32>()) {
        for friction in [
            Friction::Fixed { efficiency: a.ratio() },
            Friction::Axle { efficiency_180: a.ratio() },
            Friction::Bearing { mu: a.ratio(), radius_ratio: b.ratio() },
            Friction::Capstan { mu: a.ratio() },
            Friction::Groove { mu: a.ratio(), angle: b.radians() },
            Friction::Rollers { efficiency_180: a.ratio(), count: n },
        ] {
            if let Ok(one) = sheave_loss(friction, wrap.radians()) {
                prop_assert!(one.efficiency.si() > 0.0 && one.efficiency.si() <= 1.0);
                prop_assert!(one.factor.si().is_finite() && one.on_axle.si().is_finite());
            }
        }
    }
}
