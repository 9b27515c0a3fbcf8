//! Bolts, trees and blocks.

use super::*;

// By hand, from the force in the fixing.
#[test]
fn fixings_are_checked_for_what_they_are() {
    let hold = |plan: &AnchorPlan| plan.fixings[0].hold.clone().unwrap();
    let near = |got: Option<Force>, want: f64| {
        assert!((got.unwrap().si() / want - 1.0).abs() < 1e-9, "{got:?} {want}");
    };
    // Rock whose face leans 45° from the pull: 8 kN are 8/√2 kN of tension and of shear, with three quarters of the
    // tension left: 5.657 / 11.25 + 5.657 / 25 by the straight rule.
    let bolt = r#"bolt = { tension = "15 kN", shear = "25 kN", rule = "linear", out_of_rock = [1, 0, 1],
        reduction = [{ name = "edge distance", tension = 0.75, shear = 1 }] }"#;
    let plan = planned(&held_by(bolt, r#""-2 m", "0 m", "0 m""#), 8000.0);
    let part = 8.0 / 2.0_f64.sqrt();
    near(hold(&plan).tension, 1e3 * part);
    near(hold(&plan).shear, 1e3 * part);
    near(hold(&plan).limit, 8e3 / (part / 11.25 + part / 25.0));
    assert!(hold(&plan).how.contains("common practice, no source"), "{}", hold(&plan).how);
    // The model of losses has the same strength: the leg leads along the pull.
    assert!(
        (plan.fixings[0].factor.unwrap().si() / hold(&plan).factor.unwrap().si() - 1.0).abs()
            < 1e-9
    );
    let squares = bolt.replace("linear", "quadratic");
    let plan = planned(&held_by(&squares, r#""-2 m", "0 m", "0 m""#), 8000.0);
    near(hold(&plan).limit, 8e3 / (part / 11.25).hypot(part / 25.0));
    // A block of 2 t on level ground with friction 0.5 slides at half its weight, and would tip at 1 m over 0.2 m of it.
    let block = r#"block = { mass = "2000 kg", friction = 0.5, center_behind_edge = "0.5 m", center_height = "0.5 m",
        pull_height = "0.2 m" }"#;
    let plan = planned(&held_by(block, r#""-6 m", "0 m", "0 m""#), 5000.0);
    near(hold(&plan).limit, 9810.0);
    assert!(
        hold(&plan).how.contains("slides at 9.8 kN, tips at 49.0 kN, slides first"),
        "{}",
        hold(&plan).how
    );
    // A trunk of 0.2 m at 1 m: 10 kN level are 12.73 MPa.
    let tree = r#"tree = { diameter = "0.2 m", sling_height = "1 m", strength = "40 MPa" }"#;
    let plan = planned(&held_by(tree, r#""-6 m", "0 m", "0 m""#), 10e3);
    near(hold(&plan).limit, 10e3 * 40e6 / (32.0 * 10e3 / (core::f64::consts::PI * 0.008)));
    // A bolt pressed into the rock has no limit, and one without load no figures.
    let pressed = bolt.replace("[1, 0, 1]", "[-1, 0, 0]");
    let plan = planned(&held_by(&pressed, r#""-2 m", "0 m", "0 m""#), 8000.0);
    assert!(hold(&plan).limit.is_none() && hold(&plan).how.contains("pressed into the rock"));
    let slack = BACKUP.replace("strength = \"40 kN\" }", &format!("{tree} }}"));
    let plan = planned(&slack, 100.0);
    assert!(plan.fixings[0].hold.is_none());
    // But its loss is known: the tree breaks where its sling would not.
    let weak = slack.replace("40 MPa", "2 MPa");
    let plan = planned(&weak, 9000.0);
    assert!(lost(&plan, "bolt").verdict.contains("tree"), "{}", lost(&plan, "bolt").verdict);
}

#[test]
fn the_checks_hold_fixings_against_the_requirement() {
    let block = |mass: &str, slope: &str| {
        let block = format!(
            r#"block = {{ mass = "{mass}", friction = 0.5, slope = "{slope}", center_behind_edge = "0.5 m", center_height = "0.5 m",
            pull_height = "0.2 m" }}"#
        );
        document(&held_by(&block, r#""-6 m", "0 m", "0 m""#))
    };
    let plan = crate::rig::plan_text(&block("20 t", "0 deg")).unwrap();
    let check = plan.checks.strength.iter().find(|c| c.place == "near, as a block").unwrap();
    assert!(
        check.component == "it"
            && (check.demand.si() - plan.anchors[1].fixings[0].size.si()).abs() < 1e-9
    );
    assert!(
        (check.strength.si()
            * plan.anchors[1].fixings[0].hold.as_ref().unwrap().factor.unwrap().si().recip()
            - check.demand.si())
        .abs()
            < 1e-6
    );
    assert!((check.required.si() - 3.0).abs() < 1e-12);
    let table = plan.tables.iter().find(|t| t.key == "fixings").unwrap();
    assert_eq!(table.rows.len(), 1);
    // On ground so steep that it slides alone nothing is held, and the checks say so.
    let plan = crate::rig::plan_text(&block("20 t", "40 deg")).unwrap();
    let check = plan.checks.other.iter().find(|c| c.what == "it of near as a block").unwrap();
    assert!(check.falls_short && check.answer.contains("slides at 0.0 kN"), "{check:?}");
}
