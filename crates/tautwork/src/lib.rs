#![doc = include_str!("../README.md")]

pub mod fall;
pub mod quantity;
