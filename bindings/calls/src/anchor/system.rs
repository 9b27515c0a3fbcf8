//! Anchors of anchors.

use tautwork::anchor::{AnchorSystem, PullCone, SystemBreak};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(anchor::break_in_time { &SystemBreak }),
    call!(anchor::pull_cone { &PullCone }),
    call!(anchor::system_losses(&system: AnchorSystem, pairs: bool)),
    call!(anchor::system_rest { &AnchorSystem }),
];
