use proptest::prelude::*;

use super::*;
use crate::quantity::*;

mod limits;
mod published;
mod random;

fn point([x, y, z]: [f64; 3]) -> [Length; 3] {
    [x.meters(), y.meters(), z.meters()]
}

fn newtons([x, y, z]: [f64; 3]) -> [Force; 3] {
    [x.newtons(), y.newtons(), z.newtons()]
}

fn leg(name: &str, fixing: [f64; 3], rest_m: f64, k_n_per_m: f64) -> Leg {
    Leg {
        name: name.to_owned(),
        fixing: point(fixing),
        rest_length: rest_m.meters(),
        stiffness: Some(k_n_per_m.newtons_per_meter()),
        axial_rigidity: None,
        strength: None,
    }
}

fn norm(v: [f64; 3]) -> f64 {
    v[0].hypot(v[1]).hypot(v[2])
}

/// Numbers of every size, and such as no input may be.
pub(super) fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => -10.0..10.0_f64,
        2 => (-9.0..9.0_f64).prop_map(|e| 10.0_f64.powf(e)),
        1 => prop::sample::select(vec![0.0, -1.0, 1e-320, 1e300, f64::NAN, f64::INFINITY]),
    ]
}

/// What is missing in the balance of leg forces and pull, in N.
fn missing_n(anchor: &Anchor, rest: &Equilibrium) -> f64 {
    let mut sum = anchor.pull.map(Quantity::si);
    for leg in &rest.legs {
        for (sum, n) in sum.iter_mut().zip(leg.direction) {
            *sum += leg.tension.si() * n;
        }
    }
    norm(sum)
}
