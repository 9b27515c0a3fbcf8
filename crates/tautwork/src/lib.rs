#![doc = include_str!("../README.md")]

pub mod anchor;
pub mod fall;
pub mod line;
pub mod material;
mod ode;
pub mod pulley;
pub mod quantity;
pub mod rig;
pub mod swing;
