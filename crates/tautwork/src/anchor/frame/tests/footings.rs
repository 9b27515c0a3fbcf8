//! Feet on the ground, and hobbles.

use super::*;

fn tripod() -> Frame {
    frame([0.0, 0.0, 2.4], &tripod_feet(1.2), &[], [0.0, 0.0, -2000.0])
}

fn hobbled(mut f: Frame, round: &[&str], friction: Option<f64>) -> HobbleForces {
    let round = round.iter().map(|&name| name.to_owned()).collect();
    f.hobble = Some(Hobble { round, friction: friction.map(Words::ratio) });
    frame_forces(&f).unwrap().hobble.unwrap()
}

const LOOP: [&str; 4] = ["leg 0", "leg 1", "leg 2", "leg 0"];

/// Statics: a loop pulls each foot of a tripod in with √3 of its tension, and each foot spreads with a third
/// of 1 kN (the tripod of 2 kN in `forces`).
#[test]
fn a_loop_round_a_tripod_takes_its_spread() {
    let found = hobbled(tripod(), &LOOP, Some(0.2));
    assert!((found.friction_without.si() - 0.5).abs() < 1e-12);
    assert!(found.friction_least.si() < 1e-12);
    let spread = 1000.0 / 3.0;
    assert!(near(found.tension.si(), spread / 3.0_f64.sqrt(), 1e-9));
    // Friction takes 0.2 of 2000 / 3 N either way.
    let holding = found.holding.unwrap();
    let held = 0.2 * 2000.0 / 3.0;
    assert!(near(holding.low.si(), (spread - held) / 3.0_f64.sqrt(), 1e-12));
    assert!(near(holding.high.unwrap().si(), (spread + held) / 3.0_f64.sqrt(), 1e-12));
    // With enough friction none is needed.
    assert!(hobbled(tripod(), &LOOP, Some(0.5001)).holding.unwrap().low.si() == 0.0);
}

/// Statics: a bipod under a load in its plane needs as much friction as its legs are steep; a rope from foot
/// to foot takes all of it.
#[test]
fn a_rope_between_two_feet() {
    let feet = [[0.0, 1.0, 0.0], [0.0, -1.0, 0.0]];
    let f = frame([0.0, 0.0, 2.0], &feet, &[[-3.0, 0.0, 0.0]], [0.0, 0.0, -2000.0]);
    let found = hobbled(f, &["leg 0", "leg 1"], None);
    assert!(near(found.friction_without.si(), 0.5, 1e-12) && near(found.tension.si(), 500.0, 1e-9));
    assert!(found.friction_least.si() < 1e-12 && found.holding.is_none());
}

/// A leaning bipod pushes its feet back too, which a rope between them does not take.
#[test]
fn a_hobble_leaves_the_push_across_it() {
    let feet = [[-1.0, 1.0, 0.0], [-1.0, -1.0, 0.0]];
    let f = frame([0.0, 0.0, 4.0], &feet, &[[-4.0, 0.0, 0.0]], [0.0, 0.0, -2000.0]);
    let found = hobbled(f, &["leg 0", "leg 1"], None);
    assert!(near(found.friction_without.si(), 2.0_f64.sqrt() / 4.0, 1e-12));
    assert!(near(found.friction_least.si(), 0.25, 1e-9));
    let f = frame([0.0, 0.0, 4.0], &feet, &[[-4.0, 0.0, 0.0]], [0.0, 0.0, -2000.0]);
    assert!(hobbled(f, &["leg 0", "leg 1"], Some(0.2)).holding.is_none());
}

/// Friction needed is the angle of the leg to the ground's normal, so ground square to the leg needs none.
#[test]
fn ground_square_to_the_leg_needs_no_friction() {
    let mut f = tripod();
    for leg in &mut f.legs {
        let foot = si(leg.foot);
        let up = Vector3::new(0.0, 0.0, 2.4) - foot;
        leg.ground_normal = Some((up * 7.0).into());
    }
    let found = frame_forces(&f).unwrap();
    for leg in &found.legs {
        assert!(leg.friction_needed.unwrap().si() < 1e-15 && leg.thrust.unwrap().si() < 1e-12);
    }
    // Ground that falls away from the foot: nothing to press on.
    f.legs[0].ground_normal = Some([0.0, 0.0, -1.0]);
    assert!(frame_forces(&f).unwrap().legs[0].friction_needed.is_none());
    for bad in [[0.0; 3], [f64::NAN, 0.0, 1.0], [f64::INFINITY, 0.0, 1.0]] {
        f.legs[0].ground_normal = Some(bad);
        assert!(matches!(frame_forces(&f), Err(AnchorError::Invalid(_))), "{bad:?}");
    }
}

/// Moments about a foot: a heavy boom of length 5 m at 3-4-5, held level at its head by a guy, carries half
/// of its weight at the head; its foot takes the whole.
#[test]
fn the_weight_of_a_boom_is_half_at_its_head() {
    let mut f = frame([3.0, 0.0, 4.0], &[[0.0; 3]], &[[-6.0, 0.0, 4.0]], [0.0; 3]);
    f.legs[0].mass = Some(40.0.kilograms());
    let found = frame_forces(&f).unwrap();
    // Moment about the foot: G · 4 m = 40 · 9.81 N · 1.5 m.
    assert!(near(found.guys[0].force.si(), 40.0 * 9.81 * 1.5 / 4.0, 1e-12));
    let foot = si(found.legs[0].on_ground);
    assert!(near(-foot.z, 40.0 * 9.81, 1e-12));
    assert!(near(-foot.x, found.guys[0].force.si(), 1e-12));
    // Beam on a slope: friction of the foot by the whole thrust over the whole weight.
    let friction = found.legs[0].friction_needed.unwrap().si();
    assert!(near(friction, 1.5 / 4.0, 1e-12));
}

#[test]
fn hobbles_that_cannot_be_tied_say_so() {
    let mut f = tripod();
    let mut with = |round: &[&str]| {
        let round = round.iter().map(|&name| name.to_owned()).collect();
        f.hobble = Some(Hobble { round, friction: None });
        frame_forces(&f).unwrap_err()
    };
    assert!(matches!(with(&["leg 0"]), AnchorError::TooFew { .. }));
    assert!(matches!(with(&["leg 0", "leg 9"]), AnchorError::UnknownLeg { .. }));
    assert!(matches!(with(&["leg 0", "leg 0"]), AnchorError::FeetTogether { .. }));
}

proptest! {
    /// A hobble never makes it worse, and at its best tension each foot needs at most what it says.
    #[test]
    fn the_best_tension_holds_with_the_least_friction(
        mut f in some_frame(), extra in 0.001..0.5_f64,
    ) {
        prop_assume!(f.legs.len() > 1);
        let mut round: Vec<_> = f.legs.iter().map(|l| l.name.clone()).collect();
        round.push(round[0].clone());
        f.hobble = Some(Hobble { round, friction: None });
        let Ok(found) = frame_forces(&f) else { return Ok(()) };
        let Some(hobble) = found.hobble else { return Ok(()) };
        prop_assert!(hobble.friction_least <= hobble.friction_without);
        let most = found.legs.iter().filter_map(|l| l.friction_needed).map(Quantity::si);
        prop_assert!(near(most.fold(0.0, f64::max), hobble.friction_without.si(), 1e-12));
        let least = hobble.friction_least.si();
        let mut holds = |friction: f64| {
            if let Some(h) = &mut f.hobble {
                h.friction = Some(friction.ratio());
            }
            frame_forces(&f).unwrap().hobble.unwrap().holding
        };
        let more = holds(least * (1.0 + extra) + 1e-9).unwrap();
        prop_assert!(more.low <= hobble.tension * 1.000_001 + 1e-6.newtons());
        prop_assert!(more.high.is_none_or(|h| h >= hobble.tension * 0.999_999));
        prop_assert!(holds(least * (1.0 - extra) - 1e-9).is_none_or(|_| least < 1e-6));
    }
}
