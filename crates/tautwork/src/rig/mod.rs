#![doc = include_str!("README.md")]

mod document;
mod mistake;
mod parse;
mod reader;
mod schema;
mod tree;
mod validate;

pub use document::*;
pub use mistake::{Mistake, RigError};
pub use parse::parse;
pub use reader::Range;
pub use schema::schema;

#[cfg(test)]
mod tests;
