use proptest::prelude::*;

use super::super::*;
use super::*;
use crate::quantity::*;

mod grabs;
mod published;
mod random;
mod reference;

fn fixed(efficiency: f64) -> Friction {
    Friction::Fixed { efficiency: efficiency.ratio() }
}

fn body(name: &str, kind: BodyKind, [x, y, z]: [f64; 3]) -> Body {
    Body {
        name: name.to_owned(),
        kind,
        position: [x.meters(), y.meters(), z.meters()],
        travel: None,
    }
}

fn sheave(on: &str, friction: Friction) -> Sheave {
    Sheave { on: on.to_owned(), friction, wrap: None, grab: None }
}

fn rope(name: &str, from: &str, over: Vec<Sheave>, to: &str) -> Rope {
    Rope { name: name.to_owned(), from: from.to_owned(), over, to: to.to_owned() }
}

/// A load on one rope over one sheave, the rope leaving the sheave at `out_deg` from straight down.
fn redirect(out_deg: f64, friction: Friction) -> System {
    let (s, c) = out_deg.to_radians().sin_cos();
    System {
        bodies: vec![
            body("anchor", BodyKind::Anchor, [0.0; 3]),
            body("load", BodyKind::Load, [0.0, 0.0, -5.0]),
            body("hand", BodyKind::Hand, [2.0 * s, 0.0, -2.0 * c]),
        ],
        ropes: vec![rope("rope", "load", vec![sheave("anchor", friction)], "hand")],
        haul: None,
    }
}

#[test]
fn ideal_advantages_are_whole_numbers() {
    use Ordinary::*;
    for (system, ideal) in [
        (Redirect, 1.0),
        (TwoToOne, 2.0),
        (ThreeToOne, 3.0),
        (FourToOne, 4.0),
        (FiveToOne, 5.0),
        (SixToOne, 6.0),
        (NineToOne, 9.0),
        (SimpleFour, 4.0),
        (SixTurned, 6.0),
        (EightToOne, 8.0),
        (ComplexThree, 3.0),
        (ComplexFive, 5.0),
    ] {
        let result = solve(&ordinary(system, fixed(1.0)), 1.0.kilonewtons()).unwrap();
        assert!((result.ideal_advantage.si() - ideal).abs() < 1e-12, "{system:?}");
        assert!((result.actual_advantage.si() - ideal).abs() < 1e-12, "{system:?}");
        assert!((result.frictionless.si() * ideal - 1000.0).abs() < 1e-9);
        assert!(result.notes.is_empty());
        assert!(result.residual < 1e-12);
    }
}

#[test]
fn holding_lies_between_running_back_and_rising() {
    // 1:1 over a half turn at 0.8, by hand: 800 N and 1250 N.
    let result = solve(&redirect(0.0, fixed(0.8)), 1000.0.newtons()).unwrap();
    assert!((result.hold.low.si() - 800.0).abs() < 1e-9);
    assert!((result.hold.high.si() - 1250.0).abs() < 1e-9);
    assert!((result.frictionless.si() - 1000.0).abs() < 1e-9);
    // The anchor carries the load and the hand: 2250 N raising, 1800 N lowering.
    assert!((result.raising.bodies[0].force[2].si() + 2250.0).abs() < 1e-9);
    assert!((result.lowering.unwrap().bodies[0].force[2].si() + 1800.0).abs() < 1e-9);
    assert!((result.efficiency.si() - 0.8).abs() < 1e-12);
}

#[test]
fn axle_friction_follows_the_wrap() {
    // A half turn loses the rated 20 %. Its friction circle is 1/9 of the radius, so at a quarter turn
    // (1 − c²) k² − 2 k + 1 − c² = 0. No turn takes nothing.
    let rest = 80.0 / 81.0_f64;
    let quarter = rest / (1.0 + (1.0 - rest * rest).sqrt());
    for (out_deg, eta) in [(0.0, 0.8), (90.0, quarter), (179.999_999, 1.0)] {
        let friction = Friction::Axle { efficiency_180: 0.8.ratio() };
        let result = solve(&redirect(out_deg, friction), 1.0.newtons()).unwrap();
        assert!((result.actual_advantage.si() - eta).abs() < 1e-8, "{out_deg}");
    }
}

#[test]
fn capstan_takes_wrap_from_geometry_or_as_given() {
    let mut system = redirect(60.0, Friction::Capstan { mu: 0.3.ratio() });
    // The parts leave 60° apart: the rope turns through 120°.
    let result = solve(&system, 1.0.newtons()).unwrap();
    let expected = (0.3 * 120.0_f64.to_radians()).exp();
    assert!((result.raising.hand.si() / expected - 1.0).abs() < 1e-12);
    // One more turn around the bar.
    system.ropes[0].over[0].wrap = Some(480.0.degrees());
    let result = solve(&system, 1.0.newtons()).unwrap();
    let expected = (0.3 * 480.0_f64.to_radians()).exp();
    assert!((result.raising.hand.si() / expected - 1.0).abs() < 1e-12);
    assert!((result.hold.low.si() * expected - 1.0).abs() < 1e-12);
}

#[test]
fn a_load_on_a_slope_travels_along_it() {
    // 30° slope, rope parallel to it, one sheave at the top: hand force is the load along the slope.
    let mut load = body("load", BodyKind::Load, [0.0; 3]);
    load.travel = Some([3.0_f64.sqrt(), 0.0, 1.0]);
    let top = [3.0_f64.sqrt() * 4.0, 0.0, 4.0];
    let system = System {
        bodies: vec![
            body("top", BodyKind::Anchor, top),
            load,
            body("hand", BodyKind::Hand, [top[0], 0.0, 0.0]),
        ],
        ropes: vec![rope("rope", "load", vec![sheave("top", fixed(1.0))], "hand")],
        haul: None,
    };
    let result = solve(&system, 500.0.newtons()).unwrap();
    assert!((result.raising.hand.si() - 500.0).abs() < 1e-9);
    assert!((result.ideal_advantage.si() - 1.0).abs() < 1e-12);
}

#[test]
fn a_sheave_that_no_rope_passes_is_named() {
    // The second sheave only leads the dead end to another anchor.
    let system = System {
        bodies: vec![
            body("anchor", BodyKind::Anchor, [0.0; 3]),
            body("side", BodyKind::Anchor, [3.0, 0.0, 0.0]),
            body("load", BodyKind::Load, [0.0, 0.0, -5.0]),
            body("hand", BodyKind::Hand, [0.0, 0.0, 1.0]),
        ],
        ropes: vec![rope(
            "rope",
            "side",
            vec![sheave("anchor", fixed(0.5)), sheave("load", fixed(0.5))],
            "hand",
        )],
        haul: None,
    };
    let result = solve(&system, 1.0.kilonewtons()).unwrap();
    let note = Note::SheaveStands { rope: "rope".to_owned(), on: "anchor".to_owned() };
    assert_eq!(result.notes, vec![note]);
    assert!((result.actual_advantage.si() - 1.5).abs() < 1e-12);
}

/// A block held by three parts from above and two from below of the same rope.
fn differential(eta: f64, hand_on_block: bool) -> System {
    let on = |name| sheave(name, fixed(eta));
    let mut over = vec![on("top"), on("block"), on("top"), on("floor"), on("block"), on("floor")];
    let (top, floor) = ([0.0; 3], [0.0, 0.0, -10.0]);
    let mut bodies =
        vec![body("top", BodyKind::Anchor, top), body("floor", BodyKind::Anchor, floor)];
    let mut ropes = Vec::new();
    if hand_on_block {
        over.push(on("top"));
        let mut block = body("block", BodyKind::Moving, [0.0, 0.0, -5.0]);
        block.travel = Some([0.0, 0.0, -1.0]);
        bodies.push(block);
        bodies.push(body("load", BodyKind::Load, [0.0, 0.0, -4.0]));
        bodies.push(body("hand", BodyKind::Hand, [0.0, 0.0, -9.0]));
        ropes.push(rope("haul", "block", over, "load"));
        ropes.push(rope("pull", "block", vec![], "hand"));
    } else {
        bodies.push(body("block", BodyKind::Load, [0.0, 0.0, -5.0]));
        bodies.push(body("hand", BodyKind::Hand, [0.0, 0.0, -9.0]));
        ropes.push(rope("haul", "block", over, "hand"));
    }
    System { bodies, ropes, haul: None }
}

#[test]
fn losses_can_hold_the_load() {
    // The block pulled down raises the load; by hand, from the block's equilibrium and seven sheaves.
    let e = 0.8_f64;
    let result = solve(&differential(e, true), 1.0.newtons()).unwrap();
    assert!((result.ideal_advantage.si() - 1.0).abs() < 1e-12);
    let expected = (1.0 + e + e.powi(2) - e.powi(4) - e.powi(5)) / e.powi(7);
    assert!((result.hold.high.si() / expected - 1.0).abs() < 1e-12);
    // The load alone cannot drag the rope back through them.
    assert_eq!(result.hold.low.si(), 0.0);
    assert_eq!(result.lowering, None);
    assert_eq!(result.notes, vec![Note::HoldsItself]);
}

#[test]
fn losses_can_lock_a_system() {
    let result = solve(&differential(0.95, false), 1.0.newtons()).unwrap();
    let k = 1.0 / 0.95_f64;
    let held = 1.0 + k + k.powi(2) - k.powi(4) - k.powi(5);
    assert!((result.hold.high.si() * held / k.powi(6) - 1.0).abs() < 1e-9);
    let locked = solve(&differential(0.85, false), 1.0.newtons()).unwrap_err();
    assert_eq!(locked, PulleyError::WouldPush { rope: "haul".to_owned() });
}

#[test]
fn systems_without_one_motion_say_why() {
    let good = ordinary(Ordinary::NineToOne, fixed(0.9));
    let load = 1.0.kilonewtons();
    let fails = |change: &dyn Fn(&mut System)| {
        let mut system = good.clone();
        change(&mut system);
        solve(&system, load).unwrap_err()
    };
    // A block with no rope, one rope too many, no rope to the load.
    let free = fails(&|s| s.bodies.push(body("spare", BodyKind::Moving, [9.0, 0.0, 0.0])));
    assert_eq!(free.to_string(), "no unique motion: nothing fixes the travel of \"spare\"");
    let locked = fails(&|s| s.ropes.push(rope("extra", "anchor", vec![], "load")));
    assert_eq!(locked, PulleyError::Locked { ropes: 3, moving: 2 });
    let unreached = fails(&|s| {
        s.ropes[0] = rope("rope 1", "anchor", vec![], "block 1");
    });
    assert_eq!(unreached, PulleyError::NoRopeToLoad { load: "load".to_owned() });
    let one_sided = fails(&|s| s.bodies[3].position[2] = 2.0.meters());
    assert_eq!(one_sided, PulleyError::OneSided { body: "block 1".to_owned() });
    // Names and kinds.
    let unknown = fails(&|s| s.ropes[0].over[0].on = "nowhere".to_owned());
    assert!(matches!(unknown, PulleyError::UnknownBody { .. }));
    let twice = fails(&|s| s.bodies[0].name = "load".to_owned());
    assert_eq!(twice, PulleyError::DuplicateName { what: "bodies", name: "load".to_owned() });
    let two_loads = fails(&|s| s.bodies[0].kind = BodyKind::Load);
    assert_eq!(two_loads, PulleyError::NotOne { kind: "load", found: 2 });
    let no_hand = fails(&|s| s.bodies[2].kind = BodyKind::Anchor);
    assert_eq!(no_hand, PulleyError::NotOne { kind: "hand", found: 0 });
    let two_hands = fails(&|s| s.ropes[0].to = "hand".to_owned());
    assert_eq!(two_hands, PulleyError::Hand);
    let touching = fails(&|s| s.bodies[1].position = s.bodies[0].position);
    assert!(matches!(touching, PulleyError::NoLength { .. }));
    let anchor_travels = fails(&|s| s.bodies[0].travel = Some([0.0, 0.0, 1.0]));
    assert!(anchor_travels.to_string().starts_with("anchor.travel is [0.0, 0.0, 1.0]; it must be"));
    let range = fails(&|s| s.ropes[1].over[0].friction = fixed(1.2));
    assert!(range.to_string().starts_with("rope 2.over[0].efficiency is 1.2"), "{range}");
    // The load pushed the other way.
    let wrong_way = fails(&|s| s.haul = Some([0.0, 0.0, -1.0]));
    assert!(matches!(wrong_way, PulleyError::LoadNotRaised { .. }), "{wrong_way}");
}

#[test]
fn a_system_survives_json() {
    let system = ordinary(Ordinary::SixToOne, Friction::Capstan { mu: 0.05.ratio() });
    let text = serde_json::to_string(&system).unwrap();
    assert_eq!(serde_json::from_str::<System>(&text).unwrap(), system);
    assert!(serde_json::from_str::<System>(&text.replace("\"over\"", "\"oven\"")).is_err());
    let result = solve(&system, 1.0.kilonewtons()).unwrap();
    let text = serde_json::to_string(&result).unwrap();
    assert_eq!(serde_json::from_str::<Solution>(&text).unwrap(), result);
}

#[test]
fn an_ordinary_system_is_called_as_it_is_written() {
    for about in ordinary_systems() {
        let written = serde_json::to_string(&about.system).unwrap();
        assert_eq!(written, format!("\"{}\"", about.system.name()));
    }
}
