//! Building and striking.

use tautwork::line::{BuildingStage, GivingLine, SoftRelease, Strokes};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(line::building_states(&stages: Vec<BuildingStage>)),
    call!(line::tension_by_strokes { &Strokes }),
    call!(line::soft_release { &SoftRelease }),
    call!(line::hardware_gives { &GivingLine }),
];
