use proptest::prelude::*;

use super::*;
use crate::quantity::Words;
use crate::rig::{Mistake, RigError, parse};

/// A small rig with an anchor `near` of the given body, pulled along the span.
fn document(anchor: &str) -> String {
    format!(
        r#"
        name = "small"
        jumper = {{ mass = "70 kg" }}
        ring = {{ mass = "1 kg" }}
        requirements = {{ factor = 3, body_force = "4 kN", clearance = "2 m" }}
        line = [{{ name = "l", cordage = "w", from = "near", to = "far", tension = "3 kN" }}]
        [cordage.w]
        linear_density = "70 g/m"
        stretch = {{ axial_rigidity = "250 kN" }}
        breaking_strength = "30 kN"
        [cordage.r]
        linear_density = "66 g/m"
        stretch = {{ en892_static_elongation = "8 %", en892_impact_force = "8.6 kN" }}
        breaking_strength = "20 kN"
        [jump]
        exit = ["1 m", "0 m", "0 m"]
        velocity = ["1 m/s", "0 m/s", "0 m/s"]
        response = "stiff and soft"
        horizon = "5 s"
        rope = [{{ name = "rope", cordage = "r", rest_length = "20 m" }}]
        [[anchor]]
        name = "far"
        position = ["40 m", "0 m", "0 m"]
        strength = "90 kN"
        [[anchor]]
        name = "near"
        position = ["0 m", "0 m", "0 m"]
        {anchor}
        "#
    )
}

/// Two branches to the left and the right of the pull, each of two legs above and below it.
const BRANCHES: &str = r#"
    knot = [
        { name = "left knot", position = ["-2 m", "0.2 m", "0 m"] },
        { name = "right knot", position = ["-2 m", "-0.2 m", "0 m"] },
    ]
    leg = [
        { name = "left up", fixing = ["-4 m", "0.4 m", "0.1 m"], to = "left knot", stiffness = "900 kN/m", strength = "20 kN" },
        { name = "left down", fixing = ["-4 m", "0.4 m", "-0.1 m"], to = "left knot", stiffness = "900 kN/m", strength = "20 kN" },
        { name = "right up", fixing = ["-4 m", "-0.4 m", "0.1 m"], to = "right knot", stiffness = "900 kN/m", strength = "20 kN" },
        { name = "right down", fixing = ["-4 m", "-0.4 m", "-0.1 m"], to = "right knot", stiffness = "900 kN/m", strength = "20 kN" },
        { name = "left branch", from = "left knot", stiffness = "900 kN/m", strength = "30 kN", part = [
            { name = "connector", strength = "22 kN", mass = "85 g" },
            { name = "tied sling", strength = "25 kN", length = "0.5 m", cordage = "w", strands = 2, factor = [{ name = "knot", factor = [0.6, 0.7] }] },
        ] },
        { name = "right branch", from = "right knot", stiffness = "900 kN/m", strength = "30 kN" },
    ]
"#;

const BACKUP: &str = r#"
    fixing = [{ name = "tree", position = ["-9 m", "0 m", "0 m"], strength = "40 kN" }]
    leg = [
        { name = "bolt", fixing = ["-1 m", "0 m", "0 m"], stiffness = "1000 kN/m", strength = "20 kN" },
        { name = "backup", from = "tree", slack = "0.01 m", stiffness = "1000 kN/m", strength = "20 kN" },
    ]
"#;

fn planned(anchor: &str, pull_n: f64) -> AnchorPlan {
    let rig = parse(&document(anchor)).unwrap();
    plan(&rig, &rig.anchor[1], [pull_n, 0.0, 0.0].map(Force::from_si), "the test").unwrap()
}

fn lost<'a>(plan: &'a AnchorPlan, part: &str) -> &'a crate::rig::AnchorLossPlan {
    plan.lost.iter().find(|lost| lost.parts.iter().any(|name| name == part)).unwrap()
}

#[test]
fn two_branches_under_a_pull_between_them_share_it_in_quarters() {
    // Without the further sling, both branches are alike.
    let even = BRANCHES.replace("length = \"0.5 m\", cordage = \"w\", strands = 2, ", "");
    let plan = planned(&even, 4000.0);
    for leg in &plan.legs[..4] {
        assert!((leg.share.unwrap().si() - 0.25).abs() < 1e-9, "{leg:?}");
    }
    // The branches have no fixing, and stand at the angle to which the pull draws them: each half of it.
    assert!(plan.legs[4].share.is_none());
    let knot = plan.knots[0].position.map(Quantity::si);
    assert!(!plan.knots[0].loose && knot[2].abs() < 1e-12);
    let tension = plan.legs[4].tension.si();
    assert!((tension - plan.legs[5].tension.si()).abs() < 1e-6 && tension > 2000.0, "{tension}");
    assert!((tension - 2000.0 * 1.01_f64.sqrt()).abs() < 10.0, "about 1 in 10: {tension}");
    // The part with the least strength left governs: 25 kN by 0.6 against 22 kN.
    assert_eq!(plan.legs[4].governed_by.as_deref(), Some("tied sling"));
    assert!((plan.legs[4].factor.unwrap().si() * tension / 15e3 - 1.0).abs() < 1e-9);
    assert_eq!(plan.weakest.as_deref(), Some("tied sling of left branch"));
}

#[test]
fn the_loss_of_a_branch_moves_everything_to_the_other() {
    let plan = planned(BRANCHES, 4000.0);
    let branch = lost(&plan, "left branch");
    // Knot, connector and sling are in series with it, its legs are not.
    let series =
        ["left branch", "connector of left branch", "tied sling of left branch", "left knot"];
    assert_eq!(branch.parts, series);
    assert!(branch.holds && branch.verdict.starts_with("held: extends"), "{}", branch.verdict);
    assert_eq!(branch.worst_leg.as_deref(), Some("right branch"));
    // All of the pull, in line with it.
    assert!((branch.worst_tension.unwrap().si() / 4000.0 - 1.0).abs() < 1e-9);
    assert!(branch.peak_tension > branch.worst_tension);
    // One leg of a branch: its twin carries the branch alone.
    assert_eq!(lost(&plan, "left up").parts, ["left up"]);
    // Losses of both branches are no pair that holds; of two legs of one branch they are the branch.
    assert_eq!(plan.lost.len(), 6);
    let pair = |a: &str, b: &str| plan.pairs.iter().find(|p| p.parts == [a, b]).unwrap();
    assert!(!pair("left branch", "right branch").holds);
    assert!(pair("left up", "left down").holds, "{:?}", pair("left up", "left down"));
    assert!(pair("left up", "right up").holds, "{:?}", pair("left up", "right up"));
    // What one part does alone is no pair with it: of the fifteen, those of a branch with its own legs, and the two
    // legs of a branch, which are the branch.
    assert!(plan.pairs.len() < 15);
    assert!(
        plan.redundancy.starts_with("each of 6 parts lost leaves a path"),
        "{}",
        plan.redundancy
    );
    assert!(plan.redundancy.contains("left branch + right branch"), "{}", plan.redundancy);
}

#[test]
fn a_slack_backup_changes_nothing_until_it_is_reached() {
    // 1 MN/m: 9 kN gives 9 mm, short of the 10 mm of slack.
    let plan = planned(BACKUP, 9000.0);
    assert!((plan.legs[0].share.unwrap().si() - 1.0).abs() < 1e-12);
    assert_eq!(plan.legs[1].tension.si(), 0.0);
    assert!(plan.legs[1].factor.is_none() && plan.fixings[0].factor.is_none());
    let same = lost(&plan, "backup");
    assert_eq!(same.parts, ["backup", "tree"]);
    assert!(same.extension.unwrap().si().abs() < 1e-12);
    // At 14 kN both stretch: 10 kN to the slack, and half of what is more.
    let plan = planned(BACKUP, 14_000.0);
    assert!((plan.legs[0].tension.si() - 12_000.0).abs() < 1e-3);
    assert!((plan.legs[1].tension.si() - 2000.0).abs() < 1e-3);
    assert!((plan.fixings[0].factor.unwrap().si() - 20.0).abs() < 1e-5);
    // The bolt gone under 4 kN: 10 mm less the 4 mm of its stretch to fall through, and 4 mm more at rest.
    let plan = planned(BACKUP, 4000.0);
    let bolt = lost(&plan, "bolt");
    assert!((bolt.extension.unwrap().si() - 0.010).abs() < 1e-9, "{bolt:?}");
    // Energy: ½ k x² = P (6 mm + x), so x = (P + √(P² + 2 k P · 6 mm)) / k.
    let x = (4e3 + (4e3_f64.powi(2) + 2.0 * 1e6 * 4e3 * 0.006).sqrt()) / 1e6;
    assert!((bolt.peak_tension.unwrap().si() / (1e6 * x) - 1.0).abs() < 1e-6, "{bolt:?}");
    assert!(bolt.holds);
    // Under 10 kN the backup would hold at rest, but its jerk is past 20 kN; under 21 kN not even that.
    let jerk = planned(BACKUP, 10_500.0);
    assert!(lost(&jerk, "bolt").verdict.starts_with("not held: the jerk takes backup past"));
    let slow = planned(BACKUP, 21_000.0);
    assert!(
        lost(&slow, "bolt").verdict.contains("not held: then backup breaks, and no path is left")
    );
    assert!(slow.redundancy.contains("not bolt"), "{}", slow.redundancy);
}

// One free knot is a system of one junction.
#[test]
fn flat_legs_are_those_of_the_anchor_of_one_master_point() {
    let flat = r#"leg = [
        { name = "near", fixing = ["-2 m", "1 m", "0.2 m"], cordage = "w", strands = 2, strength = "22 kN" },
        { name = "fixing of near", fixing = ["-2.2 m", "0 m", "0.2 m"], cordage = "w", strength = "22 kN" },
        { name = "master point of near", fixing = ["-2 m", "-1 m", "0.2 m"], rest_length = "2.5 m", stiffness = "90 kN/m", strength = "22 kN" },
    ]"#;
    let plan = planned(flat, 5000.0);
    let rig = parse(&document(flat)).unwrap();
    let leg = |i: usize, ea: Option<f64>| {
        let leg = &rig.anchor[1].leg[i];
        crate::anchor::Leg {
            name: leg.name.clone(),
            fixing: leg.fixing.unwrap(),
            rest_length: rig.anchor[1].rest_length(leg).unwrap(),
            stiffness: leg.stiffness,
            axial_rigidity: ea.map(Words::kilonewtons),
            strength: None,
        }
    };
    let model = crate::anchor::Anchor {
        legs: vec![leg(0, Some(500.0)), leg(1, Some(250.0)), leg(2, None)],
        pull: [5000.0, 0.0, 0.0].map(Force::from_si),
    };
    let rest = crate::anchor::equilibrium(&model).unwrap();
    for (found, want) in plan.legs.iter().zip(&rest.legs) {
        assert!((found.tension.si() - want.tension.si()).abs() < 1e-6, "{found:?} {want:?}");
        assert!((found.share.unwrap().si() - want.share.si()).abs() < 1e-9);
    }
}

fn mistakes(anchor: &str) -> Vec<Mistake> {
    match parse(&document(anchor)) {
        Err(RigError::Document(mistakes)) => mistakes,
        other => panic!("no mistakes found: {other:?}"),
    }
}

#[test]
fn every_mistake_of_an_anchor_comes_at_once_with_its_line_and_key() {
    let wrong = r#"
        knot = [
            { name = "one", position = ["-1 m", "0 m", "0 m"] },
            { name = "two", position = ["-2 m", "0 m", "0 m"] },
            { name = "bare", position = ["-2 m", "1 m", "0 m"] },
            { name = "blind", position = ["-2 m", "2 m", "0 m"] },
            { name = "one", position = ["-1 m", "3 m", "0 m"] },
        ]
        fixing = [{ name = "idle", position = ["-9 m", "0 m", "0 m"] }]
        leg = [
            { name = "a", from = "one", to = "two", stiffness = "1 kN/m", strength = "9 kN" },
            { name = "b", from = "two", to = "one", stiffness = "1 kN/m", strength = "9 kN" },
            { name = "c", from = "bare", stiffness = "0 kN/m", strength = "9 kN" },
            { name = "d", fixing = ["-3 m", "0 m", "0 m"], to = "blind", stiffness = "1 kN/m", strength = "9 kN" },
            { name = "e", fixing = ["-3 m", "0 m", "0 m"], to = "blnd", stiffness = "1 kN/m", strength = "9 kN" },
            { name = "f", from = "one", fixing = ["-3 m", "0 m", "0 m"], slack = "1 m", rest_length = "3 m", stiffness = "1 kN/m", strength = "9 kN" },
            { name = "g", strength = "9 kN", cordage = "w" },
            { name = "h", from = "two", to = "two", stiffness = "1 kN/m", strength = "9 kN" },
            { name = "i", fixing = ["-3 m", "0 m", "0 m"], stiffness = "1 kN/m", strength = "9 kN", part = [
                { name = "link", strength = "9 kN" },
                { name = "link", strength = "9 kN", cordage = "v", mass = "1 g" },
                { name = "long", strength = "9 kN", length = "3 m" },
            ] },
        ]
    "#;
    let found = mistakes(wrong);
    let text = document(wrong);
    let line = |part: &str| text.lines().position(|l| l.contains(part)).unwrap() + 1;
    let expected = [
        (
            "{ name = \"one\", position = [\"-1 m\", \"0 m\"",
            "anchor[1].knot[0]",
            "legs lead in a loop from \"one\" back to it",
        ),
        ("{ name = \"two\", position", "anchor[1].knot[1]", "legs lead in a loop from \"two\""),
        (
            "{ name = \"bare\", position",
            "anchor[1].knot[2]",
            "nothing holds \"bare\": no way of legs leads to it",
        ),
        (
            "{ name = \"blind\", position",
            "anchor[1].knot[3]",
            "\"blind\" is not reached: no way of legs leads from it",
        ),
        ("\"3 m\", \"0 m\"] },", "anchor[1].knot[4].name", "the name \"one\" is taken"),
        ("fixing = [{ name = \"idle\"", "anchor[1].fixing[0]", "no leg begins at \"idle\""),
        ("name = \"c\"", "anchor[1].leg[2].stiffness", "above zero"),
        ("name = \"e\"", "anchor[1].leg[4].to", "did you mean \"blind\"?"),
        (
            "name = \"f\"",
            "anchor[1].leg[5]",
            "give either fixing, the place where the leg is fixed, or from",
        ),
        ("name = \"f\"", "anchor[1].leg[5].slack", "the rest length is given too"),
        (
            "name = \"g\"",
            "anchor[1].leg[6]",
            "give either fixing, the place where the leg is fixed, or from",
        ),
        ("name = \"h\"", "anchor[1].leg[7].to", "the leg leads from a knot to itself"),
        (
            "name = \"link\", strength = \"9 kN\", cordage",
            "anchor[1].leg[8].part[1].name",
            "the name \"link\" is taken",
        ),
        (
            "name = \"link\", strength = \"9 kN\", cordage",
            "anchor[1].leg[8].part[1].cordage",
            "not known here",
        ),
        (
            "name = \"link\", strength = \"9 kN\", cordage",
            "anchor[1].leg[8].part[1]",
            "needs a length",
        ),
        (
            "name = \"link\", strength = \"9 kN\", cordage",
            "anchor[1].leg[8].part[1].mass",
            "leave this key out",
        ),
        ("name = \"i\"", "anchor[1].leg[8].part", "nothing is left for its cord"),
    ];
    for (at, path, message) in expected {
        let has = found.iter().find(|m| m.path == path && m.message.contains(message));
        let has = has.unwrap_or_else(|| panic!("{path}: {message} not in {found:#?}"));
        assert_eq!(has.line, line(at), "{has}");
    }
    assert_eq!(found.len(), expected.len(), "no mistake follows from another: {found:#?}");
    let no_knots = mistakes(&BACKUP.replace("from = \"tree\"", "to = \"knot\", from = \"tree\""));
    assert!(no_knots[0].message.contains("the anchor has no knot \"knot\""), "{no_knots:?}");
    let many = format!(
        "{BACKUP}knot = [{}]",
        r#"{ name = "k", position = ["0 m", "0 m", "1 m"] },"#.repeat(201)
    );
    assert!(mistakes(&many)[0].message.contains("at most 200"));
}

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => -5.0..5.0_f64,
        2 => (-9.0..9.0_f64).prop_map(|e| 10.0_f64.powf(e)),
        1 => prop::sample::select(vec![0.0, -1.0, 1e-320, 1e300, 1e-300]),
    ]
}

fn place() -> impl Strategy<Value = String> {
    [number(), number(), number()]
        .prop_map(|[x, y, z]| format!("[\"{x:e} m\", \"{y:e} m\", \"{z:e} m\"]"))
}

fn begin() -> impl Strategy<Value = String> {
    prop_oneof![
        3 => place().prop_map(|p| format!("fixing = {p}")),
        2 => (0..4).prop_map(|i| format!("from = \"k{i}\"")),
        1 => Just("from = \"tree\"".to_owned()),
    ]
}

fn leg() -> impl Strategy<Value = String> {
    let end =
        prop_oneof![1 => Just(String::new()), 1 => (0..4).prop_map(|i| format!(", to = \"k{i}\""))];
    let slack = prop_oneof![2 => Just(String::new()), 1 => number().prop_map(|s| format!(", slack = \"{s:e} m\""))];
    let cord = prop_oneof![
        1 => (1..4).prop_map(|n| format!("cordage = \"w\", strands = {n}")),
        2 => number().prop_map(|k| format!("stiffness = \"{k:e} kN/m\"")),
    ];
    let part = prop_oneof![
        3 => Just(String::new()),
        1 => number().prop_map(|s| format!(", part = [{{ name = \"p\", strength = \"{s:e} kN\" }}]")),
    ];
    (begin(), end, slack, cord, part, number()).prop_map(
        |(begin, end, slack, cord, part, strength)| {
            format!("{begin}{end}{slack}, {cord}{part}, strength = \"{strength:e} kN\"")
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    #[test]
    fn random_anchors_are_planned_or_refused_with_a_reason(
        knots in prop::collection::vec(place(), 0..4),
        tree in place(),
        legs in prop::collection::vec(leg(), 1..8),
        pull in [number(), number(), number()],
    ) {
        let knots: Vec<_> =
            knots.iter().enumerate().map(|(i, p)| format!("{{ name = \"k{i}\", position = {p} }}")).collect();
        let legs: Vec<_> = legs.iter().enumerate().map(|(i, l)| format!("{{ name = \"l{i}\", {l} }}")).collect();
        let tree = if legs.iter().any(|leg| leg.contains("tree")) {
            format!("fixing = [{{ name = \"tree\", position = {tree}, strength = \"9 kN\" }}]")
        } else {
            String::new()
        };
        let text = document(&format!("knot = [{}]\n{tree}\nleg = [{}]", knots.join(", "), legs.join(", ")));
        match parse(&text) {
            Err(error) => prop_assert!(!error.mistakes().is_empty()),
            Ok(rig) => {
                let pull = pull.map(|p| (p * 1e3).newtons());
                if let Ok(plan) = plan(&rig, &rig.anchor[1], pull, "the test") {
                    prop_assert!(plan.legs.iter().all(|leg| leg.tension.si().is_finite()));
                    // What the fixings take up is the pull.
                    let share: f64 = plan.legs.iter().filter_map(|l| l.share).map(Quantity::si).sum();
                    prop_assert!(plan.legs.is_empty() || (share - 1.0).abs() < 1e-5, "{share} {plan:?}");
                    for loss in plan.lost.iter().chain(&plan.pairs) {
                        prop_assert!(!loss.parts.is_empty() && !loss.verdict.is_empty());
                        prop_assert!(loss.extension.is_none_or(|e| e.si().is_finite()));
                        prop_assert!(loss.verdict.starts_with("held") == loss.holds, "{loss:?}");
                    }
                }
            }
        }
    }
}
