//! A load that moves on the haul line.

use tautwork::pulley::{Climb, LiftedPendulum, Lip};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(pulley::haul_jerk(mass, stiffness, speed)),
    call!(pulley::pull_over_lip { &Lip }),
    call!(pulley::climb_bounce { &Climb }),
    call!(pulley::lifted_pendulum { &LiftedPendulum }),
];
