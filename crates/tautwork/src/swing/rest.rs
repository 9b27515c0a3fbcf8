//! Equilibria of the ring: waiting for the jump, and with the jumper hanging.

use nalgebra::{Matrix3, Vector3};

use super::SwingError;
use super::model::Model;
use super::rope::Rope;
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
    body_m: [f64; 3],
    guess_m: [f64; 3],
) -> Result<[f64; 3], SwingError> {
    let weight_n = model.ring.as_ref().map_or(0.0, |r| r.weighs_kg) * GRAVITY;
    let ropes = model.ropes.clone();
    balance(&mut model.support, "waiting", guess_m, |ring| {
        let (mut pull, mut stiffness) = (-weight_n * Vector3::z(), Matrix3::zeros());
        for rope in &ropes {
            pulled(rope, Vector3::from(body_m) - ring, &mut pull, &mut stiffness);
        }
        (pull, stiffness)
    })
}

/// Adds what a rope from the ring along `r`, relaxed, does to it, if it is taut.
fn pulled(rope: &Rope, r: Vector3<f64>, pull: &mut Vector3<f64>, stiffness: &mut Matrix3<f64>) {
    let d = r.norm();
    if d <= rope.rest_m || rope.lost {
        return;
    }
    let t = rope.long_n * rope.strain(d);
    let u = r / d;
    let (along, across) = (rope.long_n / rope.rest_m, t / d);
    *pull += t * u;
    let line = u * u.transpose();
    *stiffness += along * line + across * (Matrix3::identity() - line);
}

/// Places of ring and body, m.
pub(super) type Hanging = ([f64; 3], [f64; 3]);

/// Ring and body at rest with the body hanging, ropes and stops at their long-term stiffness, wind included.
/// None without ropes or without anything that holds the ring.
pub(super) fn hanging<S: Support>(
    model: &mut Model<S>,
    ring_m: [f64; 3],
) -> Option<Result<Hanging, SwingError>> {
    let [x, y] = model.wind_m_per_s;
    let drag = model.drag_kg_per_m * x.hypot(y);
    let pull = Vector3::new(drag * x, drag * y, -model.low_kg * GRAVITY);
    // Scaled, so that no square leaves the range of doubles.
    let greatest = pull.amax();
    let direction = pull / greatest;
    let size = greatest * direction.norm();
    let below = hang_m(model, size)?;
    let body = |ring: [f64; 3]| (Vector3::from(ring) + direction.normalize() * below).into();
    let Some(ring) = &model.ring else { return Some(Ok((ring_m, body(ring_m)))) };
    let load = pull - ring.weighs_kg * GRAVITY * Vector3::z();
    let stops = model.stops.clone();
    let found = balance(&mut model.support, "at rest", ring_m, |ring| {
        let (mut load, mut stiffness) = (load, Matrix3::zeros());
        for stop in &stops {
            pulled(&stop.rope, Vector3::from(stop.anchor_m) - ring, &mut load, &mut stiffness);
        }
        (load, stiffness)
    });
    Some(found.map(|ring| (ring, body(ring))))
}

/// Distance at which all ropes together carry `load_n`: the root of a rising piecewise line.
fn hang_m<S>(model: &Model<S>, load_n: f64) -> Option<f64> {
    let mut ropes: Vec<_> = model.ropes.iter().filter(|r| !r.lost).collect();
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
    start_m: [f64; 3],
    load: impl Fn(Vector3<f64>) -> (Vector3<f64>, Matrix3<f64>),
) -> Result<[f64; 3], SwingError> {
    let mut p = Vector3::from(start_m);
    let (mut now, mut scale) = imbalance(support, &load, p);
    for iterations in 0..ITERATIONS {
        let size = now.norm();
        let fail =
            || SwingError::NoBalance { state, residual: print(Force::from_si(size)), iterations };
        if size <= BALANCED * scale {
            return Ok(p.into());
        }
        let k = support.stiffness_n_per_m(p.into()).map_err(|_| fail())?;
        let k = Matrix3::from(k) + load(p).1;
        let mut step = k.lu().solve(&now).ok_or_else(fail)?;
        let length = step.norm();
        if !length.is_finite() {
            return Err(fail());
        }
        if length > STRIDE_M {
            step *= STRIDE_M / length;
        }
        let mut share = 1.0;
        loop {
            let q = p + share * step;
            let (next, next_scale) = imbalance(support, &load, q);
            if next.norm() < size {
                (p, now, scale) = (q, next, next_scale);
                break;
            }
            share *= 0.5;
            if share < 1e-12 {
                return Err(fail());
            }
        }
    }
    let residual = print(Force::from_si(now.norm()));
    Err(SwingError::NoBalance { state, residual, iterations: ITERATIONS })
}

/// Net force on the ring and the size of the forces that make it up; NaN without a solution.
fn imbalance<S: Support>(
    support: &mut S,
    load: &impl Fn(Vector3<f64>) -> (Vector3<f64>, Matrix3<f64>),
    p: Vector3<f64>,
) -> (Vector3<f64>, f64) {
    let f = Vector3::from(support.force_n(p.into()).unwrap_or([f64::NAN; 3]));
    let (pull, _) = load(p);
    (f + pull, f.norm() + pull.norm())
}

#[cfg(test)]
mod tests {
    use super::super::model::RingMass;
    use super::super::support::Spring;
    use super::*;

    #[test]
    fn two_ropes_of_unlike_length_share_the_hanging_weight() {
        let rope = |rest_m| Rope::new(rest_m, 0.0, 10e3, 10e3, 0.1);
        let mut model = Model {
            ropes: vec![rope(11.0), rope(10.0)],
            stops: Vec::new(),
            body_kg: 100.0,
            low_kg: 100.0,
            ring: Some(RingMass { weighs_kg: 2.0, moves_kg: 5.0, damping_n_s_per_m: 0.0 }),
            drag_kg_per_m: 0.0,
            wind_m_per_s: [0.0; 2],
            fold: super::super::fold::Fold::Neglected,
            support: Spring { at_m: [3.0, 1.0, 4.0], k_n_per_m: [5e3, 5e3, 2e3] },
            failure: None,
        };
        // 981 N stretches the short rope alone to 10.981 m, short of the long one.
        let (ring, body) = hanging(&mut model, [0.0; 3]).unwrap().unwrap();
        assert!((ring[0] - 3.0).abs() < 1e-9);
        assert!((ring[2] - (4.0 - 102.0 * 9.81 / 2e3)).abs() < 1e-9);
        assert!((ring[2] - body[2] - 10.981).abs() < 1e-9);
        // Ten times the mass stretches both.
        model.low_kg = 1000.0;
        let (ring, body) = hanging(&mut model, [0.0; 3]).unwrap().unwrap();
        let d = ring[2] - body[2];
        let carried = 10e3 * (d / 11.0 - 1.0) + 10e3 * (d / 10.0 - 1.0);
        assert!((carried - 9810.0).abs() < 1e-6);
        // Nothing to hang from.
        model.ropes.clear();
        assert!(hanging(&mut model, [0.0; 3]).is_none());
    }
}
