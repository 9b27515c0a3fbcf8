//! Rubbing and rest.

use tautwork::material::{Recovery, RubCase};

use crate::Call;

pub(crate) const CALLS: &[Call] =
    &[call!(material::rope_recovery { &Recovery }), call!(material::rub_wear { &RubCase })];
