//! The way back to the lip.

use tautwork::pulley::{WayBack, WayPlaces};
use tautwork::swing::Jump;

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(pulley::way_back { &WayBack }),
    call!(pulley::haul_fails(&jump: Jump, &way: WayPlaces, at: usize)),
];
