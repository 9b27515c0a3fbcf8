mod bad;
mod fixings;
mod random;

use super::super::lines;
use super::*;
use crate::quantity::{Length, Words};
use crate::rig::parse;

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
    // Without lines the pull stays what it is.
    let force = [pull_n, 0.0, 0.0].map(Force::from_si);
    plan(&rig, &[], &rig.anchor[1], &Pull { force, ring_m: [0.0; 3] }, "the test").unwrap()
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

// The secant of the lines leaves no less pull than the lines do anywhere on the way, and all of it at its end.
#[test]
fn the_pull_falls_no_faster_than_the_lines_slacken() {
    let rig = parse(&document(BACKUP)).unwrap();
    let spans = lines::spans(&rig).unwrap();
    let load = lines::down(1500.0);
    let moved = |way_m: f64, along: [f64; 3]| {
        let travel = along.map(|a| Length::from_si(a * way_m));
        let bundle: Vec<_> = spans.iter().map(|span| shifted(span, "near", &travel)).collect();
        let found = crate::line::solve_bundle(&bundle, load).unwrap();
        (found.lines[0].pull_near, found.ring.map(Quantity::si))
    };
    let (force, ring_m) = moved(0.0, [1.0, 0.0, 0.0]);
    let size_n = size(&force);
    let along = force.map(|f| f.si() / size_n);
    let pull = Pull { force, ring_m };
    for way in [0.02, 0.1, 0.5] {
        let line = pull.line(&spans, "near", Length::from_si(way)).unwrap();
        let k = line.stiffness.si();
        assert!(line.length.si() > size_n / k);
        for part in [0.1, 0.3, 0.6, 0.9, 1.0] {
            let now = moved(part * way, along).0;
            let now_n: f64 = (0..3).map(|i| now[i].si() * along[i]).sum();
            let secant_n = size_n - k * part * way;
            assert!(secant_n >= now_n - 1e-6 * size_n, "{way} {part}: {secant_n} {now_n}");
            assert!(part < 1.0 || (secant_n - now_n).abs() < 1e-6 * size_n);
        }
    }
    // Near nothing it is the tangent of a line that sags little: below that of the cordage, 250 kN over 40 m.
    let tangent = pull.line(&spans, "near", Length::from_si(1e-3)).unwrap().stiffness.si();
    assert!(tangent > 1e3 && tangent < 250e3 / 39.0, "{tangent}");
    // The plan says which was used: the backup takes less than under the pull that stays.
    let planned = plan(&rig, &spans, &rig.anchor[1], &pull, "the test").unwrap();
    let bolt = lost(&planned, "bolt");
    assert!(bolt.peak_tension < bolt.peak_if_pull_stays && bolt.line_stiffness.is_some());
    let stays = planned_under(force);
    let bound = lost(&stays, "bolt");
    assert_eq!(bolt.peak_if_pull_stays, bound.peak_tension);
    assert!(bound.line_stiffness.is_none() && bolt.extension <= bound.extension);
    assert!(bolt.verdict.contains("if the pull stayed"), "{}", bolt.verdict);
}

fn planned_under(force: [Force; 3]) -> AnchorPlan {
    let rig = parse(&document(BACKUP)).unwrap();
    plan(&rig, &[], &rig.anchor[1], &Pull { force, ring_m: [0.0; 3] }, "the test").unwrap()
}

/// A fixing that says what it is, and one leg from it along the pull.
fn held_by(fixing: &str, from: &str) -> String {
    format!(
        r#"
        fixing = [{{ name = "it", position = [{from}], {fixing} }}]
        leg = [
            {{ name = "leg", from = "it", stiffness = "1000 kN/m", strength = "90 kN" }},
            {{ name = "beside", fixing = [{from}], slack = "1 m", stiffness = "1000 kN/m", strength = "90 kN" }},
        ]
        "#
    )
}

// The peak of the sum of two vectors and one of them give the other.
#[test]
fn stops_add_what_is_beyond_the_lines() {
    let stop = "[[stop]]\nname = \"stop\"\nline = \"l\"\nend = \"near\"\ntravel = \"1 m\"\ncordage = \"w\"\n";
    let text = document("strength = \"90 kN\"") + stop;
    let rig = parse(&text.replace("        ", "")).unwrap();
    let lines = [1800.0, -100.0, 200.0].map(Force::from_si);
    let ring_m = [19.0, 0.3, -2.5];
    let far_m = ring_m.iter().fold(0.0_f64, |far, d| far.hypot(*d));
    let sum = [0, 1, 2].map(|i| Force::from_si(lines[i].si() + 700.0 * ring_m[i] / far_m));
    let on = |anchor: usize, peak_n: f64| {
        with_stops(&rig, &rig.anchor[anchor], lines, ring_m, Force::from_si(peak_n))
    };
    for (got, want) in on(1, size(&sum)).iter().zip(sum) {
        assert!((got.si() - want.si()).abs() < 1e-9, "{got:?} {want:?}");
    }
    // None is tied at the far anchor; none pulls where the lines are all; none pushes.
    assert_eq!((on(0, size(&sum)), on(1, 1000.0)), (lines, lines));
    assert!(size(&on(1, size(&lines))) < size(&lines) * (1.0 + 1e-12));
}
