//! Closed forms, limits and bad numbers.

use super::*;
use crate::pulley::capstan_ratio;
use crate::quantity::*;
use crate::swing::tests::at;
use crate::swing::{Place, SwingError, Track};
use proptest::prelude::*;

fn track(points: &[[f64; 3]]) -> Track {
    let of = |axis: usize| points.iter().map(|p| p[axis]).collect();
    Track { x_m: of(0), y_m: of(1), z_m: of(2) }
}

fn place([x, y, z]: [f64; 3]) -> Place {
    Place { x: x.meters(), y: y.meters(), z: z.meters() }
}

fn case(anchor: [f64; 3], body: &[[f64; 3]], edge: RockEdge) -> RopeEdgeCase {
    RopeEdgeCase {
        t_s: (0..body.len()).map(|k| 0.1 * k as f64).collect(),
        anchor: Track::still(place(anchor)),
        body: track(body),
        tension_n: vec![1000.0],
        edge,
        starts_over: false,
        mu: 0.3.ratio(),
        axial_rigidity: None,
    }
}

fn along_y(x: f64, z: f64, y: f64) -> RockEdge {
    RockEdge::Segment { from: place([x, -y, z]), to: place([x, y, z]) }
}

// A pendulum of 15 m swings in from one side. At the upright the edge 5 m below the anchor stops the upper part, the rest
// swings on with 10 m: the edge turns the rope by the angle of that rest, and nothing rubs.
#[test]
fn a_pendulum_wraps_on_an_edge_below_its_anchor() {
    let swing = |k: i32| {
        let angle = 0.02 * f64::from(50 - k);
        let (low, long) = if angle > 0.0 { (0.0, 15.0) } else { (-5.0, 10.0) };
        [long * angle.sin(), 0.0, low - long * angle.cos()]
    };
    // Out past the edge and back.
    let body: Vec<_> = (0..80).chain((0..80).rev()).map(swing).collect();
    for edge in [along_y(0.0, -5.0, 1.0), RockEdge::Corner { at: at(0.0, -5.0) }] {
        let rope = rope_on_edge(&case([0.0; 3], &body, edge)).unwrap();
        let [touch] = rope.touches[..] else { panic!("{:?}", rope.touches) };
        assert!((touch.begins.si() - 5.0).abs() < 1e-9, "{touch:?}");
        assert_eq!(touch.ending, TouchEnd::LiftsOff);
        assert!((touch.ends.si() - (15.9 - 5.0)).abs() < 1e-9, "{touch:?}");
        assert_eq!(rope.first_touch, Some(touch.begins));
        for k in 51..80 {
            let turn = 0.02 * (k - 50) as f64;
            assert!((rope.turn_rad[k] - turn).abs() < 1e-12);
            assert!((rope.force_n[k] - 2000.0 * (0.5 * turn).sin()).abs() < 1e-9);
            let ratio = capstan_ratio(0.3.ratio(), Angle::from_si(turn)).unwrap().si();
            assert!((rope.behind_high_n[k] - 1000.0 * ratio).abs() < 1e-9);
            assert!((rope.behind_low_n[k] - 1000.0 / ratio).abs() < 1e-9);
            let most = (1.0 + ratio * ratio - 2.0 * ratio * turn.cos()).sqrt();
            assert!((rope.force_most_n[k] - 1000.0 * most).abs() < 1e-6);
        }
        assert!(rope.turn_rad[..=50].iter().all(|turn| turn.abs() < 1e-12));
        assert!(rope.rub.si() < 1e-12);
        assert!((rope.greatest_turn.unwrap().value.si() - 0.58).abs() < 1e-12);
    }
}

// The anchor 1 m behind a lip, the load 3 m below it: dragged sideways by 8 m the rope goes 2 m along the lip, and from 1 m
// to √5 m lies behind it.
#[test]
fn a_rope_dragged_sideways_rubs_by_similar_triangles() {
    let body: Vec<_> = (0..=80).map(|k| [1.0, 0.1 * f64::from(k), -3.0]).collect();
    let mut dragged = case([0.0; 3], &body, along_y(1.0, 0.0, 9.0));
    dragged.starts_over = true;
    let rope = rope_on_edge(&dragged).unwrap();
    assert!((rope.rub_along_edge.si() - 2.0).abs() < 1e-12);
    assert!((rope.rub_along_rope.si() - (5.0_f64.sqrt() - 1.0)).abs() < 1e-12);
    // Both parts make the same angle with the lip, whose cosine is 2 / √5: the turn is that of two unit vectors.
    assert!((rope.turn_rad[80] - 0.8_f64.acos()).abs() < 1e-12);
    assert!((rope.turn_rad[0] - core::f64::consts::FRAC_PI_2).abs() < 1e-12);
    let both = rope.rub.si();
    assert!(both > 2.0 && both <= 2.0 + 5.0_f64.sqrt() - 1.0);
    // Back again: twice as far. Slack it does not rub.
    let back: Vec<_> = body.iter().chain(body.iter().rev()).copied().collect();
    let mut again = case([0.0; 3], &back, dragged.edge);
    again.starts_over = true;
    assert!((rope_on_edge(&again).unwrap().rub.si() - 2.0 * both).abs() < 1e-9);
    again.tension_n = vec![0.0];
    let slack = rope_on_edge(&again).unwrap();
    assert!(slack.rub.si() == 0.0 && slack.greatest_force.unwrap().value.si() == 0.0);
    // A lip that ends 0.5 m from the middle: the rope slips off when the load is 2 m along.
    dragged.edge = along_y(1.0, 0.0, 0.5);
    let rope = rope_on_edge(&dragged).unwrap();
    assert_eq!(rope.touches[0].ending, TouchEnd::SlipsOff);
    assert!((rope.touches[0].ends.si() - 2.0).abs() < 1e-9);
    assert_eq!((rope.turn_rad[80], rope.touches.len()), (0.0, 1));
}

// 4 m behind the edge, at 5 % of stretch less 4 m / 1.05 of rope is left there.
#[test]
fn a_rope_that_stretches_runs_over_the_edge() {
    let mut stretched =
        case([-4.0, 0.0, 0.0], &[[0.0, 0.0, -9.0], [0.0, 0.0, -9.5]], along_y(0.0, 0.0, 1.0));
    stretched.starts_over = true;
    stretched.tension_n = vec![0.0, 1000.0];
    assert!(rope_on_edge(&stretched).unwrap().rub.si() < 1e-12);
    stretched.axial_rigidity = Some(20.0.kilonewtons());
    let rope = rope_on_edge(&stretched).unwrap();
    assert!((rope.rub_along_rope.si() - (4.0 - 4.0 / 1.05)).abs() < 1e-12);
}

// Against a search in small steps for the shortest way.
#[test]
fn the_way_over_the_edge_is_the_shortest() {
    let (a, b) = ([-3.0, 1.0, 0.5], [0.7, -2.5, -6.0]);
    let mut over = case(a, &[b], along_y(0.0, 0.0, 9.0));
    over.starts_over = true;
    let found = rope_on_edge(&over).unwrap().touches[0].place.y.si();
    let far = |p: [f64; 3], y: f64| ((p[0]).powi(2) + (p[1] - y).powi(2) + p[2].powi(2)).sqrt();
    let steps = (-90_000..90_000).map(|k| f64::from(k) * 1e-4);
    let best = steps.min_by(|p, q| (far(a, *p) + far(b, *p)).total_cmp(&(far(a, *q) + far(b, *q))));
    assert!((found - best.unwrap()).abs() < 2e-4, "{found} {best:?}");
}

#[test]
fn a_rope_that_goes_by_does_not_touch() {
    // On one side all the time; past the end; and past the edge below the body.
    let by = [[4.0, 0.0, -9.0], [2.0, 0.0, -9.0]];
    let across = [[4.0, 0.0, -9.0], [-4.0, 0.0, -9.0], [4.0, 0.0, -9.0]];
    let beyond = RockEdge::Segment { from: place([0.0, 1.0, -5.0]), to: place([0.0, 9.0, -5.0]) };
    for (body, edge) in [
        (&by[..], along_y(0.0, -5.0, 1.0)),
        (&across[..], beyond),
        (&across[..], along_y(0.0, -12.0, 1.0)),
        (&across[..], along_y(0.0, 2.0, 1.0)),
    ] {
        let rope = rope_on_edge(&case([0.0; 3], body, edge)).unwrap();
        assert!(rope.first_touch.is_none() && rope.touches.is_empty(), "{edge:?}");
        assert!(rope.greatest_force.is_none() && rope.rub.si() == 0.0);
        assert_eq!(rope.turn_rad, vec![0.0; body.len()]);
    }
}

#[test]
fn a_mirrored_and_a_turned_motion_rub_the_same() {
    let body: Vec<[f64; 3]> = (0..60)
        .map(|k| {
            let t = 0.1 * f64::from(k);
            [6.0 * (0.9 * t).cos(), 2.0 * (0.7 * t).sin(), -11.0 + 0.4 * t.sin()]
        })
        .collect();
    let plain = rope_on_edge(&case([0.2, 0.1, 0.0], &body, along_y(0.0, -5.0, 3.0))).unwrap();
    assert!(plain.touches.len() == 1 && plain.rub.si() > 0.1);
    let mirrored: Vec<_> = body.iter().map(|[x, y, z]| [-x, *y, *z]).collect();
    let other = rope_on_edge(&case([-0.2, 0.1, 0.0], &mirrored, along_y(0.0, -5.0, 3.0))).unwrap();
    assert_eq!(other.turn_rad, plain.turn_rad);
    let turned: Vec<_> = body.iter().map(|[x, y, z]| [-y, *x, *z]).collect();
    let edge = RockEdge::Segment { from: place([3.0, 0.0, -5.0]), to: place([-3.0, 0.0, -5.0]) };
    let turned = rope_on_edge(&case([-0.1, 0.2, 0.0], &turned, edge)).unwrap();
    for (a, b) in turned.turn_rad.iter().zip(&plain.turn_rad) {
        assert!((a - b).abs() < 1e-12);
    }
    assert!((turned.rub.si() - plain.rub.si()).abs() < 1e-9);
}

#[test]
fn wrong_cases_say_why() {
    let says = |change: &dyn Fn(&mut RopeEdgeCase), part: &str| {
        let mut wrong =
            case([0.0; 3], &[[4.0, 0.0, -9.0], [-4.0, 0.0, -9.0]], along_y(0.0, -5.0, 1.0));
        change(&mut wrong);
        let error: SwingError = rope_on_edge(&wrong).unwrap_err();
        assert!(error.to_string().contains(part), "{part} not in {error}");
    };
    says(&|c| c.t_s.clear(), "t_s: there are no samples");
    says(&|c| c.t_s[1] = 0.0, "t_s: times must be finite and rise");
    says(&|c| c.body.x_m[1] = f64::NAN, "body: has a value that is not finite");
    says(&|c| c.anchor = track(&[[0.0; 3]; 3]), "anchor: needs one value, or one for each time");
    says(&|c| c.tension_n = vec![1.0; 3], "tension_n: needs one value, or one for each time");
    says(&|c| c.tension_n = vec![-1.0], "tension_n: has a value that is not from 0 to 1e12 N");
    says(&|c| c.mu = (-0.1).ratio(), "mu is");
    says(&|c| c.axial_rigidity = Some(0.0.newtons()), "axial_rigidity is 0 N");
    says(&|c| c.edge = along_y(0.0, -5.0, 0.0), "edge: is shorter than 1 mm");
    says(&|c| c.edge = along_y(f64::INFINITY, -5.0, 1.0), "edge.from.x is inf m");
    says(&|c| c.edge = RockEdge::Corner { at: at(1e7, 0.0) }, "edge.at: is more than 1000 km");
    says(&|c| c.body.x_m[0] = 0.0, "starts_over: the rope starts on the edge");
    says(
        &|c| {
            c.starts_over = true;
            c.body.x_m[0] = 0.0;
        },
        "starts_over: the rope starts straight",
    );
    says(
        &|c| {
            c.starts_over = true;
            c.body.y_m[0] = 9.0;
        },
        "starts_over: the rope starts beyond an end",
    );
    says(
        &|c| {
            c.body.z_m = vec![-5.0; 2];
        },
        "edge: an end of the rope is on the line of the edge",
    );
    // Over the edge, round its other side and up again.
    let round = [[1.0, 0.0, -9.0], [-4.0, 0.0, -5.5], [-1.0, 0.0, 5.0], [3.0, 0.0, 5.0]];
    says(
        &|c| *c = case([0.0; 3], &round, along_y(0.0, -5.0, 1.0)),
        "body: the rope turns by more than 180°",
    );
}

fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        -20.0..20.0_f64,
        Just(0.0),
        Just(f64::NAN),
        Just(f64::INFINITY),
        Just(1e300),
        Just(9e5),
        Just(5e-324),
    ]
}

proptest! {
    #[test]
    fn any_numbers_give_an_answer_or_an_error(p in proptest::collection::vec(any_number(), 20), over in any::<bool>()) {
        let body = [[p[0], p[1], p[2]], [p[3], p[4], p[5]], [p[6], p[7], p[8]]];
        let edge = RockEdge::Segment { from: place([p[9], p[10], p[11]]), to: place([p[12], p[13], p[14]]) };
        let mut any = case([p[15], p[16], p[17]], &body, edge);
        any.starts_over = over;
        any.tension_n = vec![p[18], p[19].abs(), p[18].abs()];
        any.mu = p[19].ratio();
        for edge in [edge, RockEdge::Corner { at: at(p[9], p[11]) }] {
            if let Ok(rope) = rope_on_edge(&RopeEdgeCase { edge, ..any.clone() }) {
                let all = [&rope.turn_rad, &rope.force_n, &rope.force_most_n, &rope.behind_high_n, &rope.rub_m];
                prop_assert!(all.iter().all(|values| values.iter().all(|v| v.is_finite() && *v >= 0.0)));
            }
        }
    }
}

mod meshes;
