//! Rings that slide without friction against SciPy's least energy of the same lines as bars.
//!
//! The script beside the data says how they were made.

#![expect(clippy::unwrap_used, reason = "a reference that cannot be read should fail the test")]

use serde_json::Value as Json;
use tautwork::line::{BundleLine, RingHold, RingLine, solve_rings};
use tautwork::material::Stretch;
use tautwork::quantity::{Quantity, Words};

/// What is left after extrapolation from 12 and 24 bars: a fiftieth of the correction it makes.
const LEFT: f64 = 1.0 / 50.0;

fn numbers(json: &Json) -> Vec<f64> {
    json.as_array().unwrap().iter().map(|x| x.as_f64().unwrap()).collect()
}

fn line(i: usize, json: &Json) -> RingLine {
    let number = |key: &str| json[key].as_f64().unwrap();
    let point = |key: &str| {
        let p = numbers(&json[key]);
        [p[0], 0.0, p[1]].map(Words::meters)
    };
    let free = RingHold::Slides { friction: 0.0.ratio(), from: None, to: None };
    RingLine {
        line: BundleLine {
            name: format!("line {i}"),
            near: point("near"),
            far: point("far"),
            near_length: number("near_length").meters(),
            far_length: number("far_length").meters(),
            weight: number("weight").newtons_per_meter(),
            stretch: Stretch::axial_rigidity(number("ea").newtons()).unwrap(),
        },
        hold: if json["slides"].as_bool().unwrap() { free } else { RingHold::Tied },
    }
}

#[test]
fn the_ring_rests_where_energy_is_least() {
    let text = include_str!("reference/rings.json");
    let file: Json = serde_json::from_str(text).unwrap();
    let cases = file["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 12);
    for (i, case) in cases.iter().enumerate() {
        let lines: Vec<_> =
            case["lines"].as_array().unwrap().iter().enumerate().map(|(i, l)| line(i, l)).collect();
        let load = numbers(&case["load_n"]);
        let load = [load[0], 0.0, load[1]].map(Words::newtons);
        let here = solve_rings(&lines, load).unwrap().here;
        let sliding: Vec<f64> = here
            .holds
            .iter()
            .zip(&lines)
            .filter(|(_, l)| l.hold != RingHold::Tied)
            .map(|(h, _)| h.near_length.si())
            .collect();
        let found = [here.bundle.ring[0].si(), here.bundle.ring[2].si()].into_iter().chain(sliding);
        let wanted = [numbers(&case["ring_m"]), numbers(&case["near_lengths_m"])].concat();
        let room = case["change_by_extrapolation_m"].as_f64().unwrap() * LEFT + 1e-6;
        for (found, wanted) in found.zip(wanted) {
            assert!((found - wanted).abs() < room, "case {i}: {found} {wanted} {room}");
        }
    }
}
