//! Where a dropped thing lands.

use tautwork::fall::DroppedThing;

use crate::Call;

pub(crate) const CALLS: &[Call] = &[call!(fall::dropped { &DroppedThing })];
