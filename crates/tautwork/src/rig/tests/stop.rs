//! Stops of the ring in the document.

use super::super::{LossComponentKind, LossOutcome, Plan, parse, plan, plan_text};
use super::DEMO;
use crate::quantity::Quantity;

fn text(travel: &str) -> String {
    let text = DEMO.replace("[jump]\n", "[jump]\nhorizon = \"12 s\"\n");
    let stop = |end: &str| {
        format!(
            "[[stop]]\nname = \"{end} stop\"\nline = \"main\"\nend = \"{end}\"\ntravel = \"{travel}\"\n\
             cordage = \"11 mm semi-static\"\nknots = \"1.2 m\"\n"
        )
    };
    format!("{text}\n{}{}", stop("near"), stop("far"))
}

fn planned(text: &str) -> Plan {
    plan(&parse(text).unwrap()).unwrap()
}

fn bare() -> String {
    DEMO.replace("[jump]\n", "[jump]\nhorizon = \"12 s\"\n")
}

#[test]
fn a_stabiliser_is_in_the_jump_the_losses_the_kit_and_the_wear() {
    let (plan, free) = (planned(&text("0.05 m")), planned(&bare()));
    let ring = plan.waiting.ring.map(Quantity::si);
    let long = |anchor: [f64; 3]| (0..3).map(|i| (ring[i] - anchor[i]).powi(2)).sum::<f64>().sqrt();
    for (stop, anchor) in plan.stops.iter().zip([[0.0, 0.0, 0.0], [130.0, 0.0, -3.0]]) {
        assert!((stop.length.si() - long(anchor) - 0.05).abs() < 1e-6, "{stop:?}");
        let rope = plan.kit.pieces.iter().find(|p| p.name == stop.name).unwrap();
        assert!((rope.length.unwrap().si() - stop.length.si() - 1.2).abs() < 1e-6);
    }
    let most = plan
        .stops
        .iter()
        .max_by(|a, b| a.tension.extreme.value.si().total_cmp(&b.tension.extreme.value.si()));
    let most = most.unwrap();
    let pull = most.tension.extreme.value;
    assert!(pull.si() > 0.0);
    let wide = |plan: &Plan| {
        let ring = &plan.jump.soft.ring;
        ring.farthest.value.si() - ring.nearest.value.si()
    };
    assert!(wide(&plan) < wide(&free), "{} {}", wide(&plan), wide(&free));
    let check = plan.checks.strength.iter().find(|c| c.component == most.name).unwrap();
    assert!(check.demand == pull && (check.strength.si() - 27e3).abs() < 1e-6);
    // Each anchor is held against lines and stops together, at the peak of either run.
    for (anchor, at) in plan.anchors.iter().zip([[0.0, 0.0, 0.0], [130.0, 0.0, -3.0]]) {
        let peak = |flight: &crate::swing::Flight| {
            let here = |place: &crate::swing::Place| [place.x, place.y, place.z].map(Quantity::si);
            let found = flight.anchors.iter().find(|a| here(&a.place) == at).unwrap();
            assert!(found.parts.iter().any(|part| part.ends_with("stop")));
            found.peak.value.si()
        };
        let most_n = peak(&plan.jump.stiff).max(peak(&plan.jump.soft));
        let got_n = anchor.pull.map(Quantity::si).iter().fold(0.0_f64, |n, f| n.hypot(*f));
        // Waves may pull harder still.
        let waves = anchor.from.starts_with("jump with waves");
        assert!(waves || anchor.from.starts_with("jump, "), "{}", anchor.from);
        let off = got_n / most_n - 1.0;
        assert!(off.abs() < 1e-6 || waves && off > 0.0, "{}: {got_n} {most_n}", anchor.name);
    }
    let component = plan.losses.components.iter().find(|c| c.name == most.name).unwrap();
    assert_eq!(component.kind, LossComponentKind::Stop);
    let loss = &plan.losses.single[component.loss];
    assert_eq!(loss.lost_at_rest.outcome, LossOutcome::CarriesNothing);
    for (when, result) in [loss.results()[0], loss.results()[2]] {
        assert_ne!(result.outcome, LossOutcome::NoAnswer, "{when}: {result:?}");
        assert!(result.carries.unwrap().si() > 0.0, "{when}");
    }
    assert!(plan.rubs.iter().any(|r| r.part == most.name && r.place == "ring"));
    assert!(plan.tables.iter().any(|t| t.key == "stops" && t.rows.len() == 2));
    assert!(free.stops.is_empty() && free.tables.iter().all(|t| t.key != "stops"));
}

#[test]
fn a_stop_that_is_never_reached_does_nothing() {
    let (plan, free) = (planned(&text("60 m")), planned(&bare()));
    assert!(plan.stops.iter().all(|s| s.tension.extreme.value.si() == 0.0));
    let force = [&plan, &free].map(|p| p.jump.body_force.extreme.value.si());
    // Stops are in the state, so that the steps differ: the same to the error of the steps up to the peak.
    assert!((force[0] / force[1] - 1.0).abs() < 1e-6, "{:e}", force[0] / force[1] - 1.0);
    for (a, b) in plan.jump.clearances.iter().zip(&free.jump.clearances) {
        assert!((a.least.extreme.value.si() - b.least.extreme.value.si()).abs() < 1e-4);
    }
    let nothing = |name: &str| {
        let component = plan.losses.components.iter().find(|c| c.name == name).unwrap();
        let loss = &plan.losses.single[component.loss];
        loss.results().iter().all(|(_, result)| result.outcome == LossOutcome::CarriesNothing)
    };
    assert!(nothing("near stop") && nothing("far stop"));
}

#[test]
fn wrong_stops_say_why() {
    let says = |from: &str, to: &str, part: &str| {
        let error = plan_text(&text("0.1 m").replacen(from, to, 1)).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    };
    says("line = \"main\"", "line = \"mian\"", "stop[0].line");
    says("end = \"near\"\ntravel", "end = \"left\"\ntravel", "stop[0].end");
    says("travel = \"0.1 m\"", "travel = \"-0.1 m\"", "stop[0].travel");
    says("name = \"near stop\"", "name = \"main\"", "stop[0].name: the name \"main\" is taken");
    let table = "stretch = { table = [[\"1 kN\", \"1 %\"], [\"4 kN\", \"3 %\"]] }";
    says("stretch = { en1891_elongation = \"3.3 %\" }", table, "stop[0].cordage: a stop needs");
}
