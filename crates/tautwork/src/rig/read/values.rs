//! How each kind of value is read from a document and described in the schema.

use std::collections::BTreeMap;

use serde_json::json;

use super::tree::{Node, Value};
use super::{Input, Read, Reader, Rule, join};
use crate::quantity::{Quantity, check, parse, print};

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

    fn text(&self) -> Option<String> {
        Some(print(*self))
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

    fn text(&self) -> Option<String> {
        Some(self.clone())
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

    fn text(&self) -> Option<String> {
        Some(self.to_string())
    }
}

impl Read for bool {
    fn read(node: &Node, path: &str, _: Rule, reader: &mut Reader) -> Self {
        if let Value::Bool(value) = node.value {
            return value;
        }
        reader.wrong_type(node, path, "true or false");
        Self::placeholder()
    }

    fn placeholder() -> Self {
        false
    }

    fn schema(_: Rule) -> serde_json::Value {
        json!({ "type": "boolean" })
    }

    fn text(&self) -> Option<String> {
        Some(self.to_string())
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

    fn text(&self) -> Option<String> {
        self.as_ref().and_then(Read::text)
    }

    fn list(&self, path: &str, out: &mut Vec<Input>) {
        if let Some(value) = self {
            value.list(path, out);
        }
    }
}

/// Values of a list as one text, if each is one.
fn texts(values: impl Iterator<Item = Option<String>>) -> Option<String> {
    values.collect::<Option<Vec<_>>>().map(|list| format!("[{}]", list.join(", ")))
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

    fn text(&self) -> Option<String> {
        if self.is_empty() { None } else { texts(self.iter().map(Read::text)) }
    }

    fn list(&self, path: &str, out: &mut Vec<Input>) {
        if let Some(value) = self.text() {
            out.push(Input { key: path.to_owned(), value });
            return;
        }
        for (i, item) in self.iter().enumerate() {
            item.list(&format!("{path}[{i}]"), out);
        }
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

    fn text(&self) -> Option<String> {
        texts(self.iter().map(Read::text))
    }
}

/// Two values of different kinds, such as a tension and a strain.
impl<A: Read, B: Read> Read for (A, B) {
    fn read(node: &Node, path: &str, rule: Rule, reader: &mut Reader) -> Self {
        match &node.value {
            Value::List(items) if items.len() == 2 => (
                A::read(&items[0], &format!("{path}[0]"), rule, reader),
                B::read(&items[1], &format!("{path}[1]"), rule, reader),
            ),
            _ => {
                reader.wrong_type(node, path, "a list of 2 values");
                Self::placeholder()
            }
        }
    }

    fn placeholder() -> Self {
        (A::placeholder(), B::placeholder())
    }

    fn schema(rule: Rule) -> serde_json::Value {
        json!({
            "type": "array",
            "prefixItems": [A::schema(rule), B::schema(rule)],
            "minItems": 2,
            "maxItems": 2,
        })
    }

    fn text(&self) -> Option<String> {
        texts([self.0.text(), self.1.text()].into_iter())
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

    fn list(&self, path: &str, out: &mut Vec<Input>) {
        for (key, item) in self {
            item.list(&join(path, &format!("{key:?}")), out);
        }
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

    fn text(&self) -> Option<String> {
        if self.low == self.high { self.low.text() } else { [self.low, self.high].text() }
    }
}
