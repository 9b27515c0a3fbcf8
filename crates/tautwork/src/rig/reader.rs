//! Reads a document tree into typed entries, collecting every mistake instead of the first,
//! and describes the same entries as a JSON Schema.

use std::collections::BTreeMap;

use serde_json::json;

use super::mistake::Mistake;
use super::tree::{Node, Value};
use crate::quantity::{Quantity, check, parse};

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

fn join(path: &str, key: &str) -> String {
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
}

impl<Q: Quantity> Read for Q {
    fn read(node: &Node, path: &str, rule: Rule, reader: &mut Reader) -> Self {
        let parsed = match &node.value {
            Value::Text(text) => parse::<Q>(text).map_err(|e| e.to_string()),
            Value::Number(x) if Q::UNITS[0].symbol == "1" && x.is_finite() => Ok(Q::from_si(*x)),
            Value::Number(x) => Err(format!(
                "{x} has no unit; write a {} as a text such as \"{}\"",
                Q::NAME,
                Q::EXAMPLE
            )),
            other => Err(format!(
                "this is {}; write a {} as a text such as \"{}\"",
                other.name(),
                Q::NAME,
                Q::EXAMPLE
            )),
        };
        let checked = parsed.and_then(|q| {
            let result = match rule {
                Rule::Any => check::finite("this", q),
                Rule::Positive => check::positive("this", q),
                Rule::NonNegative => check::non_negative("this", q),
                Rule::Fraction => check::fraction("this", crate::quantity::Ratio::from_si(q.si())),
            };
            result.map(|_| q).map_err(|e| e.to_string())
        });
        checked.unwrap_or_else(|message| {
            reader.mistake(node.line, path, message);
            Self::placeholder()
        })
    }

    fn placeholder() -> Self {
        Q::from_si(1.0)
    }

    fn schema(rule: Rule) -> serde_json::Value {
        let range = match rule {
            Rule::Any => "",
            Rule::Positive => ", above zero",
            Rule::NonNegative => ", zero or more",
            Rule::Fraction => ", above 0 and at most 1",
        };
        let units: Vec<_> = Q::UNITS.iter().map(|u| u.symbol).collect();
        let text = json!({
            "type": "string",
            "description": format!("A {}{range}, in {}.", Q::NAME, units.join(", ")),
            "examples": [Q::EXAMPLE],
            "pattern": r"^\s*[+\-−]?(\d|\.\d)",
        });
        if Q::UNITS[0].symbol == "1" {
            json!({ "anyOf": [text, { "type": "number" }] })
        } else {
            text
        }
    }
}

impl Read for String {
    fn read(node: &Node, path: &str, _: Rule, reader: &mut Reader) -> Self {
        match &node.value {
            Value::Text(text) if !text.trim().is_empty() => return text.clone(),
            Value::Text(_) => reader.mistake(node.line, path, "this text is empty; write a name"),
            _ => reader.wrong_type(node, path, "a text in quotes"),
        }
        Self::placeholder()
    }

    fn placeholder() -> Self {
        Self::new()
    }

    fn schema(_: Rule) -> serde_json::Value {
        json!({ "type": "string", "minLength": 1 })
    }
}

/// A whole number of people or things.
impl Read for u32 {
    fn read(node: &Node, path: &str, _: Rule, reader: &mut Reader) -> Self {
        match node.value {
            Value::Number(x) if x.fract() == 0.0 && (1.0..=1000.0).contains(&x) => {
                // In range and whole, as just checked.
                #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
                {
                    x as Self
                }
            }
            _ => {
                reader.wrong_type(node, path, "a whole number from 1 to 1000");
                Self::placeholder()
            }
        }
    }

    fn placeholder() -> Self {
        1
    }

    fn schema(_: Rule) -> serde_json::Value {
        json!({ "type": "integer", "minimum": 1, "maximum": 1000 })
    }
}

impl<T: Read> Read for Option<T> {
    fn read(node: &Node, path: &str, rule: Rule, reader: &mut Reader) -> Self {
        Some(T::read(node, path, rule, reader))
    }

    fn placeholder() -> Self {
        None
    }

    fn absent() -> Option<Self> {
        Some(None)
    }

    fn schema(rule: Rule) -> serde_json::Value {
        T::schema(rule)
    }
}

/// Most entries of one list: enough for any rig, few enough to bound the time a document can take.
const MAX_ITEMS: usize = 2000;

impl<T: Read> Read for Vec<T> {
    fn read(node: &Node, path: &str, rule: Rule, reader: &mut Reader) -> Self {
        let Value::List(items) = &node.value else {
            reader.wrong_type(node, path, "a list");
            return Self::placeholder();
        };
        if items.len() > MAX_ITEMS {
            let message =
                format!("this list has {} items; it must have at most {MAX_ITEMS}", items.len());
            reader.mistake(node.line, path, message);
            return Self::placeholder();
        }
        let read = items.iter().enumerate().map(|(i, item)| {
            let at = format!("{path}[{i}]");
            reader.note_line(&at, item.line);
            T::read(item, &at, rule, reader)
        });
        read.collect()
    }

    fn placeholder() -> Self {
        Self::new()
    }

    fn absent() -> Option<Self> {
        Some(Vec::new())
    }

    fn schema(rule: Rule) -> serde_json::Value {
        json!({ "type": "array", "items": T::schema(rule), "maxItems": MAX_ITEMS })
    }
}

impl<T: Read, const N: usize> Read for [T; N] {
    fn read(node: &Node, path: &str, rule: Rule, reader: &mut Reader) -> Self {
        match &node.value {
            Value::List(items) if items.len() == N => {
                std::array::from_fn(|i| T::read(&items[i], &format!("{path}[{i}]"), rule, reader))
            }
            _ => {
                reader.wrong_type(node, path, &format!("a list of {N} values"));
                Self::placeholder()
            }
        }
    }

    fn placeholder() -> Self {
        std::array::from_fn(|_| T::placeholder())
    }

    fn schema(rule: Rule) -> serde_json::Value {
        json!({ "type": "array", "items": T::schema(rule), "minItems": N, "maxItems": N })
    }
}

impl<T: Read> Read for BTreeMap<String, T> {
    fn read(node: &Node, path: &str, rule: Rule, reader: &mut Reader) -> Self {
        let mut found = Self::new();
        let Value::Table(entries) = &node.value else {
            reader.wrong_type(node, path, "a table of named entries");
            return found;
        };
        for (key, line, value) in entries {
            let at = join(path, &format!("{key:?}"));
            reader.note_line(&at, *line);
            let item = T::read(value, &at, rule, reader);
            if found.insert(key.clone(), item).is_some() {
                reader.mistake(*line, &at, "this name stands here twice; keep one");
            }
        }
        found
    }

    fn placeholder() -> Self {
        Self::new()
    }

    fn absent() -> Option<Self> {
        Some(Self::new())
    }

    fn schema(rule: Rule) -> serde_json::Value {
        json!({ "type": "object", "additionalProperties": T::schema(rule) })
    }
}

/// A low and a high value: one text, or a list of two.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range<Q> {
    /// The lower value.
    pub low: Q,
    /// The upper value, equal to the lower one where one value was given.
    pub high: Q,
}

impl<Q: Quantity> Read for Range<Q> {
    fn read(node: &Node, path: &str, rule: Rule, reader: &mut Reader) -> Self {
        if !matches!(node.value, Value::List(_)) {
            let q = Q::read(node, path, rule, reader);
            return Self { low: q, high: q };
        }
        let [low, high] = <[Q; 2]>::read(node, path, rule, reader);
        if low > high {
            reader.mistake(node.line, path, "the first value must not be above the second");
        }
        Self { low, high }
    }

    fn placeholder() -> Self {
        Self { low: Q::placeholder(), high: Q::placeholder() }
    }

    fn schema(rule: Rule) -> serde_json::Value {
        json!({ "anyOf": [Q::schema(rule), <[Q; 2]>::schema(rule)] })
    }
}

/// Declares a table of the document: its struct, its reader and its schema in one place.
macro_rules! table {
    ($(#[doc = $doc:literal])* pub struct $name:ident {
        $( $(#[doc = $about:literal])* $field:ident : $ty:ty $(=> $rule:ident)? ),* $(,)?
    }) => {
        $(#[doc = $doc])*
        #[derive(Debug, Clone, PartialEq)]
        pub struct $name {
            $( $(#[doc = $about])* pub $field: $ty, )*
        }

        impl Read for $name {
            fn read(node: &Node, path: &str, _: Rule, reader: &mut Reader) -> Self {
                let keys = [$(stringify!($field)),*];
                let Some(table) = reader.table(node, path, &keys) else {
                    return Self::placeholder();
                };
                $(
                    #[allow(unused_mut, unused_assignments)]
                    let mut rule = Rule::Any;
                    $( rule = Rule::$rule; )?
                    let $field = reader.field::<$ty>(&table, node, path, stringify!($field), rule);
                )*
                Self { $($field),* }
            }

            fn placeholder() -> Self {
                Self { $( $field: <$ty as Read>::placeholder() ),* }
            }

            fn schema(_: Rule) -> serde_json::Value {
                let mut properties = serde_json::Map::new();
                let mut required: Vec<&str> = Vec::new();
                $(
                    #[allow(unused_mut, unused_assignments)]
                    let mut rule = Rule::Any;
                    $( rule = Rule::$rule; )?
                    let about = super::reader::joined(&[$($about),*]);
                    properties.insert(
                        stringify!($field).to_owned(),
                        super::reader::described(<$ty as Read>::schema(rule), &about),
                    );
                    if <$ty as Read>::absent().is_none() {
                        required.push(stringify!($field));
                    }
                )*
                serde_json::json!({
                    "type": "object",
                    "description": super::reader::joined(&[$($doc),*]),
                    "properties": properties,
                    "required": required,
                    "additionalProperties": false,
                })
            }
        }
    };
}

/// Declares a choice between fixed words.
macro_rules! choice {
    ($(#[doc = $doc:literal])* pub enum $name:ident {
        $( $(#[doc = $about:literal])* $variant:ident = $word:literal ),* $(,)?
    }) => {
        $(#[doc = $doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
        pub enum $name {
            $( $(#[doc = $about])* #[serde(rename = $word)] $variant, )*
        }

        impl Read for $name {
            fn read(node: &Node, path: &str, _: Rule, reader: &mut Reader) -> Self {
                let words = [$($word),*];
                match &node.value {
                    $( super::tree::Value::Text(text) if text == $word => return Self::$variant, )*
                    super::tree::Value::Text(text) => {
                        let message = super::reader::unknown(text, &words);
                        reader.mistake(node.line, path, message);
                    }
                    _ => reader.wrong_type(node, path, &format!("\"{}\"", words.join("\" or \""))),
                }
                Self::placeholder()
            }

            fn placeholder() -> Self {
                [$(Self::$variant),*][0]
            }

            fn schema(_: Rule) -> serde_json::Value {
                serde_json::json!({ "enum": [$($word),*] })
            }
        }
    };
}

pub(super) use {choice, table};

/// A schema with a description put before the one of its type.
pub(super) fn described(mut schema: serde_json::Value, about: &str) -> serde_json::Value {
    if let Some(object) = schema.as_object_mut() {
        let own = object.get("description").and_then(serde_json::Value::as_str).unwrap_or("");
        let text =
            [about, own].iter().filter(|s| !s.is_empty()).copied().collect::<Vec<_>>().join(" ");
        if !text.is_empty() {
            object.insert("description".to_owned(), json!(text));
        }
    }
    schema
}

/// Doc comment lines as one text.
pub(super) fn joined(lines: &[&str]) -> String {
    lines.iter().map(|line| line.trim()).collect::<Vec<_>>().join(" ")
}
