//! Calls of `fall`, one file for each topic.

pub(crate) mod damped;
pub(crate) mod dropped;
pub(crate) mod leash;
pub(crate) mod redirect;
pub(crate) mod slip;
pub(crate) mod stop;

use tautwork::fall::FallError;

use crate::{Failure, Kind};

impl From<FallError> for Failure {
    fn from(error: FallError) -> Self {
        match error {
            FallError::Invalid(invalid) => invalid.into(),
            FallError::Line(line) => line.into(),
            FallError::BelowTwiceWeight { force, twice_weight } => Self::invalid(
                "impact_force",
                &force,
                &format!("above twice the weight, {twice_weight}"),
            ),
            FallError::NotConverged { residual } => {
                Self::new(Kind::NoConvergence, &error).with("residual", &residual)
            }
            FallError::Unfinished { reached_s, wanted_s, .. } => {
                Self::new(Kind::NoConvergence, &error)
                    .with("residual", &(1.0 - reached_s / wanted_s))
            }
            FallError::Overflow { .. } => Self::model(&error),
        }
    }
}
