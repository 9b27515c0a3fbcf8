//! Errors of the jump.

use crate::quantity::Invalid;

/// Why a jump cannot be computed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SwingError {
    /// A parameter is outside its range.
    #[error(transparent)]
    Invalid(#[from] Invalid),
    /// Parts of the input contradict each other.
    #[error("{parameter}: {problem}")]
    Contradiction {
        /// Name of the parameter, as in the document.
        parameter: String,
        /// What is wrong, in words.
        problem: String,
    },
    /// The body starts in contact with a wall.
    #[error(
        "the body starts {distance} from wall \"{wall}\"; it must be more than the body radius, {radius}"
    )]
    StartsInContact {
        /// Name of the wall.
        wall: String,
        /// Distance of the body centre from it.
        distance: String,
        /// Body radius.
        radius: String,
    },
    /// No equilibrium of the ring was found.
    #[error(
        "no equilibrium of the ring {state} was found: {residual} out of balance after {iterations} iterations"
    )]
    NoBalance {
        /// Which state was sought: `waiting` or `at rest`.
        state: &'static str,
        /// Force left out of balance.
        residual: String,
        /// Iterations done.
        iterations: usize,
    },
    /// The lines have no solution at a ring position that the motion reached.
    #[error("the lines have no solution at {time}: {problem}")]
    Lines {
        /// Time of the last accepted step.
        time: String,
        /// What the line model says.
        problem: String,
    },
    /// The motion is too stiff or too fast for the steps allowed.
    #[error(
        "{attempts} steps reached only {time} of {horizon}; a longer relaxation time, a softer rope or a looser tolerance needs fewer"
    )]
    Budget {
        /// Steps tried.
        attempts: usize,
        /// Time reached.
        time: String,
        /// Horizon.
        horizon: String,
    },
    /// The mesh of the full model asks for more steps than allowed.
    #[error(
        "{needed} steps of {step} are needed up to {horizon}, and mesh.most_steps is {allowed}; fewer nodes or a shorter horizon need fewer"
    )]
    MeshBudget {
        /// Steps needed.
        needed: String,
        /// Length of a step.
        step: String,
        /// Horizon.
        horizon: String,
        /// Steps allowed.
        allowed: usize,
    },
    /// The step size fell to nothing, or the numbers left the range of doubles.
    #[error("the motion cannot be followed past {time}: the numbers leave the range of doubles")]
    Stalled {
        /// Time reached.
        time: String,
    },
}

impl SwingError {
    pub(super) fn contradiction(parameter: &str, problem: &str) -> Self {
        Self::Contradiction { parameter: parameter.to_owned(), problem: problem.to_owned() }
    }
}
