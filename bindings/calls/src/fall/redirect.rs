//! Several edges, several ropes.

use tautwork::fall::{EdgesFall, SharedFall};

use crate::Call;

pub(crate) const CALLS: &[Call] =
    &[call!(fall::arrest_over_edges { &EdgesFall }), call!(fall::arrest_shared { &SharedFall })];
