use proptest::prelude::*;

use super::*;
use crate::anchor::AnchorError;
use crate::material::{BreakingStrength, Derating, DeratingKind};
use crate::quantity::*;

mod bolts;
mod hitches;
mod natural;
mod plates;
mod random;

fn newtons([x, y, z]: [f64; 3]) -> [Force; 3] {
    [x.newtons(), y.newtons(), z.newtons()]
}

fn point([x, y, z]: [f64; 3]) -> [Length; 3] {
    [x.meters(), y.meters(), z.meters()]
}

fn limits(tension_kn: f64, shear_kn: f64, rule: InteractionRule) -> BoltLimits {
    BoltLimits {
        tension: tension_kn.kilonewtons(),
        shear: shear_kn.kilonewtons(),
        rule,
        reductions: vec![],
    }
}

const RULES: [InteractionRule; 7] = [
    InteractionRule::Linear,
    InteractionRule::ThreeHalves,
    InteractionRule::FiveThirds,
    InteractionRule::Quadratic,
    InteractionRule::TriLinear,
    InteractionRule::En199318,
    InteractionRule::AiscJ37,
];

fn near(value: f64, expected: f64, within: f64) {
    assert!((value - expected).abs() <= within, "{value} is not {expected} within {within}");
}
