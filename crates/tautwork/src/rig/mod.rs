#![doc = include_str!("README.md")]
#![doc = include_str!("plan/losses/README.md")]
#![doc = include_str!("plan/kit/README.md")]

mod document;
mod mistake;
mod parse;
mod plan;
mod read;
mod schema;
mod validate;

pub use document::*;
pub use mistake::{Mistake, RigError};
pub use parse::parse;
pub use plan::*;
pub use read::{Input, Range};
pub use schema::schema;

#[cfg(test)]
mod tests;
