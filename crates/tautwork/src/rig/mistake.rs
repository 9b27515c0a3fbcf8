//! What is wrong with a rig document.

use std::fmt;

use serde::{Deserialize, Serialize};

/// One mistake: where it stands and what would be right.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mistake {
    /// Line in the document, counted from one.
    pub line: usize,
    /// Path of the key, such as `line[0].rest_length`; empty for the document as a whole.
    pub path: String,
    /// What is wrong and what would be right.
    pub message: String,
}

impl fmt::Display for Mistake {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.path.is_empty() {
            write!(f, "line {}: {}", self.line, self.message)
        } else {
            write!(f, "line {}: {}: {}", self.line, self.path, self.message)
        }
    }
}

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum RigError {
    /// The document is wrong; all its mistakes, in the order of their lines.
    #[error("the rig document has {}:\n{}", count(.0), list(.0))]
    Document(Vec<Mistake>),
    /// An inventory is wrong; all its mistakes, each with its line and column.
    #[error("the inventory has {}:\n{}", count(.0), list(.0))]
    Inventory(Vec<Mistake>),
    /// A model could not answer for this rig.
    #[error("{what}: {reason}")]
    Unsolved {
        /// Which part of the plan was being solved.
        what: String,
        /// What the model said.
        reason: String,
    },
    /// The caller had enough before the end.
    #[error("stopped after {done} of {total} cases")]
    Stopped {
        /// Cases that were done.
        done: usize,
        /// All cases.
        total: usize,
    },
}

impl RigError {
    /// Mistakes of the document or the inventory; empty for another error.
    pub fn mistakes(&self) -> &[Mistake] {
        match self {
            Self::Document(mistakes) | Self::Inventory(mistakes) => mistakes,
            Self::Unsolved { .. } | Self::Stopped { .. } => &[],
        }
    }

    pub(super) fn unsolved(what: &str, reason: &dyn fmt::Display) -> Self {
        Self::Unsolved { what: what.to_owned(), reason: reason.to_string() }
    }
}

fn count(mistakes: &[Mistake]) -> String {
    match mistakes.len() {
        1 => "one mistake".to_owned(),
        n => format!("{n} mistakes"),
    }
}

fn list(mistakes: &[Mistake]) -> String {
    mistakes.iter().map(|m| format!("  {m}")).collect::<Vec<_>>().join("\n")
}
