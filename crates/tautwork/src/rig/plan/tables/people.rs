//! Wear, rests and exclusion zones.

use super::{kn, m, seconds};
use crate::quantity::{Quantity, show};
use crate::rig::plan::result::Plan;
use crate::rig::plan::table::Table;

fn dash() -> String {
    "–".to_owned()
}

pub(super) fn people(plan: &Plan) -> Vec<Table> {
    [wear(plan), rests(plan), drops(plan), breaks(plan)].into_iter().flatten().collect()
}

fn wear(plan: &Plan) -> Option<Table> {
    let head = [
        "part",
        "place",
        "rub in a jump",
        "contact at most",
        "force times travel",
        "work of friction",
        "jumps left",
        "verdict",
    ];
    let mut table = Table::new("wear", "Rub in one jump", &head).remark(
        "When to retire is the rigger's own rule; how much a rope bears is not in the model. Heat, grit and \
         sharp edges are worse than any figure here.",
    );
    for rub in &plan.rubs {
        let w = &rub.wear;
        table.row([
            rub.part.clone(),
            rub.place.clone(),
            m(w.travel),
            kn(w.greatest_contact),
            format!("{:.0} N·m", w.force_travel.si()),
            w.work.map_or_else(dash, |work| show(work, "J", 0)),
            w.jumps_left.map_or_else(dash, |n| n.to_string()),
            match w.jumps_left {
                Some(0) => "SHORT: retire it before the next jump",
                Some(_) => "met",
                None => "no rule given",
            }
            .to_owned(),
        ]);
    }
    (!table.rows.is_empty()).then_some(table)
}

fn rests(plan: &Plan) -> Option<Table> {
    let head = ["jump rope", "greatest strain", "rest by the model", "wait between jumps"];
    let mut table = Table::new("rests", "Rest between jumps", &head).remark(
        "The longer of the model's and the rigger's own. One relaxation time: real ropes recover over hours too.",
    );
    for rest in &plan.rests {
        table.row([
            rest.rope.clone(),
            show(rest.strain, "%", 1),
            rest.by_model.map_or_else(dash, seconds),
            rest.wait.map_or_else(dash, |t| show(t, "min", 1)),
        ]);
    }
    (!table.rows.is_empty()).then_some(table)
}

fn drops(plan: &Plan) -> Option<Table> {
    let head = ["from", "what", "height", "radius below", "hits at", "with"];
    let mut table = Table::new("drops", "Exclusion zone under the rig", &head).remark(
        "Nobody within this radius of the point straight below, all along the lines, while anything is above. \
         Height is over the lowest ground; bounces and rolling stones come on top.",
    );
    for drop in &plan.drops {
        table.row([
            drop.place.clone(),
            drop.thing.clone(),
            m(drop.height),
            show(drop.zone.radius, "m", 1),
            show(drop.zone.impact_speed, "m/s", 0),
            drop.zone.impact_energy.map_or_else(dash, |e| show(e, "J", 0)),
        ]);
    }
    (!table.rows.is_empty()).then_some(table)
}

fn breaks(plan: &Plan) -> Option<Table> {
    let head = [
        "line",
        "recoils to the",
        "breaks at the",
        "tension",
        "energy",
        "speed of the line",
        "reach all around",
        "its end mass at most",
    ];
    let mut table = Table::new("breaks", "Exclusion zone of a line that breaks", &head).remark(
        "At the greatest tension of the jump. The part that stays tied reaches its whole length around its tie, \
         behind the anchor too; what hangs at its end may come off and fly on.",
    );
    for broken in &plan.breaks {
        let r = &broken.recoil;
        table.row([
            broken.line.clone(),
            broken.towards.clone(),
            broken.at.clone(),
            kn(broken.tension),
            show(r.energy, "kJ", 2),
            show(r.speed, "m/s", 0),
            show(r.reach, "m", 0),
            r.thrown_speed.map_or_else(dash, |u| show(u, "m/s", 0)),
        ]);
    }
    (!table.rows.is_empty()).then_some(table)
}
