//! Errors of anchors and frames.

use nalgebra::Vector3;

use crate::quantity::{Invalid, Quantity};

/// Why an anchor or a frame cannot be solved.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum AnchorError {
    /// A parameter is outside its range.
    #[error(transparent)]
    Invalid(#[from] Invalid),
    /// There is nothing to hold the pull.
    #[error("there are {found} {what}; at least {least} needed")]
    TooFew {
        /// `legs` or `feet of the hobble`.
        what: &'static str,
        /// How many there are.
        found: usize,
        /// How many are needed.
        least: usize,
    },
    /// A frame or a system has more parts than the models take.
    #[error("there are {found} legs, guys or points; at most {most} are taken")]
    TooMany {
        /// How many there are.
        found: usize,
        /// The limit.
        most: usize,
    },
    /// Two legs or members have one name.
    #[error("two legs or members are named \"{name}\"; names must differ")]
    DuplicateName {
        /// The name.
        name: String,
    },
    /// A leg that is to be lost is not there.
    #[error("there is no leg \"{name}\"")]
    UnknownLeg {
        /// The name.
        name: String,
    },
    /// A leg ends, or the pull acts, where there is no point.
    #[error("{leg}: there is no fixed point or junction \"{name}\"")]
    UnknownPoint {
        /// Name of the leg, or `pull_at`.
        leg: String,
        /// The name that is not there.
        name: String,
    },
    /// A leg leads nowhere.
    #[error("{leg} leads from a point to itself, or from one fixed point to another")]
    NoWay {
        /// Name of the leg.
        leg: String,
    },
    /// No part of a leg gives.
    #[error("{leg}: one of its parts at least must give a stiffness")]
    NoStiffness {
        /// Name of the leg.
        leg: String,
    },
    /// Nothing holds the pull.
    #[error("no path of legs leads from the pull to a fixed point")]
    NoPath,
    /// Limiter knots take all cordage of a loop.
    #[error(
        "the strands between points and limiter knots are as long as the loop: nothing is left to run"
    )]
    KnotsTooLow,
    /// A leg gives both or neither of stiffness and axial rigidity.
    #[error("{leg} must give either stiffness or axial_rigidity")]
    OneStiffness {
        /// Name of the leg.
        leg: String,
    },
    /// Nothing pulls.
    #[error("the pull is zero: nothing decides where the master point or the head rests")]
    NoPull,
    /// A foot, an anchor or a rope end coincides with the head.
    #[error("\"{member}\" ends at the head, so it has no direction")]
    NoLength {
        /// Name of the member or rope.
        member: String,
    },
    /// A call names something that is not there.
    #[error("there is no {what} \"{name}\"")]
    Unknown {
        /// `guy`, `rope`, or `leg or fixed point`.
        what: &'static str,
        /// The name.
        name: String,
    },
    /// Two feet that a hobble ties stand on one point.
    #[error("the feet \"{one}\" and \"{other}\" stand on one point: a hobble cannot tie them")]
    FeetTogether {
        /// Name of a leg.
        one: String,
        /// Name of the other.
        other: String,
    },
    /// No pushing legs and pulling guys balance the load.
    #[error(
        "the frame cannot stand: no legs in compression with guys in tension balance this load; add \
         or move a guy"
    )]
    CannotStand,
    /// Bolts and bearing points cannot balance the pull.
    #[error(
        "nothing holds the plate against this pull: no tension and shear of the bolts with pressure \
         where the plate bears balance it"
    )]
    NotHeld,
    /// A result leaves the number range.
    #[error("{result} overflows with these inputs")]
    Overflow {
        /// Name of the result.
        result: &'static str,
    },
    /// The iteration ended before the forces balanced.
    #[error("{what} did not converge in {iterations} iterations; the residual is {residual:e}")]
    NotConverged {
        /// What was sought.
        what: &'static str,
        /// Iterations spent.
        iterations: usize,
        /// Relative residual.
        residual: f64,
    },
}

impl AnchorError {
    /// Puts `prefix.` before the name of a parameter out of range.
    pub(super) fn within(self, prefix: &str) -> Self {
        match self {
            Self::Invalid(invalid) => Self::Invalid(invalid.within(prefix)),
            other => other,
        }
    }

    /// The quantity of a finite kernel result; inputs at the edge of the number range may overflow.
    pub(super) fn finite<Q: Quantity>(result: &'static str, si: f64) -> Result<Q, Self> {
        if si.is_finite() { Ok(Q::from_si(si)) } else { Err(Self::Overflow { result }) }
    }

    /// The same of three components.
    pub(super) fn finite_triple<Q: Quantity>(
        result: &'static str,
        v: &Vector3<f64>,
    ) -> Result<[Q; 3], Self> {
        Ok([Self::finite(result, v.x)?, Self::finite(result, v.y)?, Self::finite(result, v.z)?])
    }
}
