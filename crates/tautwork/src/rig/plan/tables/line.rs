//! Lengths of the lines.

use super::m;
use crate::quantity::show;
use crate::rig::plan::result::Plan;
use crate::rig::plan::table::Table;

pub(super) fn lines(plan: &Plan) -> Table {
    let head = ["line", "chord", "rest length", "near end to ring", "mass", "from"];
    let mut table = Table::new("lines", "Lines", &head).remark(
        "Plan from tension, not from cut length: half a metre of survey error is a kilonewton.",
    );
    for line in &plan.lines {
        table.row([
            line.name.clone(),
            m(line.chord),
            m(line.rest_length),
            m(line.near_length),
            show(line.mass, "kg", 1),
            line.from.clone(),
        ]);
    }
    table
}
