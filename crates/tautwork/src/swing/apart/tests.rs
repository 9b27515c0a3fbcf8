use super::*;
use crate::quantity::*;
use crate::swing::tests::{demo, plain};
use crate::swing::*;

fn track(points: &[[f64; 3]]) -> Track {
    let at = |axis: usize| points.iter().map(|p| p[axis]).collect();
    Track { x_m: at(0), y_m: at(1), z_m: at(2) }
}

fn thing(name: &str, points: Vec<Track>) -> Thing {
    Thing { name: name.into(), radius: 0.0.meters(), points, is_loop: false }
}

fn scene(t_s: &[f64], things: Vec<Thing>) -> Scene {
    Scene { t_s: t_s.to_vec(), things, joined: vec![] }
}

// Two bodies on straight ways at constant speed: nearest where their difference is upright to their relative
// speed (closed form).
#[test]
fn bodies_that_pass_between_samples() {
    let a = thing("a", vec![track(&[[-10.0, 0.0, 0.0], [10.0, 0.0, 0.0]])]);
    let mut b = thing("b", vec![track(&[[0.0, 3.0, -10.0], [0.0, 3.0, 10.0]])]);
    b.radius = 0.5.meters();
    let near = &least_apart(&scene(&[0.0, 2.0], vec![a, b])).unwrap().pairs[0];
    assert!((near.least.si() - 2.5).abs() < 1e-3 && (near.time.si() - 1.0).abs() < 0.01);
    assert!(near.first_place.x.si().abs() < 0.1);
}

#[test]
fn crossed_and_parallel_ropes() {
    let still = |p: [[f64; 3]; 2]| p.map(|p| track(&[p])).to_vec();
    let least = |p, q| {
        let things = vec![thing("p", still(p)), thing("q", still(q))];
        least_apart(&scene(&[0.0], things)).unwrap().pairs[0].least.si()
    };
    // Crossed lines, 2 m apart.
    let x = [[-1.0, 0.0, 0.0], [1.0, 0.0, 0.0]];
    assert_eq!(least(x, [[0.0, -1.0, 2.0], [0.0, 1.0, 2.0]]), 2.0);
    // Parallel, beside each other and one after the other.
    assert_eq!(least(x, [[0.5, 3.0, 0.0], [5.0, 3.0, 0.0]]), 3.0);
    assert_eq!(least(x, [[5.0, 3.0, 0.0], [9.0, 3.0, 0.0]]), 5.0);
    // A corner and a side.
    assert_eq!(least(x, [[0.0, 0.0, 1.0], [0.0, 0.0, 4.0]]), 1.0);
    assert_eq!(least(x, [[0.0, -1.0, 0.0], [0.0, 1.0, 0.0]]), 0.0);
}

/// A number in −1 to 1 from a seed.
fn draw(seed: &mut u64) -> f64 {
    *seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
    (*seed >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
}

// Against brute force: 2000 instants an interval, and 40 points on each piece.
#[test]
fn seeded_tracks_agree_with_brute_force() {
    let mut seed = 3;
    for _ in 0..10 {
        let mut point = || {
            let each: Vec<[f64; 3]> =
                (0..4).map(|_| [0; 3].map(|_| 10.0 * draw(&mut seed))).collect();
            track(&each)
        };
        let (a, b) = (vec![point(), point()], vec![point(), point(), point()]);
        let t_s = [0.0, 1.0, 2.0, 3.0];
        let got = least_apart(&scene(&t_s, vec![thing("a", a.clone()), thing("b", b.clone())]))
            .unwrap()
            .pairs[0]
            .least
            .si();
        let mut brute = f64::INFINITY;
        for step in 0..=600 {
            let t = f64::from(step) / 200.0;
            let k = usize::from(t >= 1.0) + usize::from(t >= 2.0);
            let share = t - k as f64;
            let at = |track: &Track| {
                let (p, q) = (track.at_m(k), track.at_m(k + 1));
                [0, 1, 2].map(|i| p[i] + share * (q[i] - p[i]))
            };
            let on = |points: &[Track]| {
                let mut all = Vec::new();
                for pair in points.windows(2) {
                    let (p, q) = (at(&pair[0]), at(&pair[1]));
                    for s in 0..=40 {
                        let s = f64::from(s) / 40.0;
                        all.push([0, 1, 2].map(|i| p[i] + s * (q[i] - p[i])));
                    }
                }
                all
            };
            for p in on(&a) {
                for q in on(&b) {
                    let d2: f64 = (0..3).map(|i| (p[i] - q[i]).powi(2)).sum();
                    brute = brute.min(d2.sqrt());
                }
            }
        }
        assert!(got <= brute + 1e-3 && brute - got < 0.35, "{got} {brute}");
    }
}

/// A square loop of 2 m in the plane x = 0, open between its ends at y = −1.
fn square() -> Thing {
    let corners = [[0.0, -1.0, 1.0], [0.0, 1.0, 1.0], [0.0, 1.0, -1.0], [0.0, -1.0, -1.0]];
    let points = corners.iter().map(|p| track(&[*p])).collect();
    Thing { is_loop: true, ..thing("loop", points) }
}

#[test]
fn a_body_through_beside_and_back_through_a_loop() {
    let fly = |points: &[[f64; 3]]| {
        let t_s: Vec<f64> = (0..points.len()).map(|k| k as f64).collect();
        let body = thing("body", vec![track(points)]);
        least_apart(&scene(&t_s, vec![body, square()])).unwrap().crossings
    };
    let through = fly(&[[-3.0, 0.2, 0.3], [1.0, 0.2, 0.3]]);
    assert_eq!(through.len(), 1);
    assert!((through[0].time.si() - 0.75).abs() < 1e-9 && through[0].place.x.si().abs() < 1e-9);
    assert!(fly(&[[-3.0, 1.2, 0.3], [1.0, 1.2, 0.3]]).is_empty());
    let back = fly(&[[-3.0, 0.2, 0.3], [1.0, 0.2, 0.3], [-1.0, -0.2, 0.0]]);
    assert_eq!(back.len(), 2);
    // On the edge that two triangles share it counts once; in the plane of the loop not at all.
    assert_eq!(fly(&[[-1.0, 0.0, 0.0], [1.0, 0.0, 0.0]]).len(), 1);
    assert!(fly(&[[0.0, -5.0, 0.0], [0.0, 5.0, 0.0]]).is_empty());
}

#[test]
fn the_demo_jump_and_a_parked_rope() {
    let mut jump = demo();
    jump.walls.clear();
    jump.follow.horizon = 10.0.seconds();
    let at = |x: f64, y: f64, z: f64| Place { x: x.meters(), y: y.meters(), z: z.meters() };
    let parked = |y: f64| Thing {
        radius: 0.005.meters(),
        ..thing("haul rope", vec![Track::still(at(4.0, y, 0.0)), Track::still(at(4.0, y, -120.0))])
    };
    let body = |y: f64| {
        let apart = apart_in_flight(&jump, &[parked(y)]).unwrap();
        let pair = apart.pairs.iter().find(|p| p.first == "body" && p.second == "haul rope");
        pair.unwrap().least.si()
    };
    // The jump stays in the plane, so the distance is that to the side; from 2 m on it falls past x = 4 m.
    assert!((body(3.0) - (3.0 - 0.005 - jump.body_radius.si())).abs() < 2e-3);
    assert_eq!(body(0.0), 0.0);
    let apart = apart_in_flight(&jump, &[parked(3.0)]).unwrap();
    let names = |a: &str, b: &str| apart.pairs.iter().any(|p| p.first == a && p.second == b);
    assert!(names("body", "main") && names("left", "haul rope") && names("main", "haul rope"));
    assert!(!names("body", "left") && !names("main", "backup") && !names("left", "main"));
}

#[test]
fn a_loop_of_slack_rope_hangs_as_low_as_its_legs() {
    // Ring and body side by side at 6 m on a rope of 10 m: 4 m down. A parked rope below is 1 m away.
    let mut jump = plain(crate::swing::tests::at(6.0, 0.0), 10.0, 2e4);
    jump.follow.horizon = 1e-3.seconds();
    let at = |x: f64, z: f64| Track::still(Place { x: x.meters(), y: 0.0.meters(), z: z.meters() });
    let parked = thing("parked", vec![at(-5.0, -5.0), at(20.0, -5.0)]);
    let apart = apart_in_flight(&jump, &[parked]).unwrap();
    let rope = apart.pairs.iter().find(|p| p.first == "rope").unwrap();
    assert!((rope.least.si() - 1.0).abs() < 1e-3, "{rope:?}");
}

#[test]
fn wrong_scenes_say_why() {
    let good = || scene(&[0.0, 1.0], vec![thing("a", vec![track(&[[0.0; 3]])]), square()]);
    let says = |change: &dyn Fn(&mut Scene), part: &str| {
        let mut scene = good();
        change(&mut scene);
        let error = least_apart(&scene).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    };
    assert!(least_apart(&good()).is_ok());
    says(&|s| s.t_s.clear(), "no samples");
    says(&|s| s.t_s = vec![1.0, 0.0], "rise");
    says(&|s| s.things[0].points.clear(), "things[0].points is 0");
    says(&|s| s.things[0].points[0].y_m.clear(), "things[0].points[0]: needs one value");
    says(&|s| s.things[1].points[2].z_m[0] = f64::NAN, "things[1].points[2]: has a value");
    says(&|s| s.things[0].radius = (-1.0).meters(), "things[0].radius is -1 m");
    says(&|s| s.things[0].name = "loop".into(), "things[1].name");
    says(&|s| s.joined = vec![["a".into(), "b".into()]], "joined[0]");
    says(&|s| s.things = vec![thing("a", vec![track(&[[0.0; 3]]); 1001])], "from 1 to 1000");
}
