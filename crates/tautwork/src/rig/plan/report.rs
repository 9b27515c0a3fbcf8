//! The plan as plain text for a terminal.

use std::fmt::Write as _;

use super::result::Plan;
use super::table::wrap;
use crate::quantity::Quantity;

impl Plan {
    /// The whole plan as plain text: cautions, verdict, tables, notes.
    ///
    /// # Example
    /// ```
    /// let rig = tautwork::rig::parse(include_str!("../../../../../examples/kestrel-gap.toml"))?;
    /// let report = tautwork::rig::plan(&rig)?.report();
    /// assert!(report.contains("calculations, not permission"));
    /// # Ok::<(), tautwork::rig::RigError>(())
    /// ```
    #[must_use]
    pub fn report(&self) -> String {
        let mut out = String::new();
        let _ = writeln!(out, "PLAN FOR {}\n", self.rig.to_uppercase());
        if let Some(note) = &self.note {
            let _ = writeln!(out, "{}\n", wrap(note, 96));
        }
        for caution in &self.cautions {
            let _ = writeln!(out, "! {caution}");
        }
        let _ = writeln!(out, "\n{}", self.verdict);
        for table in &self.tables {
            let _ = writeln!(out, "\n{}", table.to_text());
        }
        let _ = writeln!(out, "\nNotes");
        for note in &self.notes {
            let _ = writeln!(out, "- {}", wrap(note, 94).replace('\n', "\n  "));
        }
        out
    }

    /// One paragraph: how many checks fall short, and which.
    pub(super) fn verdict(&self) -> String {
        let strength = self.checks.strength.iter().filter(|c| c.falls_short);
        let mut short: Vec<String> = strength
            .map(|c| {
                format!(
                    "{} ({}): factor {:.1} of {:.1}",
                    c.component,
                    c.place,
                    c.factor.si(),
                    c.required.si()
                )
            })
            .collect();
        for c in self.checks.force.iter().filter(|c| c.falls_short) {
            short.push(format!("{}: {} over", c.what, crate::quantity::show(c.excess, "kN", 2)));
        }
        for c in self.checks.clearance.iter().filter(|c| c.falls_short) {
            short.push(format!("{}: {} short", c.what, crate::quantity::show(c.shortfall, "m", 2)));
        }
        for c in self.checks.other.iter().filter(|c| c.falls_short) {
            short.push(format!("{}: {}", c.what, c.answer));
        }
        let losses = self.losses.iter().filter(|l| l.falls_short).count();
        let absent = format!(
            "With one part absent before the jump, {losses} of {} cases fall short.",
            self.losses.len()
        );
        if short.is_empty() {
            return format!("Every check meets the rigger's limits. {absent}");
        }
        let count = if short.len() == 1 {
            "1 check falls".to_owned()
        } else {
            format!("{} checks fall", short.len())
        };
        format!("{count} short of the rigger's limits:\n  - {}\n{absent}", short.join("\n  - "))
    }
}
