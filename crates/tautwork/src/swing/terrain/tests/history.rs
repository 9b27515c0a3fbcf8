//! Distances along known motions.

use super::*;
use proptest::prelude::*;

fn track(points: &[[f64; 3]]) -> Track {
    let of = |axis: usize| points.iter().map(|p| p[axis]).collect();
    Track { x_m: of(0), y_m: of(1), z_m: of(2) }
}

fn body(walls: Vec<Wall>, points: &[[f64; 3]], radius: f64) -> ClearanceCase {
    ClearanceCase {
        walls,
        t_s: (0..points.len()).map(|k| 0.5 * k as f64).collect(),
        body: track(points),
        radius: radius.meters(),
        length: None,
        towards: None,
        rope_length: None,
    }
}

fn rope(points: Vec<Track>) -> Thing {
    Thing { name: "rope".into(), radius: 0.0.meters(), points, is_loop: false }
}

/// A bent sheet of 128 triangles.
fn sheet() -> TerrainMesh {
    let at = |i: usize, j: usize| {
        let (x, y) = (2.0 * i as f64, 2.0 * j as f64);
        [x, y, 2.0 * (0.6 * x).sin() + (0.4 * y).cos()]
    };
    let corners: Vec<[f64; 3]> = (0..9).flat_map(|i| (0..9).map(move |j| at(i, j))).collect();
    let k = |i: usize, j: usize| 9 * i + j;
    let cells = (0..8).flat_map(|i| (0..8).map(move |j| (i, j)));
    let faces: Vec<Vec<usize>> = cells
        .flat_map(|(i, j)| {
            [[k(i, j), k(i + 1, j), k(i + 1, j + 1)], [k(i, j), k(i + 1, j + 1), k(i, j + 1)]]
        })
        .map(|face| face.to_vec())
        .collect();
    mesh(&obj(&corners, &faces))
}

// Against 4000 instants an interval.
#[test]
fn the_nearest_approach_agrees_with_brute_force_in_time() {
    let (wall, mut seed) = (sheet(), 4);
    for _ in 0..12 {
        let mut points = || -> Vec<[f64; 3]> {
            let mut from =
                |low: f64, high: f64| 0.5 * (low + high) + 0.5 * (high - low) * draw(&mut seed);
            (0..4).map(|_| [from(-2.0, 18.0), from(-2.0, 18.0), from(3.6, 9.0)]).collect()
        };
        let (a, b) = (points(), points());
        let walls = || vec![Wall::mesh("sheet", wall.clone())];
        let ball = &clearance_history(&body(walls(), &a, 0.25)).unwrap().walls[0];
        let case = RopeClearanceCase {
            walls: walls(),
            t_s: vec![0.0, 0.5, 1.0, 1.5],
            ropes: vec![rope(vec![track(&a), track(&b)])],
        };
        let ropes = &rope_clearance_history(&case).unwrap().ropes[0].walls[0];
        let (mut of_ball, mut of_rope) = (f64::INFINITY, f64::INFINITY);
        for k in 0..3 {
            for step in 0..=4000 {
                let share = f64::from(step) / 4000.0;
                let (p, q) = (along(a[k], a[k + 1], share), along(b[k], b[k + 1], share));
                of_ball = of_ball.min(wall.surface().nearest_point(p).away_m - 0.25);
                of_rope = of_rope.min(wall.surface().near_segment(p, q).away_m);
            }
        }
        assert!((ball.least.si() - of_ball.max(0.0)).abs() < 3e-3, "{} {of_ball}", ball.least.si());
        assert!((ropes.least.si() - of_rope).abs() < 3e-3, "{} {of_rope}", ropes.least.si());
        assert_eq!(ball.touched.is_some(), of_ball <= 0.0);
        for (k, p) in a.iter().enumerate() {
            let d = (wall.surface().nearest_point(*p).away_m - 0.25).max(0.0);
            assert_eq!(ball.clearance_m[k], d);
        }
        let apart = size(from(ball.place.m(), ball.wall_place.m())) - 0.25;
        assert!((apart.max(0.0) - ball.least.si()).abs() < 1e-12);
    }
}

#[test]
fn touches_are_told_when_they_come() {
    let floor = || vec![Wall::mesh("floor", mesh("v -9 -9 0\nv 9 -9 0\nv 0 9 0\nf 1 2 3"))];
    // Down through the floor from 4 m to −6 m in half a second: the ball touches at 1 m.
    let ball = &clearance_history(&body(floor(), &[[0.0, 0.0, 4.0], [0.0, 0.0, -6.0]], 1.0))
        .unwrap()
        .walls[0];
    assert!((ball.touched.unwrap().si() - 0.15).abs() < 1e-4, "{:?}", ball.touched);
    assert_eq!(ball.clearance_m, [3.0, 5.0]);
    assert!((ball.least.si(), ball.time) == (0.0, ball.touched.unwrap()));
    // A point touches where it goes through, however thin the wall.
    let point = &clearance_history(&body(floor(), &[[0.0, 0.0, 4.0], [0.0, 0.0, -6.0]], 0.0))
        .unwrap()
        .walls[0];
    assert_eq!(point.touched.unwrap().si(), 0.2);
    // And one that starts there.
    let still = &clearance_history(&body(floor(), &[[0.0, 0.0, 0.5]], 1.0)).unwrap().walls[0];
    assert_eq!((still.touched.unwrap().si(), still.least.si()), (0.0, 0.0));
    // A rope sweeps down onto it: its lower end, from 2 m to −2 m.
    let ring = Track::still(at(0.0, 5.0));
    let case = RopeClearanceCase {
        walls: floor(),
        t_s: vec![0.0, 0.5],
        ropes: vec![rope(vec![ring, track(&[[0.0, 0.0, 2.0], [1.0, 0.0, -2.0]])])],
    };
    let swept = &rope_clearance_history(&case).unwrap().ropes[0].walls[0];
    assert!((swept.touched.unwrap().si() - 0.25).abs() < 1e-3, "{:?}", swept.touched);
}

#[test]
fn a_capsule_is_its_axis_less_its_radius() {
    let floor = || vec![Wall::mesh("floor", mesh("v -99 -99 0\nv 99 -99 0\nv 0 99 0\nf 1 2 3"))];
    let mut case = body(floor(), &[[0.0, 0.0, 5.0]], 0.3);
    case.length = Some(1.5.meters());
    // Upright: the axis is 0.9 m, and its lower end 4.1 m high.
    let clear = |case: &ClearanceCase| clearance_history(case).unwrap().walls[0].clearance_m[0];
    assert!((clear(&case) - 3.8).abs() < 1e-12);
    // Level: as a ball; towards a ring 3 m along and 4 m up: 0.9 · 4 / 5 lower.
    case.towards = Some(track(&[[7.0, 0.0, 5.0]]));
    assert!((clear(&case) - 4.7).abs() < 1e-12);
    case.towards = Some(track(&[[3.0, 0.0, 9.0]]));
    assert!((clear(&case) - (5.0 - 0.72 - 0.3)).abs() < 1e-12);
    // On a rope of 6 m that is still slack it is upright; on one of 5 m it is taut.
    case.rope_length = Some(6.0.meters());
    assert!((clear(&case) - 3.8).abs() < 1e-12);
    case.rope_length = Some(5.0.meters());
    assert!((clear(&case) - (5.0 - 0.72 - 0.3)).abs() < 1e-12);
    // A profile is the same floor.
    case.walls = vec![Wall::profile("floor", vec![at(-99.0, 0.0), at(99.0, 0.0)])];
    assert!((clear(&case) - (5.0 - 0.72 - 0.3)).abs() < 1e-12);
}

// The path of a jump gives the clearances that the jump found itself: the samples are 10 ms apart, and the path bends
// by g dt² / 8 between them.
#[test]
fn the_path_of_a_jump_has_the_clearances_of_the_jump() {
    let mut jump = demo();
    jump.follow.horizon = 25.0.seconds();
    jump.follow.sample_every = 0.01.seconds();
    let flight = fly(&jump).unwrap();
    let series = &flight.series;
    let case = ClearanceCase {
        walls: jump.walls.clone(),
        t_s: series.t_s.clone(),
        body: Track { x_m: series.x_m.clone(), y_m: series.y_m.clone(), z_m: series.z_m.clone() },
        radius: jump.body_radius,
        length: None,
        towards: None,
        rope_length: None,
    };
    let known = clearance_history(&case).unwrap();
    for clearance in &flight.clearances[1..] {
        let wall = known.walls.iter().find(|w| w.wall == clearance.wall).unwrap();
        assert!((wall.least.si() - clearance.least.value.si()).abs() < 3e-3, "{wall:?}");
    }
}

#[test]
fn wrong_cases_say_why() {
    let floor = || vec![Wall::profile("floor", vec![at(-9.0, 0.0), at(9.0, 0.0)])];
    let good = || body(floor(), &[[0.0, 0.0, 4.0], [0.0, 0.0, 3.0]], 1.0);
    let says = |change: &dyn Fn(&mut ClearanceCase), part: &str| {
        let mut case = good();
        change(&mut case);
        let error = clearance_history(&case).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    };
    says(&|c| c.walls.clear(), "walls: there is no wall");
    says(&|c| c.walls[0].points.truncate(1), "walls[0].points: a wall needs at least two points");
    says(&|c| c.t_s = vec![], "t_s: there are no samples");
    says(&|c| c.t_s[1] = 0.0, "t_s: times must be finite and rise");
    says(&|c| c.body.y_m = vec![0.0], "body: needs one value, or one for each time");
    says(&|c| c.body.y_m[1] = f64::NAN, "body: has a value that is not finite, or above 1e6 m");
    says(&|c| c.radius = (-1.0).meters(), "radius is -1 m");
    says(&|c| c.length = Some(f64::INFINITY.meters()), "length is inf m");
    says(
        &|c| c.length = Some(1.9.meters()),
        "length is 1.9 m; it must be at least twice the radius",
    );
    says(&|c| c.rope_length = Some(1.0.meters()), "rope_length: says when");
    let hung = |c: &mut ClearanceCase, rope: f64| {
        c.length = Some(3.0.meters());
        c.towards = Some(Track::still(at(0.0, 9.0)));
        c.rope_length = Some(rope.meters());
    };
    says(&|c| hung(c, 0.0), "rope_length is 0 m");
    says(&|c| hung(c, f64::NAN), "rope_length is NaN m");
    says(&|c| c.towards = Some(Track::still(at(0.0, 9.0))), "towards: a ball has no axis");
    says(
        &|c| {
            c.length = Some(3.0.meters());
            c.towards = Some(Track::still(at(0.0, 3.0)));
        },
        "towards: is at the body at 0.5 s",
    );
    let case = |ropes| RopeClearanceCase { walls: floor(), t_s: vec![0.0], ropes };
    let fails = |ropes, part: &str| {
        let error = rope_clearance_history(&case(ropes)).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    };
    fails(
        vec![rope(vec![Track::still(at(0.0, 1.0))])],
        "ropes[0].points is 1; it must be from 2 to 1000",
    );
    fails(vec![rope(vec![]); 101], "ropes is 101; it must be at most 100");
}

fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        -20.0..20.0_f64,
        Just(f64::NAN),
        Just(f64::INFINITY),
        Just(1e300),
        Just(-1e6),
        Just(5e-324),
        Just(0.0),
    ]
}

proptest! {
    #[test]
    fn any_numbers_give_an_answer_or_an_error(p in proptest::collection::vec(any_number(), 12), r in any_number(), h in any_number()) {
        let points = [[p[0], p[1], p[2]], [p[3], p[4], p[5]]];
        let walls = || vec![
            Wall::mesh("sheet", mesh("v -9 -9 0\nv 9 -9 1\nv 0 9 0\nf 1 2 3")),
            Wall::profile("profile", vec![at(p[6], p[7]), at(p[8], p[9])]),
        ];
        let mut case = body(walls(), &points, 1.0);
        case.radius = r.meters();
        case.length = Some(h.meters());
        let towards = || Some(track(&[[p[9], p[10], p[11]]]));
        let hung = ClearanceCase { towards: towards(), ..case.clone() };
        let slack = ClearanceCase { rope_length: Some(p[8].meters()), ..hung.clone() };
        for case in [case, hung, slack] {
            if let Ok(history) = clearance_history(&case) {
                for wall in history.walls {
                    prop_assert!(wall.least.si().is_finite() && wall.clearance_m.iter().all(|d| d.is_finite()));
                }
            }
        }
    }
}
