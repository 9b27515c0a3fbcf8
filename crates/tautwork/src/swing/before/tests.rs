use proptest::prelude::*;

use super::*;
use crate::quantity::*;
use crate::swing::tests::{at, demo, lossless, plain, rope};
use crate::swing::*;

// Level inextensible catenary: w 5 N/m, span 20 m, sag 6 m has H 45.9 N and half length 12.1 m (Hibbeler,
// from memory; recomputed 45.9447 N, 12.0941 m).
#[test]
fn a_level_loop_is_the_catenary_of_the_textbook() {
    let mut jump = plain(at(20.0, 0.0), 24.188_2, 1e9);
    jump.ropes = vec![rope("rope", 24.188_2, 5.0 / 9.81, lossless(1e9))];
    let still = waiting(&jump).unwrap();
    assert!((still.level_pull.si() - 45.9447).abs() < 1e-3);
    assert!((still.pull[0].si() + 45.9447).abs() < 1e-3, "towards the ring");
    assert!((still.pull[2].si() + 0.5 * 5.0 * 24.188_2).abs() < 1e-6, "down");
    let loops = &still.ropes[0];
    assert!(
        (loops.below_body.si() - 6.0).abs() < 1e-3 && (loops.lowest.x.si() - 10.0).abs() < 1e-6
    );
    assert!((loops.z_m[100] + 6.0).abs() < 1e-3 && loops.x_m.len() == 201);
    let (weight, down) = (80.0 * 9.81, 0.5 * 5.0 * 24.188_2);
    assert!((still.friction_needed.unwrap().si() - 45.9447 / (weight + down)).abs() < 1e-5);
}

#[test]
fn a_ledge_under_the_loop_is_seen() {
    let mut jump = plain(at(20.0, 0.0), 24.188_2, 1e9);
    jump.ropes = vec![rope("rope", 24.188_2, 0.5, lossless(1e9))];
    let ledge = |z: f64| Wall::profile("ledge", vec![at(9.5, z), at(10.5, z)]);
    jump.walls = vec![ledge(-8.0), ledge(-5.0)];
    let still = waiting(&jump).unwrap();
    assert!((still.clearances[0].least.si() - 2.0).abs() < 2e-3, "{:?}", still.clearances);
    assert!(still.clearances[1].least.si() > 0.5, "the loop passes below");
    jump.walls = vec![Wall::profile("post", vec![at(10.0, -3.0), at(10.0, -9.0)])];
    assert_eq!(waiting(&jump).unwrap().clearances[0].least.si(), 0.0);
}

#[test]
fn ring_and_harness_carry_the_ropes() {
    let jump = demo();
    let still = waiting(&jump).unwrap();
    let mut short = jump.clone();
    short.follow.horizon = 1e-3.seconds();
    let full = fly_full(&short, &Mesh { nodes_per_rope: 400, ..Mesh::default() });
    let ring = full.unwrap().ring.start;
    for (a, b) in [(still.ring.x, ring.x), (still.ring.z, ring.z)] {
        assert!((a.si() - b.si()).abs() < 5e-3, "{a:?} {b:?}");
    }
    // A mirror of the rig pulls the other way.
    let mut other = jump.clone();
    other.exit.x = 130.0.meters() - jump.exit.x;
    for line in &mut other.lines {
        (line.near.x, line.far.x) = (130.0.meters() - line.near.x, 130.0.meters() - line.far.x);
    }
    other.walls.clear();
    let mirrored = waiting(&other).unwrap();
    assert!((mirrored.pull[0].si() + still.pull[0].si()).abs() < 1e-6);
    assert!(still.pull[0].si() > 1.0, "towards the ring");
}

#[test]
fn a_rope_without_weight_pulls_nothing_until_it_is_taut() {
    let slack = waiting(&plain(at(3.0, 0.0), 5.0, 2e4)).unwrap();
    assert_eq!(slack.level_pull.si(), 0.0);
    assert_eq!(slack.friction_needed.unwrap().si(), 0.0);
    let taut = waiting(&plain(at(6.0, 0.0), 5.0, 2e4)).unwrap();
    assert!((taut.level_pull.si() - 2e4 * 0.2).abs() < 1e-6);
}

#[test]
fn more_rope_pulls_less_to_the_side() {
    let pull = |rest: f64| {
        let mut jump = plain(at(20.0, 0.0), rest, 1e6);
        jump.ropes = vec![rope("rope", rest, 0.07, lossless(1e6))];
        waiting(&jump).unwrap().level_pull.si()
    };
    assert!(pull(21.0) > pull(25.0) && pull(25.0) > pull(40.0));
}

#[test]
fn an_early_step_is_the_jump_without_its_run() {
    let mut jump = demo();
    let off = step_off(&jump, None).unwrap();
    (jump.exit_speed_x, jump.exit_speed_z) = (0.0.meters_per_second(), 0.0.meters_per_second());
    assert_eq!(off.early, fly(&jump).unwrap());
    assert!(off.tethered.is_none());
}

// F = W + sqrt(W² + 2 W EA f): 6.44235 kN for EA 20 kN, 80 kg, f 1 (Wexler 1950, from memory).
#[test]
fn a_tether_stops_the_fall_and_the_wall_below_is_told() {
    let mut jump = demo();
    jump.walls.clear();
    jump.mass = 80.0.kilograms();
    jump.drag_area = 0.0.square_meters();
    let tether = |anchor: Place, rest: f64| Tether {
        anchor,
        rope: rope("tether", rest, 0.0, lossless(20e3)),
    };
    let off = step_off(&jump, Some(&tether(jump.exit, 2.0))).unwrap();
    let tethered = off.tethered.unwrap();
    assert!((tethered.flight.resultant.value.si() / 6442.35 - 1.0).abs() < 1e-4);
    assert!(tethered.least_slack.si() > 5.0);
    // Anchored behind the edge, it swings the jumper into the wall under the edge.
    let face = Wall::profile("face", vec![at(0.8, -4.0), at(0.8, -30.0)]);
    jump.walls = vec![face];
    let off = step_off(&jump, Some(&tether(at(-2.0, 0.5), 8.0))).unwrap();
    assert_eq!(off.tethered.unwrap().flight.ending, Ending::Contact);
    // A tether longer than the loop is not what stops the fall.
    jump.walls.clear();
    let off = step_off(&jump, Some(&tether(jump.exit, 90.0))).unwrap();
    assert!(off.tethered.unwrap().least_slack.si() < 0.0);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    #[test]
    fn any_loop_gives_an_answer_or_an_error(
        x in prop_oneof![-5.0..60.0_f64, any::<f64>()], z in prop_oneof![-30.0..5.0_f64, any::<f64>()],
        rest in prop_oneof![1.0..150.0_f64, any::<f64>()], ea in prop_oneof![1e3..1e6_f64, any::<f64>()],
        density in prop_oneof![0.0..0.2_f64, any::<f64>()], mass in prop_oneof![1.0..200.0_f64, any::<f64>()],
        anchor in prop_oneof![-3.0..3.0_f64, any::<f64>()],
    ) {
        let mut jump = plain(at(x, z), rest, ea);
        jump.mass = mass.kilograms();
        jump.ropes = vec![rope("rope", rest, density, lossless(ea))];
        jump.follow.horizon = 3.0.seconds();
        if let Ok(still) = waiting(&jump) {
            prop_assert!(still.level_pull.si().is_finite() && still.level_pull.si() >= 0.0);
            prop_assert!(still.ropes[0].z_m.iter().all(|z| z.is_finite()));
        }
        let tether = Tether { anchor: at(x + anchor, z), rope: rope("tether", rest, 0.0, lossless(ea)) };
        if let Ok(off) = step_off(&jump, Some(&tether)) {
            prop_assert!(off.early.resultant.value.si().is_finite());
            prop_assert!(off.tethered.unwrap().flight.resultant.value.si().is_finite());
        }
    }
}
