use proptest::prelude::*;

use super::*;
use crate::anchor::AnchorError;
use crate::pulley::Friction;
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

pub(super) fn rub(mu: f64) -> Friction {
    Friction::Capstan { mu: mu.ratio() }
}

/// A loop through points, limiter knots at `knot_m` where above zero.
pub(super) fn looped(at: &[[f64; 3]], knot_m: &[f64], loop_m: f64, ea_n: f64) -> SelfAdjusting {
    let points = at.iter().zip(knot_m).enumerate().map(|(i, (p, b))| AdjustingPoint {
        name: format!("p{i}"),
        position: point(*p),
        limiter: Some(b.meters()).filter(|_| *b > 0.0),
    });
    SelfAdjusting {
        points: points.collect(),
        loop_length: loop_m.meters(),
        axial_rigidity: ea_n.newtons(),
        strength: None,
        friction_at_points: None,
        friction_at_master: None,
        captive: true,
        pull: newtons([0.0, 0.0, -3000.0]),
    }
}
