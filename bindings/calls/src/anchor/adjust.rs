//! Self-adjusting anchors.

use tautwork::anchor::{AdjustingCone, SelfAdjusting};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(anchor::adjusted_cone { &AdjustingCone }),
    call!(anchor::adjusted_loss(&anchor: SelfAdjusting, &point: String, effective_mass)),
    call!(anchor::adjusted_rest { &SelfAdjusting }),
];
