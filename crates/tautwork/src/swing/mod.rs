#![doc = include_str!("README.md")]

mod course;
mod error;
mod flight;
mod fly;
mod jump;
mod lines;
mod model;
mod note;
mod outlook;
mod rest;
mod rope;
mod setup;
mod support;
mod terrain;
mod watch;

pub use error::SwingError;
pub use flight::{
    Assumed, Catch, Clearance, Ending, EnergyBooks, Event, Extreme, Flight, FoldBound, Happening,
    LineResult, Rest, RingResult, RopeResult, Series, TimeAbove, Work,
};
pub use fly::fly;
pub use jump::{Follow, Jump, Line, Place, Response, Rope, Run, Wall};
pub use note::Note;
pub use outlook::{Limit, NamedForce, Outlook, WallLimit, outlook};
pub(crate) use terrain::Wall as Polyline;

#[cfg(test)]
mod tests;
