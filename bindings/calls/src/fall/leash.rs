//! A fall on a leash from a line.

use tautwork::fall::LeashFall;

use crate::Call;

pub(crate) const CALLS: &[Call] = &[call!(fall::leash_fall { &LeashFall })];
