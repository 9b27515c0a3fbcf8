//! Falls by energy balance, and the figures of standards.

use tautwork::fall::{Edge, En892Figures, Fall, RopeClass};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(fall::arrest { &Fall }),
    call!(fall::arrest_over_edge(&fall: Fall, &edge: Edge)),
    call!(fall::en892_checks(class: RopeClass, &figures: En892Figures)),
    call!(fall::fall_factor(height, rope) => Text),
    call!(fall::impact_force(mass, fall_factor, axial_rigidity) => Text),
    call!(fall::implied_axial_rigidity(mass, fall_factor, impact_force) => Text),
    call!(fall::series_stiffness(rope, span) => Text),
];
