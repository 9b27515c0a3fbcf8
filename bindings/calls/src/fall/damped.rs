//! Falls on a damped rope, in time and one after the other.

use tautwork::fall::{DampedFall, RepeatedFalls};

use crate::Call;

pub(crate) const CALLS: &[Call] =
    &[call!(fall::arrest_damped { &DampedFall }), call!(fall::arrest_repeated { &RepeatedFalls })];
