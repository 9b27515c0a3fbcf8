//! Calls of `fall`.

use tautwork::fall::{Edge, En892Figures, Fall, FallError, RopeClass};

use crate::{Call, Failure, Kind};

pub(crate) const CALLS: &[Call] = &[
    call!(fall::arrest { &Fall }),
    call!(fall::arrest_over_edge(&fall: Fall, &edge: Edge)),
    call!(fall::en892_checks(class: RopeClass, &figures: En892Figures)),
    call!(fall::fall_factor(height, rope) => Text),
    call!(fall::impact_force(mass, fall_factor, axial_rigidity) => Text),
    call!(fall::implied_axial_rigidity(mass, fall_factor, impact_force) => Text),
    call!(fall::series_stiffness(rope, span) => Text),
];

impl From<FallError> for Failure {
    fn from(error: FallError) -> Self {
        match error {
            FallError::Invalid(invalid) => invalid.into(),
            FallError::BelowTwiceWeight { force, twice_weight } => Self::invalid(
                "impact_force",
                &force,
                &format!("above twice the weight, {twice_weight}"),
            ),
            FallError::NotConverged { residual } => {
                Self::new(Kind::NoConvergence, &error).with("residual", &residual)
            }
            FallError::Overflow { .. } => Self::model(&error),
        }
    }
}
