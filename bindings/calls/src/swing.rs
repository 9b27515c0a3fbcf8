//! Calls of `swing`.

use tautwork::swing::{Jump, Mesh, Place, Spread, SwingError, Winds};

use crate::{Call, Failure, Kind};

pub(crate) const CALLS: &[Call] = &[
    call!(swing::envelope(&jump: Jump, &spread: Spread)),
    call!(swing::exits_that_clear(&jump: Jump, to: Place, required, count: usize)),
    call!(swing::fly { &Jump }),
    call!(swing::fly_full(&jump: Jump, &mesh: Mesh)),
    call!(swing::highest_exit_for_peak(&jump: Jump, peak)),
    call!(swing::outlook { &Jump }),
    call!(swing::rope_length_for_lowest(&jump: Jump, lowest)),
    call!(swing::wind_sweep(&jump: Jump, &winds: Winds)),
];

impl From<SwingError> for Failure {
    fn from(error: SwingError) -> Self {
        match error {
            SwingError::Invalid(invalid) => invalid.into(),
            SwingError::Contradiction { ref parameter, .. } => {
                Self::new(Kind::InvalidInput, &error).with("parameter", parameter)
            }
            SwingError::NoBalance { ref residual, .. } => {
                Self::new(Kind::NoConvergence, &error).with("residual", residual)
            }
            SwingError::Budget { .. } | SwingError::MeshBudget { .. } => {
                Self::new(Kind::NoConvergence, &error)
            }
            SwingError::StartsInContact { .. }
            | SwingError::Lines { .. }
            | SwingError::Stalled { .. } => Self::model(&error),
        }
    }
}
