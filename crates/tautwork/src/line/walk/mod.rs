//! A load that stands or rolls on a line.

mod envelope;
mod path;
mod roll;
mod stand;
mod state;

pub use envelope::{WalkEnvelope, WalkMode, walk_envelope};
pub use roll::{RollRange, RollRest, roll, roll_rests};
pub use stand::stand;
pub use state::{Walk, WalkPlace, WalkState};

#[cfg(test)]
mod tests;
