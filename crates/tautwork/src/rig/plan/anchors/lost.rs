//! What the loss of one part of an anchor, or of two, does under its greatest pull.

use std::collections::BTreeSet;

use super::net::weak_place;
use super::parts::{effects, idle};
use crate::anchor::{AnchorSystem, Loss, cascade};
use crate::quantity::{Force, Quantity, show};
use crate::rig::AnchorEntry;
use crate::rig::plan::result::AnchorLossPlan;

/// Most effects of which all pairs are tried.
const MOST_FOR_PAIRS: usize = 40;

/// Losses of single parts and of pairs, and what they say about the redundancy.
pub(super) struct Losses {
    pub single: Vec<AnchorLossPlan>,
    pub pairs: Vec<AnchorLossPlan>,
    pub redundancy: String,
}

pub(super) fn losses(anchor: &AnchorEntry, system: &AnchorSystem) -> Losses {
    let effects = effects(anchor);
    let all = anchor.leg.len();
    let single: Vec<_> =
        effects.iter().map(|(legs, names)| lose(system, all, legs, names.clone())).collect();
    let mut pairs = Vec::new();
    let tried = effects.len() <= MOST_FOR_PAIRS;
    for (i, (a, names)) in effects.iter().enumerate().filter(|_| tried) {
        for (b, others) in &effects[i + 1..] {
            let both = idle(anchor, &(a | b));
            // What one of the two does alone is no pair.
            if both != *a && both != *b {
                let names = vec![names[0].clone(), others[0].clone()];
                pairs.push(lose(system, all, &both, names));
            }
        }
    }
    let mut words = vec![
        count(&single, "part", "parts lost"),
        if tried {
            count(&pairs, "pair", "pairs lost together")
        } else {
            format!("pairs of more than {MOST_FOR_PAIRS} parts are not tried")
        },
    ];
    words.retain(|words| !words.is_empty());
    Losses { single, pairs, redundancy: words.join("; ") }
}

fn count(losses: &[AnchorLossPlan], one: &str, many: &str) -> String {
    let not = losses.iter().filter(|loss| !loss.holds);
    let names: Vec<_> = not.map(|loss| loss.parts.join(" + ")).collect();
    match (losses.len(), names.as_slice()) {
        (0, _) => String::new(),
        (1, []) => format!("the only {one} lost leaves a path that holds"),
        (n, []) => format!("each of {n} {many} leaves a path that holds"),
        (n, names) => {
            let held = n - names.len();
            format!("{held} of {n} {many} leave a path that holds; not {}", names.join(", "))
        }
    }
}

fn lose(
    system: &AnchorSystem,
    all: usize,
    legs: &BTreeSet<usize>,
    parts: Vec<String>,
) -> AnchorLossPlan {
    let mut plan = AnchorLossPlan {
        parts,
        extension: None,
        worst_tension: None,
        peak_tension: None,
        worst_leg: None,
        factor: None,
        weakest: None,
        holds: false,
        verdict: "not held: no path is left".to_owned(),
    };
    if legs.len() == all {
        return plan;
    }
    match cascade(system, legs) {
        Ok(loss) => fill(&mut plan, system, &loss),
        Err(error) => plan.verdict = format!("no answer: {error}"),
    }
    plan
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
    let peak = overshoot.peaks.iter().map(|p| p.tension.si()).fold(0.0, f64::max);
    plan.extension = loss.extension;
    plan.worst_tension = rest.map(|leg| leg.tension);
    plan.worst_leg = rest.map(|leg| leg.name.clone());
    plan.peak_tension = Some(Force::from_si(peak));
    plan.factor = overshoot.least_factor;
    plan.weakest = overshoot.weakest.as_ref().map(place);
    plan.holds = overshoot.least_factor.is_none_or(|factor| factor.si() >= 1.0);
    let extension = loss.extension.map_or_else(String::new, |e| show(e, "m", 2));
    let figures = format!(
        "extends {extension}, worst leg {} at rest, {} at the peak",
        rest.map_or_else(String::new, |leg| show(leg.tension, "kN", 1)),
        show(Force::from_si(peak), "kN", 1),
    );
    plan.verdict = match (&plan.weakest, plan.factor) {
        (Some(weakest), Some(factor)) if !plan.holds => format!(
            "not held: {then}the jerk takes {weakest} past its derated strength, factor {:.2}; {figures}",
            factor.si()
        ),
        _ => format!("held: {then}{figures}"),
    };
}
