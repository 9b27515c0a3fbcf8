//! Rope to cut.

use super::m;
use crate::quantity::{Quantity, show};
use crate::rig::plan::result::Plan;
use crate::rig::plan::table::Table;

pub(super) fn rope(plan: &Plan) -> Table {
    let sensitivity: Vec<String> = plan
        .rope_sensitivity
        .iter()
        .map(|s| format!("{} {:+.2} m", s.what, s.per_rope_length.si()))
        .collect();
    let remark = format!("One metre more of all jump ropes: {}.", sensitivity.join(", "));
    let head = ["rope", "tie-in to tie-in", "cut", "error", "mass"];
    let mut table = Table::new("rope", "Rope to cut", &head).remark(remark);
    for cut in &plan.cut {
        table.row([
            cut.rope.clone(),
            m(cut.tie_in_to_tie_in),
            m(cut.cut),
            format!("± {}", m(cut.error)),
            show(cut.mass, "kg", 1),
        ]);
    }
    table
}
