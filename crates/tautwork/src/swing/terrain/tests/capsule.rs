//! Jumps of a body that hangs from its tie-in.

use super::*;

const FLOOR: [(f64, f64); 2] = [(-99.0, -20.0), (99.0, -20.0)];

/// The same wall as a profile and as a mesh.
fn both(points: &[(f64, f64)]) -> [Wall; 2] {
    let profile = points.iter().map(|p| at(p.0, p.1)).collect();
    let mesh = drawn_out(points, &[-99.0, 0.7, 99.0]);
    [Wall::profile("wall", profile), Wall::mesh("wall", mesh)]
}

/// A capsule of 1.7 m and 0.25 m radius: an axis of 1.2 m.
fn long(mut jump: Jump) -> Jump {
    jump.body_radius = 0.25.meters();
    jump.body_length = Some(1.7.meters());
    jump
}

#[test]
fn a_capsule_as_short_as_its_caps_is_the_ball() {
    let mut jump = demo();
    jump.follow.horizon = 12.0.seconds();
    let ball = fly(&jump).unwrap();
    jump.body_length = Some(2.0 * jump.body_radius);
    assert_eq!(fly(&jump).unwrap(), ball);
    jump.follow.horizon = 5.0.seconds();
    let [capsule, ball] = [jump.body_length, None].map(|length| {
        let jump = Jump { body_length: length, ..jump.clone() };
        (fly_full(&jump, &coarse()).unwrap(), apart_in_flight(&jump, &[]).unwrap())
    });
    assert_eq!(capsule, ball);
}

fn coarse() -> Mesh {
    Mesh { nodes_per_line: 8, nodes_per_rope: 8, ..Mesh::default() }
}

// Free fall: the lower tip is 1.2 m + 0.25 m below the tie-in.
#[test]
fn a_fall_ends_at_the_feet() {
    for floor in both(&FLOOR) {
        let mut jump = long(plain(at(0.0, 0.0), 50.0, 20e3));
        jump.walls.push(floor);
        let flight = fly(&jump).unwrap();
        let Some(Event { what: Happening::Contact { speed, .. }, .. }) = flight.events.last()
        else {
            panic!("{:?}", flight.events.last())
        };
        assert!((speed.si() - (2.0 * 9.81 * 18.55_f64).sqrt()).abs() < 1e-6);
        assert!((flight.lowest.value.si() + 18.55).abs() < 1e-6);
        assert!(flight.height_left.unwrap().si() < 1e-9);
        assert!(flight.clearances[0].least.value.si() < 1e-9);
        // The full model looks at its steps, of a millisecond.
        let full = fly_full(&jump, &Mesh::default()).unwrap();
        assert_eq!(full.ending, Ending::Contact);
        let past = -18.55 - full.lowest.value.si();
        assert!((0.0..0.02).contains(&past), "{past}");
    }
}

/// A stiff pendulum of 20 m that starts 60° before the bottom, on a rope already stretched.
fn pendulum() -> Jump {
    let ea = 1e8;
    let (sin, cos) = 60.0_f64.to_radians().sin_cos();
    let far = 20.0 * (1.0 + 80.0 * 9.81 * cos / ea);
    long(plain(at(-far * sin, -far * cos), 20.0, ea))
}

// Energy: it turns at 60° on the other side. The axis lies along the rope, so its lower end swings on 21.2 m.
#[test]
fn a_pendulum_swings_its_feet_farther() {
    let turn = 60.0_f64.to_radians().sin();
    for (floor, post) in
        both(&[(-99.0, -22.0), (99.0, -22.0)]).into_iter().zip(both(&[(19.0, -99.0), (19.0, 99.0)]))
    {
        let mut jump = pendulum();
        jump.walls = vec![floor, post];
        let flight = fly(&jump).unwrap();
        let full = fly_full(&jump, &Mesh::default()).unwrap();
        for clearances in [&flight.clearances, &full.clearances] {
            let [floor, post] = &clearances[..] else { panic!() };
            let clear = |c: &Clearance| c.least.value.si();
            assert!((clear(floor) - (22.0 - 21.2 - 0.25)).abs() < 2e-3, "{floor:?}");
            assert!((clear(post) - (19.0 - 21.2 * turn - 0.25)).abs() < 2e-3, "{post:?}");
        }
        // The lowest point is that of the tie-in; the free height is that of the feet.
        assert!((flight.lowest.value.si() + 20.0).abs() < 2e-3);
        assert!((flight.height_left.unwrap().si() - 0.55).abs() < 2e-3);
    }
}

// A wall between where the ball and where the feet come to ends the swing of the capsule only.
#[test]
fn feet_touch_where_a_ball_goes_by() {
    let turn = 60.0_f64.to_radians().sin();
    for post in both(&[(18.0, -99.0), (18.0, 99.0)]) {
        let mut jump = pendulum();
        jump.walls = vec![post];
        let flight = fly(&jump).unwrap();
        assert_eq!(flight.ending, Ending::Contact);
        // Along the arc, the feet touch at sin θ = 17.75 / 21.2.
        let end = flight.events.last().unwrap();
        assert!((end.place.x.si() - 17.75 / 21.2 * 20.0).abs() < 2e-3, "{end:?}");
        let full = fly_full(&jump, &Mesh::default()).unwrap();
        let end = full.events.last().unwrap();
        assert_eq!(full.ending, Ending::Contact);
        assert!((end.place.x.si() - 17.75 / 21.2 * 20.0).abs() < 0.02, "{end:?}");
        jump.body_length = None;
        let ball = fly(&jump).unwrap();
        assert_ne!(ball.ending, Ending::Contact);
        assert!((ball.clearances[0].least.value.si() - (18.0 - 20.0 * turn - 0.25)).abs() < 2e-3);
    }
}

// Slack, it is upright; taut, along the rope. The path of the jump in samples of 5 ms agrees: the body goes 0.15 m in one,
// and its axis turns within one.
#[test]
fn the_history_of_the_path_agrees() {
    let mut jump = long(plain(at(20.0, 0.0), 50.0, 20e3));
    jump.ropes[0].response = Response::Pair {
        stiff: 20.0.kilonewtons(),
        soft: 10.0.kilonewtons(),
        relaxation: Some(0.05.seconds()),
    };
    jump.follow.sample_every = 5.0.milliseconds();
    let profile = |x: f64, z: f64| {
        let points = vec![at(x, z), at(x, z - 9.0), at(x + 9.0, z - 9.0)];
        Wall::profile(format!("{x} {z}"), points)
    };
    jump.walls = vec![profile(24.0, -8.0), profile(23.0, -40.0), profile(-70.0, -30.0)];
    jump.walls.push(Wall::profile("floor", vec![at(-99.0, -75.0), at(99.0, -75.0)]));
    let flight = fly(&jump).unwrap();
    assert_ne!(flight.ending, Ending::Contact);
    let series = &flight.series;
    let case = ClearanceCase {
        walls: jump.walls.clone(),
        t_s: series.t_s.clone(),
        body: Track { x_m: series.x_m.clone(), y_m: series.y_m.clone(), z_m: series.z_m.clone() },
        radius: jump.body_radius,
        length: jump.body_length,
        towards: Some(Track::still(at(0.0, 0.0))),
        rope_length: Some(50.0.meters()),
    };
    let known = clearance_history(&case).unwrap();
    for clearance in &flight.clearances {
        let wall = known.walls.iter().find(|w| w.wall == clearance.wall).unwrap();
        assert!(
            (wall.least.si() - clearance.least.value.si()).abs() < 5e-3,
            "{clearance:?} {wall:?}"
        );
    }
    // On ropes without mass and from a ring that stays, both models are one, but for their steps.
    let full = fly_full(&jump, &Mesh::default()).unwrap();
    for (full, reduced) in full.clearances.iter().zip(&flight.clearances) {
        let off = full.least.value.si() - reduced.least.value.si();
        assert!(off.abs() < 0.02 && full.wall == reduced.wall, "{full:?} {reduced:?}");
    }
}

// The ball about the tie-in is a part of the capsule.
#[test]
fn a_capsule_is_never_farther_than_its_ball() {
    let mut jump = long(demo());
    jump.follow.horizon = 12.0.seconds();
    let [capsule, ball] = [jump.body_length, None]
        .map(|length| fly_full(&Jump { body_length: length, ..jump.clone() }, &coarse()).unwrap());
    assert_eq!(capsule.series, ball.series);
    let pairs = || capsule.clearances.iter().zip(&ball.clearances);
    assert_eq!(pairs().count(), 3);
    assert!(pairs().all(|(long, ball)| long.least.value <= ball.least.value));
    assert!(pairs().any(|(long, ball)| long.least.value.si() < ball.least.value.si() - 0.5));
}

/// A rope across the plane of the jump.
fn across(x: f64, z: f64) -> Thing {
    let end = |y: f64| Track::still(Place { y: y.meters(), ..at(x, z) });
    let points = vec![end(-1.0), end(1.0)];
    Thing { name: "parked".into(), radius: 0.0.meters(), points, is_loop: false }
}

// Upright on a slack rope: 4.905 m down after 1 s, the feet 1.2 m deeper. On the taut one the feet swing on 21.2 m.
#[test]
fn the_feet_are_what_comes_near_a_parked_rope() {
    let body = |jump: &Jump, parked: Thing| {
        let apart = apart_in_flight(jump, &[parked]).unwrap();
        apart.pairs.iter().find(|p| p.first == "body" && p.second == "parked").unwrap().least.si()
    };
    let mut jump = long(plain(at(0.0, 0.0), 50.0, 20e3));
    jump.follow.horizon = 1.0.seconds();
    assert!((body(&jump, across(0.0, -7.0)) - (7.0 - 6.105 - 0.25)).abs() < 1e-3);
    let mut jump = pendulum();
    jump.follow.horizon = 6.0.seconds();
    jump.follow.sample_every = 2.0.milliseconds();
    assert!((body(&jump, across(0.0, -22.0)) - (22.0 - 21.2 - 0.25)).abs() < 5e-3);
}

// Free fall: the feet are 1.8 m above the plane of the loop at the start, the tie-in 3 m.
#[test]
fn both_ends_go_through_a_loop() {
    let mut jump = long(plain(at(0.0, 0.0), 50.0, 20e3));
    jump.follow.horizon = 1.0.seconds();
    jump.follow.sample_every = 2.0.milliseconds();
    let corner = |x: f64, y: f64| Track::still(Place { y: y.meters(), ..at(x, -3.0) });
    let points = vec![corner(-1.0, -1.0), corner(1.0, -1.0), corner(1.0, 1.0), corner(-1.0, 1.0)];
    let parked = Thing { points, is_loop: true, ..across(0.0, 0.0) };
    let crossings = apart_in_flight(&jump, &[parked]).unwrap().crossings;
    let times: Vec<f64> = crossings.iter().map(|c| c.time.si()).collect();
    let falls = [1.8_f64, 3.0].map(|way| (2.0 * way / 9.81).sqrt());
    assert!(times.len() == 2 && times.iter().zip(falls).all(|(a, b)| (a - b).abs() < 1e-4));
}

#[test]
fn wrong_capsules_say_why() {
    let says = |jump: &Jump, part: &str| {
        let error = fly(jump).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    };
    let mut jump = long(plain(at(0.0, 0.0), 50.0, 20e3));
    jump.body_length = Some(0.4.meters());
    says(&jump, "body_length is 0.4 m; it must be at least twice the body_radius");
    jump.body_length = Some(f64::NAN.meters());
    says(&jump, "body_length is NaN m");
    // Feet through a ledge that a ball would stand on.
    let mut jump = long(jump);
    jump.walls = vec![Wall::profile("ledge", vec![at(-1.0, -1.0), at(1.0, -1.0)])];
    says(&jump, "the body starts 0 m from wall \"ledge\"");
    jump.walls.clear();
    jump.body_length = Some(0.4.meters());
    for error in
        [fly_full(&jump, &Mesh::default()).unwrap_err(), apart_in_flight(&jump, &[]).unwrap_err()]
    {
        let text = "body_length is 0.4 m; it must be at least twice the body_radius";
        assert_eq!(error.to_string(), text);
    }
}
