//! What the loss of each part does.

use super::{factor, kn, m};
use crate::quantity::Ratio;
use crate::rig::plan::result::{Loss, LossResult, LossTable, TakesLoad};
use crate::rig::plan::table::Table;

impl LossTable {
    /// The table for people: a row for each component, or components in series, and each way of losing it.
    #[must_use]
    pub fn table(&self) -> Table {
        let head = [
            "part",
            "when",
            "takes the load",
            "drop",
            "peak",
            "factor of required",
            "clearance left",
            "verdict",
        ];
        let remark = format!(
            "{} Drop is of the body at its lowest, of the master point for a leg, of the head for a frame. Peak is \
             that of what takes the load; of a part of an anchor, as the lines slacken. Clearance is from the surface of the body, the survey error taken off. \
             {SLOW}: a line that is too slow for its quasi-static tension in that motion; a snap may be several times \
             the figure.",
            self.verdict
        );
        let mut table = Table::new("losses", "One part lost", &head).remark(remark);
        for loss in self.single.iter().chain(&self.pairs) {
            for (when, result) in loss.results() {
                table.row(row(loss, when, result, self.required));
            }
        }
        table
    }
}

/// Behind a line whose figure is quasi-static though it is too slow for that.
const SLOW: &str = "(not with its waves)";

fn marked(takes: &TakesLoad, result: &LossResult) -> String {
    let component = &takes.component;
    let slow = result.slow_lines.iter().any(|line| component.starts_with(&format!("{line}, ")));
    if slow { format!("{component} {SLOW}") } else { component.clone() }
}

fn row(loss: &Loss, when: &str, result: &LossResult, required: Ratio) -> [String; 8] {
    let none = || "–".to_owned();
    // The shift of a master point or a head is what people look for there; it lowers the body far less.
    let drop = match (result.extension, result.body_lower) {
        (Some(extension), Some(lower)) if lower > extension => Some(lower),
        (extension, lower) => extension.or(lower),
    };
    let clearance = match (result.clearance, &result.wall) {
        (Some(c), Some(w)) => format!("{} ({w})", m(c)),
        _ => none(),
    };
    [
        loss.parts.join(" + "),
        when.to_owned(),
        result.takes_load.as_ref().map_or_else(none, |t| marked(t, result)),
        // Without a minus before nothing.
        drop.map_or_else(none, |d| m(d).replace("-0.00", "0.00")),
        result.takes_load.as_ref().map_or_else(none, |t| kn(t.peak)),
        result.factor.map_or_else(none, |f| format!("{} of {}", factor(f), factor(required))),
        clearance,
        result.verdict.clone(),
    ]
}
