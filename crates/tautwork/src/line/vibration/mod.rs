//! Frequencies and shapes of lines, the bounce of a person, and tension from a measured period.

mod bounce;
mod bounced;
mod cable;
mod discrete;
mod modes;
mod reading;
mod scan;

pub use bounce::{Bounce, bounce};
pub use bounced::{BounceReading, BounceTension, BouncedLine, tension_from_bounce};
pub use cable::{
    CableModes, FirstInPlane, IrvineCaughey, StringModes, cable_modes, irvine_caughey, string_modes,
};
pub use modes::{ChainModes, ModeShape, VibratingChain, chain_modes};
pub use reading::{PluckPlane, PluckReading, PluckTension, PluckedLine, tension_from_pluck};

#[cfg(test)]
mod tests;
