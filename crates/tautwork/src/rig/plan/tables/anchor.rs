//! Anchors.

use super::{kn, percent};
use crate::rig::plan::result::Plan;
use crate::rig::plan::table::Table;

pub(super) fn anchors(plan: &Plan) -> Table {
    let head = ["anchor", "leg", "tension", "share", "if this leg is lost"];
    let mut table = Table::new("anchors", "Anchors under their greatest pull", &head).remark(
        plan.anchors
            .iter()
            .map(|a| format!("{}: {} from {}.", a.name, kn(a.pull_size), a.from))
            .collect::<Vec<_>>()
            .join(" "),
    );
    for anchor in &plan.anchors {
        for leg in &anchor.legs {
            let lost = anchor.lost.iter().find(|l| l.leg == leg.name);
            table.row([
                anchor.name.clone(),
                leg.name.clone(),
                kn(leg.tension),
                percent(leg.share),
                lost.map_or_else(String::new, |l| l.verdict.clone()),
            ]);
        }
    }
    table
}
