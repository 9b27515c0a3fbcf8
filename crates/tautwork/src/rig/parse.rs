//! Text to a checked rig.

use super::document::Rig;
use super::mistake::RigError;
use super::read::tree;
use super::read::{Read, Reader, Rule};
use super::validate::validate;

/// Reads a rig document, TOML or JSON (a document that starts with `{` is JSON).
///
/// # Errors
/// [`RigError::Document`] with every mistake found, each with its line and key.
///
/// # Example
/// ```
/// let error = tautwork::rig::parse("name = \"Kestrel Gap\"\nrign = 3").unwrap_err();
/// assert!(error.mistakes().iter().any(|m| m.line == 2 && m.message.contains("did you mean \"ring\"?")));
/// ```
pub fn parse(text: &str) -> Result<Rig, RigError> {
    let root = tree::parse(text).map_err(RigError::Document)?;
    let mut reader = Reader::default();
    let rig = Rig::read(&root, "", Rule::Any, &mut reader);
    validate(&rig, &mut reader);
    let mut mistakes = reader.mistakes;
    if mistakes.is_empty() {
        return Ok(rig);
    }
    mistakes.sort_by_key(|m| m.line);
    Err(RigError::Document(mistakes))
}
