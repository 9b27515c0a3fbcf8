use proptest::prelude::*;

use super::*;
use crate::anchor::lose_leg;
use crate::quantity::{GRAVITY, Quantity, Words, parse as quantity};
use crate::rig::{LossComponentKind as Component, Mistake, parse, plan};

const DEMO: &str = include_str!("../../../../../../examples/kestrel-gap.toml");

fn table_of(text: &str, pairs: bool) -> LossTable {
    loss_table_text(text, LossOptions { pairs }).unwrap()
}

fn loss<'a>(table: &'a LossTable, name: &str) -> &'a Loss {
    let component = table.components.iter().find(|c| c.name == name);
    &table.single[component.unwrap_or_else(|| panic!("no component {name}")).loss]
}

/// Two level lines so stiff and taut that the ring hardly moves, two equal jump ropes without loss, and a spare.
fn stiff() -> String {
    r#"
        name = "stiff"
        jumper = { mass = "80 kg" }
        ring = { mass = "1 kg" }
        requirements = { factor = 3, body_force = "6 kN", clearance = "2 m" }
        anchor = [
            { name = "a", position = ["0 m", "0 m", "0 m"], strength = "9000 kN" },
            { name = "b", position = ["20 m", "0 m", "0 m"], leg = [
                { name = "b left", fixing = ["22 m", "1 m", "0 m"], stiffness = "4000 kN/m", strength = "9000 kN" },
                { name = "b right", fixing = ["22 m", "-1 m", "0 m"], stiffness = "4000 kN/m", strength = "9000 kN" },
                { name = "b slack", fixing = ["22 m", "0 m", "0 m"], rest_length = "2.5 m", stiffness = "4000 kN/m", strength = "9000 kN" },
            ] },
        ]
        line = [
            { name = "one", cordage = "w", from = "a", to = "b", tension = "30 kN" },
            { name = "two", cordage = "w", from = "a", to = "b", tension = "30 kN" },
        ]
        gear = [
            { name = "near shackle", at = "one", end = "near", strength = "9000 kN" },
            { name = "knot", at = "left", strength = "9000 kN" },
        ]
        [cordage.w]
        linear_density = "50 g/m"
        stretch = { axial_rigidity = "20 MN" }
        breaking_strength = "30000 kN"
        [cordage.r]
        linear_density = "1 g/m"
        stretch = { en892_static_elongation = "8 %", en892_impact_force = "8.6 kN" }
        breaking_strength = "20 kN"
        [jump]
        exit = ["9 m", "0 m", "0 m"]
        velocity = ["0 m/s", "0 m/s", "0 m/s"]
        response = "stiff and soft"
        horizon = "5 s"
        rope = [
            { name = "left", cordage = "r", rest_length = "20 m" },
            { name = "right", cordage = "r", rest_length = "20 m" },
            { name = "spare", cordage = "r", rest_length = "80 m" },
        ]
    "#
    .to_owned()
}

// Two equal ropes carry half of the weight each; one goes, and the other swings from W/2 past W to 3 W/2: a
// suddenly applied load (energy).
#[test]
fn a_jump_rope_lost_at_rest_is_a_suddenly_applied_load() {
    let table = table_of(&stiff(), false);
    let left = &loss(&table, "left").lost_at_rest;
    let weight = 80.0 * GRAVITY;
    let takes = left.takes_load.as_ref().unwrap();
    assert_eq!(takes.component, "right, at the ring");
    assert!((takes.before.si() / (0.5 * weight) - 1.0).abs() < 5e-3, "{takes:?}");
    assert!((takes.peak.si() / (1.5 * weight) - 1.0).abs() < 2e-2, "{takes:?}");
    assert!((left.carries.unwrap().si() / (0.5 * weight) - 1.0).abs() < 5e-3);
    // In the soft run from one half of W L / EA to one and a half: by W L / EA in all.
    let soft = 735.75 / 0.08;
    let drop = weight * 20.0 / soft;
    assert!((left.body_lower.unwrap().si() / drop - 1.0).abs() < 3e-2, "{left:?} {drop}");
    assert!(left.extension.unwrap().si().abs() < 0.02);
    // 20 kN over 3 W/2.
    assert!((left.factor.unwrap().si() / (20e3 / (1.5 * weight)) - 1.0).abs() < 2e-2);
    assert_eq!(left.outcome, LossOutcome::Held);
    // Both ropes are one another's twin.
    let right = &loss(&table, "right").lost_at_rest;
    assert!((right.takes_load.as_ref().unwrap().peak.si() / takes.peak.si() - 1.0).abs() < 1e-9);
}

#[test]
fn components_in_series_share_an_entry_and_idle_ones_carry_nothing() {
    let table = table_of(&stiff(), false);
    assert_eq!(loss(&table, "near shackle").parts, ["one, near side", "near shackle"]);
    assert_eq!(loss(&table, "knot").parts, ["left", "knot"]);
    assert_eq!(loss(&table, "ring set").parts, ["ring set"]);
    // The anchor without legs holds every near end.
    let anchor = loss(&table, "a");
    assert_eq!(anchor.lost_at_worst_instant.outcome, LossOutcome::Falls);
    assert!(anchor.lost_at_rest.verdict.contains("both sides"), "{anchor:?}");
    for (_, result) in loss(&table, "ring set").results() {
        assert_eq!(result.outcome, LossOutcome::Falls);
        assert_eq!(result.verdict, "falls: nothing else holds the jumper");
    }
    let slack = loss(&table, "b slack");
    let spare = loss(&table, "spare");
    for (_, result) in slack.results().into_iter().chain(spare.results()) {
        assert_eq!(result.outcome, LossOutcome::CarriesNothing, "{result:?}");
        assert!(result.verdict.starts_with("carries nothing"));
    }
    // Every component is there once.
    let kinds = |kind| table.components.iter().filter(|c| c.kind == kind).count();
    let of = [Component::LineSide, Component::LineTieIn, Component::AnchorLeg].map(kinds);
    assert_eq!(of, [4, 2, 3]);
    assert!(table.components.iter().all(|c| table.single[c.loss].parts.contains(&c.name)));
}

// The jump without the whole main line, against the target of the demo rig within a tenth, and its three names
// in order.
#[test]
fn the_demo_without_its_main_line() {
    let table = table_of(DEMO, false);
    let main = loss(&table, "main, tie-in at the ring");
    let absent = &main.absent_before;
    assert!((absent.body_force.unwrap().si() / 4000.0 - 1.0).abs() < 0.1);
    let takes = absent.takes_load.as_ref().unwrap();
    assert!(takes.component.starts_with("backup,") && (takes.peak.si() / 5400.0 - 1.0).abs() < 0.1);
    let [absent, rest, worst] = main.results().map(|(_, r)| r);
    assert!(worst.state.starts_with("at 4.") && rest.state.contains("at rest"), "{worst:?}");
    assert!(absent.state == "before the jump");
    // At rest the weight is taken from 0.06 kN on; the ring drops to where the backups hold it.
    let takes = rest.takes_load.as_ref().unwrap();
    assert!(takes.before.si() < 100.0 && takes.peak.si() > 3000.0, "{takes:?}");
    assert!(rest.extension.unwrap().si() > 4.0 && rest.body_lower > rest.extension);
    let near = &loss(&table, "main, near side").lost_at_rest;
    assert!(near.notes.iter().any(|n| n.contains("backup") && n.contains("snap")), "{near:?}");
    // A rope lost in the catch leaves more speed to the other than one that was absent from the start has
    // clearance: neither stands for the other.
    let rope = loss(&table, "left jump rope");
    let peaks = rope.results().map(|(_, r)| r.takes_load.as_ref().unwrap().peak.si());
    assert!(peaks[0] > peaks[2] && peaks[2] > peaks[1], "{peaks:?}");
}

#[test]
fn legs_are_those_of_the_anchor_model() {
    let table = table_of(DEMO, false);
    let rig = parse(DEMO).unwrap();
    let defaults = Defaults::of(&rig);
    let spans = lines::spans(&rig).unwrap();
    let site = Site::new(&rig, &spans, &defaults).unwrap();
    let limits = Limits { factor: 3.0.ratio(), body_force: 5.0.kilonewtons() };
    let study = JumpStudy::new(&site, limits).unwrap();
    // The far anchor of the demo as an anchor of one master point: slings of two strands, 3 % at 10 kN.
    let leg = |leg: &crate::rig::LegEntry| crate::anchor::Leg {
        name: leg.name.clone(),
        fixing: leg.fixing.unwrap(),
        rest_length: rig.anchor[1].rest_length(leg).unwrap(),
        stiffness: None,
        axial_rigidity: Some((2.0 * 10.0 / 0.03).kilonewtons()),
        strength: None,
    };
    let model = crate::anchor::Anchor {
        legs: rig.anchor[1].leg.iter().map(leg).collect(),
        pull: study.whole.of(Kind::Worst).pulls[1].force,
    };
    let want = lose_leg(&model, "far left bolt", 10.0.kilograms()).unwrap();
    let found = &loss(&table, "far left bolt").lost_at_worst_instant;
    let part = found.extension.unwrap().si() / want.extension.si();
    assert!(part < 1.0 && part > 0.8, "{part}");
    let peak = want.peaks.iter().map(|p| p.tension.si()).fold(0.0, f64::max);
    let takes = found.takes_load.as_ref().unwrap();
    assert!((takes.peak_if_pull_stays.unwrap().si() / peak - 1.0).abs() < 1e-9);
    // The lines slacken: somewhat less, and less far.
    assert!(takes.peak.si() < peak && takes.peak.si() > 0.8 * peak, "{takes:?} {peak}");
    // Absent from the start, nothing swings.
    let absent = &loss(&table, "far left bolt").absent_before;
    assert!(absent.takes_load.as_ref().unwrap().peak.si() < peak);
}

// A branch of two legs to a knot, and a slack backup to a fixing: parts in series share an entry, the branch and the
// backup together are the anchor.
#[test]
fn an_anchor_of_anchors_is_lost_part_by_part() {
    let legs = stiff().find("leg = [").unwrap();
    let end = legs + stiff()[legs..].find("] },\n        ]").unwrap();
    let text = format!(
        "{}{}{}",
        &stiff()[..legs],
        r#"knot = [{ name = "b knot", position = ["22 m", "0 m", "0 m"] }],
           fixing = [{ name = "b tree", position = ["30 m", "0 m", "0 m"], strength = "9000 kN" }],
           leg = [
            { name = "b up", fixing = ["24 m", "0 m", "1 m"], to = "b knot", stiffness = "9000 kN/m", strength = "9000 kN" },
            { name = "b down", fixing = ["24 m", "0 m", "-1 m"], to = "b knot", stiffness = "9000 kN/m", strength = "9000 kN" },
            { name = "b branch", from = "b knot", stiffness = "9000 kN/m", strength = "9000 kN", part = [{ name = "link", strength = "9000 kN" }] },
            { name = "b backup", from = "b tree", slack = "0.1 m", stiffness = "9000 kN/m", strength = "9000 kN" },
           "#,
        &stiff()[end..]
    );
    let table = table_of(&text, true);
    let branch = loss(&table, "b branch");
    assert_eq!(branch.parts, ["b branch", "link of b branch", "b knot"]);
    assert_eq!(branch.gone, "b up, b down, b branch of b");
    let [absent, rest, worst] = branch.results().map(|(_, r)| r);
    for result in [absent, rest, worst] {
        let takes = result.takes_load.as_ref().unwrap();
        assert_eq!(takes.component, "b backup, b");
        assert_eq!(takes.before.si(), 0.0);
        // The slack, less what the branch stretched, with what the backup stretches.
        let extension = result.extension.unwrap().si();
        assert!((extension - 0.1).abs() < 0.02, "{extension}");
    }
    // Without the jerk the backup carries the pull of both lines; with it more than twice that.
    let pull = |r: &LossResult| r.takes_load.as_ref().unwrap().peak.si();
    assert!(pull(rest) > 2.0 * pull(absent), "{rest:?} {absent:?}");
    // Not the anchor falls short then, but the body, as without any loss.
    assert!(absent.factor.unwrap().si() > 3.0 && absent.verdict.contains("force on the body"));
    assert_eq!(loss(&table, "b backup").parts, ["b backup", "b tree"]);
    assert_eq!(loss(&table, "b backup").lost_at_rest.outcome, LossOutcome::CarriesNothing);
    let kinds = |kind| table.components.iter().filter(|c| c.kind == kind).count();
    let of = [
        Component::AnchorLeg,
        Component::AnchorLegPart,
        Component::AnchorKnot,
        Component::AnchorFixing,
    ];
    assert_eq!(of.map(kinds), [4, 1, 1, 1]);
    let pair = |a: &str, b: &str| {
        table.pairs.iter().find(|p| p.parts == [a.to_owned(), b.to_owned()]).unwrap()
    };
    assert_eq!(pair("b branch", "b backup").absent_before.outcome, LossOutcome::Falls);
    // One leg of the branch with the backup: its twin carries all of it.
    let twin = &pair("b up", "b backup").lost_at_rest;
    assert_eq!(twin.takes_load.as_ref().unwrap().component, "b down, b");
    let all = table.single.iter().chain(&table.pairs).flat_map(Loss::results);
    all.for_each(|(_, result)| words_match(result, 3.0));
}

#[test]
fn what_the_haul_loads_is_lost_in_the_haul() {
    let table = table_of(DEMO, false);
    let rope = loss(&table, "haul rope");
    assert!(rope.absent_before.verdict.contains("nothing brings the jumper back"));
    assert!(rope.lost_at_rest.body_lower.unwrap().si() > 50.0);
    assert!(rope.lost_at_rest.notes.iter().any(|n| n.contains("near wall")));
    for (_, result) in loss(&table, "left pole").results() {
        assert_eq!(result.outcome, LossOutcome::Falls, "{result:?}");
    }
    let guy = loss(&table, "left guy");
    for (_, result) in guy.results() {
        assert_eq!(result.takes_load.as_ref().unwrap().component, "right guy, frame");
        assert_eq!(result.outcome, LossOutcome::Held);
    }
    let peak = |r: &LossResult| r.takes_load.as_ref().unwrap().peak;
    assert!(peak(&guy.lost_at_worst_instant) > peak(&guy.absent_before));
}

/// Words that each outcome has, and numbers that go with it.
fn words_match(result: &LossResult, required: f64) {
    let text = &result.verdict;
    let factor = result.factor.map(Quantity::si);
    match result.outcome {
        LossOutcome::Held => {
            assert!(text.starts_with("held"), "{text}");
            assert!(factor.is_none_or(|f| f >= required), "{result:?}");
        }
        LossOutcome::Short => assert!(text.starts_with("short by"), "{text}"),
        LossOutcome::Breaks => {
            assert!(text.contains("past its derated strength") && factor.unwrap() < 1.0, "{text}");
        }
        LossOutcome::Hits => {
            assert!(
                text.starts_with("hits the") && result.clearance.unwrap().si() <= 0.0,
                "{result:?}"
            );
        }
        LossOutcome::Falls => assert!(text.starts_with("falls"), "{text}"),
        LossOutcome::CarriesNothing => {
            assert!(
                text.starts_with("carries nothing") && result.carries.is_none_or(|c| c.si() == 0.0)
            );
        }
        LossOutcome::NoAnswer => assert!(text.starts_with("no answer: "), "{text}"),
    }
    assert!(!text.to_lowercase().contains("safe") && !result.state.is_empty());
}

#[test]
fn pairs_are_no_better_than_what_they_hold() {
    let table = table_of(&stiff(), true);
    assert!(!table.pairs.is_empty());
    let all = table.single.iter().chain(&table.pairs).flat_map(Loss::results);
    all.for_each(|(_, result)| words_match(result, 3.0));
    // Nothing is asked twice, and nothing that falls alone.
    for (i, pair) in table.pairs.iter().enumerate() {
        assert_eq!(pair.parts.len(), 2);
        assert!(table.pairs[..i].iter().all(|other| other.gone != pair.gone));
        assert!(pair.parts.iter().all(|name| name != "ring set"));
    }
    // The worst pair of a part is no better than the part alone: the other may matter little, but holds nothing up.
    for (i, single) in table.single.iter().enumerate() {
        let name = &single.parts[0];
        let with = table.pairs.iter().filter(|pair| pair.parts.contains(name));
        for (kind, (_, alone)) in single.results().iter().enumerate() {
            let worst = with.clone().map(|pair| pair.results()[kind].1.outcome).max();
            if let Some(worst) = worst {
                assert!(worst >= alone.outcome, "{i} {name} {kind}: {worst:?} {alone:?}");
            }
        }
    }
    // Two of three ropes leave the spare; both lines leave nothing.
    let pair = |a: &str, b: &str| {
        table.pairs.iter().find(|p| p.parts == [a.to_owned(), b.to_owned()]).unwrap()
    };
    let takes = pair("left", "right").lost_at_rest.takes_load.clone().unwrap();
    assert_eq!(takes.component, "spare, at the ring");
    let lines = pair("one, near side", "two, near side");
    assert_eq!(lines.absent_before.outcome, LossOutcome::Falls);
    assert!(!table_of(&stiff(), false).verdict.contains("two"));
}

#[test]
fn the_table_of_a_plan_is_the_table_alone() {
    let plan = plan(&parse(DEMO).unwrap()).unwrap();
    let alone = table_of(DEMO, false);
    assert_eq!(plan.losses.components, alone.components);
    // The haul starts from a rest found a little closer in the plan; all else is the same jump.
    for (a, b) in plan.losses.single.iter().zip(&alone.single) {
        for ((_, a), (_, b)) in a.results().iter().zip(b.results()) {
            assert_eq!(a.outcome, b.outcome);
        }
    }
    assert_eq!(plan.losses.single[0], alone.single[0]);
    let table = plan.tables.iter().find(|t| t.key == "losses").unwrap();
    assert_eq!(table.rows.len(), 3 * alone.single.len());
    let text = serde_json::to_string(&alone).unwrap();
    assert_eq!(serde_json::from_str::<LossTable>(&text).unwrap(), alone);
    assert_eq!(text, serde_json::to_string(&table_of(DEMO, false)).unwrap());
}

#[test]
fn a_rating_below_the_demand_is_a_verdict() {
    let weak = DEMO.replace("breaking_strength = \"30 kN\"", "breaking_strength = \"2 kN\"");
    let table = table_of(&weak, false);
    let main = &loss(&table, "main, tie-in at the ring").absent_before;
    assert!(main.outcome >= LossOutcome::Breaks, "{main:?}");
    assert!(main.verdict.contains("backup") && main.verdict.contains("past its derated strength"));
    assert!(main.factor.unwrap().si() < 1.0);
}

#[test]
fn the_caller_hears_of_each_case_in_order_and_may_stop() {
    let mut heard = Vec::new();
    let rig = parse(&stiff()).unwrap();
    let table = loss_table(&rig, LossOptions::default(), &mut |p| {
        heard.push(p);
        ControlFlow::Continue(())
    });
    let total = 3 * table.unwrap().single.len();
    assert!(heard.iter().enumerate().all(|(i, p)| p.done == i + 1 && p.total == total));
    assert_eq!(
        heard[0].component,
        "one, near side, near shackle".replace(", near shackle", " with near shackle")
    );
    let stopped = loss_table(&rig, LossOptions::default(), &mut |p| {
        if p.done == 4 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    });
    assert_eq!(stopped, Err(RigError::Stopped { done: 4, total }));
}

#[test]
fn many_mistakes_come_at_once_and_soon() {
    let found = |text: &str| -> Vec<Mistake> {
        loss_table_text(text, LossOptions { pairs: true }).unwrap_err().mistakes().to_vec()
    };
    // Two components with one name, a reference to nothing, a line from an anchor to itself, no stiffness, an end
    // of what has none.
    let wrong = stiff()
        .replace("name = \"right\"", "name = \"left\"")
        .replace("at = \"left\"", "at = \"lefft\"")
        .replace(
            "{ name = \"two\", cordage = \"w\", from = \"a\", to = \"b\"",
            "{ name = \"two\", cordage = \"w\", from = \"a\", to = \"a\"",
        )
        .replace("axial_rigidity = \"20 MN\"", "axial_rigidity = \"0 MN\"")
        .replace(
            "strength = \"9000 kN\" },\n            { name = \"b\"",
            "strength = \"-1 kN\" },\n            { name = \"b\"",
        );
    let mistakes = found(&wrong);
    let all = mistakes.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n");
    for part in ["is taken", "did you mean", "another anchor", "above zero", "-1 kN"] {
        assert!(all.contains(part), "{part} not in\n{all}");
    }
    let end = stiff().replace("at = \"left\"", "at = \"left\", end = \"far\"");
    assert!(found(&end)[0].message.contains("at one of its ends"));
    // A document of ten megabytes and one nested without end are refused soon.
    let start = std::time::Instant::now();
    let entry = "[[gear]]\nname = \"g\"\nat = \"x\"\nstrength = \"0 kN\"\n";
    assert!(!found(&format!("{}{}", stiff(), entry.repeat(10_000_000 / entry.len()))).is_empty());
    let many = format!("{}{}", stiff().replace("gear = [", "other = ["), entry.repeat(20_000));
    assert!(found(&many).len() > 1);
    assert!(!found(&format!("x = {}", "[".repeat(5_000_000))).is_empty());
    assert!(start.elapsed().as_secs() < 20, "{:?}", start.elapsed());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4))]
    #[test]
    fn random_rigs_keep_the_balance_and_the_words(
        tension in 1.0..8.0_f64,
        backup in 131.0..136.0_f64,
        rope in 50.0..74.0_f64,
        mass in 45.0..110.0_f64,
        leg in 0..3_usize,
    ) {
        let mut rig = parse(DEMO).unwrap();
        rig.line[0].tension = Some(tension.kilonewtons());
        rig.line[1].rest_length = Some(backup.meters());
        rig.jump.rope[0].rest_length = rope.meters();
        rig.jumper.mass = mass.kilograms();
        rig.jump.horizon = Some(quantity("12 s").unwrap());
        rig.frame = None;
        rig.haul = None;
        let defaults = Defaults::of(&rig);
        let spans = lines::spans(&rig).unwrap();
        let site = Site::new(&rig, &spans, &defaults).unwrap();
        let limits = Limits { factor: rig.requirements.factor, body_force: rig.requirements.body_force };
        let study = JumpStudy::new(&site, limits).unwrap();
        let parts = Parts::of(&rig);
        let force = |motion: &seen::Motion, name: &str, at| motion.ledger.get(name, at).force_n;
        for (gone, names) in parts.losses.iter().filter(|(gone, _)| gone.of_jump()) {
            for kind in KINDS {
                let result = study.lose(gone, kind);
                words_match(&result, 3.0);
                prop_assert!(result.outcome != LossOutcome::NoAnswer, "{names:?} {result:?}");
            }
            // At rest the others carry the weight: all of them together at their peaks no less than before.
            if gone.parts.is_empty() || gone.falls(&rig) {
                continue;
            }
            let rest = study.whole.of(Kind::AtRest);
            let after = study.whole.without(&site, gone, Kind::AtRest).unwrap();
            let lost = gone.halves(&rig);
            for side in [0, 1] {
                let ends = (0..rig.line.len()).filter(|line| !lost.contains(&(*line, side)));
                let end = super::super::ratings::END[side];
                let (before, now) = ends.fold((0.0, 0.0), |(before, now), line| {
                    let name = &rig.line[line].name;
                    (before + force(rest, name, end), now + force(&after, name, end))
                });
                prop_assert!(now >= before * (1.0 - 1e-6), "{names:?}: {before} {now}");
            }
            let weight = rig.jumper.mass.si() * GRAVITY;
            prop_assert!(after.body_force.si() >= weight * (1.0 - 1e-6));
        }
        // The legs that are left of an anchor carry its whole pull.
        let gone = parts.losses.iter().find(|(gone, _)| gone.legs.contains(&(0, leg))).unwrap();
        let result = study.lose(&gone.0, Kind::Absent);
        let takes = result.takes_load.unwrap();
        prop_assert!(takes.peak > takes.before);
    }
}

// From rest, nothing but rounding moves a rig that loses what carries nothing.
#[test]
fn a_rig_at_rest_that_loses_nothing_stays_there() {
    let mut rig = parse(DEMO).unwrap();
    rig.line[0].tension = Some(4.566_013_035_079_499.kilonewtons());
    rig.line[1].rest_length = Some(131.0.meters());
    rig.jump.rope[0].rest_length = 51.806_615_378_304_386.meters();
    rig.jumper.mass = 76.571_286_613_080_05.kilograms();
    rig.jump.horizon = Some(quantity("12 s").unwrap());
    rig.haul = None;
    let defaults = Defaults::of(&rig);
    let spans = lines::spans(&rig).unwrap();
    let site = Site::new(&rig, &spans, &defaults).unwrap();
    let limits =
        Limits { factor: rig.requirements.factor, body_force: rig.requirements.body_force };
    let study = JumpStudy::new(&site, limits).unwrap();
    let parts = Parts::of(&rig);
    let slack = |names: &Vec<String>| names == &["right jump rope".to_owned()];
    let (gone, _) = parts.losses.iter().find(|(_, names)| slack(names)).unwrap();
    let after = study.whole.without(&site, gone, Kind::AtRest).unwrap();
    let weight = rig.jumper.mass.si() * GRAVITY;
    assert!((after.body_force.si() / weight - 1.0).abs() < 1e-6);
}
