//! Bad input.

use super::*;
use crate::anchor::tests::number;

fn simple() -> SelfAdjusting {
    let mut anchor = looped(&[[-0.3, 0.0, 0.0], [0.4, 0.1, 0.1]], &[0.3, 0.2], 2.2, 4e4);
    anchor.friction_at_points = Some(rub(0.1));
    anchor.friction_at_master = Some(rub(0.2));
    anchor
}

#[test]
fn each_mistake_has_its_error() {
    let with = |change: &dyn Fn(&mut SelfAdjusting)| {
        let mut anchor = simple();
        change(&mut anchor);
        adjusted_rest(&anchor).unwrap_err()
    };
    assert!(matches!(with(&|a| a.points.truncate(1)), AnchorError::TooFew { found: 1, .. }));
    let five = with(&|a| a.points = vec![a.points[0].clone(); 5]);
    assert!(matches!(five, AnchorError::TooMany { found: 5, most: 4 }));
    assert!(matches!(
        with(&|a| a.points[1].name = "p0".to_owned()),
        AnchorError::DuplicateName { .. }
    ));
    assert!(matches!(with(&|a| a.pull = newtons([0.0; 3])), AnchorError::NoPull));
    assert!(matches!(
        with(&|a| a.points[0].limiter = Some(0.9.meters())),
        AnchorError::KnotsTooLow
    ));
    for (error, name) in [
        (with(&|a| a.points[0].limiter = Some(0.0.meters())), "p0.limiter"),
        (with(&|a| a.loop_length = (-1.0).meters()), "loop_length"),
        (with(&|a| a.axial_rigidity = 0.0.newtons()), "axial_rigidity"),
        (with(&|a| a.friction_at_master = Some(rub(-0.1))), "friction_at_master.mu"),
        (
            with(&|a| {
                a.friction_at_points = Some(Friction::Fixed { efficiency: 1.5.ratio() });
            }),
            "friction_at_points.efficiency",
        ),
        (with(&|a| a.points[1].position[2] = f64::NAN.meters()), "p1.position"),
    ] {
        assert!(error.to_string().contains(name), "{error}");
    }
    let lost = adjusted_loss(&simple(), "p9", 5.0.kilograms()).unwrap_err();
    assert!(lost.to_string().contains("p9"), "{lost}");
    assert!(adjusted_loss(&simple(), "p0", 0.0.kilograms()).is_err());
    let cone =
        AdjustingCone { anchor: simple(), half_angle: 10.0.degrees(), rings: 40, around: 40 };
    assert!(matches!(adjusted_cone(&cone), Err(AnchorError::Invalid(_))));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]
    #[test]
    fn numbers_in_give_numbers_out(
        v in prop::collection::vec(number(), 4),
        which in 0..7_usize,
    ) {
        let mut anchor = simple();
        match which {
            0 => anchor.loop_length = v[0].meters(),
            1 => anchor.axial_rigidity = v[0].newtons(),
            2 => anchor.pull = newtons([v[0], v[1], v[2]]),
            3 => anchor.points[0].position = point([v[0], v[1], v[2]]),
            4 => anchor.points[1].limiter = Some(v[0].meters()),
            5 => anchor.friction_at_master = Some(rub(v[0])),
            _ => anchor.strength = Some(v[0].newtons()),
        }
        if let Ok(rest) = adjusted_rest(&anchor) {
            prop_assert!(rest.residual <= 1e-6);
            let shares: f64 = rest.points.iter().map(|p| p.share.si()).sum();
            prop_assert!((shares - 1.0).abs() < 1e-5, "{}", shares);
            for p in &rest.points {
                prop_assert!(p.share_low.si() <= p.share.si() && p.share.si() <= p.share_high.si());
                prop_assert!(p.greatest_force.si().is_finite() && p.length.si().is_finite());
            }
        }
        if let Ok(loss) = adjusted_loss(&anchor, "p0", v[3].kilograms()) {
            let drop = loss.without_knots.drop.unwrap();
            prop_assert!(drop.peak_tension.si().is_finite() && drop.extension.si().is_finite());
        }
        let cone = AdjustingCone { anchor, half_angle: v[3].degrees(), rings: 1, around: 3 };
        if let Ok(map) = adjusted_cone(&cone) {
            prop_assert!(map.greatest_tension_n.iter().all(|t| t.is_finite()));
        }
    }
}
