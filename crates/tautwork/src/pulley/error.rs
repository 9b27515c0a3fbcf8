//! Errors of pulley systems.

use crate::quantity::Invalid;

/// Why a pulley system cannot be solved.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PulleyError {
    /// A parameter is outside its range.
    #[error(transparent)]
    Invalid(#[from] Invalid),
    /// The lines, jump ropes and haul rope have no rest.
    #[error(transparent)]
    Line(crate::line::LineError),
    /// A wall is broken, or the swing after a failure has no answer.
    #[error(transparent)]
    Swing(Box<crate::swing::SwingError>),
    /// Two bodies or two ropes have one name.
    #[error("two {what} are named \"{name}\"; names must differ")]
    DuplicateName {
        /// `bodies` or `ropes`.
        what: &'static str,
        /// The name.
        name: String,
    },
    /// A rope names a body that is not in the list.
    #[error("rope \"{rope}\" goes to \"{body}\", which is not among the bodies")]
    UnknownBody {
        /// Name of the rope.
        rope: String,
        /// Name it gives.
        body: String,
    },
    /// A system has one load and one hand.
    #[error("the system has {found} bodies of kind {kind}; it must have exactly one")]
    NotOne {
        /// `load` or `hand`.
        kind: &'static str,
        /// How many there are.
        found: usize,
    },
    /// The hand holds one end of one rope and carries no sheave.
    #[error("the hand must hold exactly one rope end and carry no sheave")]
    Hand,
    /// No rope ends at the load or runs over it.
    #[error("no rope goes to the load \"{load}\"")]
    NoRopeToLoad {
        /// Name of the load.
        load: String,
    },
    /// All ropes pull a block the same way along its travel.
    #[error(
        "\"{body}\" cannot be in equilibrium: all its ropes pull it one way, and nothing the other"
    )]
    OneSided {
        /// Name of the block.
        body: String,
    },
    /// No way of holding and letting run suits the grabs.
    #[error("the grab on \"{on}\" is turned the wrong way on rope \"{rope}\": {}", if *held { "it would have to pull and slips" } else { "it holds the rope that must run" })]
    GrabAgainst {
        /// Rope.
        rope: String,
        /// Body that carries the grab.
        on: String,
        /// Whether it should hold in the motion that fails.
        held: bool,
    },
    /// Two places next to each other on a rope coincide, so that the part has no direction.
    #[error("rope \"{rope}\" has a part of no length from \"{from}\" to \"{to}\"")]
    NoLength {
        /// Name of the rope.
        rope: String,
        /// Body at the start of the part.
        from: String,
        /// Body at its end.
        to: String,
    },
    /// The ropes leave a body free, or the system locks: pulling gives no one motion.
    #[error("no unique motion: nothing fixes the travel of {bodies}")]
    Free {
        /// Names of the bodies, joined.
        bodies: String,
    },
    /// There are more ropes than bodies that move.
    #[error(
        "no unique motion: {ropes} ropes act on {moving} moving bodies, so the system locks or stretch \
         decides the tensions; give each moving body one rope"
    )]
    Locked {
        /// Number of ropes.
        ropes: usize,
        /// Number of bodies that move, the hand left out.
        moving: usize,
    },
    /// Pulling does not raise the load.
    #[error("the load travels {travel} per travel of the hand; pulling must raise it")]
    LoadNotRaised {
        /// Travel of the load per travel of the hand.
        travel: f64,
    },
    /// A rope would have to push.
    #[error("not in equilibrium: rope \"{rope}\" would have to push")]
    WouldPush {
        /// Name of the rope.
        rope: String,
    },
    /// With these losses no pull moves the load.
    #[error("friction locks the system: no pull raises the load")]
    FrictionLocks,
    /// A picture is asked for of a state that the system does not have.
    #[error("this system is never {state}: there are no such forces to show")]
    NothingShown {
        /// `lowering` or `held`.
        state: &'static str,
    },
    /// A result leaves the number range.
    #[error("{result} overflows with these inputs")]
    Overflow {
        /// Name of the result.
        result: &'static str,
    },
    /// The linear solve did not close.
    #[error("the solution misses the {balance} balance by {residual:e} of the whole")]
    Residual {
        /// `power` or `travel`.
        balance: &'static str,
        /// Relative error.
        residual: f64,
    },
}
