//! The lines in the jump with their waves.

use super::kn;
use crate::quantity::{Quantity, show};
use crate::rig::plan::result::{Plan, WavePlan};
use crate::rig::plan::table::Table;

pub(super) fn waves(plan: &Plan) -> Vec<Table> {
    let person = plan.waves.as_ref().map(|waves| {
        let title = "Lines in the jump with their waves";
        table(waves, Table::new("waves", title, &HEAD), true)
    });
    let bag = plan.bag_waves.as_ref().map(|waves| {
        let title = "Lines in the jump of the bag with their waves";
        table(waves, Table::new("bag_waves", title, &HEAD), false)
    });
    person.into_iter().chain(bag).collect()
}

const HEAD: [&str; 6] =
    ["line", "near, peak", "far, peak", "at the ring", "over quasi-static", "used"];

/// The rows of a jump, which the checks use or not.
fn table(waves: &WavePlan, table: Table, checked: bool) -> Table {
    let remark = format!(
        "The full model, with every line and rope as a row of masses, over the first {}: the greater of the \
         stiff and the soft run. Snaps of slack lines are sizes, not digits.",
        show(waves.horizon, "s", 0)
    );
    let used = |words: &str| if checked { words } else { "to compare with a test" }.to_owned();
    let mut table = table.remark(&remark);
    for line in &waves.lines {
        table.row([
            line.line.clone(),
            kn(line.near.extreme.value),
            kn(line.far.extreme.value),
            kn(line.ring.extreme.value),
            line.over_quasi_static.map_or("–".to_owned(), |r| format!("{:.1} times", r.si())),
            used(if line.taken { "for the checks" } else { "to compare" }),
        ]);
    }
    for anchor in &waves.anchors {
        let all = format!("all at {}, at one instant", anchor.anchor);
        let none = || "–".to_owned();
        let used = used("for the anchor, if greater");
        table.row([all, kn(anchor.peak.extreme.value), none(), none(), none(), used]);
    }
    if let Some(body) = &waves.body_force {
        let none = || "–".to_owned();
        let used = used("for the body, if greater");
        let force = kn(body.extreme.value);
        table.row(["force on the body".to_owned(), force, none(), none(), none(), used]);
    }
    table
}
