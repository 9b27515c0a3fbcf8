//! Tables for people: the same rows for the terminal, the page and the notebook.

use std::fmt::Write as _;

use serde::{Deserialize, Serialize};

use super::sources::source;

/// A public function that gave figures.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ModelPage {
    /// Its name, such as `line::solve_bundle`.
    pub function: String,
    /// Its page of theory, in the folder of the core's sources.
    pub page: String,
}

/// A titled table of texts.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Table {
    /// Short name, to pick a table by.
    pub key: String,
    /// Part of the report that it stands in.
    #[serde(default)]
    pub part: String,
    /// Title.
    pub title: String,
    /// What to know when reading it; may be empty.
    pub remark: String,
    /// Heads of the columns, units included.
    pub head: Vec<String>,
    /// Rows, each as long as the head.
    pub rows: Vec<Vec<String>>,
    /// Whether its rows are to be ticked off.
    #[serde(default)]
    pub tick: bool,
    /// What gave the figures.
    #[serde(default)]
    pub models: Vec<ModelPage>,
    /// Keys of the document that they come from; `[]` stands for each of a list, `*` for each name.
    #[serde(default)]
    pub inputs: Vec<String>,
}

impl Table {
    /// A table without rows.
    pub(super) fn new(key: &str, title: &str, head: &[&str]) -> Self {
        let source = source(key);
        Self {
            key: key.to_owned(),
            part: source.part.to_owned(),
            title: title.to_owned(),
            remark: String::new(),
            head: head.iter().map(|&h| h.to_owned()).collect(),
            rows: Vec::new(),
            tick: source.tick,
            models: source.models(),
            inputs: source.inputs.iter().map(|&key| key.to_owned()).collect(),
        }
    }

    pub(super) fn remark(mut self, remark: impl Into<String>) -> Self {
        self.remark = remark.into();
        self
    }

    pub(super) fn row(&mut self, cells: impl IntoIterator<Item = impl Into<String>>) {
        self.rows.push(cells.into_iter().map(Into::into).collect());
    }

    /// The table as plain text, columns aligned: numbers to the right, words to the left; a box before
    /// each row to tick off.
    #[must_use]
    pub fn to_text(&self) -> String {
        let columns = 0..self.head.len();
        let width = |c| self.column(c).map(|cell| cell.chars().count()).max().unwrap_or(0);
        let widths: Vec<usize> = columns.clone().map(width).collect();
        let right: Vec<bool> = columns.map(|c| self.is_numeric(c)).collect();
        let line = |cells: &[String]| {
            let padded = cells.iter().zip(&widths).zip(&right).map(|((cell, &width), &right)| {
                let blank = " ".repeat(width.saturating_sub(cell.chars().count()));
                if right { blank + cell } else { cell.clone() + &blank }
            });
            padded.collect::<Vec<_>>().join("  ").trim_end().to_owned()
        };
        let mut out = format!("{}\n", self.title);
        if !self.remark.is_empty() {
            let _ = writeln!(out, "{}", wrap(&self.remark, 96));
        }
        let _ = writeln!(out, "\n  {}", line(&self.head));
        let rule: Vec<String> = widths.iter().map(|&w| "─".repeat(w)).collect();
        let _ = writeln!(out, "  {}", rule.join("  "));
        let mark = if self.tick { "☐" } else { " " };
        for row in &self.rows {
            let _ = writeln!(out, "{mark} {}", line(row));
        }
        if let Some(source) = self.source() {
            let _ = writeln!(out, "\n{}", wrap(&source, 96));
        }
        out
    }

    /// In words, which models and inputs gave the figures.
    pub(super) fn source(&self) -> Option<String> {
        if self.models.is_empty() && self.inputs.is_empty() {
            return None;
        }
        let models = self.models.iter().map(|m| format!("{} ({})", m.function, m.page));
        let models: Vec<_> = models.collect();
        Some(format!("Model: {}. Inputs: {}.", models.join(", "), self.inputs.join(", ")))
    }

    /// Whether a row says that something falls short.
    pub(super) fn falls_short(row: &[String]) -> bool {
        row.iter().any(|cell| cell.starts_with("SHORT"))
    }

    /// Head and cells of a column; rows may be ragged in a table from elsewhere.
    fn column(&self, column: usize) -> impl Iterator<Item = &String> {
        let cells = self.rows.iter().filter_map(move |row| row.get(column));
        self.head.get(column).into_iter().chain(cells)
    }

    /// Whether a column holds numbers, which stand to the right.
    pub(super) fn is_numeric(&self, column: usize) -> bool {
        let numeric = |cell: &str| {
            cell.is_empty()
                || cell == "–"
                || cell.starts_with(|c: char| c.is_ascii_digit() || c == '-' || c == '−')
        };
        !self.rows.is_empty() && self.column(column).skip(1).all(|cell| numeric(cell))
    }
}

/// Breaks a text at blanks so that no line is longer than `width`, longer words excepted.
pub(super) fn wrap(text: &str, width: usize) -> String {
    let mut out = String::new();
    let mut used = 0;
    for word in text.split_whitespace() {
        let length = word.chars().count();
        if used > 0 && used + 1 + length > width {
            out.push('\n');
            used = 0;
        } else if used > 0 {
            out.push(' ');
            used += 1;
        }
        out.push_str(word);
        used += length;
    }
    out
}
