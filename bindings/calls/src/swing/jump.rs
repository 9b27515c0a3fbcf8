//! One jump, and both ends of its ropes' stretch.

use tautwork::swing::Jump;

use crate::Call;

pub(crate) const CALLS: &[Call] = &[call!(swing::fly { &Jump }), call!(swing::outlook { &Jump })];
