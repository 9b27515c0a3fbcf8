//! What is left of a strength.

use tautwork::material::{BreakingStrength, Derating, Rating, StrengthCase};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(material::derated(
        breaking_strength: BreakingStrength,
        &at_place: Vec<Derating>,
        &everywhere: Vec<Derating>,
    )),
    call!(material::knot_factors() => Always),
    call!(material::rated_strength { &Rating }),
    call!(material::strength_factors() => Always),
    call!(material::strength_left { &StrengthCase }),
    call!(material::wire_rope_bend(bend_ratio)),
];
