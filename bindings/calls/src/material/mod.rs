//! Calls of `material`, one file for each topic.

pub(crate) mod cordage;
pub(crate) mod gear;
pub(crate) mod strength;
pub(crate) mod wear;

use tautwork::material::MaterialError;

use crate::{Failure, Kind};

impl From<MaterialError> for Failure {
    fn from(error: MaterialError) -> Self {
        match error {
            MaterialError::Invalid(invalid) => invalid.into(),
            MaterialError::Overflow { .. } => Self::model(&error),
            other => Self::new(Kind::InvalidInput, &other),
        }
    }
}
