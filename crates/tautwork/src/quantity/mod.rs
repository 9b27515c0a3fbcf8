#![doc = include_str!("README.md")]

pub mod check;
mod error;
mod kinds;
mod parse;
mod print;
mod text;

pub use error::{Invalid, QuantityError};
pub use kinds::*;
pub use parse::{parse, parse_any, parse_as, unit_kind};
pub use print::{everyday, print, show};
pub use text::{MaybeText, Text, Texts, Triple};

#[cfg(test)]
mod tests;
