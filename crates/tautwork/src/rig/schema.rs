//! The JSON Schema of a rig document, from the same declarations that read it.

use serde_json::json;

use super::document::Rig;
use super::read::{Read, Rule};

/// JSON Schema (draft 2020-12) of a rig document, as text.
///
/// Editors use it to complete and check documents; TOML documents follow it too. Rules between keys
/// (references, one of several) are checked by [`parse`](super::parse), not by the schema.
///
/// # Example
/// ```
/// let schema: serde_json::Value = serde_json::from_str(&tautwork::rig::schema()).unwrap();
/// assert_eq!(schema["type"], "object");
/// assert!(schema["properties"]["line"]["items"]["properties"]["rest_length"].is_object());
/// ```
#[must_use]
pub fn schema() -> String {
    let mut schema = Rig::schema(Rule::Any);
    if let Some(object) = schema.as_object_mut() {
        object.insert("$schema".to_owned(), json!("https://json-schema.org/draft/2020-12/schema"));
        object.insert("title".to_owned(), json!("Rig document"));
    }
    format!("{schema:#}\n")
}
