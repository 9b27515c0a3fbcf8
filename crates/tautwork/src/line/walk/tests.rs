use proptest::prelude::*;

use crate::line::*;
use crate::material::Stretch;
use crate::quantity::*;

fn line_with(halves: &[(f64, f64, f64)], far_m: [f64; 3], weight_n: f64) -> Walk {
    let piece = |&(rest_m, mass, ea_n): &(f64, f64, f64)| {
        let stretch = Stretch::axial_rigidity(ea_n.newtons()).unwrap();
        ChainPiece::new(rest_m.meters(), (mass * GRAVITY).newtons_per_meter(), stretch)
    };
    Walk {
        near: [0.0.meters(); 3],
        far: far_m.map(Words::meters),
        pieces: halves.iter().map(piece).collect(),
        loads: vec![],
        weight: weight_n.newtons(),
    }
}

/// The demo's main webbing with a person of 82 kg.
fn demo() -> Walk {
    line_with(&[(127.74, 0.068, 2.5e5)], [130.0, 0.0, -3.0], 82.0 * GRAVITY)
}

fn fraction(f: f64) -> WalkPlace {
    WalkPlace::Fraction(f.ratio())
}

#[test]
fn a_person_on_the_line_is_a_tied_load() {
    let walk = demo();
    for f in [0.05, 0.3, 0.5, 0.97] {
        let found = stand(&walk, fraction(f)).unwrap();
        assert_eq!(found.len(), 1);
        let state = &found[0];
        assert!((state.position[0].si() - 130.0 * f).abs() < 1e-6);
        let load = ChainLoad {
            at: state.at,
            force: [0.0.newtons(), 0.0.newtons(), (-82.0 * GRAVITY).newtons()],
        };
        let chain = solve_chain(&Chain {
            near: walk.near,
            far: walk.far,
            pieces: walk.pieces.clone(),
            loads: vec![load],
            samples: 2,
        })
        .unwrap();
        assert!((chain.tension_near - state.tension_near).abs().si() < 1e-6);
        assert!((chain.loads[0].below_chord - state.below_chord).abs().si() < 1e-9);
        // H is the same on both sides; the vertical parts lift the weight.
        let across = |t: Force, a: Angle| t.si() * a.si().cos();
        let up = |t: Force, a: Angle| t.si() * a.si().sin();
        let (before, after) = (state.tension_before, state.tension_after);
        let h = across(before, state.rise_before) - across(after, state.rise_after);
        assert!(h.abs() < 1e-6, "{h}");
        let lift = up(before, state.rise_before) + up(after, state.rise_after);
        assert!((lift - 82.0 * GRAVITY).abs() < 1e-6);
        assert_eq!(state.hold.si(), 0.0);
    }
}

/// Near an anchor the line is steep on its side: what one has to stand up against. The deepest place and
/// the largest tension are in the middle of a level line.
#[test]
fn an_envelope_is_deepest_in_the_middle() {
    let level = line_with(&[(99.0, 0.07, 2.5e5)], [100.0, 0.0, 0.0], 800.0);
    let all = walk_envelope(&level, WalkMode::Stands, 99).unwrap();
    assert_eq!(all.x_m.len(), 99);
    assert!(all.x_m.is_sorted());
    let most = |v: &[f64]| (0..v.len()).max_by(|a, b| v[*a].total_cmp(&v[*b])).unwrap();
    assert_eq!(most(&all.below_chord_m), 49);
    assert!((all.x_m[49] - 50.0).abs() < 1e-9);
    assert!(all.tension_near_n[49] > all.tension_near_n[5]);
    assert!(all.rise_before_rad[1] > 1.5 * all.rise_before_rad[49]);
    for i in 0..99 {
        assert!((all.below_chord_m[i] - all.below_chord_m[98 - i]).abs() < 1e-8);
        assert!((all.tension_near_n[i] - all.tension_far_n[98 - i]).abs() < 1e-5);
        assert_eq!(all.hold_n[i], 0.0);
    }
}

/// A pulley without friction turns the line by equal tensions; it is pushed up the slope of its path:
/// the work of the force that holds it is what its energy changes (with the line's own energy, by
/// differences of the path of least energy).
#[test]
fn a_pulley_has_equal_tensions_and_is_pushed_uphill() {
    let walk = demo();
    let held = roll(&walk, fraction(0.3), 0.0.ratio()).unwrap();
    assert!((held.least.hold - held.most.hold).abs().si() < 1e-6);
    let state = &held.least;
    assert!((state.tension_before - state.tension_after).abs().si() < 1e-5);
    assert!((state.position[0].si() - 39.0).abs() < 1e-6);
    // Left of the low point it must be held back from rolling on: towards the near anchor.
    assert!(state.hold.si() < 0.0, "{state:?}");
    let beyond = roll(&walk, fraction(0.7), 0.0.ratio()).unwrap();
    assert!(beyond.least.hold.si() > 0.0);
}

#[test]
fn friction_makes_a_range_and_much_friction_stands() {
    let walk = demo();
    let range = |mu: f64| {
        let r = roll(&walk, fraction(0.45), mu.ratio()).unwrap();
        (r.least.hold.si(), r.most.hold.si())
    };
    let (free, none) = range(0.0);
    assert!((free - none).abs() < 1e-6);
    let (least, most) = range(0.1);
    assert!(least < free && free < most);
    let wide = range(0.3);
    assert!(wide.0 < least && wide.1 > most);
    // Where nothing needs to hold it, feet stand.
    assert!(wide.0 < 0.0 && wide.1 > 0.0);
    for state in [roll(&walk, fraction(0.45), 0.1.ratio()).unwrap()] {
        for (spot, sign) in [(&state.least, -1.0), (&state.most, 1.0)] {
            let turn = spot.rise_before.si() + spot.rise_after.si();
            let ratio = (spot.tension_before.si() / spot.tension_after.si()).ln();
            assert!((ratio - sign * 0.1 * turn).abs() < 1e-7, "{ratio} {turn}");
        }
    }
}

#[test]
fn a_pulley_rests_low_and_friction_spreads_where() {
    let walk = demo();
    let rests = roll_rests(&walk, 0.0.ratio()).unwrap();
    assert_eq!(rests.len(), 1);
    // The far anchor is lower: so is the place of rest.
    let x = rests[0].from.position[0].si();
    assert!(rests[0].stable && x > 65.0 && x < 110.0, "{x}");
    let spread = &roll_rests(&walk, 0.05.ratio()).unwrap()[0];
    assert!(spread.from.position[0].si() < x && spread.to.position[0].si() > x);
    let ratio = |s: &WalkState| (s.tension_before.si() / s.tension_after.si()).ln();
    let turn = |s: &WalkState| 0.05 * (s.rise_before.si() + s.rise_after.si());
    assert!((ratio(&spread.from) - turn(&spread.from)).abs() < 1e-6);
    assert!((ratio(&spread.to) + turn(&spread.to)).abs() < 1e-6);
    // On a steep tight line a pulley runs all but down to the anchor.
    let steep = line_with(&[(97.0, 0.07, 2.5e5)], [70.0, 0.0, -70.0], 500.0);
    for rest in roll_rests(&steep, 0.0.ratio()).unwrap() {
        assert!(rest.from.position[0].si() > 0.95 * 70.0, "{rest:?}");
    }
}

/// A slack line with two loads: where the walker stands beside another person.
#[test]
fn other_loads_stay_where_they_are_tied() {
    let mut two = demo();
    two.loads.push(ChainLoad {
        at: 60.0.meters(),
        force: [0.0.newtons(), 0.0.newtons(), (-700.0).newtons()],
    });
    let alone = stand(&demo(), fraction(0.5)).unwrap();
    let both = stand(&two, fraction(0.5)).unwrap();
    assert!(both[0].below_chord > alone[0].below_chord);
    assert!(both[0].tension_near > alone[0].tension_near);
}

proptest! {
    #[test]
    fn any_walk_gives_an_answer_or_an_error(
        rest in prop_oneof![20.0..80.0_f64, Just(0.0), Just(f64::NAN), Just(1e300), Just(1e-300)],
        mass in prop_oneof![Just(0.0), 0.01..0.2_f64, Just(-1.0), Just(f64::NAN)],
        weight in prop_oneof![1.0..2e3_f64, Just(0.0), Just(f64::INFINITY), Just(1e300)],
        f in prop_oneof![-0.5..1.5_f64, Just(f64::NAN), Just(1e-12)],
        mu in prop_oneof![0.0..0.4_f64, Just(-1.0), Just(f64::NAN), Just(1e300)],
        far in prop_oneof![Just([50.0, 0.0, 4.0]), Just([0.0, 0.0, 9.0]), Just([f64::NAN, 0.0, 0.0])],
    ) {
        let walk = line_with(&[(rest, mass, 1e5)], far, weight);
        let finite = |s: &WalkState| {
            [s.tension_near.si(), s.tension_far.si(), s.below_chord.si(), s.hold.si()]
                .iter()
                .all(|x| x.is_finite())
        };
        if let Ok(found) = stand(&walk, fraction(f)) {
            prop_assert!(!found.is_empty() && found.iter().all(finite));
        }
        if let Ok(found) = roll(&walk, fraction(f), mu.ratio()) {
            prop_assert!(finite(&found.least) && finite(&found.most));
        }
        let _ = roll_rests(&walk, mu.ratio());
        let _ = walk_envelope(&walk, WalkMode::Stands, 5);
    }
}
