use proptest::prelude::*;

use super::*;
use crate::quantity::*;

mod bad;
mod hand;
mod random;

pub(super) fn point(p: [f64; 3]) -> [Length; 3] {
    p.map(Length::from_si)
}

pub(super) fn newtons(f: [f64; 3]) -> [Force; 3] {
    f.map(Force::from_si)
}

pub(super) fn fixed(name: &str, at: [f64; 3]) -> FixedPoint {
    FixedPoint { name: name.to_owned(), position: point(at), strength: None }
}

pub(super) fn junction(name: &str, near: [f64; 3]) -> Junction {
    Junction { name: name.to_owned(), near: point(near) }
}

/// A leg of one part; stiffness in N/m.
pub(super) fn leg(name: &str, from: &str, to: &str, rest_m: f64, k: f64) -> SystemLeg {
    SystemLeg {
        name: name.to_owned(),
        from: from.to_owned(),
        to: to.to_owned(),
        rest_length: rest_m.meters(),
        parts: vec![LegPart {
            name: "sling".to_owned(),
            stiffness: Some(Stiffness::from_si(k)),
            strength: None,
        }],
    }
}

pub(super) fn strong(mut leg: SystemLeg, strength_n: f64) -> SystemLeg {
    leg.parts[0].strength = Some(strength_n.newtons());
    leg
}
