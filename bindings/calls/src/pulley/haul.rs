//! A haul, stroke by stroke.

use tautwork::pulley::{Haul, HaulWith};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(pulley::haul_work { &Haul }),
    call!(pulley::compare_hauls(&haul: Haul, &systems: Vec<HaulWith>)),
];
