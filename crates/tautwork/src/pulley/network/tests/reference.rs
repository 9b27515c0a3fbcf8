//! Random pulley networks in space against SciPy's linear programmes: `tests/reference/network.py`
//! says how the data were made.

use serde_json::Value as Json;

use super::*;

fn three(json: &Json) -> Option<[f64; 3]> {
    serde_json::from_value(json.clone()).unwrap()
}

fn network(case: &Json) -> System {
    let mut system = System::new();
    for b in case["bodies"].as_array().unwrap() {
        let kind = serde_json::from_value(b["kind"].clone()).unwrap();
        let position = three(&b["position"]).unwrap();
        let travel = three(&b["travel"]);
        system.bodies.push(Body { travel, ..body(b["name"].as_str().unwrap(), kind, position) });
    }
    for (r, rope) in case["ropes"].as_array().unwrap().iter().enumerate() {
        let stops: Vec<usize> = serde_json::from_value(rope["stops"].clone()).unwrap();
        let etas: Vec<f64> = serde_json::from_value(rope["efficiency"].clone()).unwrap();
        let name = |i: usize| system.bodies[stops[i]].name.as_str();
        let mut built = Rope::new(&format!("rope {r}"), name(0), name(stops.len() - 1));
        for (i, eta) in etas.into_iter().enumerate() {
            built = built.over(name(i + 1), fixed(eta));
        }
        system.ropes.push(built);
    }
    system
}

fn same(found: f64, wanted: f64) -> bool {
    (found - wanted).abs() <= 1e-7 * wanted.abs().max(1e-3)
}

#[test]
fn random_networks_agree_with_linear_programmes() {
    let text = include_str!("../../../../../../tests/reference/network.json");
    let file: Json = serde_json::from_str(text).unwrap();
    let cases = file["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 200);
    let mut ranges = 0;
    for (i, case) in cases.iter().enumerate() {
        let number = |key: &str| case[key].as_f64();
        let found = match solve(&network(case), 1.0.newtons()) {
            Ok(found) => found,
            // With these losses no rope-by-rope motion raises the load; without them one does.
            Err(PulleyError::WouldPush { .. }) => continue,
            Err(error) => panic!("{i}: {error}"),
        };
        assert!(same(found.ideal_advantage.si(), number("ideal").unwrap()), "{i}");
        assert!(same(found.frictionless.si(), number("frictionless").unwrap()), "{i}");
        let (low, high) = (found.hold.low.si(), found.hold.high.si());
        // The programme may also hold with a sheave that drags against the motion: its range is never narrower.
        let (least, most) = (number("low").unwrap(), number("high").unwrap_or(f64::INFINITY));
        assert!(low == 0.0 || low >= least * (1.0 - 1e-7), "{i} {low} {least}");
        assert!(high <= most * (1.0 + 1e-7), "{i} {high} {most}");
        ranges += usize::from(same(low, least) && same(high, most));
    }
    assert!(ranges >= 190, "{ranges} ranges agree");
}
