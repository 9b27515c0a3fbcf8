//! Every component that can fail, one at a time or in pairs, in three ways: its theory is on the page of this
//! folder, joined to that of `rig`.

mod haul;
mod jump;
mod motion;
mod outcome;
mod parts;
mod run;
mod seen;

#[cfg(test)]
mod tests;

use std::ops::ControlFlow;

use self::haul::HaulStudy;
use self::jump::JumpStudy;
use self::motion::Kind;
use self::outcome::{Limits, bare};
use self::parts::{Gone, Parts};
use super::flight::{Change, Site};
use super::gear::Defaults;
use super::result::{
    HaulPlan, Loss, LossOptions, LossOutcome, LossProgress, LossResult, LossTable,
};
use super::{all_on_ring, haul::haul as plan_haul, lines, resting};
use crate::rig::{Rig, RigError};

const KINDS: [Kind; 3] = [Kind::Absent, Kind::AtRest, Kind::Worst];

/// The loss table of a rig: every component that can fail, one at a time and, if asked for, in pairs.
///
/// Each is absent before the jump, lost at rest, and lost at the instant at which it carries most: three
/// answers, Eq. (K1) to (K8). All cores are used, the answers are the same on one. `progress` hears of each
/// case in order; when it breaks, no further case is begun.
///
/// # Errors
/// [`RigError::Unsolved`] if the rig has no answer with everything on it, [`RigError::Stopped`] if `progress`
/// breaks. A loss without an answer is an entry of the table that says why.
///
/// # Example
/// ```
/// use std::ops::ControlFlow;
/// use tautwork::rig::{LossOptions, LossOutcome, RigError, loss_table};
/// let text = include_str!("../../../../../../examples/kestrel-gap.toml");
/// let rig = tautwork::rig::parse(text)?;
/// let mut heard = 0;
/// let table = loss_table(&rig, LossOptions::default(), &mut |progress| {
///     heard = progress.done;
///     ControlFlow::Continue(())
/// })?;
/// assert_eq!(heard, 3 * table.single.len());
/// // Nothing is beside the harness: the jumper falls.
/// let harness = table.components.iter().find(|c| c.name == "harness tie-in point");
/// let loss = harness.and_then(|c| table.single.get(c.loss));
/// assert_eq!(loss.map(|l| l.lost_at_rest.outcome), Some(LossOutcome::Falls));
/// let stopped = loss_table(&rig, LossOptions::default(), &mut |_| ControlFlow::Break(()));
/// assert!(matches!(stopped, Err(RigError::Stopped { done: 1, .. })));
/// # Ok::<(), RigError>(())
/// ```
pub fn loss_table(
    rig: &Rig,
    options: LossOptions,
    progress: &mut dyn FnMut(LossProgress) -> ControlFlow<()>,
) -> Result<LossTable, RigError> {
    let defaults = Defaults::of(rig);
    let spans = lines::spans(rig)?;
    let site = Site::new(rig, &spans, &defaults)?;
    let what_if = Change { what_if: true, ..Change::default() };
    let (ring, body) = resting(&site.fly(&rig.jumper, what_if)?, all_on_ring(rig, &spans)?);
    let haul = plan_haul(&site, ring, body)?;
    table(&site, haul.as_ref(), options, progress)
}

/// Reads a document and makes its loss table: [`parse`](crate::rig::parse), then [`loss_table`].
///
/// # Errors
/// As those two.
///
/// # Example
/// ```
/// use tautwork::rig::{LossOptions, loss_table_text};
/// let error = loss_table_text("name = \"empty\"", LossOptions::default()).unwrap_err();
/// assert!(!error.mistakes().is_empty());
/// ```
pub fn loss_table_text(text: &str, options: LossOptions) -> Result<LossTable, RigError> {
    loss_table(&crate::rig::parse(text)?, options, &mut |_| ControlFlow::Continue(()))
}

/// The table of a rig whose lines and haul are solved.
pub(super) fn table(
    site: &Site<'_>,
    haul: Option<&HaulPlan>,
    options: LossOptions,
    progress: &mut dyn FnMut(LossProgress) -> ControlFlow<()>,
) -> Result<LossTable, RigError> {
    let rig = site.rig;
    let limits =
        Limits { factor: rig.requirements.factor, body_force: rig.requirements.body_force };
    let study = JumpStudy::new(site, limits)?;
    let haul = haul.map(|haul| HaulStudy::new(rig, haul, limits));
    let parts = Parts::of(rig);
    let pairs = if options.pairs { parts.pairs(rig) } else { Vec::new() };
    let cases: Vec<_> = parts.losses.iter().chain(&pairs).collect();
    let total = KINDS.len() * cases.len();
    let solve = |i: usize| {
        let (gone, _) = cases[i / KINDS.len()];
        lose(&study, haul.as_ref(), gone, KINDS[i % KINDS.len()])
    };
    let mut heard = |i: usize| {
        let component = cases[i / KINDS.len()].1.join(" with ");
        progress(LossProgress { done: i + 1, total, component })
    };
    let answers =
        run::each(total, solve, &mut heard).map_err(|done| RigError::Stopped { done, total })?;
    let motions = cases.iter().filter(|(gone, _)| moves(gone, rig)).count();
    let mut answers = answers.into_iter();
    let mut losses: Vec<Loss> = cases
        .iter()
        .filter_map(|(gone, names)| {
            Some(Loss {
                parts: names.clone(),
                gone: gone.words(rig),
                absent_before: answers.next()?,
                lost_at_rest: answers.next()?,
                lost_at_worst_instant: answers.next()?,
            })
        })
        .collect();
    let pairs = losses.split_off(parts.losses.len());
    let mut table = LossTable {
        verdict: String::new(),
        required: rig.requirements.factor,
        components: parts.components,
        single: losses,
        pairs,
        motions: 2 * KINDS.len() * motions,
        notes: notes(rig),
    };
    table.verdict = verdict(&table);
    Ok(table)
}

/// Whether a motion is followed for it.
fn moves(gone: &Gone, rig: &Rig) -> bool {
    !gone.parts.is_empty() && !gone.falls(rig)
}

fn lose(
    study: &JumpStudy<'_>,
    haul: Option<&HaulStudy<'_>>,
    gone: &Gone,
    kind: Kind,
) -> LossResult {
    match haul {
        _ if gone.of_jump() => study.lose(gone, kind),
        Some(haul) => haul.lose(study, gone, kind),
        None => bare("", LossOutcome::NoAnswer, "no answer: the rig has no haul"),
    }
}

fn verdict(table: &LossTable) -> String {
    let count = |losses: &[Loss]| {
        let all: Vec<_> = losses.iter().flat_map(Loss::results).map(|(_, r)| r.outcome).collect();
        let of = |outcome| all.iter().filter(|found| **found == outcome).count();
        let words = [
            (LossOutcome::Held, "held within every limit"),
            (LossOutcome::CarriesNothing, "of parts that carry nothing"),
            (LossOutcome::Short, "short of a limit"),
            (LossOutcome::Breaks, "past the strength of a further part"),
            (LossOutcome::Hits, "into a wall or the ground"),
            (LossOutcome::Falls, "falls"),
            (LossOutcome::NoAnswer, "without an answer"),
        ];
        let words: Vec<_> = words
            .iter()
            .filter(|(outcome, _)| of(*outcome) > 0)
            .map(|(outcome, words)| format!("{} {words}", of(*outcome)))
            .collect();
        (all.len(), words.join(", "))
    };
    let (cases, words) = count(&table.single);
    let one = format!("With one part lost, {cases} cases: {words}.");
    if table.pairs.is_empty() {
        return one;
    }
    let (cases, words) = count(&table.pairs);
    format!("{one} With two lost, {cases} cases: {words}.")
}

/// Limits of the whole table.
fn notes(rig: &Rig) -> Vec<String> {
    let mut notes = vec![
        "Tensions of lines are quasi-static: a slack line that snaps taut may see several times the \
         figure. What is still moving after a minute is not followed."
            .to_owned(),
        "Where a part of an anchor is lost, the pull falls as the lines slacken with the way of the \
         master point, by their stiffness over all of it; the peak under the full pull stands beside \
         as the upper bound. Absent from the start, or with other lines lost, the full pull is taken. \
         The drop of the ring for it is that at rest."
            .to_owned(),
    ];
    if rig.gear.iter().any(|g| g.end.is_none() && rig.line.iter().any(|l| l.name == g.at)) {
        notes.push(
            "Gear at a line without an end is taken where the line meets the ring: both sides of the line \
             go with it."
                .to_owned(),
        );
    }
    notes
}
