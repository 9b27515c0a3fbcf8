//! A load that stands or rolls on a line.

use tautwork::line::{Walk, WalkMode, WalkPlace};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(line::stand(&walk: Walk, place: WalkPlace)),
    call!(line::roll(&walk: Walk, place: WalkPlace, friction)),
    call!(line::roll_rests(&walk: Walk, friction)),
    call!(line::walk_envelope(&walk: Walk, mode: WalkMode, count: usize)),
];
