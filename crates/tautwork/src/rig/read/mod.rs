//! Reads a document tree into typed entries, collecting every mistake instead of the first,
//! and describes the same entries as a JSON Schema.

mod declare;
pub(super) mod tree;
mod values;

use std::collections::BTreeMap;

pub(super) use declare::{choice, described, joined, table};
pub(super) use tree::Node;
use tree::Value;
pub use values::Range;

use serde::{Deserialize, Serialize};

use super::mistake::Mistake;

/// A value of a document.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Input {
    /// Path of its key, such as `line[0].tension`.
    pub key: String,
    /// The value, exact.
    pub value: String,
}

/// What a number must be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Rule {
    Any,
    Positive,
    NonNegative,
    Fraction,
}

/// Mistakes found so far, and where each path stands, for checks that come after reading.
#[derive(Debug, Default)]
pub(super) struct Reader {
    pub mistakes: Vec<Mistake>,
    lines: BTreeMap<String, usize>,
}

impl Reader {
    pub fn mistake(&mut self, line: usize, path: &str, message: impl Into<String>) {
        self.mistakes.push(Mistake { line, path: path.to_owned(), message: message.into() });
    }

    /// A mistake at a path read before; the line is that of the nearest part that was written.
    /// Says nothing where reading has already found a mistake: the value there is a placeholder.
    pub fn mistake_at(&mut self, path: &str, message: impl Into<String>) {
        if self.mistakes.iter().any(|m| m.path == path) {
            return;
        }
        let mut known = path;
        while !self.lines.contains_key(known) {
            known = known.rfind(['.', '[']).map_or("", |at| &known[..at]);
            if known.is_empty() {
                break;
            }
        }
        let line = self.lines.get(known).copied().unwrap_or(1);
        self.mistake(line, path, message);
    }

    fn note_line(&mut self, path: &str, line: usize) {
        self.lines.insert(path.to_owned(), line);
    }

    pub fn wrong_type(&mut self, node: &Node, path: &str, wanted: &str) {
        self.mistake(node.line, path, format!("this is {}; write {wanted}", node.value.name()));
    }

    /// The entries of a table, after naming its unknown and repeated keys.
    pub fn table<'a>(
        &mut self,
        node: &'a Node,
        path: &str,
        known: &[&str],
    ) -> Option<BTreeMap<&'a str, &'a Node>> {
        let Value::Table(entries) = &node.value else {
            self.wrong_type(node, path, &format!("a table with the keys {}", known.join(", ")));
            return None;
        };
        let mut found = BTreeMap::new();
        for (key, line, value) in entries {
            let at = join(path, key);
            if !known.contains(&key.as_str()) {
                self.mistake(*line, &at, unknown(key, known));
            } else if found.insert(key.as_str(), value).is_some() {
                self.mistake(*line, &at, "this key stands here twice; keep one");
            } else {
                self.note_line(&at, *line);
            }
        }
        Some(found)
    }

    pub fn field<T: Read>(
        &mut self,
        table: &BTreeMap<&str, &Node>,
        within: &Node,
        path: &str,
        key: &str,
        rule: Rule,
    ) -> T {
        let at = join(path, key);
        if let Some(node) = table.get(key) {
            return T::read(node, &at, rule, self);
        }
        T::absent().unwrap_or_else(|| {
            self.mistake(within.line, &at, "this key is missing");
            T::placeholder()
        })
    }
}

pub(super) fn join(path: &str, key: &str) -> String {
    if path.is_empty() { key.to_owned() } else { format!("{path}.{key}") }
}

/// Words for a key or name that is not known, with the nearest one that is.
pub(super) fn unknown(key: &str, known: &[&str]) -> String {
    let near = known.iter().map(|k| (strsim::damerau_levenshtein(key, k), k)).min();
    match near {
        Some((distance, name)) if distance <= 2.max(key.len() / 3) => {
            format!("\"{key}\" is not known here; did you mean \"{name}\"?")
        }
        _ => format!("\"{key}\" is not known here; use one of {}", known.join(", ")),
    }
}

/// A type that stands in a rig document.
pub(super) trait Read: Sized {
    /// The value, or a mistake and the placeholder, so that reading goes on and finds the rest.
    fn read(node: &Node, path: &str, rule: Rule, reader: &mut Reader) -> Self;
    /// What stands for a value that could not be read. It never leaves a document with mistakes.
    fn placeholder() -> Self;
    /// The value of a missing key; `None` if the key is required.
    fn absent() -> Option<Self> {
        None
    }
    fn schema(rule: Rule) -> serde_json::Value;
    /// The value as one text; none for a table, and for what is not there.
    fn text(&self) -> Option<String> {
        None
    }
    /// Adds every value that is there, with the path of its key.
    fn list(&self, path: &str, out: &mut Vec<Input>) {
        out.extend(self.text().map(|value| Input { key: path.to_owned(), value }));
    }
}
