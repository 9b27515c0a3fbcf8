//! Calls of `swing`.

use tautwork::swing::{Jump, SwingError};

use crate::{Call, Failure, Kind};

pub(crate) const CALLS: &[Call] = &[call!(swing::fly { &Jump }), call!(swing::outlook { &Jump })];

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
            SwingError::Budget { .. } => Self::new(Kind::NoConvergence, &error),
            SwingError::StartsInContact { .. }
            | SwingError::Lines { .. }
            | SwingError::Stalled { .. } => Self::model(&error),
        }
    }
}
