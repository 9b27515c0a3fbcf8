//! Winds of the document.

use super::super::{Plan, parse, plan, plan_text};
use super::DEMO;
use crate::quantity::{Length, Quantity};

/// The demo followed for a short time in one wind.
fn text(x: f64, y: f64, more: &str) -> String {
    let text = DEMO.replace("[jump]\n", "[jump]\nhorizon = \"12 s\"\n");
    let wind = format!("velocity = [\"{x} m/s\", \"{y} m/s\"]\n{more}");
    let (before, after) =
        text.split_once("velocity = [\"0 m/s\", \"4 m/s\"]\nmost = \"15 m/s\"\n").unwrap();
    format!("{before}{wind}{after}")
}

fn planned(x: f64, y: f64, more: &str) -> Plan {
    plan(&parse(&text(x, y, more)).unwrap()).unwrap()
}

fn m(length: Length) -> f64 {
    length.si()
}

#[test]
fn a_breath_of_wind_is_still_air() {
    let plan = planned(0.0, 1e-6, "");
    let wind = &plan.winds[0];
    assert_eq!(wind.clearances.len(), plan.jump.clearances.len());
    for (wind, still) in wind.clearances.iter().zip(&plan.jump.clearances) {
        assert!((m(wind.least.extreme.value) - m(still.least.extreme.value)).abs() < 1e-4);
    }
    let force = [wind.body_force, plan.jump.body_force].map(|f| f.extreme.value.si());
    assert!((force[0] / force[1] - 1.0).abs() < 1e-6);
    let [stands, hangs] = &wind.states[..] else { panic!() };
    let still = |states: &[crate::rig::StatePlan]| {
        let all_on = states.iter().max_by_key(|s| s.lines.len()).unwrap();
        (all_on.ring.map(m), all_on.lines[0].tension_near.si())
    };
    for (blown, calm) in [(stands, still(&plan.states)), (hangs, still(&plan.person))] {
        assert!(blown.ring.map(m).iter().zip(calm.0).all(|(a, b)| (a - b).abs() < 1e-6));
        assert!((blown.lines[0].tension_near.si() / calm.1 - 1.0).abs() < 1e-6);
    }
}

#[test]
fn a_mirrored_wind_does_the_mirrored_thing() {
    let [left, right] = [6.0, -6.0].map(|y| planned(0.0, y, "").winds[0].clone());
    assert!(m(left.leftmost.extreme.value) > 1.0);
    assert!((m(left.leftmost.extreme.value) + m(right.rightmost.extreme.value)).abs() < 1e-6);
    for (a, b) in left.clearances.iter().zip(&right.clearances) {
        assert!((m(a.least.extreme.value) - m(b.least.extreme.value)).abs() < 1e-6);
    }
    for (a, b) in left.states.iter().zip(&right.states) {
        assert!(m(a.ring[1]) > 0.1 && (m(a.ring[1]) + m(b.ring[1])).abs() < 1e-6);
    }
    assert_eq!(left.largest, right.largest);
}

// With nothing at the ring, wind and weight of a line are one tilted weight: its middle is moved from the chord along
// the sum of both. q = ½ · 1.2 kg/m³ · 1.2 · 25 mm · (10 m/s)² = 1.8 N/m.
#[test]
fn a_line_leans_as_its_load() {
    let plan = {
        let mut rig = parse(&text(0.0, 10.0, "")).unwrap();
        rig.line.truncate(1);
        rig.state.clear();
        rig.ring.mass = crate::quantity::parse("0.001 g").unwrap();
        rig.line[0].tension_state = None;
        plan(&rig).unwrap()
    };
    let ring = plan.winds[0].states[0].ring.map(m);
    let along = ring[0] / 130.0;
    let down = -3.0 * along - ring[2];
    let lean = 1.8 / (0.068 * 9.81);
    assert!((ring[1] / down - lean).abs() < 1e-4 * lean, "{ring:?}");
}

#[test]
fn the_largest_wind_is_where_the_clearance_just_holds() {
    // A headwind drives the jumper back to the near wall.
    let with = |x: f64| planned(x, 0.0, "most = \"40 m/s\"\n");
    let found = with(-5.0).winds[0].largest.clone();
    let (wall, largest) = found
        .iter()
        .find_map(|l| l.largest.filter(|v| *v < l.looked_up_to).map(|v| (l.wall.clone(), v.si())))
        .unwrap();
    let spare = |speed: f64| {
        let plan = with(-speed);
        let name = format!("{wall} in flight, side breeze");
        let check = plan.checks.clearance.iter().find(|c| c.what == name).unwrap();
        check.clearance.si() - check.required.si()
    };
    let (below, above) = (spare(largest - 0.02), spare(largest + 0.03));
    assert!(below >= 0.0 && above < 0.0, "{wall} {largest}: {below} {above}");
}

#[test]
fn winds_stand_in_report_and_checks() {
    let plan = planned(0.0, 4.0, "most = \"15 m/s\"\n");
    for key in ["wind", "wind_clearance", "wind_lines"] {
        assert!(plan.tables.iter().any(|t| t.key == key && !t.rows.is_empty()), "{key}");
    }
    let check = |what: &str| plan.checks.clearance.iter().any(|c| c.what == what);
    assert!(check("far wall in flight") && check("far wall in flight, side breeze"));
    let assumed = |plan: &Plan, why: &str| {
        plan.assumptions.iter().any(|a| a.what == "wind" && a.why.contains(why))
    };
    assert!(assumed(&plan, "stand beside it"));
    let calm = {
        let mut rig = parse(&text(0.0, 4.0, "")).unwrap();
        rig.wind.clear();
        super::super::plan(&rig).unwrap()
    };
    assert_eq!(calm.jump, plan.jump);
    assert!(calm.winds.is_empty() && assumed(&calm, "sideways"));
    assert!(calm.tables.iter().all(|t| !t.key.starts_with("wind")));
}

#[test]
fn wrong_winds_say_why() {
    let says = |x: f64, y: f64, more: &str, part: &str| {
        let error = plan_text(&text(x, y, more)).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    };
    says(0.0, 0.0, "", "wind[0].velocity: a wind blows with more than zero and at most 100 m/s");
    says(80.0, 80.0, "", "wind[0].velocity: a wind blows");
    says(f64::NAN, 0.0, "", "wind[0].velocity[0]");
    says(
        3.0,
        4.0,
        "most = \"4.9 m/s\"\n",
        "wind[0].most: the greatest wind looked at lies between",
    );
    let twice = "[[wind]]\nname = \"side breeze\"\nvelocity = [\"1 m/s\", \"0 m/s\"]\n";
    says(3.0, 4.0, twice, "wind[1].name: the name \"side breeze\" is taken");
    let wide = text(3.0, 4.0, "").replace("width = \"11 mm\"", "width = \"-11 mm\"");
    assert!(plan_text(&wide).unwrap_err().to_string().contains("width"));
}
