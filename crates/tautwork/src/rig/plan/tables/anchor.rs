//! Anchors.

use super::{factor, kn, percent};
use crate::quantity::{Quantity, Ratio};
use crate::rig::plan::result::{AnchorPlan, LegPlan, Plan};
use crate::rig::plan::table::Table;

pub(super) fn anchors(plan: &Plan) -> Table {
    let head = ["anchor", "part", "load", "share", "factor", "if it is lost"];
    let mut table = Table::new("anchors", "Anchors under their greatest pull", &head).remark(
        plan.anchors
            .iter()
            .map(|a| format!("{}: {} from {}.", a.name, kn(a.pull_size), a.from))
            .collect::<Vec<_>>()
            .join(" "),
    );
    for anchor in &plan.anchors {
        for leg in &anchor.legs {
            let load = if leg.tension.si() > 0.0 { kn(leg.tension) } else { "slack".to_owned() };
            let share = leg.share.map_or_else(none, percent);
            table.row(row(anchor, &leg.name, load, share, governed(leg)));
        }
        for knot in &anchor.knots {
            let load = if knot.loose { "loose" } else { "–" };
            table.row(row(anchor, &knot.name, load.to_owned(), none(), none()));
        }
        for fixing in &anchor.fixings {
            let factor = fixing.factor.map_or_else(none, factor);
            let load = if fixing.size.si() > 0.0 { kn(fixing.size) } else { none() };
            table.row(row(anchor, &fixing.name, load, none(), factor));
        }
    }
    table
}

/// What holds an anchor when one part of it is lost, or two.
pub(super) fn redundancy(plan: &Plan) -> Option<Table> {
    let head = ["anchor", "least factor", "at", "one part or two lost"];
    let mut table = Table::new("redundancy", "Redundancy of the anchors", &head).remark(
        "A path holds if what is left carries the same pull at a factor of 1 or more, the jerk of the loss \
         included: by energy, without damping, on the straight way to the new rest. Where a peak has a second one \
         beside, the pull falls as the lines slacken.",
    );
    for anchor in plan.anchors.iter().filter(|anchor| !anchor.legs.is_empty()) {
        table.row([
            anchor.name.clone(),
            anchor.factor.map_or_else(none, factor),
            anchor.weakest.clone().unwrap_or_else(none),
            anchor.redundancy.clone(),
        ]);
    }
    (!table.rows.is_empty()).then_some(table)
}

/// Bolts, trees and blocks under the force of their legs.
pub(super) fn fixings(plan: &Plan) -> Option<Table> {
    let head = ["anchor", "fixing", "kind", "force", "limit", "factor", "how"];
    let mut table = Table::new("fixings", "Fixings of the anchors", &head).remark(
        "Force and limit are in the direction of the pull. No figure here says that rock, roots or soil are sound.",
    );
    for anchor in &plan.anchors {
        for fixing in &anchor.fixings {
            let Some(hold) = &fixing.hold else { continue };
            table.row([
                anchor.name.clone(),
                fixing.name.clone(),
                hold.kind.word().to_owned(),
                kn(fixing.size),
                hold.limit.map_or_else(none, kn),
                hold.factor.map_or_else(none, factor),
                hold.how.clone(),
            ]);
        }
    }
    (!table.rows.is_empty()).then_some(table)
}

fn none() -> String {
    "–".to_owned()
}

fn governed(leg: &LegPlan) -> String {
    let words = |f: Ratio| match &leg.governed_by {
        Some(part) => format!("{} ({part})", factor(f)),
        None => factor(f),
    };
    leg.factor.map_or_else(none, words)
}

fn row(
    anchor: &AnchorPlan,
    name: &str,
    load: String,
    share: String,
    factor: String,
) -> [String; 6] {
    let has = |parts: &[String]| parts.iter().any(|part| part == name);
    let lost = anchor.lost.iter().find(|lost| has(&lost.parts));
    let lost = lost.map_or_else(String::new, |lost| lost.verdict.clone());
    [anchor.name.clone(), name.to_owned(), load, share, factor, lost]
}
