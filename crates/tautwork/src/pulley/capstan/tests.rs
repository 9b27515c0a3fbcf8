use proptest::prelude::*;

use super::super::*;
use crate::quantity::*;

fn at(x: f64, y: f64, z: f64) -> [Length; 3] {
    [x.meters(), y.meters(), z.meters()]
}

fn edge(name: &str, place: [Length; 3], mu: f64, turns: u32) -> RopeEdge {
    RopeEdge {
        name: name.to_owned(),
        at: place,
        friction: Friction::Capstan { mu: mu.ratio() },
        turns,
    }
}

fn rope(edges: Vec<RopeEdge>, to: [Length; 3]) -> RopeOverEdges {
    RopeOverEdges { load: 1000.0.newtons(), from: at(0.0, 0.0, -10.0), edges, to }
}

/// Meriam & Kraige, *Statics*, Sample Problem 6/9 (from memory): 100 kg over a fixed drum, μ = 0.30; straight out
/// from 612 N to 1572 N; with 500 N the rope must leave 38.7° below level.
#[test]
fn load_over_a_drum() {
    let drum = |to| RopeOverEdges {
        load: 981.0.newtons(),
        ..rope(vec![edge("drum", at(0.0, 0.0, 0.0), 0.3, 0)], to)
    };
    let level = over_edges(&drum(at(3.0, 0.0, 0.0))).unwrap();
    assert!(
        (level.hold.low.si() - 612.0).abs() < 0.5 && (level.hold.high.si() - 1572.0).abs() < 0.5
    );
    let (s, c) = 38.7_f64.to_radians().sin_cos();
    let steep = over_edges(&drum(at(c, 0.0, -s))).unwrap();
    assert!((steep.hold.low.si() - 500.0).abs() < 0.5);
}

#[test]
fn only_the_whole_angle_counts_and_not_how_many_edges_make_it() {
    // One quarter turn, and two edges of 45°; and out of the plane.
    let one = over_edges(&rope(vec![edge("a", at(0.0, 0.0, 0.0), 0.25, 0)], at(9.0, 0.0, 0.0)));
    let two = over_edges(&rope(
        vec![edge("a", at(0.0, 0.0, 0.0), 0.25, 0), edge("b", at(1.0, 0.0, 1.0), 0.25, 0)],
        at(9.0, 0.0, 1.0),
    ));
    let (one, two) = (one.unwrap(), two.unwrap());
    assert!((one.hold.high.si() / two.hold.high.si() - 1.0).abs() < 1e-12);
    let space = over_edges(&rope(
        vec![edge("a", at(0.0, 0.0, 0.0), 0.25, 0), edge("b", at(3.0, 0.0, 0.0), 0.25, 0)],
        at(3.0, 4.0, 0.0),
    ));
    assert!((space.unwrap().total_wrap.in_degrees() - 180.0).abs() < 1e-9);
}

#[test]
fn forces_on_an_edge_and_heat_by_hand() {
    let answer = over_edges(&rope(vec![edge("lip", at(0.0, 0.0, 0.0), 0.2, 0)], at(5.0, 0.0, 0.0)));
    let lip = &answer.unwrap().edges[0];
    // A right angle: load down, hand level.
    let hand = 1000.0 * (0.1 * std::f64::consts::PI).exp();
    assert!((lip.raising_xyz[0].si() - hand).abs() < 1e-9);
    assert!((lip.raising_xyz[2].si() + 1000.0).abs() < 1e-9);
    assert!((lip.raising.si() - hand.hypot(1000.0)).abs() < 1e-9);
    assert!((lip.heat_raising_j_per_m - (hand - 1000.0)).abs() < 1e-9);
    assert!((lip.heat_lowering_j_per_m - (1000.0 - 1e6 / hand)).abs() < 1e-9);
}

#[test]
fn turns_on_a_post_add_up() {
    // Two turns and a quarter at 0.25.
    let post = over_edges(&rope(vec![edge("post", at(0.0, 0.0, 0.0), 0.25, 2)], at(5.0, 0.0, 0.0)));
    let expected = (0.25 * 2.25 * std::f64::consts::TAU).exp();
    assert!((post.unwrap().hold.high.si() / 1000.0 / expected - 1.0).abs() < 1e-12);
    // In a groove of 40° the rope grips as on a bar of 0.25 / sin 20°.
    let mut groove = edge("post", at(0.0, 0.0, 0.0), 0.25, 1);
    groove.friction = Friction::Groove { mu: 0.25.ratio(), angle: 40.0.degrees() };
    let groove = over_edges(&rope(vec![groove], at(5.0, 0.0, 0.0))).unwrap();
    let bar = edge("post", at(0.0, 0.0, 0.0), 0.25 / 20.0_f64.to_radians().sin(), 1);
    let bar = over_edges(&rope(vec![bar], at(5.0, 0.0, 0.0))).unwrap();
    assert!((groove.ratio.si() / bar.ratio.si() - 1.0).abs() < 1e-12);
}

#[test]
fn mistakes_are_named() {
    let twice = rope(
        vec![edge("a", at(0.0, 0.0, 0.0), 0.2, 0), edge("a", at(1.0, 0.0, 0.0), 0.2, 0)],
        at(5.0, 0.0, 0.0),
    );
    assert!(matches!(over_edges(&twice), Err(PulleyError::DuplicateName { .. })));
    let none = rope(vec![], at(5.0, 0.0, 0.0));
    assert!(over_edges(&none).unwrap_err().to_string().starts_with("edges is 0"));
    let far = rope(vec![edge("a", at(0.0, 0.0, 0.0), 0.5, 1001)], at(5.0, 0.0, 0.0));
    assert!(over_edges(&far).is_err());
}

proptest! {
    #[test]
    fn heat_is_the_power_that_is_missing(
        x in 1.0..9.0_f64, y in -5.0..5.0_f64, z in -5.0..5.0_f64, mu in 0.0..0.6_f64, turns in 0_u32..3,
    ) {
        let edges = vec![edge("a", at(0.0, 0.0, 0.0), mu, turns), edge("b", at(x, y, z), 0.2, 0)];
        let answer = over_edges(&rope(edges, at(12.0, 1.0, 2.0))).unwrap();
        let up: f64 = answer.edges.iter().map(|e| e.heat_raising_j_per_m).sum();
        let down: f64 = answer.edges.iter().map(|e| e.heat_lowering_j_per_m).sum();
        let (low, high) = (answer.hold.low.si(), answer.hold.high.si());
        prop_assert!((high - 1000.0 - up).abs() < 1e-9 * high);
        prop_assert!((1000.0 - low - down).abs() < 1e-9 * 1000.0);
        prop_assert!((high * low / 1e6 - 1.0).abs() < 1e-9);
    }

    #[test]
    fn any_number_gives_an_answer_or_an_error(
        x in any::<f64>(), z in any::<f64>(), mu in any::<f64>(), load in any::<f64>(), turns in any::<u32>(),
    ) {
        let mut one = rope(vec![edge("a", at(0.0, 0.0, z), mu, turns)], at(x, 0.0, 1.0));
        one.load = load.newtons();
        if let Ok(answer) = over_edges(&one) {
            prop_assert!(answer.hold.high.si().is_finite() && answer.ratio.si() >= 1.0 - 1e-12);
        }
    }
}
