//! A picture of a system with the force in every part: its page is in this folder, joined to that of `pulley`.

mod columns;
mod draw;
mod paper;
mod picture;
mod scene;
mod space;

pub use picture::{Shown, diagram};

#[cfg(test)]
mod tests;
