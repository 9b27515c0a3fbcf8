//! A line that breaks: its theory is on the page of this folder, joined to that of `line`.

mod broken;

pub use broken::{BrokenLine, Recoil, recoil};

#[cfg(test)]
mod tests;
