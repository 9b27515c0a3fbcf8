use proptest::prelude::*;

use super::*;
use crate::line::BundleLine;
use crate::material::Stretch;
use crate::quantity::*;
use crate::swing::{Place, Wall};

fn at(x: f64, z: f64) -> [Length; 3] {
    [x.meters(), 0.0.meters(), z.meters()]
}

/// 100 kg on a light stiff rope of 50 m under a ring that does not move, at the origin.
fn pendulum() -> WayBack {
    let stiff = Stretch::axial_rigidity(1e9.newtons()).unwrap();
    WayBack {
        lines: vec![],
        ring_mass: 0.0.kilograms(),
        ropes: vec![WayRope {
            name: "rope".into(),
            rest_length: 50.0.meters(),
            weight: 0.0.newtons_per_meter(),
            stretch: stiff.clone(),
        }],
        mass: 100.0.kilograms(),
        ring: at(0.0, 0.0),
        body: at(0.0, -50.0),
        pulley: at(-40.0, 5.0),
        lip: at(-39.0, 0.0),
        lip_friction: 0.0.ratio(),
        haul_weight: 0.0.newtons_per_meter(),
        haul_stretch: stiff,
        walls: vec![],
        body_radius: 0.9.meters(),
        steps: 30,
    }
}

// Two ropes of known length from two fixed points, while both are taut: the body is where two circles meet,
// and both tensions follow from two equations (textbook statics).
#[test]
fn a_load_on_two_ropes_is_where_two_circles_meet() {
    let mut way = pendulum();
    // Behind the pulley, the lip turns nothing.
    way.lip = at(-41.0, 0.0);
    let places = way_back(&way).unwrap();
    let mut taut = 0;
    for i in 0..30 {
        let (l, r) = (places.rope_out_m[i], 50.0);
        let (px, pz) = (-40.0, 5.0);
        let d = f64::hypot(px, pz);
        let (x, z) = (places.x_m[i], places.z_m[i]);
        if places.jump_ropes_n[i] < 1.0 || places.pull_n[i] < 1.0 {
            continue;
        }
        taut += 1;
        // From the ring along the line to the pulley, and down from it.
        let along = (r * r - l * l + d * d) / (2.0 * d);
        let across = (r * r - along * along).sqrt();
        let (ux, uz) = (px / d, pz / d);
        let want = (along * ux + across * uz, along * uz - across * ux);
        let want =
            if want.1 < 0.0 { want } else { (along * ux - across * uz, along * uz + across * ux) };
        assert!((x - want.0).hypot(z - want.1) < 1e-3, "{x} {z} {want:?}");
        let (ax, az) = ((px - x) / l, (pz - z) / l);
        let (bx, bz) = (-x / r, -z / r);
        let det = ax * bz - az * bx;
        let haul = -981.0 * bx / det;
        assert!((places.pull_n[i] / haul - 1.0).abs() < 1e-3, "{} {haul}", places.pull_n[i]);
    }
    assert!(taut > 10, "{taut}");
    // The pull grows as the body comes in, until all of the weight hangs on the haul rope.
    assert!(places.pull_n[0] < 1.0);
    assert!((places.pull_n[29] - 981.0).abs() < 2.0 && places.jump_ropes_n[29] < 1.0);
    let slack = places.slack_from.unwrap().si();
    assert!(slack > places.rope_out_m[29] && slack < 45.0, "{slack}");
}

#[test]
fn the_work_is_the_gain_of_height() {
    let mut way = pendulum();
    way.steps = 1000;
    way.lip = at(-41.0, 0.0);
    let places = way_back(&way).unwrap();
    let gained = 981.0 * (places.z_m[999] - places.z_m[0]);
    assert!((places.work.si() / gained - 1.0).abs() < 1e-3, "{:?} {gained}", places.work);
}

// The lip turns the rope and its friction multiplies the pull (Euler and Eytelwein).
#[test]
fn a_lip_turns_the_rope_and_takes_its_part() {
    let mut way = pendulum();
    (way.pulley, way.lip) = (at(-44.0, 0.5), at(-40.0, 0.0));
    let free = way_back(&way).unwrap();
    way.lip_friction = 0.3.ratio();
    let rough = way_back(&way).unwrap();
    let mut touched = 0;
    for i in 0..30 {
        let turn = rough.lip_turn_rad[i];
        assert_eq!(turn, free.lip_turn_rad[i]);
        let want = free.pull_n[i] * (0.3 * turn).exp();
        assert!((rough.behind_lip_n[i] - want).abs() <= 1e-12 * want);
        if turn > 0.0 {
            touched += 1;
            // From pulley to lip and on to the body.
            let first = f64::atan2(-0.5, 4.0);
            let then = f64::atan2(rough.z_m[i], rough.x_m[i] + 40.0);
            assert!((turn - (first - then).abs()).abs() < 1e-9);
        }
    }
    // To the end it lies on the lip, below which the body then hangs.
    assert!(touched == 30 && rough.work > free.work);
    assert!((rough.x_m[29] + 40.0).abs() < 1e-3 && (rough.z_m[29] + 0.5).abs() < 1e-2);
    // Under a high pulley the rope stays clear.
    (way.pulley, way.lip) = (at(-40.0, 30.0), at(-41.0, 0.0));
    assert!(way_back(&way).unwrap().lip_turn_rad.iter().all(|turn| *turn == 0.0));
}

#[test]
fn a_wall_is_as_far_as_it_is() {
    let mut way = pendulum();
    let corner = |x: f64, z: f64| Place { x: x.meters(), y: 0.0.meters(), z: z.meters() };
    way.walls = vec![Wall::profile("face", vec![corner(-41.0, 0.0), corner(-41.0, -90.0)])];
    let places = way_back(&way).unwrap();
    for i in 0..30 {
        if places.z_m[i] < -0.1 {
            assert!((places.clearance_m[i] - (places.x_m[i] + 41.0 - 0.9)).abs() < 1e-9);
        }
    }
}

#[test]
fn on_lines_the_ring_comes_along() {
    let mut way = pendulum();
    let give = Stretch::axial_rigidity(250.0.kilonewtons()).unwrap();
    way.lines = vec![BundleLine {
        name: "main".into(),
        near: at(-65.0, 3.0),
        far: at(65.0, 3.0),
        near_length: 64.5.meters(),
        far_length: 64.5.meters(),
        weight: 0.7.newtons_per_meter(),
        stretch: give,
    }];
    way.ring_mass = 2.5.kilograms();
    way.body = at(0.0, -55.0);
    let places = way_back(&way).unwrap();
    // Drawn a little towards the pulley, for a tied ring is stiff along its line, and up as the weight goes over to the haul rope.
    let last = places.ring_x_m.len() - 1;
    assert!(
        places.ring_x_m.iter().any(|x| *x < -0.01) && places.ring_z_m[last] > places.ring_z_m[0]
    );
    assert!(places.jump_ropes_n[0] > 900.0 && places.jump_ropes_n[last] < 100.0);
}

#[test]
fn wrong_ways_say_why() {
    let says = |change: &dyn Fn(&mut WayBack), part: &str| {
        let mut way = pendulum();
        change(&mut way);
        let error = way_back(&way).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    };
    says(&|w| w.mass = 0.0.kilograms(), "mass is 0 kg");
    says(&|w| w.steps = 1, "steps is 1");
    says(&|w| w.pulley[2] = f64::NAN.meters(), "pulley.z is NaN");
    says(&|w| w.lip_friction = (-0.1).ratio(), "lip_friction is -0.1");
    says(&|w| w.body = w.pulley, "from the pulley");
    says(&|w| w.ropes[0].rest_length = (-1.0).meters(), "rest_length");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    #[test]
    fn any_way_gives_an_answer_or_an_error(
        mass in prop_oneof![40.0..150.0_f64, any::<f64>()], rest in prop_oneof![20.0..80.0_f64, any::<f64>()],
        x in prop_oneof![-60.0..-20.0_f64, any::<f64>()], z in prop_oneof![0.0..10.0_f64, any::<f64>()],
        mu in prop_oneof![0.0..0.5_f64, any::<f64>()], weight in prop_oneof![0.0..1.0_f64, any::<f64>()],
    ) {
        let mut way = pendulum();
        way.mass = mass.kilograms();
        way.ropes[0].rest_length = rest.meters();
        way.pulley = at(x, z);
        way.lip_friction = mu.ratio();
        way.haul_weight = weight.newtons_per_meter();
        way.steps = 5;
        if let Ok(places) = way_back(&way) {
            prop_assert!(places.pull_n.iter().chain(&places.behind_lip_n).all(|n| n.is_finite()));
            prop_assert!(places.work.si().is_finite());
        }
    }
}
