//! The report as plain text for a terminal.

use std::fmt::Write as _;

use super::Report;
use crate::rig::plan::table::wrap;

/// The whole report as plain text.
pub(super) fn text(report: &Report) -> String {
    let mut out = String::new();
    let _ = writeln!(out, "PLAN FOR {}\n", report.rig.to_uppercase());
    if let Some(note) = &report.note {
        let _ = writeln!(out, "{}\n", wrap(note, 96));
    }
    for caution in &report.cautions {
        let _ = writeln!(out, "! {caution}");
    }
    let _ = writeln!(out, "\n{}", report.verdict);
    let mut part = "";
    for table in &report.tables {
        if table.part != part {
            part = &table.part;
            let _ = writeln!(out, "\n{}", part.to_uppercase());
        }
        let _ = writeln!(out, "\n{}", table.to_text());
    }
    let _ = writeln!(out, "\nNotes");
    for note in &report.notes {
        let _ = writeln!(out, "- {}", wrap(note, 94).replace('\n', "\n  "));
    }
    out
}
