//! Lines and ropes as rows of masses.

use tautwork::swing::{Jump, Mesh};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[call!(swing::fly_full(&jump: Jump, &mesh: Mesh))];
