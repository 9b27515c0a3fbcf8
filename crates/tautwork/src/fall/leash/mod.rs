//! A walker falls on a leash from a tensioned line.

mod arrest;
mod press;

pub use arrest::{LeashArrest, LeashFall, leash_fall};

#[cfg(test)]
mod tests;
