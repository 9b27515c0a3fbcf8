#![doc = include_str!("../README.md")]

pub mod anchor;
pub mod fall;
pub mod line;
pub mod material;
#[allow(dead_code, reason = "falls are integrated with it")]
mod ode;
pub mod pulley;
pub mod quantity;
pub mod rig;
mod svg;
pub mod swing;
