//! Where a dropped thing lands: its theory is on the page of this folder, joined to that of `fall`.

mod path;
mod zone;

pub use zone::{DropZone, DroppedThing, dropped};

#[cfg(test)]
mod tests;
