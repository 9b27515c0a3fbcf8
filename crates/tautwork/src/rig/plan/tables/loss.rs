//! The jump with one part absent.

use super::{factor, kn, m};
use crate::rig::plan::result::{LossJump, Plan};
use crate::rig::plan::table::Table;

pub(super) fn losses(plan: &Plan) -> Table {
    let head = [
        "absent before the jump",
        "on the body",
        "worst line",
        "least factor",
        "lowest z",
        "clearance left",
        "verdict",
    ];
    let mut table = Table::new("losses", "The same jump with one part absent before it", &head)
        .remark("A part lost at rest or in the catch is another case, and may be worse.");
    for loss in &plan.losses {
        let j = loss.jump.as_ref();
        let text = |f: &dyn Fn(&LossJump) -> String| j.map_or("–".to_owned(), f);
        table.row([
            loss.part.clone(),
            text(&|j| kn(j.body_force)),
            text(&|j| format!("{} {}", j.line, kn(j.line_tension))),
            text(&|j| format!("{} ({})", factor(j.factor), j.weakest)),
            text(&|j| m(j.lowest)),
            text(&|j| match (&j.clearance, &j.wall) {
                (Some(c), Some(w)) => format!("{} ({w})", m(*c)),
                _ => "–".to_owned(),
            }),
            loss.verdict.clone(),
        ]);
    }
    table
}
