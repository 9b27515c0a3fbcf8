//! Legs to a master point.

use tautwork::anchor::Anchor;

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(anchor::equilibrium { &Anchor }),
    call!(anchor::lose_leg(&anchor: Anchor, &leg: String, effective_mass)),
    call!(anchor::v_angle_factor(v_angle) => Text),
    call!(anchor::sling_factor(angle) => Text),
];
