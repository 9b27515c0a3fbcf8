//! Signs, symmetry, monotony, and inputs that contradict each other.

use super::*;

/// A small rig that is quick to fly.
fn small() -> Jump {
    let mut jump = demo();
    jump.walls.clear();
    jump.lines.truncate(2);
    jump.follow.horizon = 8.0.seconds();
    jump
}

#[test]
fn a_mirrored_rig_flies_the_mirrored_jump() {
    let one = fly(&small()).unwrap();
    let mut other = small();
    let flip = |p: &mut Place| p.x = 130.0.meters() - p.x;
    flip(&mut other.exit);
    other.exit_speed_x = -other.exit_speed_x;
    for line in &mut other.lines {
        flip(&mut line.near);
        flip(&mut line.far);
    }
    let two = fly(&other).unwrap();
    assert!((one.resultant.value.si() / two.resultant.value.si() - 1.0).abs() < 1e-6);
    for (a, b) in one.series.x_m.iter().zip(&two.series.x_m) {
        assert!((a + b - 130.0).abs() < 1e-4);
    }
}

#[test]
fn longer_ropes_hang_lower_and_drag_slows() {
    let base = fly(&small()).unwrap();
    let mut longer = small();
    for rope in &mut longer.ropes {
        rope.rest_length += 1.0.meters();
    }
    let longer = fly(&longer).unwrap();
    assert!(longer.rest.unwrap().body.z < base.rest.as_ref().unwrap().body.z);
    let mut draggy = small();
    draggy.drag_area = 2.0.square_meters();
    assert!(fly(&draggy).unwrap().top_speed.value < base.top_speed.value);
    let mut bag = small();
    bag.mass = 60.0.kilograms();
    assert!(fly(&bag).unwrap().resultant.value < base.resultant.value);
}

#[test]
fn one_rope_of_two_carries_all() {
    let two = fly(&small()).unwrap();
    let mut alone = small();
    alone.ropes.truncate(1);
    let one = fly(&alone).unwrap();
    assert!(one.ropes[0].tension.value > two.ropes[0].tension.value);
    // Half of the force on jumper and lower half of the ropes, 82 and 4.752 kg.
    let half = 0.5 * two.resultant.value.si() * 86.752 / 82.0;
    assert!((two.ropes[0].tension.value.si() / half - 1.0).abs() < 1e-6);
}

#[test]
fn contact_ends_the_run_and_is_told() {
    let mut jump = plain(at(0.0, 0.0), 50.0, 20e3);
    jump.walls.push(Wall::profile("ledge", vec![at(-5.0, -20.0), at(5.0, -20.0)]));
    let flight = fly(&jump).unwrap();
    assert_eq!(flight.ending, Ending::Contact);
    let Some(Event { what: Happening::Contact { wall, speed }, .. }) = flight.events.last() else {
        panic!("{:?}", flight.events.last())
    };
    assert_eq!(wall, "ledge");
    // From rest over 20 m less the radius of 0.9 m.
    assert!((speed.si() - (2.0 * 9.81 * 19.1_f64).sqrt()).abs() < 1e-6);
    assert!(flight.clearances[0].least.value.si() < 1e-9);
}

#[test]
fn wrong_jumps_say_why() {
    let says = |change: &dyn Fn(&mut Jump), part: &str| {
        let mut jump = small();
        change(&mut jump);
        let error = fly(&jump).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    };
    says(&|j| j.mass = 0.0.kilograms(), "mass is 0 kg; it must be above zero");
    says(&|j| j.exit.z = f64::NAN.meters(), "exit.z is NaN m");
    says(&|j| j.lines.clear(), "give the lines that hold the ring, or a fixed_ring");
    says(&|j| j.fixed_ring = Some(at(0.0, 0.0)), "a fixed ring has no lines");
    says(&|j| j.ropes[1].rest_length = 0.0.meters(), "ropes[1].rest_length is 0 m");
    says(&|j| j.lines[1].near_length = (-1.0).meters(), "lines[1].near_length is -1 m");
    says(&|j| j.follow.horizon = 0.0.seconds(), "follow.horizon is 0 s; it must be from 0.001 s");
    says(&|j| j.follow.most_steps = 3, "3 steps reached only");
    let wall = |points: Vec<Place>| Wall::profile("w", points);
    says(&|j| j.walls = vec![wall(vec![at(0.0, 0.0)])], "at least two points");
    says(&|j| j.walls = vec![wall(vec![at(0.0, 0.0); 2])], "are the same");
    says(
        &|j| j.walls = vec![wall(vec![at(1.5, -9.0), at(1.5, 9.0)])],
        "the body starts 0.5 m from wall \"w\"",
    );
}
