//! A haul, stroke by stroke.

use tautwork::pulley::{Haul, Ordinary};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(pulley::haul_work { &Haul }),
    call!(pulley::compare_hauls(&haul: Haul, &systems: Vec<Ordinary>)),
];
