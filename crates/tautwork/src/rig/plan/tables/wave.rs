//! The lines in the jump with their waves.

use super::kn;
use crate::quantity::{Quantity, show};
use crate::rig::plan::result::Plan;
use crate::rig::plan::table::Table;

pub(super) fn waves(plan: &Plan) -> Option<Table> {
    let waves = plan.waves.as_ref()?;
    let head = ["line", "near, peak", "far, peak", "at the ring", "over quasi-static", "used"];
    let remark = format!(
        "The full model, with every line and rope as a row of masses, over the first {}: the greater of the \
         stiff and the soft run. Snaps of slack lines are sizes, not digits.",
        show(waves.horizon, "s", 0)
    );
    let mut table =
        Table::new("waves", "Lines in the jump with their waves", &head).remark(&remark);
    for line in &waves.lines {
        table.row([
            line.line.clone(),
            kn(line.near.extreme.value),
            kn(line.far.extreme.value),
            kn(line.ring.extreme.value),
            line.over_quasi_static.map_or("–".to_owned(), |r| format!("{:.1} times", r.si())),
            if line.taken { "for the checks" } else { "to compare" }.to_owned(),
        ]);
    }
    for anchor in &waves.anchors {
        let all = format!("all at {}, at one instant", anchor.anchor);
        let none = || "–".to_owned();
        let used = "for the anchor, if greater".to_owned();
        table.row([all, kn(anchor.peak.extreme.value), none(), none(), none(), used]);
    }
    if let Some(body) = &waves.body_force {
        let none = || "–".to_owned();
        let used = "for the body, if greater".to_owned();
        let force = kn(body.extreme.value);
        table.row(["force on the body".to_owned(), force, none(), none(), none(), used]);
    }
    Some(table)
}
