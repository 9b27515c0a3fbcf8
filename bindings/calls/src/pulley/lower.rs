//! Lowering by hand.

use tautwork::pulley::Lowering;

use crate::Call;

pub(crate) const CALLS: &[Call] =
    &[call!(pulley::lowering { &Lowering }), call!(pulley::wrap_to_hold(load, hand, mu) => Text)];
