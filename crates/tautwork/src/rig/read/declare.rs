//! One declaration for the struct, the reader and the schema of a table or a choice.

use serde_json::json;

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
                    let about = $crate::rig::read::joined(&[$($about),*]);
                    properties.insert(
                        stringify!($field).to_owned(),
                        $crate::rig::read::described(<$ty as Read>::schema(rule), &about),
                    );
                    if <$ty as Read>::absent().is_none() {
                        required.push(stringify!($field));
                    }
                )*
                serde_json::json!({
                    "type": "object",
                    "description": $crate::rig::read::joined(&[$($doc),*]),
                    "properties": properties,
                    "required": required,
                    "additionalProperties": false,
                })
            }

            fn list(&self, path: &str, out: &mut Vec<$crate::rig::Input>) {
                $( self.$field.list(&$crate::rig::read::join(path, stringify!($field)), out); )*
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
                    $( $crate::rig::read::tree::Value::Text(text) if text == $word => return Self::$variant, )*
                    $crate::rig::read::tree::Value::Text(text) => {
                        let message = $crate::rig::read::unknown(text, &words);
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

            fn text(&self) -> Option<String> {
                Some(match self { $( Self::$variant => $word, )* }.to_owned())
            }
        }
    };
}

pub(in crate::rig) use {choice, table};

/// A schema with a description put before the one of its type.
pub(in crate::rig) fn described(mut schema: serde_json::Value, about: &str) -> serde_json::Value {
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
pub(in crate::rig) fn joined(lines: &[&str]) -> String {
    lines.iter().map(|line| line.trim()).collect::<Vec<_>>().join(" ")
}
