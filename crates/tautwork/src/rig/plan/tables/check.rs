//! Demand against rating, limits, and what was assumed.

use super::{factor, kn, m};
use crate::quantity::show;
use crate::rig::plan::result::Plan;
use crate::rig::plan::table::Table;

fn verdict(short: bool, text: &str) -> String {
    if short { format!("SHORT BY {text}") } else { "met".to_owned() }
}

pub(super) fn checks(plan: &Plan) -> Vec<Table> {
    let head = [
        "component",
        "place",
        "demand",
        "strength",
        "derated",
        "factor",
        "required",
        "verdict",
        "demand from",
    ];
    let mut strength = Table::new("strength", "Demand against rating", &head)
        .remark("Derated with the lower factors that act at the place. Factor is derated strength over demand.");
    for c in &plan.checks.strength {
        strength.row([
            c.component.clone(),
            c.place.clone(),
            kn(c.demand),
            show(c.strength, "kN", 1),
            show(c.derated, "kN", 1),
            factor(c.factor),
            factor(c.required),
            verdict(c.falls_short, &kn(c.shortfall)),
            c.from.clone(),
        ]);
    }
    let mut limits =
        Table::new("limits", "The rigger's limits", &["what", "value", "limit", "verdict", "from"]);
    for c in &plan.checks.force {
        limits.row([
            c.what.clone(),
            kn(c.force),
            format!("at most {}", kn(c.limit)),
            verdict(c.falls_short, &kn(c.excess)),
            c.from.clone(),
        ]);
    }
    for c in &plan.checks.clearance {
        limits.row([
            c.what.clone(),
            m(c.clearance),
            format!("at least {}", m(c.required)),
            verdict(c.falls_short, &m(c.shortfall)),
            c.from.clone(),
        ]);
    }
    for c in &plan.checks.other {
        let answer = if c.falls_short { format!("SHORT: {}", c.answer) } else { c.answer.clone() };
        limits.row([c.what.clone(), String::new(), String::new(), answer, String::new()]);
    }
    vec![limits, strength]
}

pub(super) fn assumptions(plan: &Plan) -> Table {
    let mut table = Table::new("assumptions", "Assumed", &["what", "value", "why"]);
    for a in &plan.assumptions {
        table.row([a.what.clone(), a.value.clone(), a.why.clone()]);
    }
    table
}

pub(super) fn inputs(plan: &Plan) -> Table {
    let mut table = Table::new("inputs", "The document", &["key", "value"]).remark(
        "Every value as it was read. The same document gives the same figures to the last digit.",
    );
    for input in &plan.inputs {
        table.row([input.key.clone(), input.value.clone()]);
    }
    table
}
