//! Calls of `swing`, one file for each topic.

pub(crate) mod apart;
pub(crate) mod before;
pub(crate) mod edge;
pub(crate) mod full;
pub(crate) mod jump;
pub(crate) mod seek;
pub(crate) mod terrain;

use tautwork::swing::SwingError;

use crate::{Failure, Kind};

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
