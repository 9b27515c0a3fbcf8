//! Errors of cordage.

use crate::quantity::{Force, Invalid, Quantity, print};

/// Why a cordage figure cannot be used.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum MaterialError {
    /// A parameter is outside its range.
    #[error(transparent)]
    Invalid(#[from] Invalid),
    /// A stretch is given in no form, or in more than one.
    #[error(
        "a stretch is given in {given} forms; give exactly one of axial_rigidity, elongation with at, \
         table, en892_static_elongation, en892_impact_force, en1891_elongation"
    )]
    Forms {
        /// Number of forms given.
        given: usize,
    },
    /// A table does not rise strictly in both columns.
    #[error(
        "table row {row} is ({tension}, {strain}); tension and strain must both rise from row to row, \
         starting above (0 N, 0)"
    )]
    NotRising {
        /// Row from zero, as given.
        row: usize,
        /// Its tension.
        tension: String,
        /// Its strain.
        strain: String,
    },
    /// A table with no row beyond (0, 0).
    #[error("table has no row beyond (0 N, 0)")]
    EmptyTable,
    /// No linear rope stops a fall with so little force.
    #[error("en892_impact_force is {force}; it must be above twice the weight of 80 kg, 1569.6 N")]
    BelowTwiceWeight {
        /// The force given.
        force: String,
    },
    /// A rope is not stiffer in a drop than at rest.
    #[error(
        "impact rigidity {impact} is not above static rigidity {long_term}: the two figures are not of \
         one visco-elastic rope"
    )]
    ImpactNotStiffer {
        /// Rigidity from the impact force.
        impact: String,
        /// Rigidity from the static elongation.
        long_term: String,
    },
    /// The result is too large or too small for a double.
    #[error("{result} leaves the range of numbers with these inputs")]
    Overflow {
        /// Name of the result.
        result: &'static str,
    },
}

impl MaterialError {
    /// The force of a finite positive kernel result.
    pub(super) fn rigidity(ea_n: f64) -> Result<f64, Self> {
        if ea_n.is_finite() && ea_n > 0.0 && (1.0 / ea_n).is_finite() {
            Ok(ea_n)
        } else {
            Err(Self::Overflow { result: "axial rigidity" })
        }
    }

    pub(super) fn finite<Q: Quantity>(result: &'static str, si: f64) -> Result<Q, Self> {
        if si.is_finite() { Ok(Q::from_si(si)) } else { Err(Self::Overflow { result }) }
    }

    pub(super) fn below_twice_weight(force: Force) -> Self {
        Self::BelowTwiceWeight { force: print(force) }
    }
}
