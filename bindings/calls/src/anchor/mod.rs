//! Calls of `anchor`, one file for each topic.

pub(crate) mod adjust;
pub(crate) mod fixing;
pub(crate) mod frame;
pub(crate) mod legs;
pub(crate) mod system;

use tautwork::anchor::AnchorError;

use crate::{Failure, Kind};

impl From<AnchorError> for Failure {
    fn from(error: AnchorError) -> Self {
        match error {
            AnchorError::Invalid(invalid) => invalid.into(),
            AnchorError::NotConverged { residual, .. } => {
                Self::new(Kind::NoConvergence, &error).with("residual", &residual)
            }
            other => Self::model(&other),
        }
    }
}
