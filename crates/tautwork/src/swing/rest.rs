//! Equilibria of the ring: waiting for the jump, and with the jumper hanging.

use super::SwingError;
use super::model::Model;
use super::support::Support;
use crate::quantity::{Force, GRAVITY, Quantity, print};

const ITERATIONS: usize = 200;
/// Largest change of the ring position in one iteration, m.
const STRIDE_M: f64 = 10.0;
/// Force out of balance, over the loads, at which the ring counts as at rest.
const BALANCED: f64 = 1e-10;

/// Ring at rest while the body is held at `body_m`: ropes that are taut pull with their long-term
/// stiffness, since they have had time to relax.
pub(super) fn waiting<S: Support>(
    model: &mut Model<S>,
    body_m: [f64; 2],
    guess_m: [f64; 2],
) -> Result<[f64; 2], SwingError> {
    let weight_n = model.ring.as_ref().map_or(0.0, |r| r.weighs_kg) * GRAVITY;
    let ropes = model.ropes.clone();
    balance(&mut model.support, "waiting", guess_m, |ring| {
        let (dx, dz) = (body_m[0] - ring[0], body_m[1] - ring[1]);
        let d = dx.hypot(dz);
        let (mut pull, mut stiffness) = ([0.0, -weight_n], [0.0; 3]);
        for rope in ropes.iter().filter(|r| d > r.rest_m) {
            let t = rope.long_n * rope.strain(d);
            let (ux, uz) = (dx / d, dz / d);
            let (along, across) = (rope.long_n / rope.rest_m, t / d);
            pull[0] += t * ux;
            pull[1] += t * uz;
            stiffness[0] += along * ux * ux + across * uz * uz;
            stiffness[1] += (along - across) * ux * uz;
            stiffness[2] += along * uz * uz + across * ux * ux;
        }
        (pull, stiffness)
    })
}

/// Places of ring and body, m.
pub(super) type Hanging = ([f64; 2], [f64; 2]);

/// Ring and body at rest with the body hanging, ropes at their long-term stiffness, wind included.
/// None without ropes or without anything that holds the ring.
pub(super) fn hanging<S: Support>(
    model: &mut Model<S>,
    ring_m: [f64; 2],
) -> Option<Result<Hanging, SwingError>> {
    let w = model.wind_m_per_s;
    let pull = [model.drag_kg_per_m * w * w.abs(), -model.low_kg * GRAVITY];
    let size = pull[0].hypot(pull[1]);
    let below = hang_m(model, size)?;
    let body = |ring: [f64; 2]| [0, 1].map(|i| ring[i] + below * pull[i] / size);
    let Some(ring) = &model.ring else { return Some(Ok((ring_m, body(ring_m)))) };
    let load = [pull[0], pull[1] - ring.weighs_kg * GRAVITY];
    let found = balance(&mut model.support, "at rest", ring_m, |_| (load, [0.0; 3]));
    Some(found.map(|ring| (ring, body(ring))))
}

/// Distance at which all ropes together carry `load_n`: the root of a rising piecewise line.
fn hang_m<S>(model: &Model<S>, load_n: f64) -> Option<f64> {
    let mut ropes: Vec<_> = model.ropes.iter().collect();
    ropes.sort_by(|a, b| a.rest_m.total_cmp(&b.rest_m));
    let (mut k, mut k_rest) = (0.0, 0.0);
    for (i, rope) in ropes.iter().enumerate() {
        k += rope.long_n / rope.rest_m;
        k_rest += rope.long_n;
        let d = (load_n + k_rest) / k;
        if ropes.get(i + 1).is_none_or(|next| d <= next.rest_m) {
            return Some(d);
        }
    }
    None
}

/// Damped Newton on force balance: the lines and tension-only ropes derive from a convex energy, so a
/// Newton step always lowers the imbalance once it is short enough.
fn balance<S: Support>(
    support: &mut S,
    state: &'static str,
    start_m: [f64; 2],
    load: impl Fn([f64; 2]) -> ([f64; 2], [f64; 3]),
) -> Result<[f64; 2], SwingError> {
    let mut p = start_m;
    let mut now = imbalance(support, &load, p);
    for iterations in 0..ITERATIONS {
        let (size, scale) = (now[0].hypot(now[1]), now[2]);
        let fail =
            || SwingError::NoBalance { state, residual: print(Force::from_si(size)), iterations };
        if size <= BALANCED * scale {
            return Ok(p);
        }
        let k = support.stiffness_n_per_m(p).map_err(|_| fail())?;
        let extra = load(p).1;
        let [xx, xz, zz] = [0, 1, 2].map(|i| k[i] + extra[i]);
        let det = xx * zz - xz * xz;
        let mut step = [(zz * now[0] - xz * now[1]) / det, (xx * now[1] - xz * now[0]) / det];
        let length = step[0].hypot(step[1]);
        if !length.is_finite() {
            return Err(fail());
        }
        if length > STRIDE_M {
            step = step.map(|s| s * STRIDE_M / length);
        }
        let mut share = 1.0;
        loop {
            let q = [p[0] + share * step[0], p[1] + share * step[1]];
            let next = imbalance(support, &load, q);
            if next[0].hypot(next[1]) < size {
                (p, now) = (q, next);
                break;
            }
            share *= 0.5;
            if share < 1e-12 {
                return Err(fail());
            }
        }
    }
    let residual = print(Force::from_si(now[0].hypot(now[1])));
    Err(SwingError::NoBalance { state, residual, iterations: ITERATIONS })
}

/// Net force on the ring, x and z, and the size of the forces that make it up; NaN without a solution.
fn imbalance<S: Support>(
    support: &mut S,
    load: &impl Fn([f64; 2]) -> ([f64; 2], [f64; 3]),
    p: [f64; 2],
) -> [f64; 3] {
    let f = support.force_n(p).unwrap_or([f64::NAN; 2]);
    let (pull, _) = load(p);
    [f[0] + pull[0], f[1] + pull[1], f[0].hypot(f[1]) + pull[0].hypot(pull[1])]
}

#[cfg(test)]
mod tests {
    use super::super::model::RingMass;
    use super::super::rope::Rope;
    use super::super::support::Spring;
    use super::*;

    #[test]
    fn two_ropes_of_unlike_length_share_the_hanging_weight() {
        let rope =
            |rest_m| Rope { rest_m, mass_kg: 0.0, long_n: 10e3, arm_n: 10e3, relaxation_s: 0.1 };
        let mut model = Model {
            ropes: vec![rope(11.0), rope(10.0)],
            body_kg: 100.0,
            low_kg: 100.0,
            ring: Some(RingMass { weighs_kg: 2.0, moves_kg: 5.0, damping_n_s_per_m: 0.0 }),
            drag_kg_per_m: 0.0,
            wind_m_per_s: 0.0,
            support: Spring { at_m: [3.0, 4.0], k_n_per_m: [5e3, 2e3] },
            failure: None,
        };
        // 981 N stretches the short rope alone to 10.981 m, short of the long one.
        let (ring, body) = hanging(&mut model, [0.0, 0.0]).unwrap().unwrap();
        assert!((ring[0] - 3.0).abs() < 1e-9);
        assert!((ring[1] - (4.0 - 102.0 * 9.81 / 2e3)).abs() < 1e-9);
        assert!((ring[1] - body[1] - 10.981).abs() < 1e-9);
        // Ten times the mass stretches both.
        model.low_kg = 1000.0;
        let (ring, body) = hanging(&mut model, [0.0, 0.0]).unwrap().unwrap();
        let d = ring[1] - body[1];
        let carried = 10e3 * (d / 11.0 - 1.0) + 10e3 * (d / 10.0 - 1.0);
        assert!((carried - 9810.0).abs() < 1e-6);
        // Nothing to hang from.
        model.ropes.clear();
        assert!(hanging(&mut model, [0.0, 0.0]).is_none());
    }
}
