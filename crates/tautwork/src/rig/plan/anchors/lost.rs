//! What the loss of one part of an anchor, or of two, does under its greatest pull.

use std::collections::BTreeSet;

use super::net::weak_place;
use super::parts::{effects, idle};
use crate::anchor::{AnchorError, AnchorSystem, Loss, Overshoot, PullLine, cascade, lose_at_once};
use crate::quantity::{Force, Length, Quantity, show};
use crate::rig::AnchorEntry;
use crate::rig::plan::result::AnchorLossPlan;

/// The lines of an anchor as one that pulls, over a way of the master point along the pull; none without an answer.
pub(super) type Slackening<'a> = dyn Fn(Length) -> Option<PullLine> + 'a;

/// Most ways that are tried for the secant of the lines; the second is enough but for long cascades.
const MOST_WAYS: usize = 4;
/// Most effects of which all pairs are tried.
const MOST_FOR_PAIRS: usize = 40;

/// Losses of single parts and of pairs, and what they say about the redundancy.
pub(super) struct Losses {
    pub single: Vec<AnchorLossPlan>,
    pub pairs: Vec<AnchorLossPlan>,
    pub redundancy: String,
}

/// The losses; `line` gives the lines as one that pulls, over a way of the master point.
pub(super) fn losses(anchor: &AnchorEntry, system: &AnchorSystem, line: &Slackening<'_>) -> Losses {
    let effects = effects(anchor);
    let all = anchor.leg.len();
    let single: Vec<_> =
        effects.iter().map(|(legs, names)| lose(system, line, all, legs, names.clone())).collect();
    let mut pairs = Vec::new();
    let tried = effects.len() <= MOST_FOR_PAIRS;
    for (i, (a, names)) in effects.iter().enumerate().filter(|_| tried) {
        for (b, others) in &effects[i + 1..] {
            let both = idle(anchor, &(a | b));
            // What one of the two does alone is no pair.
            if both != *a && both != *b {
                let names = vec![names[0].clone(), others[0].clone()];
                pairs.push(lose(system, line, all, &both, names));
            }
        }
    }
    let mut words = vec![
        count(&single, " with ", "part", "parts lost"),
        if tried {
            count(&pairs, " + ", "pair", "pairs lost together")
        } else {
            format!("pairs of more than {MOST_FOR_PAIRS} parts are not tried")
        },
    ];
    words.retain(|words| !words.is_empty());
    Losses { single, pairs, redundancy: words.join("; ") }
}

fn count(losses: &[AnchorLossPlan], joint: &str, one: &str, many: &str) -> String {
    let not = losses.iter().filter(|loss| !loss.holds);
    let names: Vec<_> = not.map(|loss| loss.parts.join(joint)).collect();
    match (losses.len(), names.as_slice()) {
        (0, _) => String::new(),
        (1, []) => format!("the only {one} lost leaves a path that holds"),
        (1, [name]) => format!("the only {one} lost, {name}, leaves no path that holds"),
        (n, []) => format!("each of {n} {many} leaves a path that holds"),
        (n, names) => {
            let held = n - names.len();
            format!("{held} of {n} {many} leave a path that holds; not {}", names.join(", "))
        }
    }
}

fn lose(
    system: &AnchorSystem,
    line: &Slackening<'_>,
    all: usize,
    legs: &BTreeSet<usize>,
    parts: Vec<String>,
) -> AnchorLossPlan {
    let mut plan = AnchorLossPlan {
        parts,
        extension: None,
        worst_tension: None,
        peak_tension: None,
        peak_if_pull_stays: None,
        line_stiffness: None,
        worst_leg: None,
        factor: None,
        weakest: None,
        holds: false,
        verdict: "not held: no path is left".to_owned(),
    };
    if legs.len() == all {
        return plan;
    }
    match followed(system, line, legs) {
        Ok((loss, slackens)) => {
            plan.peak_if_pull_stays = slackens.map(|(_, peak)| peak);
            plan.line_stiffness = slackens.map(|(line, _)| line.stiffness);
            fill(&mut plan, system, &loss);
        }
        Err(error) => plan.verdict = format!("no answer: {error}"),
    }
    plan
}

/// A loss with the line that slackens in it, and the peak if it did not; under the unchanged pull where the line has
/// no answer.
fn followed(
    system: &AnchorSystem,
    line: &Slackening<'_>,
    legs: &BTreeSet<usize>,
) -> Result<(Loss, Option<(PullLine, Force)>), AnchorError> {
    let Some(bound) = lose_at_once(system, legs)? else {
        return Ok((cascade(system, legs)?, None));
    };
    let peak = peak(&bound.overshoot);
    let mut way_m = bound.overshoot.extension.si();
    for _ in 0..MOST_WAYS {
        let Some(pulls) = line(Length::from_si(way_m)) else { break };
        let loss = cascade(&AnchorSystem { line: Some(pulls), ..system.clone() }, legs)?;
        // A stage begins where the one before it rests, so both together are the longest way.
        let rest_m = loss.extension.map_or(0.0, Quantity::si);
        let turn_m = loss.overshoot.as_ref().map_or(0.0, |o| o.extension.si());
        let reached_m = if loss.stages.is_empty() { turn_m } else { rest_m + turn_m };
        // The secant holds for the way that it was taken over.
        if reached_m <= way_m * (1.0 + 1e-9) {
            return Ok((loss, Some((pulls, peak))));
        }
        way_m = reached_m;
    }
    Ok((cascade(system, legs)?, None))
}

fn peak(overshoot: &Overshoot) -> Force {
    Force::from_si(overshoot.peaks.iter().map(|p| p.tension.si()).fold(0.0, f64::max))
}

fn fill(plan: &mut AnchorLossPlan, system: &AnchorSystem, loss: &Loss) {
    let place = |name: &String| weak_place(system, name);
    let mut then = String::new();
    for stage in &loss.stages {
        let broke: Vec<_> = stage.broke.iter().map(place).collect();
        let verb = if broke.len() == 1 { "breaks" } else { "break" };
        then += &["then ", &broke.join(" and "), " ", verb, ", "].concat();
    }
    let (Some(after), Some(overshoot)) = (&loss.after, &loss.overshoot) else {
        plan.verdict = format!("not held: {then}and no path is left");
        return;
    };
    let rest = after.legs.iter().max_by(|a, b| a.tension.si().total_cmp(&b.tension.si()));
    let peak = peak(overshoot);
    plan.extension = loss.extension;
    plan.worst_tension = rest.map(|leg| leg.tension);
    plan.worst_leg = rest.map(|leg| leg.name.clone());
    plan.peak_tension = Some(peak);
    plan.factor = overshoot.least_factor;
    plan.weakest = overshoot.weakest.as_ref().map(place);
    plan.holds = overshoot.least_factor.is_none_or(|factor| factor.si() >= 1.0);
    // Without a minus before nothing.
    let extension = loss.extension.map_or_else(String::new, |e| show(e, "m", 2));
    let extension = extension.replace("-0.00", "0.00");
    let stays = plan.peak_if_pull_stays;
    let stays = stays.map(|stays| format!(", {} if the pull stayed", show(stays, "kN", 1)));
    let figures = format!(
        "extends {extension}, worst leg {} at rest, {} at the peak{}",
        rest.map_or_else(String::new, |leg| show(leg.tension, "kN", 1)),
        show(peak, "kN", 1),
        stays.unwrap_or_default(),
    );
    plan.verdict = match (&plan.weakest, plan.factor) {
        (Some(weakest), Some(factor)) if !plan.holds => format!(
            "not held: {then}the jerk takes {weakest} past its derated strength, factor {:.2}; {figures}",
            factor.si()
        ),
        _ => format!("held: {then}{figures}"),
    };
}
