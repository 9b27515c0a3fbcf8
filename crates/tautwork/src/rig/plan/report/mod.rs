//! The report of a plan: as text, as Markdown and as a page.

mod html;
mod markdown;
mod text;

#[cfg(test)]
mod tests;

use serde::{Deserialize, Serialize};

use super::picture::Pictures;
use super::result::Plan;
use super::table::Table;
use crate::quantity::{Quantity, show};

/// What a report shows of a plan. Reads from the JSON of a [`Plan`] too.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Report {
    /// Name of the rig.
    pub rig: String,
    /// Remark of the document.
    #[serde(default)]
    pub note: Option<String>,
    /// How many checks fall short, and which: the first line, a line "- ..." for each, and the rest.
    pub verdict: String,
    /// What to keep in mind.
    pub cautions: Vec<String>,
    /// The results.
    pub tables: Vec<Table>,
    /// Drawings, which go into a page as they are.
    pub pictures: Pictures,
    /// Limits of the answers.
    pub notes: Vec<String>,
}

/// Form of a report.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ReportFormat {
    /// Plain text, for a terminal.
    Text,
    /// Markdown with tables, without the pictures.
    Markdown,
    /// One HTML file with everything in it: for a phone and for paper. It runs no scripts.
    Html,
}

/// The report of a plan as text: cautions, verdict, tables with their models and inputs, notes.
///
/// Names and remarks of the document never become markup.
///
/// # Example
/// ```
/// use tautwork::rig::{Report, ReportFormat, report_text};
/// let plan = serde_json::json!({
///     "rig": "A | B", "verdict": "Nothing was checked.", "cautions": [], "tables": [], "notes": [],
///     "pictures": { "side_view": "", "force": "" },
/// });
/// let report: Report = serde_json::from_value(plan).unwrap();
/// assert!(report_text(&report, ReportFormat::Markdown).contains("# Plan for A \\| B"));
/// ```
#[must_use]
pub fn report_text(plan: &Report, format: ReportFormat) -> String {
    match format {
        ReportFormat::Text => text::text(plan),
        ReportFormat::Markdown => markdown::markdown(plan),
        ReportFormat::Html => html::html(plan),
    }
}

impl From<&Plan> for Report {
    fn from(plan: &Plan) -> Self {
        Self {
            rig: plan.rig.clone(),
            note: plan.note.clone(),
            verdict: plan.verdict.clone(),
            cautions: plan.cautions.clone(),
            tables: plan.tables.clone(),
            pictures: plan.pictures.clone(),
            notes: plan.notes.clone(),
        }
    }
}

impl Report {
    /// Whether anything falls short.
    fn falls_short(&self) -> bool {
        self.tables.iter().flat_map(|table| &table.rows).any(|row| Table::falls_short(row))
    }

    /// The verdict's first line, its items, and its other lines.
    fn verdict_parts(&self) -> (&str, Vec<&str>, Vec<&str>) {
        let mut lines = self.verdict.lines().map(str::trim).filter(|line| !line.is_empty());
        let first = lines.next().unwrap_or("");
        let (items, others): (Vec<_>, Vec<_>) = lines.partition(|line| line.starts_with("- "));
        (first, items.iter().map(|item| &item[2..]).collect(), others)
    }
}

impl Plan {
    /// The whole plan as plain text: cautions, verdict, tables, notes.
    ///
    /// # Example
    /// ```
    /// let rig = tautwork::rig::parse(include_str!("../../../../../../examples/kestrel-gap.toml"))?;
    /// let report = tautwork::rig::plan(&rig)?.report();
    /// assert!(report.contains("calculations, not permission"));
    /// # Ok::<(), tautwork::rig::RigError>(())
    /// ```
    #[must_use]
    pub fn report(&self) -> String {
        report_text(&self.into(), ReportFormat::Text)
    }

    /// The same as Markdown, without the pictures.
    #[must_use]
    pub fn markdown(&self) -> String {
        report_text(&self.into(), ReportFormat::Markdown)
    }

    /// The same as one HTML file with the pictures in it, for a phone and for paper.
    #[must_use]
    pub fn html(&self) -> String {
        report_text(&self.into(), ReportFormat::Html)
    }

    /// One paragraph: how many checks fall short, and which.
    pub(in crate::rig::plan) fn verdict(&self) -> String {
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
            short.push(format!("{}: {} over", c.what, show(c.excess, "kN", 2)));
        }
        for c in self.checks.clearance.iter().filter(|c| c.falls_short) {
            short.push(format!("{}: {} short", c.what, show(c.shortfall, "m", 2)));
        }
        for c in self.checks.other.iter().filter(|c| c.falls_short) {
            short.push(format!("{}: {}", c.what, c.answer));
        }
        let losses = &self.losses.verdict;
        if short.is_empty() {
            return format!("Every check meets the rigger's limits. {losses}");
        }
        let count = if short.len() == 1 {
            "1 check falls".to_owned()
        } else {
            format!("{} checks fall", short.len())
        };
        format!("{count} short of the rigger's limits:\n  - {}\n{losses}", short.join("\n  - "))
    }
}
