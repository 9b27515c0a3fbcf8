//! The same jump with one part absent before it.

use super::check::Ledger;
use super::flight::{Change, Site};
use super::gear::Defaults;
use super::lines::Span;
use super::ratings::{jump_ledger, rated, tightest};
use super::result::{LossJump, LossPlan};
use crate::quantity::{Length, Quantity, Ratio, show};
use crate::rig::{Rig, RigError};
use crate::swing::{Flight, Happening, Outlook};

/// Flies the jump without each line and each jump rope in turn.
pub(super) fn losses(site: &Site<'_>) -> Result<Vec<LossPlan>, RigError> {
    let rig = site.rig;
    let lines = rig.line.iter().map(|l| (l.name.as_str(), rig.line.len()));
    let ropes = rig.jump.rope.iter().map(|r| (r.name.as_str(), rig.jump.rope.len()));
    lines.chain(ropes).map(|(part, of)| loss(site, part, of)).collect()
}

fn loss(site: &Site<'_>, part: &str, of: usize) -> Result<LossPlan, RigError> {
    let bare = |verdict: String| LossPlan {
        part: part.to_owned(),
        jump: None,
        verdict,
        falls_short: true,
    };
    if of == 1 {
        return Ok(bare("nothing else holds the jumper: falls".to_owned()));
    }
    let change = Change { what_if: true, ..Change::default() };
    match site.fly(&site.rig.jumper, Some(part), change) {
        Ok(jump) => verdict(site.rig, site.spans, site.defaults, part, &jump),
        // A rig that has no answer without a part is a result of its own, not the end of the plan.
        Err(error) => Ok(bare(format!("no answer: {error}"))),
    }
}

fn verdict(
    rig: &Rig,
    spans: &[Span<'_>],
    defaults: &Defaults,
    part: &str,
    jump: &Outlook,
) -> Result<LossPlan, RigError> {
    let mut ledger = Ledger::default();
    jump_ledger(&mut ledger, "jump", jump);
    let required = rig.requirements.factor;
    let mut weakest: Option<(Ratio, String)> = None;
    for rated in rated(rig, spans)?.iter().filter(|r| r.component != part) {
        let check = rated.against(&ledger.get(rated.component, rated.place), required)?;
        if weakest.as_ref().is_none_or(|(factor, _)| check.factor < *factor) {
            weakest = Some((check.factor, format!("{}, {}", check.component, check.place)));
        }
    }
    let (factor, weakest) = weakest.unwrap_or((Ratio::from_si(0.0), "nothing".to_owned()));
    let ends = jump.lines_near.iter().chain(&jump.lines_far);
    let line =
        ends.max_by(|a, b| a.force.extreme.value.si().total_cmp(&b.force.extreme.value.si()));
    let contact = contact(&jump.soft).or_else(|| contact(&jump.stiff));
    let tightest = tightest(rig, defaults, jump);
    let body = jump.body_force.extreme.value;
    let mut short = Vec::new();
    if let Some(contact) = &contact {
        short.push(contact.clone());
    } else if let Some((wall, spare)) = tightest
        && spare < 0.0
    {
        let missing = show(Length::from_si(-spare), "m", 1);
        short.push(format!("{missing} short of the clearance at {}", wall.wall));
    }
    if factor < required {
        short.push(format!("factor {:.1} of the required {:.1}", factor.si(), required.si()));
    }
    if body > rig.requirements.body_force {
        short.push("too much force on the body".to_owned());
    }
    let verdict = if short.is_empty() {
        format!("held with factor {:.1} of the required {:.1}", factor.si(), required.si())
    } else {
        format!("SHORT: {}", short.join("; "))
    };
    Ok(LossPlan {
        part: part.to_owned(),
        jump: Some(LossJump {
            body_force: body,
            line: line.map_or_else(String::new, |l| l.name.clone()),
            line_tension: line.map_or(body, |l| l.force.extreme.value),
            factor,
            weakest,
            lowest: jump.lowest.extreme.value,
            clearance: tightest.map(|(wall, _)| wall.least.extreme.value),
            wall: tightest.map(|(wall, _)| wall.wall.clone()),
            contact,
        }),
        verdict,
        falls_short: !short.is_empty(),
    })
}

/// Words for a contact, if a run ended in one.
pub(super) fn contact(flight: &Flight) -> Option<String> {
    flight.events.iter().find_map(|event| match &event.what {
        Happening::Contact { wall, speed } => {
            Some(format!("hits the {wall} at {}", show(*speed, "m/s", 0)))
        }
        _ => None,
    })
}
