//! Tables for people: the same rows for the terminal, the page and the notebook.

use std::fmt::Write as _;

use serde::{Deserialize, Serialize};

/// A titled table of texts.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Table {
    /// Short name, to pick a table by.
    pub key: String,
    /// Title.
    pub title: String,
    /// What to know when reading it; may be empty.
    pub remark: String,
    /// Heads of the columns, units included.
    pub head: Vec<String>,
    /// Rows, each as long as the head.
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// A table without rows.
    pub(super) fn new(key: &str, title: &str, head: &[&str]) -> Self {
        Self {
            key: key.to_owned(),
            title: title.to_owned(),
            remark: String::new(),
            head: head.iter().map(|&h| h.to_owned()).collect(),
            rows: Vec::new(),
        }
    }

    pub(super) fn remark(mut self, remark: impl Into<String>) -> Self {
        self.remark = remark.into();
        self
    }

    pub(super) fn row(&mut self, cells: impl IntoIterator<Item = impl Into<String>>) {
        self.rows.push(cells.into_iter().map(Into::into).collect());
    }

    /// The table as plain text, columns aligned: numbers to the right, words to the left.
    #[must_use]
    pub fn to_text(&self) -> String {
        let widths: Vec<usize> = (0..self.head.len())
            .map(|c| self.cells(c).map(|cell| cell.chars().count()).max().unwrap_or(0))
            .collect();
        let right: Vec<bool> = (0..self.head.len()).map(|c| self.is_numeric(c)).collect();
        let line = |cells: &[String]| {
            let padded = cells.iter().enumerate().map(|(c, cell)| {
                let blank = " ".repeat(widths[c].saturating_sub(cell.chars().count()));
                if right[c] { blank + cell } else { cell.clone() + &blank }
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
        for row in &self.rows {
            let _ = writeln!(out, "  {}", line(row));
        }
        out
    }

    fn cells(&self, column: usize) -> impl Iterator<Item = &String> {
        std::iter::once(&self.head[column]).chain(self.rows.iter().map(move |row| &row[column]))
    }

    fn is_numeric(&self, column: usize) -> bool {
        let numeric = |cell: &str| {
            cell.is_empty()
                || cell == "–"
                || cell.starts_with(|c: char| c.is_ascii_digit() || c == '-' || c == '−')
        };
        !self.rows.is_empty() && self.rows.iter().all(|row| numeric(&row[column]))
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
