//! What a turn takes.

use tautwork::pulley::Friction;

use crate::Call;

pub(crate) const CALLS: &[Call] = &[call!(pulley::sheave_loss(friction: Friction, wrap))];
