//! Everything a rigger must know before weight goes on, from one document.

mod anchors;
mod check;
mod edges;
mod exclusion;
mod flight;
mod frame;
mod gear;
mod haul;
mod haul_system;
mod kit;
mod lines;
mod losses;
mod picture;
mod ratings;
mod report;
mod rescue;
mod result;
mod sources;
mod states;
mod stops;
mod svg;
mod table;
mod tables;
mod waves;
mod wear;
mod wind;

pub use check::{AppliedFactor, Checks, ClearanceCheck, ForceCheck, OtherCheck, StrengthCheck};
pub use gear::Assumption;
pub use kit::{
    BagThing, CutFrom, CutPiece, KitBag, KitCheck, KitList, KitPiece, NeedCheck, kit_check,
    kit_list,
};
pub use losses::{loss_table, loss_table_text};
pub use picture::Pictures;
pub use report::{Report, ReportFormat, report_text};
pub use result::*;
pub use table::{ModelPage, Table};

use std::collections::BTreeSet;
use std::ops::ControlFlow;

use self::flight::{Change, Site};
use self::gear::{Defaults, mass_of};
use self::lines::Span;
use self::picture::{Scene, profiles};
use self::ratings::Loads;
use super::read::Read as _;
use super::{Input, Rig, RigError};
use crate::quantity::{Force, GRAVITY, Length, Mass, Quantity, Ratio, show};
use crate::swing::{Flight, Note, Outlook, Run};

const CAUTIONS: [&str; 5] = [
    "Rope jumping and highlining kill. These are calculations, not permission.",
    "Local codes, manufacturers' instructions and licensed practice rule.",
    "Inspect everything, back everything up, and test with a bag first.",
    "The models have limits: read the notes and what was assumed.",
    "No figure here covers bad gear, bad knots, sharp edges, or people in the way.",
];

/// Plans a rig: every figure of the document's job in one result.
///
/// Deterministic: the same document gives the same bits. Takes some seconds, most of them for the jumps
/// with one part absent.
///
/// # Errors
/// [`RigError::Unsolved`] says which part of the plan a model could not answer, and why.
///
/// # Example
/// ```
/// let rig = tautwork::rig::parse(include_str!("../../../../../examples/kestrel-gap.toml"))?;
/// let plan = tautwork::rig::plan(&rig)?;
/// assert_eq!(plan.rig, "Kestrel Gap");
/// // The demo falls short at the far wall, and says so.
/// assert!(plan.checks.clearance.iter().any(|c| c.what.starts_with("far wall") && c.falls_short));
/// # Ok::<(), tautwork::rig::RigError>(())
/// ```
pub fn plan(rig: &Rig) -> Result<Plan, RigError> {
    let defaults = Defaults::of(rig);
    let spans = lines::spans(rig)?;
    let sets = states::sets(rig, &spans);
    let states = states::states(rig, &sets, 0.0)?;
    let person = states::states(rig, &sets, rig.jumper.mass.si() * GRAVITY)?;
    let sweep = states::sweep(rig, &spans)?;
    let engagement = states::engagement(rig, &spans)?;
    let all_on = states.iter().max_by_key(|s| s.lines.len());
    let ring = all_on.map_or(rig.jump.exit, |s| s.ring);
    let site = Site::new(rig, &spans, &defaults)?;
    let loops = site.waiting()?;
    let jump = site.fly(&rig.jumper, Change::default())?;
    let waves = waves::waves(&site, &rig.jumper, &jump);
    let winds = wind::winds(&site)?;
    let bag = rig.bag.as_ref().map(|bag| site.fly(bag, Change::default())).transpose()?;
    let bag_waves = bag.as_ref().and_then(|jump| waves::of_bag(&site, jump));
    let line_mass = line_mass(&site)?;
    let rope_sensitivity = sensitivity(&site)?;
    let pulls = pulls([&states, &person], &jump, &winds, waves.as_ref());
    let anchors = anchors::anchors(rig, &spans, &pulls)?;
    let rest = resting(&jump, ring);
    let haul = haul::haul(&site, rest.0, rest.1)?;
    let rescue = rescue::rescue(&site, rest.0, rest.1)?;
    let losses = losses::table(&site, haul.as_ref(), LossOptions::default(), &mut |_| {
        ControlFlow::Continue(())
    })?;
    let over = edges::Over {
        states: [&states, &person],
        waiting: &loops,
        jump: &jump,
        haul: haul.as_ref().map(|haul| haul.steps.as_slice()),
    };
    let touches = edges::touches(&site, &over)?;
    let waiting = at_exit(&loops);
    let stops = stops::in_jump(rig, waiting.ring, &jump)?;
    let loads = Loads {
        states: &states,
        person: &person,
        waiting: &waiting,
        jump: &jump,
        waves: waves.as_ref(),
        winds: &winds,
        anchors: &anchors,
        haul: haul.as_ref(),
        rescue: rescue.as_ref(),
        touches: &touches.all,
    };
    let rubs = wear::rubs(rig, &jump, haul.as_ref(), &touches.all)?;
    let rests = wear::rests(rig, &jump)?;
    let drops = exclusion::drops(rig, ring)?;
    let breaks = exclusion::breaks(rig, &spans, &jump, waves.as_ref())?;
    let checks = ratings::checks(rig, &spans, &defaults, &loads)?;
    let pictures = pictures(rig, &spans, (&jump, bag.as_ref()), haul.as_ref())?;
    let mut plan = Plan {
        version: PLAN_VERSION,
        rig: rig.name.clone(),
        verdict: String::new(),
        note: rig.note.clone(),
        cautions: CAUTIONS.iter().map(|&c| c.to_owned()).collect(),
        lines: spans.iter().map(Span::plan).collect(),
        notes: notes(rig, (&jump, waves.as_ref()), (bag.as_ref(), bag_waves.as_ref()), &losses),
        assumptions: assumptions(defaults, &jump),
        inputs: inputs(rig),
        states,
        person,
        sweep,
        engagement,
        waiting,
        jump,
        waves,
        winds: winds.into_iter().map(|(wind, _)| wind).collect(),
        bag,
        bag_waves,
        line_mass,
        losses,
        cut: cut(rig)?,
        rope_sensitivity,
        anchors,
        haul,
        rescue,
        stops,
        edges: touches.all.into_iter().map(|touch| touch.plan).collect(),
        rubs,
        rests,
        drops,
        breaks,
        checks,
        kit: KitList::default(),
        tables: Vec::new(),
        pictures,
    };
    plan.notes.extend(wind::notes(&plan.winds));
    plan.notes.extend(touches.notes);
    plan.kit = kit_list(rig, &plan)?;
    plan.verdict = plan.verdict();
    plan.tables = tables::tables(&plan);
    Ok(plan)
}

/// Reads and plans a document: [`parse`](super::parse), then [`plan`].
///
/// # Errors
/// As those two.
///
/// # Example
/// ```
/// let error = tautwork::rig::plan_text("name = \"empty\"").unwrap_err();
/// assert!(!error.mistakes().is_empty());
/// ```
pub fn plan_text(text: &str) -> Result<Plan, RigError> {
    plan(&super::parse(text)?)
}

fn pictures(
    rig: &Rig,
    spans: &[Span<'_>],
    (jump, bag): (&Outlook, Option<&Outlook>),
    haul: Option<&HaulPlan>,
) -> Result<Pictures, RigError> {
    let scene = Scene {
        rig,
        standing: profiles(spans, &jump.soft, false)?,
        caught: profiles(spans, &jump.soft, true)?,
        person: &jump.soft,
        forces: &jump.stiff,
        bag: bag.map(|b| &b.soft),
    };
    Ok(Pictures {
        side_view: scene.side_view(),
        force: scene.force(),
        haul: haul.map(|plan| haul::picture(rig, plan)).transpose()?,
    })
}

/// The jumper at the exit, tied in, held by the edge.
fn at_exit(loops: &crate::swing::Waiting) -> Waiting {
    let lowest = loops.ropes.iter().map(|rope| rope.lowest.z);
    Waiting {
        ring: [loops.ring.x, loops.ring.y, loops.ring.z],
        pull: loops.pull,
        pull_size: Force::from_si(lines::size(&loops.pull)),
        lowest: lowest.fold(loops.ring.z, |a, b| if b < a { b } else { a }),
    }
}

/// Where the ring stands with every line on it.
fn all_on_ring(rig: &Rig, spans: &[Span<'_>]) -> Result<[Length; 3], RigError> {
    let states = states::states(rig, &states::sets(rig, spans), 0.0)?;
    Ok(states.iter().max_by_key(|s| s.lines.len()).map_or(rig.jump.exit, |s| s.ring))
}

/// Where ring and jumper come to rest, in space: where the search for the haul starts. Without a place
/// of rest it starts at the standing ring.
fn resting(jump: &Outlook, ring: [Length; 3]) -> ([Length; 3], [Length; 3]) {
    let zero = Length::from_si(0.0);
    match &jump.soft.rest {
        Some(rest) => ([rest.ring.x, zero, rest.ring.z], [rest.body.x, zero, rest.body.z]),
        None => (ring, ring),
    }
}

/// What is looked at for the pull on the anchors.
fn pulls<'a>(
    states: [&'a [StatePlan]; 2],
    jump: &'a Outlook,
    winds: &'a [(WindPlan, Outlook)],
    waves: Option<&'a WavePlan>,
) -> anchors::Pulls<'a> {
    let of_states = ["standing", "jumper at the ring"].into_iter().zip(states);
    // States with a line missing pull less on the anchors than the same with all lines.
    let all_on = |(what, states): (_, &'a [StatePlan])| {
        states.iter().max_by_key(|s| s.lines.len()).map(|state| (what, state))
    };
    let in_winds = winds.iter().map(|(wind, jump)| (format!("jump, {}", wind.name), jump));
    anchors::Pulls {
        states: of_states.filter_map(all_on).collect(),
        jumps: core::iter::once(("jump".to_owned(), jump)).chain(in_winds).collect(),
        waves,
    }
}

/// The jump with none, the default and half of the mass of the taut lines moving with the ring.
fn line_mass(site: &Site<'_>) -> Result<Vec<LineMassStep>, RigError> {
    let mut steps = Vec::new();
    for fraction in [0.0, site.defaults.line_mass_fraction.si(), 0.5] {
        let change =
            Change { line_mass_fraction: Some(fraction), what_if: true, ..Change::default() };
        let jump = site.fly(&site.rig.jumper, change)?;
        steps.push(LineMassStep {
            fraction: Ratio::from_si(fraction),
            body_force: jump.body_force.extreme.value,
            lowest: jump.lowest.extreme.value,
        });
    }
    Ok(steps)
}

/// Half a metre, by which the jump ropes are made shorter and longer.
const ROPE_STEP_M: f64 = 0.5;

/// Changes of lowest point and clearances per length of rope.
fn sensitivity(site: &Site<'_>) -> Result<Vec<Sensitivity>, RigError> {
    let with = |by: f64| {
        let change = Change { rope_longer_m: by, what_if: true, ..Change::default() };
        site.fly(&site.rig.jumper, change)
    };
    let (short, long) = (with(-ROPE_STEP_M)?, with(ROPE_STEP_M)?);
    let rate = |what: String, a: Length, b: Length| Sensitivity {
        what,
        per_rope_length: Ratio::from_si((b.si() - a.si()) / (2.0 * ROPE_STEP_M)),
    };
    let mut list = vec![rate(
        "lowest point".to_owned(),
        short.lowest.extreme.value,
        long.lowest.extreme.value,
    )];
    for a in &short.clearances {
        if let Some(b) = long.clearances.iter().find(|b| b.wall == a.wall) {
            let what = format!("clearance at the {}", a.wall);
            list.push(rate(what, a.least.extreme.value, b.least.extreme.value));
        }
    }
    Ok(list)
}

fn cut(rig: &Rig) -> Result<Vec<CutPlan>, RigError> {
    let zero = Length::from_si(0.0);
    let mut list = Vec::new();
    for rope in &rig.jump.rope {
        let cordage = rig.cordage_named(&rope.cordage)?;
        let cut = rope.rest_length + rope.knots.unwrap_or(zero) + rope.tails.unwrap_or(zero);
        list.push(CutPlan {
            rope: rope.name.clone(),
            tie_in_to_tie_in: rope.rest_length,
            cut,
            error: rope.length_error.unwrap_or(zero),
            mass: Mass::from_si(mass_of(cordage.linear_density, cut)),
        });
    }
    Ok(list)
}

/// What the document left out, with what the jump model assumed of its own.
fn assumptions(defaults: Defaults, jump: &Outlook) -> Vec<Assumption> {
    let mut list = defaults.list;
    for assumed in &jump.stiff.assumed {
        let same = |a: &Assumption| {
            a.what.replace(['.', '_'], " ").ends_with(&assumed.parameter.replace('_', " "))
        };
        if !list.iter().any(same) {
            list.push(Assumption {
                what: assumed.parameter.clone(),
                value: assumed.value.clone(),
                why: "assumed by the jump model".to_owned(),
            });
        }
    }
    list
}

/// Every value of the document, so that each figure can be traced to it.
fn inputs(rig: &Rig) -> Vec<Input> {
    let mut list = Vec::new();
    rig.list("", &mut list);
    list
}

/// Limits of the answers, in words: the same note of several runs once.
fn notes(
    rig: &Rig,
    (jump, waves): (&Outlook, Option<&WavePlan>),
    (bag, bag_waves): (Option<&Outlook>, Option<&WavePlan>),
    losses: &LossTable,
) -> Vec<String> {
    let mut notes = Vec::new();
    for (who, outlook, waves) in [("jumper", Some(jump), waves), ("bag", bag, bag_waves)] {
        let Some(outlook) = outlook else { continue };
        let flights = [&outlook.stiff, &outlook.soft];
        let slow: BTreeSet<&str> =
            flights.iter().flat_map(|f| &f.notes).filter_map(slow_line).collect();
        if !slow.is_empty() {
            let lines = slow.into_iter().collect::<Vec<_>>().join(", ");
            let instead = match waves {
                Some(waves) if who == "jumper" && waves.body_force.is_some() => {
                    "the checks take those of the full model for it, whose snaps of slack lines are \
                     sizes, not digits"
                }
                Some(waves) if waves.body_force.is_some() => {
                    "those of the full model stand beside it, whose snaps of slack lines are sizes, not \
                     digits"
                }
                _ => "a slack line may see several times the figure",
            };
            notes.push(format!(
                "{who}: the quasi-static tension of {lines} in the catch is not valid, since a wave \
                 needs longer along the line and back than half the rise of the catch; {instead}"
            ));
        }
        let mut seen: Vec<(String, Vec<&str>)> = Vec::new();
        for flight in flights {
            for note in flight.notes.iter().filter(|n| slow_line(n).is_none()) {
                let text = words(note);
                match seen.iter_mut().find(|(known, _)| *known == text) {
                    Some((_, runs)) => runs.push(picture::run_name(flight)),
                    None => seen.push((text, vec![picture::run_name(flight)])),
                }
            }
        }
        notes.extend(
            seen.into_iter()
                .map(|(text, runs)| format!("{who}, {} run: {text}", runs.join(" and "))),
        );
        let other: Vec<String> = outlook.notes.iter().map(words).collect();
        if !other.is_empty() {
            notes.push(format!("{who}: worse than the rule expects: {}", other.join(", ")));
        }
    }
    for (who, waves) in [("jumper", waves), ("bag", bag_waves)] {
        let with_waves = waves.into_iter().flat_map(|waves| &waves.notes);
        notes.extend(with_waves.map(|note| format!("{who}, full model, {note}")));
    }
    notes.push(fold(&jump.stiff));
    notes.extend(losses.notes.iter().map(|note| format!("losses: {note}")));
    if rig.jump.response == super::Response::StiffAndSoft {
        notes.push(
            "The jump ropes are a stiff and a soft linear rope: forces are those of the stiff one, \
             clearances those of the soft one, and the worse of both where a note says so."
                .to_owned(),
        );
    }
    notes
}

fn slow_line(note: &Note) -> Option<&str> {
    match note {
        Note::QuasiStaticNotValid { line, .. } => Some(line),
        _ => None,
    }
}

fn fold(flight: &Flight) -> String {
    format!(
        "Slack rope falls beside the jumper in a fold and pulls them down: they may be up to {} faster \
         at the catch than computed.",
        show(flight.fold.speed_excess, "%", 1)
    )
}

fn words(note: &Note) -> String {
    match note {
        Note::QuasiStaticNotValid { line, .. } => format!("the figure for {line} is not valid"),
        Note::NeverTaut => "the ropes never went taut".to_owned(),
        Note::TautAtExit { rope } => format!("{rope} is taut at the exit"),
        Note::LaunchZoneNotLeft => {
            "the launch zone was never left, so there is no clearance in flight".to_owned()
        }
        Note::NotSettled => {
            "the motion had not died at the horizon: a later extreme is possible".to_owned()
        }
        Note::Contact { wall } => format!("the body touched the {wall}: nothing is known after it"),
        Note::NoRest { problem } => format!("no place of rest was found: {problem}"),
        Note::PastTable { line } => format!("the stretch of {line} went past its table"),
        Note::OtherRunWorse { limit, run } => {
            let run = match run {
                Run::Stiff => "stiff",
                Run::Soft => "soft",
            };
            format!("{limit} (from the {run} run)")
        }
    }
}
