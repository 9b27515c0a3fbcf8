mod edge;
mod stop;
mod way;
mod wind;

use proptest::prelude::*;

use super::*;
use crate::quantity::Quantity;

const DEMO: &str = include_str!("../../../../examples/kestrel-gap.toml");

fn mistakes(text: &str) -> Vec<Mistake> {
    match parse(text) {
        Err(RigError::Document(mistakes)) => mistakes,
        other => panic!("no mistakes found: {other:?}"),
    }
}

#[test]
fn the_demo_reads() {
    let rig = parse(DEMO).unwrap();
    assert_eq!(rig.name, "Kestrel Gap");
    assert_eq!(rig.line.len(), 4);
    assert_eq!(rig.line[0].tension, Some(crate::quantity::parse("4.5 kN").unwrap()));
}

// Slack backups are too slow for the quasi-static answer: the checks see the snaps of the full model.
#[test]
fn the_checks_take_the_full_model_for_slow_lines() {
    let plan = plan(&parse(DEMO).unwrap()).unwrap();
    let waves = plan.waves.as_ref().unwrap();
    let taken: Vec<_> = waves.lines.iter().filter(|l| l.taken).map(|l| l.line.as_str()).collect();
    assert!(taken.contains(&"backup") && waves.notes.is_empty(), "{taken:?} {:?}", waves.notes);
    for line in waves.lines.iter().filter(|l| l.taken) {
        let check = plan.checks.strength.iter();
        let check =
            check.clone().find(|c| c.component == line.line && c.place == "near end").unwrap();
        assert!(check.demand.si() >= line.near.extreme.value.si());
        assert!(line.over_quasi_static.unwrap().si() > 1.5);
    }
    for anchor in &waves.anchors {
        let planned = plan.anchors.iter().find(|a| a.name == anchor.anchor).unwrap();
        assert!(planned.pull_size.si() >= anchor.peak.extreme.value.si() * (1.0 - 1e-12));
    }
    assert_eq!(waves.anchors.len(), 2);
    assert!(plan.tables.iter().any(|t| t.key == "waves"));
}

#[test]
fn the_bag_is_flown_with_waves_and_losses_say_where_they_are_not() {
    let plan = plan(&parse(DEMO).unwrap()).unwrap();
    let (person, bag) = (plan.waves.as_ref().unwrap(), plan.bag_waves.as_ref().unwrap());
    assert_eq!(person.lines.len(), bag.lines.len());
    // The slack lines snap; the main line, too slow by the rule, is near its quasi-static figure.
    for line in bag.lines.iter().filter(|l| l.taken && l.line != "main") {
        assert!(line.over_quasi_static.unwrap().si() > 1.5, "{line:?}");
    }
    // A lighter body is caught with less.
    let force = |waves: &WavePlan| waves.body_force.unwrap().extreme.value.si();
    assert!(force(bag) < force(person));
    let notes = plan.notes.join("\n");
    assert!(
        notes.contains("bag: the quasi-static") && notes.contains("stand beside it"),
        "{notes}"
    );
    assert!(plan.tables.iter().any(|t| t.key == "bag_waves" && t.rows.len() > bag.lines.len()));
    let results = || plan.losses.single.iter().flat_map(|loss| loss.results().map(|(_, r)| r));
    assert!(results().any(|r| !r.slow_lines.is_empty()));
    let rope_lost = plan.losses.components.iter().find(|c| c.name == "left jump rope").unwrap();
    let at_rest = &plan.losses.single[rope_lost.loss].lost_at_rest;
    assert!(at_rest.slow_lines.iter().all(|line| plan.lines.iter().any(|l| l.name == *line)));
    let table = plan.tables.iter().find(|t| t.key == "losses").unwrap();
    let marked = table.rows.iter().filter(|row| row[2].ends_with("(not with its waves)")).count();
    let due = results().filter(|r| {
        r.takes_load.as_ref().is_some_and(|t| {
            r.slow_lines.iter().any(|line| t.component.starts_with(&format!("{line}, ")))
        })
    });
    assert!(marked > 0 && marked == due.count(), "{marked}");
}

#[test]
fn every_mistake_is_named_with_its_line() {
    let wrong = DEMO
        .replace("rest_length = \"132.4 m\"", "rest_length = \"132.4\"")
        .replace("cordage = \"backup webbing\"", "cordage = \"backup webing\"")
        .replace("mass = \"2.5 kg\"", "mass = 2.5\nbounce = true")
        .replace("radius = \"0.9 m\"", "radius = \"-1 m\"");
    let found = mistakes(&wrong);
    let line_of = |needle: &str| wrong.lines().position(|l| l.contains(needle)).unwrap() + 1;
    let has =
        |line: usize, part: &str| found.iter().any(|m| m.line == line && m.message.contains(part));
    assert!(has(line_of("\"132.4\""), "has no unit"), "{found:?}");
    assert!(has(line_of("webing"), "did you mean \"backup webbing\"?"), "{found:?}");
    assert_eq!(found.len(), 6, "no mistake follows from another: {found:?}");
    assert!(has(line_of("mass = 2.5"), "2.5 has no unit"), "{found:?}");
    assert!(has(line_of("bounce"), "not known here"), "{found:?}");
    assert!(has(line_of("radius = \"-1 m\""), "zero or more"), "{found:?}");
    assert!(found.windows(2).all(|w| w[0].line <= w[1].line));
}

#[test]
fn references_and_choices_are_checked_together() {
    let wrong = DEMO
        .replace("cordage = \"backup webbing\"", "cordage = \"backup webing\"")
        .replace(
            "to = \"far anchor\"\ntension = \"4.5 kN\"",
            "to = \"near anchor\"\ntension = \"4.5 kN\"\nsag = \"2 m\"",
        )
        .replace("at = \"jumper\"", "at = \"jumpr\"")
        .replace("name = \"right jump rope\"", "name = \"left jump rope\"");
    let found = mistakes(&wrong);
    let text = found.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n");
    for part in [
        "did you mean \"backup webbing\"?",
        "exactly one of rest_length, tension and sag",
        "another anchor than it begins",
        "did you mean \"jumper\"?",
        "\"left jump rope\" is taken",
    ] {
        assert!(text.contains(part), "{part} not in\n{text}");
    }
}

#[test]
fn poles_and_guys_of_a_frame_are_checked() {
    let pole = "diameter = \"110 mm\", thin_end = \"90 mm\"";
    let guy = "name = \"left guy\", ";
    for (good, wrong, part) in [
        (pole, "diameter = \"110 mm\", thin_end = \"120 mm\"", "thin end is thicker"),
        (pole, "diameter = \"110 mm\", wall = \"60 mm\"", "thicker than half"),
        (pole, "diameter = \"110 mm\", thin_end = \"9 mm\", wall = \"3 mm\"", "not both"),
        (guy, "name = \"left guy\", mass = \"1 kg\", ", "only legs have a mass"),
        ("mass = \"14 kg\"", "pretension = \"1 kN\"", "only guys have a pretension"),
    ] {
        let found = mistakes(&DEMO.replace(good, wrong));
        assert!(found.iter().any(|m| m.message.contains(part)), "{part} not in {found:?}");
    }
}

#[test]
fn json_and_toml_give_the_same_rig() {
    let value: serde_json::Value = {
        let table: toml::Table = toml::from_str(DEMO).unwrap();
        serde_json::to_value(table).unwrap()
    };
    assert_eq!(parse(&value.to_string()).unwrap(), parse(DEMO).unwrap());
}

#[test]
fn broken_text_has_a_line() {
    assert_eq!(mistakes("name = \"a\"\nx = = 3\n")[0].line, 2);
    assert_eq!(mistakes("{\n \"name\": \"a\",\n}")[0].line, 3);
    let twice = mistakes("{ \"name\": \"a\", \"name\": \"b\" }");
    assert!(twice.iter().any(|m| m.path == "name" && m.message.contains("twice")));
    assert!(mistakes(&"[".repeat(1_000_000))[0].message.contains("nested deeper"));
    assert!(mistakes(&format!("{{\"a\":{}", "[".repeat(100_000)))[0].message.contains("nested"));
    assert!(mistakes(&"# x\n".repeat(2_000_000))[0].message.contains("bytes"));
    assert!(mistakes(&format!("{} = 1", vec!["a"; 5000].join(".")))[0].message.contains("nested"));
    assert!(!mistakes("").is_empty());
}

/// The 3:1 of the demo written out as bodies and a rope, with its grab and its capture.
const NETWORK: &str = r#"
[[haul.network.body]]
name = "tree"
kind = "anchor"
position = ["-9 m", "0 m", "-1 m"]
[[haul.network.body]]
name = "haul rope"
kind = "load"
position = ["0 m", "0 m", "-1 m"]
travel = ["-1 m", "0 m", "0 m"]
[[haul.network.body]]
name = "block"
kind = "block"
position = ["-2 m", "0 m", "-1 m"]
travel = ["-1 m", "0 m", "0 m"]
[[haul.network.body]]
name = "haulers"
kind = "hand"
position = ["-12 m", "0 m", "-1 m"]
[[haul.network.rope]]
name = "haul"
from = "haul rope"
over = [{ on = "block", grab = "start" }, { on = "tree", grab = "start" }, { on = "block" }]
to = "haulers"
"#;

#[test]
fn a_haul_may_be_a_network_of_its_own() {
    let without = DEMO.replace("\nsystem = \"3:1\"", "");
    let own = format!("{without}{NETWORK}");
    let rig = parse(&own).unwrap();
    assert_eq!(rig.haul.as_ref().unwrap().network.as_ref().unwrap().body.len(), 4);
    let named = plan(&parse(DEMO).unwrap()).unwrap().haul.unwrap();
    let written = plan(&rig).unwrap().haul.unwrap();
    assert!((written.hand_force.si() / named.hand_force.si() - 1.0).abs() < 1e-9);
    assert!((written.ideal_advantage.si() - 3.0).abs() < 1e-9);
    assert!((written.system_anchor.si() / named.system_anchor.si() - 1.0).abs() < 1e-9);
    // One or the other.
    let none = mistakes(&without);
    assert!(none.iter().any(|m| m.path == "haul.system" && m.message.contains("[haul.network]")));
    let both = mistakes(&format!("{DEMO}{NETWORK}"));
    assert!(both.iter().any(|m| m.path == "haul.network" && m.message.contains("leave one")));
    // A network that cannot be solved says so by name.
    let wrong =
        own.replace("{ on = \"tree\", grab = \"start\" }", "{ on = \"tree\", grab = \"end\" }");
    let error = plan(&parse(&wrong).unwrap()).unwrap_err().to_string();
    assert!(error.contains("turned the wrong way"), "{error}");
}

#[test]
fn schema_lists_the_keys_of_the_demo() {
    let schema: serde_json::Value = serde_json::from_str(&schema()).unwrap();
    let table: toml::Table = toml::from_str(DEMO).unwrap();
    for key in table.keys() {
        assert!(schema["properties"][key].is_object(), "{key}");
    }
}

/// The target of the invented demo rig, solved by independent planar scripts: within about 10 %.
#[test]
fn the_demo_plan_matches_its_target() {
    let plan = plan(&parse(DEMO).unwrap()).unwrap();
    let near = |got: f64, want: f64, part: f64, what: &str| {
        assert!((got / want - 1.0).abs() < part, "{what}: {got}, target {want}");
    };
    near(plan.lines[0].rest_length.si(), 127.74, 1e-4, "rest length of the main");
    near(plan.jump.body_force.extreme.value.si(), 3400.0, 0.1, "force on the body");
    let main = plan.checks.strength.iter().filter(|c| c.component == "main");
    let factor = main.map(|c| c.factor.si()).fold(f64::INFINITY, f64::min);
    near(factor, 3.3, 0.1, "factor of the main");
    let absent = |part: &str| {
        let component = plan.losses.components.iter().find(|c| c.name == part).unwrap();
        plan.losses.single[component.loss].absent_before.clone()
    };
    let main = absent("main, tie-in at the ring");
    near(main.body_force.unwrap().si(), 4000.0, 0.1, "force without the main");
    near(main.takes_load.unwrap().peak.si(), 5400.0, 0.1, "backup without the main");
    let rope = absent("left jump rope").body_force.unwrap();
    near(rope.si(), 3000.0, 0.1, "force on one rope");
    let bag = plan.bag.as_ref().unwrap();
    near(bag.body_force.extreme.value.si(), 2600.0, 0.2, "bag");
    let haul = plan.haul.as_ref().unwrap();
    near(haul.pull.si(), 850.0, 0.05, "greatest pull");
    near(haul.actual_advantage.si(), 2.5189, 1e-3, "3:1 at 0.83 per sheave");
    assert!(haul.steps.windows(2).all(|w| w[0].pull <= w[1].pull), "the pull grows on the way");
    // The far wall falls short in the soft run, as in the target; the floor does not.
    let wall =
        |name: &str| plan.checks.clearance.iter().find(|c| c.what.starts_with(name)).unwrap();
    assert!(wall("far wall").falls_short && !wall("floor").falls_short);
    assert!(wall("far wall").from.contains("soft run"));
    let metre = |what: &str| {
        plan.rope_sensitivity.iter().find(|s| s.what.contains(what)).unwrap().per_rope_length.si()
    };
    near(metre("far wall"), -1.0, 0.2, "far wall per metre of rope");
}

#[test]
fn a_plan_is_deterministic_and_survives_json() {
    let mut rig = parse(DEMO).unwrap();
    rig.jump.horizon = Some(crate::quantity::parse("5 s").unwrap());
    let (one, two) = (plan(&rig).unwrap(), plan(&rig).unwrap());
    let text = serde_json::to_string(&one).unwrap();
    assert_eq!(text, serde_json::to_string(&two).unwrap());
    let back: Plan = serde_json::from_str(&text).unwrap();
    assert_eq!(serde_json::to_string(&back).unwrap(), text);
    assert!(!text.to_lowercase().contains("safe"));
}

#[test]
fn small_rigs_are_planned_too() {
    // One line, one rope, no bag, no haul, no terrain, no gear, strength instead of legs.
    let text = r#"
        name = "small"
        jumper = { mass = "70 kg" }
        ring = { mass = "1 kg" }
        requirements = { factor = 3, body_force = "4 kN", clearance = "2 m" }
        anchor = [
            { name = "a", position = ["0 m", "0 m", "0 m"], strength = "20 kN" },
            { name = "b", position = ["40 m", "0 m", "0 m"], strength = "20 kN" },
        ]
        line = [{ name = "l", cordage = "w", from = "a", to = "b", tension = "3 kN", tension_state = "rigged" }]
        [cordage.w]
        linear_density = "70 g/m"
        stretch = { table = [["2 kN", "1 %"], ["10 kN", "4 %"]] }
        breaking_strength = "30 kN"
        [cordage.r]
        linear_density = "66 g/m"
        stretch = { en892_static_elongation = "8 %", en892_impact_force = "8.6 kN" }
        breaking_strength = "20 kN"
        relaxation = ["0.05 s", "1 s"]
        [jump]
        exit = ["1 m", "0 m", "0 m"]
        velocity = ["1 m/s", "0 m/s", "0 m/s"]
        response = "standard linear solid"
        horizon = "20 s"
        rope = [{ name = "rope", cordage = "r", rest_length = "20 m" }]
    "#;
    let plan = plan_text(text).unwrap();
    let results = plan.losses.single.iter().flat_map(Loss::results);
    assert!(results.into_iter().all(|(_, r)| r.outcome == LossOutcome::Falls));
    let all_on = plan.states.last().unwrap();
    assert!((all_on.lines[0].tension_near.si() - 3000.0).abs() < 1e-3);
    assert!(plan.haul.is_none() && plan.bag.is_none());
    assert!(plan.report().contains("falls: nothing else holds the jumper"));
}

/// The copy beside the examples is the schema of this version; a stale one is written anew and fails.
#[test]
fn the_schema_beside_the_examples_is_this_one() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples/rig.schema.json");
    let found = std::fs::read_to_string(path).unwrap_or_default();
    if found != schema() {
        std::fs::write(path, schema()).unwrap();
        panic!("examples/rig.schema.json was stale; it is written anew, commit it");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]
    #[test]
    fn a_document_with_random_edits_is_read_or_its_mistakes_have_lines(
        edits in proptest::collection::vec((0.0..1.0_f64, 0_usize..40, "[\\PC\n]{0,12}"), 1..6),
    ) {
        let mut text: Vec<char> = DEMO.chars().collect();
        for (at, length, with) in edits {
            // A share of a length: in range and positive.
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let from = (at * text.len() as f64) as usize;
            let to = (from + length).min(text.len());
            text.splice(from..to, with.chars());
        }
        let text: String = text.into_iter().collect();
        if let Err(error) = parse(&text) {
            let lines = text.lines().count() + 1;
            prop_assert!(!error.mistakes().is_empty());
            prop_assert!(error.mistakes().iter().all(|m| (1..=lines).contains(&m.line)), "{error}");
        }
    }
}
