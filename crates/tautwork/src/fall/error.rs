//! Errors of falls.

use crate::line::LineError;
use crate::quantity::{Invalid, Quantity};

/// Why a fall cannot be computed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FallError {
    /// A parameter is outside its range.
    #[error(transparent)]
    Invalid(#[from] Invalid),
    /// The line that the fall ends on cannot be solved.
    #[error("the line: {0}")]
    Line(#[from] LineError),
    /// No linear rope stops a fall with so little force.
    #[error("impact_force is {force}; it must be above twice the weight, {twice_weight}")]
    BelowTwiceWeight {
        /// The force given.
        force: String,
        /// Twice the weight of the mass.
        twice_weight: String,
    },
    /// The search for the peak ended away from the energy balance.
    #[error("the peak did not converge; the energy balance misses {residual:e} of the energy")]
    NotConverged {
        /// Relative residual.
        residual: f64,
    },
    /// The motion was not followed to its end.
    #[error(
        "the motion was followed to {reached_s} s of {wanted_s} s in {steps} steps, {}",
        if *stalled { "where a step became too short" } else { "all that are allowed" }
    )]
    Unfinished {
        /// Time reached, s.
        reached_s: f64,
        /// Time wanted, s.
        wanted_s: f64,
        /// Steps tried.
        steps: usize,
        /// Whether the steps became too short for the time.
        stalled: bool,
    },
    /// The result is too large for a double.
    #[error("{result} overflows with these inputs")]
    Overflow {
        /// Name of the result.
        result: &'static str,
    },
}

impl FallError {
    /// The quantity of a finite kernel result; inputs at the edge of the number range may overflow.
    pub(super) fn finite<Q: Quantity>(result: &'static str, si: f64) -> Result<Q, Self> {
        if si.is_finite() { Ok(Q::from_si(si)) } else { Err(Self::Overflow { result }) }
    }
}
