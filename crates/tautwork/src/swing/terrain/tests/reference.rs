//! Against brute force in NumPy over seeded meshes: tests/reference/terrain.py.

use super::*;
use serde_json::Value as Json;

fn triple(json: &Json) -> [f64; 3] {
    [0, 1, 2].map(|i: usize| json[i].as_f64().unwrap())
}

#[test]
fn seeded_meshes_agree_with_brute_force() {
    let text = include_str!("../../../../../../tests/reference/terrain.json");
    let file: Json = serde_json::from_str(text).unwrap();
    let (mut looked, mut met, mut worst) = (0, 0, 0.0_f64);
    for case in file["cases"].as_array().unwrap() {
        let mesh = mesh(case["obj"].as_str().unwrap());
        let surface = mesh.surface();
        let mut compare = |near: Near, want: &Json| {
            let want = want.as_f64().unwrap();
            worst = worst.max((near.away_m - want).abs());
            // The nearest points are as far apart as is said.
            assert!((size(from(near.on_m, near.wall_m)) - near.away_m).abs() < 1e-14);
            looked += 1;
        };
        let points = case["points_m"].as_array().unwrap();
        for (p, want) in points.iter().zip(case["point_away_m"].as_array().unwrap()) {
            compare(surface.nearest_point(triple(p)), want);
        }
        let segments = case["segments_m"].as_array().unwrap();
        for (i, segment) in segments.iter().enumerate() {
            let (p, q) = (triple(&segment[0]), triple(&segment[1]));
            compare(surface.near_segment(p, q), &case["segment_away_m"][i]);
            compare(surface.near_segment(q, p), &case["segment_away_m"][i]);
            match (surface.first_crossing(p, q), case["first_crossing"][i].as_f64()) {
                (None, None) => {}
                (Some(got), Some(want)) => {
                    assert!((got - want).abs() < 1e-12, "{got} {want}");
                    met += 1;
                }
                differ => panic!("{differ:?}"),
            }
        }
    }
    assert_eq!((looked, met), (6 * 75, 50));
    assert!(worst < 1e-13, "{worst:e}");
}
