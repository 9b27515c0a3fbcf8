#![doc = include_str!("../README.md")]

pub mod anchor;
pub mod fall;
pub mod line;
pub mod material;
pub mod pulley;
pub mod quantity;
pub mod rig;
pub mod swing;
