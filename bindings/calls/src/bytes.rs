//! Bytes in a JSON argument.

use base64::prelude::{BASE64_STANDARD, Engine};

/// The text that stands for bytes, such as those of a binary file: base64, as the core reads it.
#[must_use]
pub fn bytes_text(bytes: &[u8]) -> String {
    BASE64_STANDARD.encode(bytes)
}
