//! Forces of frames by hand and by statics.

use super::*;

/// Statics, derived: tripod with feet at 1.2 m radius, head at 2.4 m, 2 kN: each leg carries
/// 2 / 3 · √(1.2² + 2.4²) / 2.4 = 0.7454 kN and spreads 0.3333 kN.
#[test]
fn tripod() {
    let feet = [0.0_f64, 120.0, 240.0].map(|deg| {
        let (s, c) = deg.to_radians().sin_cos();
        [1.2 * c, 1.2 * s, 0.0]
    });
    let forces = frame_forces(&frame([0.0, 0.0, 2.4], &feet, &[], [0.0, 0.0, -2000.0])).unwrap();
    for leg in &forces.legs {
        assert!((leg.force.si() - 745.356).abs() < 1e-3);
        let [x, y, z] = leg.on_ground.map(Quantity::si);
        assert!((x.hypot(y) - 333.333).abs() < 1e-3);
        assert!((z + 2000.0 / 3.0).abs() < 1e-9);
        assert!((leg.friction_needed.unwrap().si() - 0.5).abs() < 1e-9);
    }
    assert!(forces.notes.is_empty());
}

/// Statics, derived: a bipod leans 15° forward with legs splayed 20° each side of its middle line, a
/// guy runs back 45° down, 5 kN hangs from the head. In the plane of symmetry
/// N (cos 15° − sin 15°) = 5 kN and G cos 45° = N sin 15°.
#[test]
fn leaning_bipod_with_a_back_guy() {
    let (s15, c15) = 15.0_f64.to_radians().sin_cos();
    let splay = 20.0_f64.to_radians().tan();
    let legs = [[-s15, splay, -c15], [-s15, -splay, -c15]];
    let forces =
        frame_forces(&frame([0.0; 3], &legs, &[[-1.0, 0.0, -1.0]], [0.0, 0.0, -5000.0])).unwrap();
    assert!((forces.guys[0].force.si() - 2588.19).abs() < 0.01);
    for leg in &forces.legs {
        assert!((leg.force.si() - 3762.44).abs() < 0.01);
    }
    let resultant = 2.0 * forces.legs[0].force.si() * 20.0_f64.to_radians().cos();
    assert!((resultant - 7071.07).abs() < 0.01);
    // The guy lifts its anchor: no friction figure there.
    assert!(forces.guys[0].on_ground[2].si() > 0.0 && forces.guys[0].friction_needed.is_none());
}

/// Beer & Johnston, *Statics*, Sample Problem 2.7 (from memory): a tower guy that runs 40, 80 and 30 m carries
/// 2500 N and pulls its anchor bolt with −1060, 2120 and 795 N.
#[test]
fn a_guyed_mast() {
    let load = [-1060.0, 2120.0, -400.0];
    let found =
        frame_forces(&frame([0.0, 0.0, 30.0], &[[0.0; 3]], &[[40.0, -80.0, 0.0]], load)).unwrap();
    assert!((found.guys[0].force.si() - 2500.0).abs() < 0.5);
    let bolt = si(found.guys[0].on_ground);
    assert!((bolt - Vector3::new(-1060.0, 2120.0, 795.0)).amax() < 0.5);
    // The mast takes the guy's part and the load's part down.
    assert!((found.legs[0].force.si() - 1195.0).abs() < 0.5);
}

#[test]
fn a_pulley_at_the_head_pulls_with_both_rope_parts() {
    let mut f =
        frame([0.0, 0.0, 3.0], &[[0.0, 1.0, 0.0], [0.0, -1.0, 0.0]], &[[-3.0, 0.0, 0.0]], [0.0; 3]);
    f.ropes = vec![
        rope("load side", [4.0, 0.0, 0.0], 1000.0),
        rope("haul side", [-4.0, 0.0, 0.0], 1000.0),
    ];
    let forces = frame_forces(&f).unwrap();
    // 3-4-5: the level parts cancel, 600 N each stay; the guy is idle but keeps the head up.
    let [x, y, z] = forces.load.map(Quantity::si);
    assert!(x.abs() < 1e-9 && y.abs() < 1e-9 && (z + 1200.0).abs() < 1e-9);
    assert!(forces.guys[0].idle);
    assert_eq!(forces.notes, vec![FrameNote::Balanced]);
    assert!((forces.legs[0].force.si() - 600.0 * 10.0_f64.sqrt() / 3.0).abs() < 1e-9);
}

#[test]
fn the_slack_guy_of_two_idles_and_mirrors() {
    let legs = [[0.0, 1.0, 0.0], [0.0, -1.0, 0.0]];
    let guys = [[-3.0, 1.0, 0.0], [-3.0, -1.0, 0.0], [3.0, 0.0, 0.0]];
    let forces = frame_forces(&frame([0.0, 0.0, 3.0], &legs, &guys, [500.0, 0.0, -800.0])).unwrap();
    assert!((forces.guys[0].force.si() / forces.guys[1].force.si() - 1.0).abs() < 1e-9);
    assert!(forces.guys[2].idle && forces.guys[2].force.si() == 0.0);
    assert!((forces.legs[0].force.si() / forces.legs[1].force.si() - 1.0).abs() < 1e-9);
    // Level balance: two guys with 3/√19 of their tension along x.
    let guy = 500.0 / (2.0 * 3.0 / 19.0_f64.sqrt());
    assert!((forces.guys[0].force.si() / guy - 1.0).abs() < 1e-9);
}

#[test]
fn frames_that_cannot_stand_say_so() {
    let legs = [[0.0, 1.0, 0.0], [0.0, -1.0, 0.0]];
    let stands =
        |guys: &[[f64; 3]], force| frame_forces(&frame([0.0, 0.0, 3.0], &legs, guys, force));
    // Pulled forward with no guy behind; lifted off its legs; pushed over the legs' foot line.
    assert_eq!(stands(&[], [100.0, 0.0, -500.0]), Err(AnchorError::CannotStand));
    assert_eq!(stands(&[[3.0, 0.0, 0.0]], [100.0, 0.0, -500.0]), Err(AnchorError::CannotStand));
    assert_eq!(stands(&[[-3.0, 0.0, 0.0]], [0.0, 0.0, 500.0]), Err(AnchorError::CannotStand));
    assert!(stands(&[[-3.0, 0.0, 0.0]], [100.0, 0.0, -500.0]).is_ok());
    assert_eq!(stands(&[[-3.0, 0.0, 0.0]], [0.0; 3]), Err(AnchorError::NoPull));
    let at_head = stands(&[[0.0, 0.0, 3.0]], [0.0, 0.0, -1.0]);
    assert_eq!(at_head, Err(AnchorError::NoLength { member: "guy 0".to_owned() }));
    let many: Vec<_> = (1..64).map(|i| [-f64::from(i), 0.0, 0.0]).collect();
    assert_eq!(stands(&many, [1.0, 0.0, -1.0]), Err(AnchorError::TooMany { found: 65, most: 64 }));
    let no_legs = frame_forces(&frame([0.0; 3], &[], &[[0.0, 0.0, 1.0]], [0.0, 0.0, -1.0]));
    assert!(matches!(no_legs, Err(AnchorError::TooFew { .. })));
}

#[test]
fn a_frame_survives_json() {
    let f = frame([0.0, 0.0, 3.0], &[[0.0, 1.0, 0.0]], &[[-3.0, 0.0, 0.0]], [0.0, 0.0, -1.0]);
    let text = serde_json::to_string(&f).unwrap();
    assert_eq!(serde_json::from_str::<Frame>(&text).unwrap(), f);
}

proptest! {
    #[test]
    fn members_balance_the_load_with_the_right_signs(
        splay in 0.3..1.5_f64,
        guys in prop::collection::vec([-4.0..4.0_f64, -4.0..4.0_f64], 1..6),
        force in [-1000.0..1000.0_f64, -1000.0..1000.0_f64, -3000.0..-100.0_f64],
    ) {
        let head = [0.0, 0.0, 3.0];
        let guys: Vec<_> = guys.into_iter().map(|[x, y]| [x, y, 0.0]).collect();
        let f = frame(head, &[[0.0, splay, 0.0], [0.0, -splay, 0.0]], &guys, force);
        if let Ok(r) = frame_forces(&f) {
            // What the ground takes is the load.
            for (axis, load) in force.into_iter().enumerate() {
                let ground: f64 =
                    r.legs.iter().chain(&r.guys).map(|m| m.on_ground[axis].si()).sum();
                let largest = r.legs.iter().fold(1.0_f64, |m, l| m.max(l.force.si()));
                prop_assert!((ground - load).abs() < 1e-8 * largest, "{ground} {load}");
            }
            prop_assert!(r.legs.iter().chain(&r.guys).all(|m| m.force.si() >= 0.0));
            // Idle guys would have to push: the head has moved towards their anchors.
            let u = r.displacement.map(Quantity::si);
            for (guy, foot) in r.guys.iter().zip(&guys).filter(|(g, _)| g.idle) {
                let closer: f64 = (0..3).map(|i| u[i] * (foot[i] - head[i])).sum();
                prop_assert!(closer >= -1e-6, "{}", guy.name);
            }
        }
    }

    #[test]
    fn any_frame_gives_an_answer_or_an_error(
        x in any::<f64>(), z in any::<f64>(), ea in any::<f64>(), pull in any::<f64>(),
    ) {
        let mut f = frame([0.0, 0.0, 3.0], &[[0.0, 1.0, 0.0], [0.0, -1.0, z]], &[[x, 0.0, 0.0]], [1.0, 0.0, -9.0]);
        f.guys[0].axial_rigidity = ea.newtons();
        f.force[0] = pull.newtons();
        if let Ok(r) = frame_forces(&f) {
            prop_assert!(r.legs.iter().chain(&r.guys).all(|m| m.force.si().is_finite()));
        }
    }
}
