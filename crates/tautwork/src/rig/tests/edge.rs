//! Edges and pads of the document.

use super::super::{EdgePlan, Plan, parse, plan, plan_text};
use super::DEMO;
use crate::quantity::Quantity;

fn text(more: &str) -> String {
    let text = DEMO.replace("[jump]\n", "[jump]\nhorizon = \"12 s\"\n");
    format!("{}\n{more}", text.replace("edge_wrap = \"0 deg\"\n", ""))
}

fn planned(more: &str) -> Plan {
    plan(&parse(&text(more)).unwrap()).unwrap()
}

fn on<'a>(plan: &'a Plan, part: &str, edge: &str) -> Option<&'a EdgePlan> {
    plan.edges.iter().find(|e| e.part == part && e.edge == edge)
}

fn finding(plan: &Plan, what: &str) -> bool {
    plan.checks.other.iter().any(|c| c.what == what && c.falls_short && c.answer.contains("bare"))
}

/// Angle by which the way over an edge turns, in the plane of the span.
fn turn(a: [f64; 2], e: [f64; 2], b: [f64; 2]) -> f64 {
    let way = |p: [f64; 2], q: [f64; 2]| (q[1] - p[1]).atan2(q[0] - p[0]);
    (way(a, e) - way(e, b)).abs()
}

const LIP: &str =
    "[[edge]]\nname = \"near lip\"\nposition = [\"1 m\", \"0 m\", \"0.5 m\"]\nfriction = 0.5\n";
const PAD: &str = "pad = [{ name = \"mat\", under = [\"main\"], friction = 0.2, radius = \"40 mm\", mass = \"1.4 kg\" }]\n";

#[test]
fn the_demo_lies_on_no_edge() {
    let plan = planned("");
    assert!(plan.edges.is_empty() && plan.tables.iter().all(|t| t.key != "edges"));
}

#[test]
fn a_line_on_a_lip_turns_by_the_angle_of_its_ends() {
    let plan = planned(&format!("{LIP}{PAD}"));
    let main = on(&plan, "main", "near lip").unwrap();
    let (mut most_turn, mut most_n, mut highest_n) = (0.0_f64, 0.0_f64, 0.0_f64);
    let mut take = |ring: [f64; 2], tension_n: f64| {
        let theta = turn([0.0, 0.0], [1.0, 0.5], ring);
        let behind_n = tension_n * (0.2 * theta).exp();
        // Two forces at an angle.
        let across = tension_n.mul_add(tension_n, behind_n * behind_n);
        let force_n = (across - 2.0 * tension_n * behind_n * theta.cos()).sqrt();
        most_turn = most_turn.max(theta);
        most_n = most_n.max(force_n);
        highest_n = highest_n.max(behind_n);
    };
    for state in plan.states.iter().chain(&plan.person) {
        if let Some(line) = state.lines.iter().find(|l| l.name == "main") {
            take([state.ring[0].si(), state.ring[2].si()], line.tension_near.si());
        }
    }
    for flight in [&plan.jump.stiff, &plan.jump.soft] {
        let s = &flight.series;
        for (k, (x, z)) in s.ring_x_m.iter().zip(&s.ring_z_m).enumerate() {
            take([*x, *z], s.line_near_tension_n[0][k]);
        }
    }
    assert!((main.turn.si() - most_turn).abs() < 1e-9, "{main:?} {most_turn}");
    assert!((main.contact.si() / most_n - 1.0).abs() < 1e-9 && main.from.contains("jump"));
    assert!((main.capstan_ratio.si() - (0.2 * most_turn).exp()).abs() < 1e-9);
    assert!((main.behind.si() / highest_n - 1.0).abs() < 1e-9);
    assert!((main.pressure.unwrap().si() / (highest_n / 0.04) - 1.0).abs() < 1e-9);
    // What stretches between anchor and lip: more than a metre of it at no more than 4 % of stretch.
    assert!(main.travel.si() > 1e-3 && main.travel.si() < 0.5, "{main:?}");
    let rub = plan.rubs.iter().find(|r| r.part == "main" && r.place == "near lip").unwrap();
    assert_eq!(rub.wear.travel, main.travel);
    assert!((rub.wear.work.unwrap().si() / (0.2 * rub.wear.force_travel.si()) - 1.0).abs() < 1e-9);
    assert!(!finding(&plan, "main on the near lip"));
    let backup = on(&plan, "backup", "near lip").unwrap();
    assert!(backup.pad.is_none() && backup.pressure.is_none());
    assert!(finding(&plan, "backup on the near lip"));
    let mat = plan.kit.pieces.iter().find(|p| p.name == "mat").unwrap();
    assert!((mat.mass.unwrap().si() - 1.4).abs() < 1e-12 && mat.kind == "edge pad");
    assert!(plan.tables.iter().any(|t| t.key == "edges" && t.rows.len() == plan.edges.len()));
}

#[test]
fn the_haul_pays_for_the_edge_it_is_drawn_over() {
    let edge =
        "[[edge]]\nname = \"lip\"\nposition = [\"2 m\", \"0 m\", \"-0.5 m\"]\nfriction = 0.3\n";
    let plan = planned(edge);
    let haul = plan.haul.as_ref().unwrap();
    let rope = on(&plan, "haul rope", "lip").unwrap();
    // From the pulley at (1.8, 0.4): it bends where the straight way would pass on the near side of the edge.
    let over = |step: &super::super::HaulStep| {
        let b = [step.body[0].si(), step.body[2].si()];
        let x_m = 1.8 + 0.9 / (0.4 - b[1]) * (b[0] - 1.8);
        if x_m < 2.0 { turn([1.8, 0.4], [2.0, -0.5], b) } else { 0.0 }
    };
    let most = haul.steps.iter().map(over).fold(0.0, f64::max);
    assert!(most > 0.01 && (rope.turn.si() - most).abs() < 1e-9, "{rope:?} {most}");
    let worst = haul.steps.iter().max_by(|a, b| a.pull.si().total_cmp(&b.pull.si())).unwrap();
    let ratio = haul.pull_over_edge.si() / haul.pull.si();
    assert!((ratio - (0.3 * over(worst)).exp()).abs() < 1e-9, "{ratio}");
    // Drawn over it, not only moved on it.
    assert!(rope.travel.si() > 1.0 && finding(&plan, "haul rope on the lip"));
    let given = text(edge).replace("edge_friction", "edge_wrap = \"0 deg\"\nedge_friction");
    let given = plan_text(&given).unwrap().haul.unwrap();
    assert_eq!(given.pull_over_edge, given.pull);
}

#[test]
fn the_loop_of_the_waiting_jumper_lies_on_the_lip() {
    let edge =
        "[[edge]]\nname = \"ledge\"\nposition = [\"2.5 m\", \"0 m\", \"-1.1 m\"]\nfriction = 0.4\n";
    let plan = planned(edge);
    let rope = on(&plan, "left jump rope", "ledge").unwrap();
    assert!(rope.turn.si() > 0.0 && rope.pad.is_none(), "{rope:?}");
    assert!(finding(&plan, "left jump rope on the ledge"));
}

// The ropes sweep down from the exit over everything between ring and body.
#[test]
fn a_nose_that_the_ropes_sweep_over_is_found_in_profile_and_mesh() {
    let profile = "[[terrain]]\nname = \"nose\"\npoints = [[\"49 m\", \"-31 m\"], [\"50 m\", \"-30 m\"], [\"51 m\", \"-31 m\"]]\n";
    let obj = "v 50 -5 -30\nv 50 5 -30\nv 49 5 -31\nv 49 -5 -31\nv 51 -5 -31\nv 51 5 -31\nf 1 2 3 4\nf 2 1 5 6\n";
    let mesh = format!("[[terrain]]\nname = \"nose\"\nmesh = {{ obj = \"\"\"{obj}\"\"\" }}\n");
    let found = [profile, &mesh].map(|more| {
        let plan = planned(more);
        let name = "nose at x 49.0 m, z -31.0 m";
        assert!(finding(&plan, &format!("left jump rope on the {name}")), "{:?}", plan.edges);
        on(&plan, "left jump rope", name).unwrap().clone()
    });
    assert!(found[0].turn.si() > 0.2 && found[0].friction.is_none());
    assert!((found[0].turn.si() - found[1].turn.si()).abs() < 1e-9, "{found:?}");
    assert!((found[0].contact.si() / found[1].contact.si() - 1.0).abs() < 1e-9);
    // An edge of that place takes the finding over, and a pad answers it.
    let pad = "pad = [{ name = \"roller\", under = [\"left jump rope\", \"right jump rope\"], friction = 0.1 }]\n";
    let edge = "[[edge]]\nname = \"nose tip\"\nposition = [\"49 m\", \"0 m\", \"-31 m\"]\nfriction = 0.3\n";
    let wall =
        profile.replace("[\"50 m\", \"-30 m\"], [\"51 m\", \"-31 m\"]", "[\"49 m\", \"-32 m\"]");
    let plan = planned(&format!("{wall}{edge}{pad}"));
    assert!(on(&plan, "left jump rope", "nose tip").unwrap().pad.is_some());
    assert!(!finding(&plan, "left jump rope on the nose tip"));
}

#[test]
fn wrong_edges_say_why() {
    let says = |more: &str, part: &str| {
        let error = plan_text(&text(more)).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    };
    let pad = |from: &str, to: &str| format!("{LIP}{}", PAD.replace(from, to));
    says(&pad("\"main\"", "\"mian\""), "edge[0].pad[0].under[0]");
    says(&pad("[\"main\"]", "[]"), "edge[0].pad[0].under: name at least one line or rope");
    says(&pad("[\"main\"]", "[\"main\", \"main\"]"), "\"main\" lies on another pad");
    says(&pad("friction = 0.2", "friction = -0.2"), "edge[0].pad[0].friction");
    says(&pad("\"40 mm\"", "\"0 mm\""), "edge[0].pad[0].radius");
    says(&format!("{LIP}{LIP}"), "edge[1].name: the name \"near lip\" is taken");
    says(&LIP.replace("friction = 0.5\n", ""), "friction");
}
