//! Standing states and the load sweep at the ring.

use super::{kn, m, percent};
use crate::quantity::show;
use crate::rig::plan::result::{Plan, StatePlan};
use crate::rig::plan::table::Table;

pub(super) fn states(key: &str, title: &str, states: &[StatePlan]) -> Table {
    let head = [
        "state",
        "line",
        "near end",
        "at ring",
        "far end",
        "below chord",
        "below near anchor",
        "ring z",
    ];
    let mut table = Table::new(key, title, &head);
    for state in states {
        for line in &state.lines {
            table.row([
                state.name.clone(),
                line.name.clone(),
                kn(line.tension_near),
                kn(line.tension_ring),
                kn(line.tension_far),
                m(line.sag_below_chord),
                m(line.sag_below_near),
                m(state.ring[2]),
            ]);
        }
    }
    table
}

pub(super) fn sweep(plan: &Plan) -> Table {
    let mut head = vec!["load at ring", "ring z"];
    let names: Vec<String> = plan.lines.iter().map(|l| format!("{}, near end", l.name)).collect();
    head.extend(names.iter().map(String::as_str));
    head.extend(["stiffness up-down", "along"]);
    let mut table = Table::new("sweep", "Load at the ring", &head);
    for step in &plan.sweep {
        let mut row = vec![kn(step.state.load), m(step.state.ring[2])];
        row.extend(step.state.lines.iter().map(|l| kn(l.tension_near)));
        row.push(show(step.stiffness_vertical, "N/m", 0));
        row.push(show(step.stiffness_along, "N/m", 0));
        table.row(row);
    }
    table
}

pub(super) fn shares(plan: &Plan) -> Table {
    let mut head = vec!["line", "begins at"];
    let loads: Vec<String> =
        plan.sweep.iter().map(|s| format!("share at {}", show(s.state.load, "kN", 0))).collect();
    head.extend(loads.iter().map(String::as_str));
    let mut table = Table::new("shares", "How the lines share the load", &head)
        .remark("Share of the vertical force on the ring, each line's own weight included.");
    for (i, engagement) in plan.engagement.iter().enumerate() {
        let begins = match (engagement.from_start, engagement.load) {
            (true, _) => "no load".to_owned(),
            (false, Some(load)) => kn(load),
            (false, None) => "beyond the sweep".to_owned(),
        };
        let mut row = vec![engagement.line.clone(), begins];
        row.extend(
            plan.sweep
                .iter()
                .map(|s| s.state.lines.get(i).map_or_else(String::new, |l| percent(l.share))),
        );
        table.row(row);
    }
    table
}
