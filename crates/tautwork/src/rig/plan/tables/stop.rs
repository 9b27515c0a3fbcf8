//! Stops of the ring.

use super::{kn, m, seconds};
use crate::rig::plan::picture::name_of;
use crate::rig::plan::result::Plan;
use crate::rig::plan::table::Table;

pub(super) fn stops(plan: &Plan) -> Option<Table> {
    let head = ["stop", "tied at", "travel", "length", "greatest tension", "when"];
    let mut table = Table::new("stops", "Stops of the ring in the jump", &head).remark(
        "Length from tie-in to tie-in, with the ring where it waits. A stop that is never reached carries nothing.",
    );
    for stop in &plan.stops {
        let limit = &stop.tension;
        table.row([
            stop.name.clone(),
            stop.anchor.clone(),
            m(stop.travel),
            m(stop.length),
            kn(limit.extreme.value),
            format!("{} run, {}", name_of(limit.run), seconds(limit.extreme.time)),
        ]);
    }
    (!table.rows.is_empty()).then_some(table)
}
