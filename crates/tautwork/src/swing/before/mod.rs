//! Before the jump: its theory is on the page of this folder, joined to that of `swing`.

mod step_off;
mod waiting;

pub use step_off::{StepOff, Tether, Tethered, step_off};
pub use waiting::{LoopClearance, Waiting, WaitingRope, waiting};

#[cfg(test)]
mod tests;
