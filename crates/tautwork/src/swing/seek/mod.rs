//! Questions turned round: the rope, the exit or the wind that just gives a wanted figure.

mod edge;
mod exit;
mod rope;
mod wind;

pub use edge::{EdgeStretch, ExitPlaces, exits_that_clear};
pub use exit::{HighestExit, highest_exit_for_peak};
pub use rope::{RopeLengths, rope_length_for_lowest};
pub(crate) use wind::wind_sweep_by;
pub use wind::{WallWind, WindSweep, Winds, wind_sweep};

use super::SwingError;
use super::flight::Flight;
use super::fly::on_fixed_ring;
use super::jump::Jump;
use super::jumps::Jumps;
use crate::quantity::Quantity;

/// Jumps of one rig with a count.
pub(super) struct Flights {
    jumps: Option<Jumps>,
    pub flown: usize,
}

impl Flights {
    pub fn new(jump: &Jump) -> Result<Self, SwingError> {
        let jumps = if jump.fixed_ring.is_some() { None } else { Some(Jumps::new(&jump.lines)?) };
        Ok(Self { jumps, flown: 0 })
    }

    pub fn fly(&mut self, jump: &Jump) -> Result<Flight, SwingError> {
        self.flown += 1;
        match &self.jumps {
            Some(jumps) => jumps.fly(jump),
            None => on_fixed_ring(jump),
        }
    }
}

/// Where a function that is above zero at `yes` and not at `no` crosses, to within `close`; the result
/// is on the side of `yes`.
pub(super) fn border(
    mut yes: f64,
    mut no: f64,
    close: f64,
    mut f: impl FnMut(f64) -> Result<f64, SwingError>,
) -> Result<f64, SwingError> {
    for _ in 0..60 {
        if (yes - no).abs() <= close {
            break;
        }
        let middle = 0.5 * (yes + no);
        if f(middle)? > 0.0 {
            yes = middle;
        } else {
            no = middle;
        }
    }
    Ok(yes)
}

/// The least distance of the body's surface from any wall in flight; zero at contact. None without walls
/// or while the launch zone is not left.
pub(super) fn clearance_m(flight: &Flight) -> Option<f64> {
    let walls = flight.clearances.iter().map(|c| c.least.value.si());
    walls.min_by(f64::total_cmp)
}
