//! Ring and body at rest on their chains, Eq. (F16).

use nalgebra::{Matrix6, Vector3, Vector6};

use super::super::SwingError;
use super::hang::Hanging;
use super::motion::Lump;
use super::plan::{End, Strand};
use crate::quantity::{Force, GRAVITY, Quantity, print};

const ITERATIONS: usize = 200;
/// Largest change in one iteration, m.
const STRIDE_M: f64 = 10.0;
/// Force out of balance over the forces about.
const BALANCED: f64 = 1e-10;
/// The same where rounding allows no better.
const NEARLY: f64 = 1e-7;

/// Places of ring and body at rest, m, or why there are none.
pub(super) type Settled = Result<([f64; 3], [f64; 3]), SwingError>;

/// What stands still, and where.
#[derive(Debug, Clone)]
pub(super) struct Still {
    pub ring_m: [f64; 3],
    pub body_m: [f64; 3],
    pub chains: Vec<Hanging>,
    ends: Vec<(End, End)>,
}

/// Forces on ring and body other than those of the chains, N.
pub(super) type Loads = Vector6<f64>;

impl Still {
    /// Finds the rest of what is not held. `body_n` is the force on the body other than that of its ropes.
    pub fn find(
        strands: &[Strand],
        ring: &Lump,
        body: &Lump,
        body_n: [f64; 3],
        state: &'static str,
    ) -> Result<Self, SwingError> {
        let chains = strands.iter().map(Hanging::new).collect();
        let ends = strands.iter().map(|s| (s.from, s.to)).collect();
        let mut still = Self { ring_m: ring.at_m, body_m: body.at_m, chains, ends };
        let loads =
            Vector6::new(0.0, 0.0, -ring.mass_kg * GRAVITY, body_n[0], body_n[1], body_n[2]);
        let free = [!ring.held, !body.held];
        still.settle(&loads, free, state)?;
        still.slide(&loads, free, state)?;
        Ok(still)
    }

    fn place(&self, end: End) -> Vector3<f64> {
        match end {
            End::Anchor(at) => at.into(),
            End::Ring => self.ring_m.into(),
            End::Body => self.body_m.into(),
        }
    }

    /// Every point of every chain.
    pub fn points_m(&self) -> Vec<Vec<[f64; 3]>> {
        let each = self.chains.iter().zip(&self.ends);
        each.map(|(c, (from, to))| c.points_m(self.place(*from), self.place(*to))).collect()
    }

    /// Net force on ring and body, the largest force about, and the stiffness.
    fn forces(&mut self, loads: &Loads) -> Option<(Vector6<f64>, f64, Matrix6<f64>)> {
        let (mut net, mut k) = (*loads, Matrix6::zeros());
        let mut scale = loads.amax();
        for i in 0..self.chains.len() {
            let (from, to) = self.ends[i];
            let chord = self.place(to) - self.place(from);
            let chain = &mut self.chains[i];
            if !chain.solve(chord) {
                return None;
            }
            let row = |end| match end {
                End::Anchor(_) => None,
                End::Ring => Some(0),
                End::Body => Some(3),
            };
            let stiffness = chain.stiffness_n_per_m();
            for (end, pull) in [(from, chain.first_pull_n()), (to, chain.last_pull_n())] {
                let Some(at) = row(end) else { continue };
                scale = scale.max(pull.amax());
                let mut part = net.fixed_rows_mut::<3>(at);
                part += pull;
                let mut part = k.fixed_view_mut::<3, 3>(at, at);
                part += stiffness;
            }
            if let (Some(a), Some(b)) = (row(from), row(to)) {
                for (a, b) in [(a, b), (b, a)] {
                    let mut part = k.fixed_view_mut::<3, 3>(a, b);
                    part -= stiffness;
                }
            }
        }
        Some((net, scale, k))
    }

    /// Damped Newton on the balance of what is free.
    pub fn settle(
        &mut self,
        loads: &Loads,
        free: [bool; 2],
        state: &'static str,
    ) -> Result<(), SwingError> {
        let fail = |size: f64, iterations| SwingError::NoBalance {
            state,
            residual: print(Force::from_si(size)),
            iterations,
        };
        let mask = Vector6::from_fn(|i, _| if free[i / 3] { 1.0 } else { 0.0 });
        let Some(mut now) = self.forces(loads) else { return Err(fail(loads.amax(), 0)) };
        for iterations in 0..ITERATIONS {
            let (net, scale, mut k) = now;
            let net = net.component_mul(&mask);
            let size = net.norm();
            if size <= BALANCED * scale {
                return Ok(());
            }
            for i in (0..6).filter(|i| !free[i / 3]) {
                k.row_mut(i).fill(0.0);
                k.column_mut(i).fill(0.0);
                k[(i, i)] = 1.0;
            }
            // What nothing holds, such as the sides of a slack weightless rope, stays where it is.
            k += Matrix6::identity() * (1e-12 * k.diagonal().amax());
            let Some(mut step) = k.cholesky().map(|c| c.solve(&net)) else {
                return Err(fail(size, iterations));
            };
            let length = step.norm();
            if !length.is_finite() {
                return Err(fail(size, iterations));
            }
            if length > STRIDE_M {
                step *= STRIDE_M / length;
            }
            let (ring, body) = (self.ring_m, self.body_m);
            let mut share = 1.0;
            loop {
                let move_by =
                    |p: [f64; 3], at: usize| [0, 1, 2].map(|k| p[k] + share * step[at + k]);
                (self.ring_m, self.body_m) = (move_by(ring, 0), move_by(body, 3));
                if let Some(next) = self.forces(loads)
                    && next.0.component_mul(&mask).norm() < size
                {
                    now = next;
                    break;
                }
                share *= 0.5;
                if share < 1e-12 {
                    (self.ring_m, self.body_m) = (ring, body);
                    if size <= NEARLY * scale && self.forces(loads).is_some() {
                        return Ok(());
                    }
                    return Err(fail(size, iterations));
                }
            }
        }
        let size = now.0.component_mul(&mask).norm();
        if size <= NEARLY * now.1 { Ok(()) } else { Err(fail(size, ITERATIONS)) }
    }
}
