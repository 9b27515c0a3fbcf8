//! Haul, frame, rescue and terrain of the document.

use std::sync::LazyLock;

use super::super::Plan;
use super::super::{parse, plan, plan_text};
use super::DEMO;
use crate::quantity::Quantity;

fn demo(edits: &[(&str, &str)]) -> Plan {
    plan(&parse(&edited(edits)).unwrap()).unwrap()
}

/// The demo as it is.
fn bare() -> &'static Plan {
    static BARE: LazyLock<Plan> = LazyLock::new(|| demo(&[]));
    &BARE
}

/// The demo followed for a short time, with texts replaced; each must be there.
fn edited(edits: &[(&str, &str)]) -> String {
    let mut text = DEMO.replace("[jump]\n", "[jump]\nhorizon = \"6 s\"\n");
    for (from, to) in edits {
        assert!(text.contains(from), "{from}");
        text = text.replace(from, to);
    }
    text
}

fn mistakes(edits: &[(&str, &str)]) -> String {
    plan_text(&edited(edits)).unwrap_err().to_string()
}

#[test]
fn strokes_time_and_the_other_systems() {
    let haul = bare().haul.clone().unwrap();
    let most = &haul.at_most;
    // Friction counted by hand: 1 + 0.83 + 0.83², parallel ropes in the system.
    assert!((most.actual_advantage.si() - 2.5189).abs() < 1e-9);
    let hand_n = haul.pull_behind_pulley.si() / 2.5189;
    assert!((haul.hand_force.si() - hand_n).abs() < 1e-6 * hand_n);
    assert_eq!(most.resets + 1, most.strokes);
    let lift_m = haul.haul_rope.si() - haul.steps.last().unwrap().rope_out.si();
    assert!(most.rope_through_hands.si() > 3.0 * lift_m);
    // Work at the greatest pull bounds the work along the way.
    assert!(most.work.si() >= haul.work.si());
    let picture = bare().pictures.haul.as_ref().unwrap();
    assert!(picture.contains("one stroke: 18.0 m of rope, 6.0 m of lift"), "{picture}");
    assert_eq!(haul.compared.each.len(), 12);
    // The least that three people of 200 N pull, counted again.
    let can = haul.compared.each.iter().filter(|w| w.hand_force.si() <= 600.0);
    let least = can.min_by(|a, b| a.ideal_advantage.si().total_cmp(&b.ideal_advantage.si()));
    assert_eq!(haul.compared.least, least.map(|w| w.system.clone()));
    // The lead pulley carries both parts of the rope, less for their angle.
    let (a, b) = (haul.pull_over_edge.si(), haul.pull_behind_pulley.si());
    assert!(haul.lead_pulley.si() <= a + b && haul.lead_pulley.si() >= b - a);
}

#[test]
fn every_system_has_a_word() {
    let words = [
        "1:1",
        "2:1",
        "3:1",
        "4:1",
        "5:1",
        "6:1",
        "9:1",
        "4:1 of one rope",
        "6:1 turned",
        "8:1",
        "3:1 complex",
        "5:1 complex",
    ];
    let rig = |word: &str| parse(&edited(&[("\"3:1\"", &format!("\"{word}\""))])).unwrap();
    let ideal: Vec<u32> = crate::pulley::ordinary_systems().iter().map(|s| s.ideal).collect();
    for word in words {
        let system = rig(word).haul.unwrap().system.unwrap();
        let number: u32 = word[..1].parse().unwrap();
        assert!(ideal.contains(&number), "{word} {system:?}");
    }
    let said = mistakes(&[("\"3:1\"", "\"7:1\"")]);
    assert!(said.contains("haul.system"), "{said}");
}

#[test]
fn a_hobble_takes_over_friction_and_a_slope_changes_it() {
    let feet = |plan: &Plan| {
        let frame = plan.haul.as_ref().unwrap().frame.as_ref().unwrap();
        frame.members[0].friction_needed.unwrap().si()
    };
    let hobble = "hobble = { round = [\"left pole\", \"right pole\"], friction = 0.4 }";
    let tied = demo(&[("[frame]\n", &format!("[frame]\n{hobble}\n"))]);
    let bare = bare();
    let legs = |plan: &Plan| plan.haul.as_ref().unwrap().frame.as_ref().unwrap().members[0].force;
    assert!((legs(&tied).si() - legs(bare).si()).abs() < 1e-6 * legs(bare).si());
    // Ground that faces the thrust of the foot asks for less friction.
    let foot = "name = \"left pole\", foot = [\"-0.2 m\", \"1.1 m\", \"-1.74 m\"]";
    let slope = format!("{foot}, ground_normal = [\"1 m\", \"-0.6 m\", \"1.9 m\"]");
    assert!(feet(&demo(&[(foot, &slope)])) < feet(bare));
    let wrong = hobble.replace("left pole", "middle pole");
    let said = mistakes(&[("[frame]\n", &format!("[frame]\n{wrong}\n"))]);
    assert!(said.contains("frame.hobble.round[0]") && said.contains("middle pole"), "{said}");
}

#[test]
fn two_people_sag_lower_and_the_rope_reaches_or_not() {
    let plan_ = bare();
    let rescue = plan_.rescue.as_ref().unwrap();
    let one = plan_.person.iter().find(|s| s.lines.len() == rescue.two.lines.len()).unwrap();
    let weight_n = (82.0 + 75.0) * 9.81;
    assert!((rescue.two.load.si() - weight_n).abs() < 1.0);
    let drop_m = one.ring[2].si() - rescue.two.ring[2].si();
    assert!(drop_m > 0.0 && (rescue.lower_by.si() - drop_m).abs() < 1e-9);
    for (two, one) in rescue.two.lines.iter().zip(&one.lines) {
        assert!(two.tension_near > one.tension_near, "{}", two.name);
    }
    assert!(rescue.climb.greatest.si() > weight_n && rescue.climb.least.si() < weight_n);
    let down = rescue.lowering.as_ref().unwrap();
    let (needed, left) = (down.rope_needed.unwrap().si(), down.rope_left.unwrap().si());
    assert!((needed + left - 200.0).abs() < 1e-9 && down.reaches == (left >= 0.0));
    // Load, pulley, then the belt friction of two turns: e^(μ·4π) behind the pulley.
    let ratio = (0.25 * 4.0 * std::f64::consts::PI).exp();
    let (behind, asked) = (down.one.steps[1].arrives.si(), down.one.steps[2].arrives.si());
    assert!((behind / asked - ratio).abs() < 1e-9 * ratio);
    assert!(down.both.steps[2].arrives > down.one.steps[2].arrives);
    let short = demo(&[("rope_length = \"200 m\"", "rope_length = \"60 m\"")]);
    let check = short.checks.other.iter().find(|c| c.what == "the rope to lower with").unwrap();
    assert!(check.falls_short && check.answer.ends_with("too short"), "{}", check.answer);
}

#[test]
fn a_mesh_of_the_floor_is_the_floor() {
    // The floor of the demo as two triangles 200 m wide.
    let edit = |obj: &str| {
        let at = DEMO.find("name = \"floor\"").unwrap();
        let from = at + DEMO[at..].find("points").unwrap();
        let to = from + DEMO[from..].find("]]").unwrap() + 2;
        (DEMO[from..to].to_owned(), format!("mesh = {{ obj = \"\"\"{obj}\"\"\" }}"))
    };
    let bare = bare();
    let low = |plan: &Plan| plan.jump.soft.height_left.map(Quantity::si);
    let z = bare.jump.soft.lowest.value.si() - low(bare).unwrap() - 0.9;
    let obj = format!("v -50 -100 {z}\nv 200 -100 {z}\nv 200 100 {z}\nv -50 100 {z}\nf 1 2 3 4\n");
    let (from, to) = edit(&obj);
    let meshed = demo(&[(&from, &to)]);
    let (a, b) = (low(&meshed).unwrap(), low(bare).unwrap());
    assert!((a - b).abs() < 1e-6, "{a} {b}");
    assert!(meshed.pictures.side_view.len() > 1000);
    let both = format!("{from}\n{to}");
    assert!(mistakes(&[(&from, &both)]).contains("a mesh is given too"));
    let (_, broken) = edit("v 0 0 0\nf 1 2 3\n");
    assert!(mistakes(&[(&from, &broken)]).contains("line 2"));
    let neither = to.replace("obj", "stl").replace("v -50", "solid");
    assert!(plan_text(&edited(&[(&from, &neither)])).is_err());
}

#[test]
fn a_long_body_keeps_less_clearance() {
    let long = demo(&[("[jumper]\n", "[jumper]\nlength = \"1.88 m\"\n")]);
    let ball = bare();
    for (long, ball) in long.jump.clearances.iter().zip(&ball.jump.clearances) {
        assert!(long.least.extreme.value.si() <= ball.least.extreme.value.si() + 1e-6);
    }
    // Its length turns nothing but its clearances, in the full model too.
    assert_eq!(long.waves, ball.waves);
}
