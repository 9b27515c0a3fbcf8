//! Calls of `anchor`.

use tautwork::anchor::{Anchor, AnchorError, Frame};

use crate::{Call, Failure, Kind};

pub(crate) const CALLS: &[Call] = &[
    call!(anchor::equilibrium { &Anchor }),
    call!(anchor::lose_leg(&anchor: Anchor, &leg: String, effective_mass)),
    call!(anchor::frame_forces { &Frame }),
    call!(anchor::v_angle_factor(v_angle) => Text),
    call!(anchor::sling_factor(angle) => Text),
];

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
