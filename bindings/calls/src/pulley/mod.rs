//! Calls of `pulley`, one file for each topic.

pub(crate) mod capstan;
pub(crate) mod diagram;
pub(crate) mod haul;
pub(crate) mod lift;
pub(crate) mod loss;
pub(crate) mod lower;
pub(crate) mod network;
pub(crate) mod way;

use tautwork::pulley::PulleyError;

use crate::{Failure, Kind};

impl From<PulleyError> for Failure {
    fn from(error: PulleyError) -> Self {
        match error {
            PulleyError::Invalid(invalid) => invalid.into(),
            PulleyError::Line(line) => line.into(),
            PulleyError::Swing(swing) => (*swing).into(),
            PulleyError::Residual { residual, .. } => {
                Self::new(Kind::NoConvergence, &error).with("residual", &residual)
            }
            other => Self::model(&other),
        }
    }
}
