//! One tree with line numbers for TOML and JSON documents.

use jsonc_parser::ast;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use crate::rig::mistake::Mistake;

/// Documents above this size are refused before they are parsed.
pub(in crate::rig) const MAX_BYTES: usize = 4 << 20;
/// Lists and tables nested deeper than this are refused before they are parsed.
pub(in crate::rig) const MAX_DEPTH: usize = 32;

/// A value and the line it stands on, counted from one.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::rig) struct Node {
    pub line: usize,
    pub value: Value,
}

#[derive(Debug, Clone, PartialEq)]
pub(in crate::rig) enum Value {
    Text(String),
    Number(f64),
    Bool(bool),
    List(Vec<Node>),
    Table(Vec<(String, usize, Node)>),
    /// JSON null or a TOML date: nothing a rig document uses.
    Other(&'static str),
}

impl Value {
    /// What the value is, for messages.
    pub fn name(&self) -> &'static str {
        match self {
            Self::Text(_) => "a text",
            Self::Number(_) => "a number",
            Self::Bool(_) => "true or false",
            Self::List(_) => "a list",
            Self::Table(_) => "a table",
            Self::Other(name) => name,
        }
    }
}

/// Parses a document: JSON if it starts with `{`, else TOML.
pub(in crate::rig) fn parse(text: &str) -> Result<Node, Vec<Mistake>> {
    if text.len() > MAX_BYTES {
        let message =
            format!("the document has {} bytes; it must have at most {MAX_BYTES}", text.len());
        return Err(vec![Mistake { line: 1, path: String::new(), message }]);
    }
    if let Some(line) = too_deep(text) {
        let message = format!("lists and tables are nested deeper than {MAX_DEPTH}");
        return Err(vec![Mistake { line, path: String::new(), message }]);
    }
    let lines = Lines::new(text);
    if text.trim_start_matches('\u{feff}').trim_start().starts_with('{') {
        json(text, &lines)
    } else {
        toml_document(text, &lines)
    }
}

/// Line numbers of byte offsets.
struct Lines(Vec<usize>);

impl Lines {
    fn new(text: &str) -> Self {
        Self(text.bytes().enumerate().filter_map(|(at, b)| (b == b'\n').then_some(at)).collect())
    }

    fn of(&self, offset: usize) -> usize {
        self.0.partition_point(|&newline| newline < offset) + 1
    }
}

/// The first line on which the nesting of brackets outside of strings passes the limit, or a dotted
/// key has more parts than that. Comments are skipped as in TOML; JSON has none.
fn too_deep(text: &str) -> Option<usize> {
    let (mut depth, mut dots, mut line, mut quote, mut escaped) =
        (0_usize, 0_usize, 1, None, false);
    let mut comment = false;
    for c in text.chars() {
        if c == '\n' {
            (line, comment, escaped, dots) = (line + 1, false, false, 0);
            // Only triple-quoted TOML strings span lines; their content counts as plain text then,
            // which can only refuse absurd documents.
            quote = None;
        } else if comment {
        } else if let Some(q) = quote {
            if escaped {
                escaped = false;
            } else if c == '\\' && q == '"' {
                escaped = true;
            } else if c == q {
                quote = None;
            }
        } else {
            match c {
                '"' | '\'' => quote = Some(c),
                '#' => comment = true,
                '.' => dots += 1,
                '=' => dots = 0,
                '[' | '{' => depth += 1,
                ']' | '}' => depth = depth.saturating_sub(1),
                _ => {}
            }
            if depth > MAX_DEPTH || dots > MAX_DEPTH {
                return Some(line);
            }
        }
    }
    None
}

fn toml_document(text: &str, lines: &Lines) -> Result<Node, Vec<Mistake>> {
    let (table, errors) = DeTable::parse_recoverable(text);
    if !errors.is_empty() {
        return Err(errors
            .iter()
            .map(|e| Mistake {
                line: e.span().map_or(1, |span| lines.of(span.start)),
                path: String::new(),
                message: format!("not TOML: {}", e.message().lines().collect::<Vec<_>>().join(" ")),
            })
            .collect());
    }
    Ok(Node { line: 1, value: toml_table(table.get_ref(), lines) })
}

fn toml_table(table: &DeTable<'_>, lines: &Lines) -> Value {
    let mut entries: Vec<_> = table
        .iter()
        .map(|(key, value)| {
            let line = lines.of(key.span().start);
            (key.get_ref().to_string(), line, toml_node(value, lines))
        })
        .collect();
    entries.sort_by_key(|entry| entry.1);
    Value::Table(entries)
}

fn toml_node(node: &Spanned<DeValue<'_>>, lines: &Lines) -> Node {
    let value = match node.get_ref() {
        DeValue::String(text) => Value::Text(text.to_string()),
        DeValue::Integer(i) => i64::from_str_radix(i.as_str(), i.radix())
            .map_or(Value::Other("an integer out of range"), |i| Value::Number(i as f64)),
        DeValue::Float(f) => {
            f.as_str().parse().map_or(Value::Other("a number out of range"), Value::Number)
        }
        DeValue::Boolean(b) => Value::Bool(*b),
        DeValue::Datetime(_) => Value::Other("a date"),
        DeValue::Array(list) => Value::List(list.iter().map(|n| toml_node(n, lines)).collect()),
        DeValue::Table(table) => toml_table(table, lines),
    };
    Node { line: lines.of(node.span().start), value }
}

fn json(text: &str, lines: &Lines) -> Result<Node, Vec<Mistake>> {
    let text = text.trim_start_matches('\u{feff}');
    // serde_json is the strict judge; the second parser only adds positions.
    if let Err(e) = serde_json::from_str::<serde_json::Value>(text) {
        let message = format!("not JSON: {e}");
        return Err(vec![Mistake { line: e.line().max(1), path: String::new(), message }]);
    }
    let parsed = jsonc_parser::parse_to_ast(
        text,
        &jsonc_parser::CollectOptions::default(),
        &jsonc_parser::ParseOptions::default(),
    );
    match parsed.map(|result| result.value) {
        Ok(Some(value)) => Ok(json_node(&value, lines)),
        _ => Err(vec![Mistake {
            line: 1,
            path: String::new(),
            message: "not JSON: no value found".to_owned(),
        }]),
    }
}

fn json_node(node: &ast::Value<'_>, lines: &Lines) -> Node {
    let (start, value) = match node {
        ast::Value::StringLit(s) => (s.range.start, Value::Text(s.value.to_string())),
        ast::Value::NumberLit(n) => (
            n.range.start,
            n.value.parse().map_or(Value::Other("a number out of range"), Value::Number),
        ),
        ast::Value::BooleanLit(b) => (b.range.start, Value::Bool(b.value)),
        ast::Value::NullKeyword(n) => (n.range.start, Value::Other("null")),
        ast::Value::Array(a) => {
            (a.range.start, Value::List(a.elements.iter().map(|n| json_node(n, lines)).collect()))
        }
        ast::Value::Object(o) => {
            let entries = o.properties.iter().map(|p| {
                let line = lines.of(p.range.start);
                (p.name.as_str().to_owned(), line, json_node(&p.value, lines))
            });
            (o.range.start, Value::Table(entries.collect()))
        }
    };
    Node { line: lines.of(start), value }
}
