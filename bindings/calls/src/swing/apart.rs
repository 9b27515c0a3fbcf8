//! What comes near what.

use tautwork::swing::{Jump, Scene, Thing};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(swing::apart_in_flight(&jump: Jump, &parked: Vec<Thing>)),
    call!(swing::least_apart { &Scene }),
];
