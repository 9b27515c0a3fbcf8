//! The ring of a bundle and its lines by one Newton iteration, from a nearby state.
//!
//! The nested way (a line search on the ring, every line closed at every trial) comes to rest from
//! anywhere; here all unknowns move at once, which costs one evaluation of each half line a step, but
//! only works near the solution. The equilibrium of lines with weight is unique, so that whatever this
//! finds is what the nested way finds.

use nalgebra::{Matrix3, Vector3};

use super::strand::{FOLLOWED, Strand};
use super::tangle::{BALANCED, Balance, Tangle};

/// Steps before the nested way takes over: a nearby state needs two to four.
const BUDGET: u32 = 8;
/// States remembered: a parabola through three saves a step or two of a sweep.
const REMEMBERED: usize = 3;

/// The last states, and room for one stiffness and one gap of each half line.
#[derive(Debug, Clone, Default)]
pub(super) struct Together {
    load_n: Vector3<f64>,
    past: Vec<Past>,
    parts: Vec<(Matrix3<f64>, Vector3<f64>)>,
}

/// A solved state.
#[derive(Debug, Clone, Default)]
struct Past {
    load_n: Vector3<f64>,
    ring_m: Vector3<f64>,
    pulls_n: Vec<Vector3<f64>>,
}

impl Together {
    /// Moves the ring, node 0, which all strands end at, to its rest. `None` leaves the strands without
    /// a state and the ring where it was.
    pub fn settle(&mut self, tangle: &mut Tangle) -> Option<Balance> {
        let last_n = std::mem::replace(&mut self.load_n, tangle.load_n[0]);
        let from = tangle.position_m[0];
        let solved = tangle.strands.iter().all(Strand::is_solved);
        let found = solved.then(|| {
            self.remember(tangle, last_n);
            self.predict(tangle);
            self.newton(tangle)
        });
        if let Some(Some(balance)) = found {
            return Some(balance);
        }
        self.past.clear();
        tangle.position_m[0] = from;
        tangle.strands.iter_mut().for_each(Strand::forget);
        None
    }

    fn remember(&mut self, tangle: &Tangle, load_n: Vector3<f64>) {
        if self.past.len() < REMEMBERED {
            self.past.push(Past::default());
        }
        self.past.rotate_right(1);
        let past = &mut self.past[0];
        (past.load_n, past.ring_m) = (load_n, tangle.position_m[0]);
        past.pulls_n.clear();
        past.pulls_n.extend(tangle.strands.iter().map(Strand::start_pull_n));
    }

    /// Starts from the parabola through the last three states if their loads and this one are steps in
    /// one direction.
    fn predict(&self, tangle: &mut Tangle) {
        let [a, b, c] = self.past.as_slice() else { return };
        let step = tangle.load_n[0] - a.load_n;
        let along = |p: &Past| {
            let back = p.load_n - a.load_n;
            let t = back.dot(&step) / step.norm_squared();
            ((back - step * t).norm() <= 1e-9 * step.norm()).then_some(t)
        };
        let (Some(tb), Some(tc)) = (along(b), along(c)) else { return };
        // Far steps extrapolate worse than the last state does.
        if !(tb <= -0.5 && tc <= tb - 0.5) {
            return;
        }
        // Lagrange's weights at t = 1 for states at 0, tb and tc.
        let wa = (1.0 - tb) * (1.0 - tc) / (tb * tc);
        let wb = (1.0 - tc) / (tb * (tb - tc));
        let wc = (1.0 - tb) / (tc * (tc - tb));
        tangle.position_m[0] = a.ring_m * wa + b.ring_m * wb + c.ring_m * wc;
        for (i, strand) in tangle.strands.iter_mut().enumerate() {
            strand.set_start_pull(&(a.pulls_n[i] * wa + b.pulls_n[i] * wb + c.pulls_n[i] * wc));
        }
    }

    fn newton(&mut self, tangle: &mut Tangle) -> Option<Balance> {
        let load_n = tangle.load_n[0];
        for iterations in 0..BUDGET {
            let ring = tangle.position_m[0];
            let (mut force, mut stiffness, mut drawn) =
                (load_n, Matrix3::zeros(), Vector3::zeros());
            let (mut open, mut scale_n) = (0.0_f64, load_n.norm());
            self.parts.clear();
            for (strand, &(anchor, _)) in tangle.strands.iter().zip(&tangle.ends) {
                let gap = strand.reach_m() - (ring - tangle.position_m[anchor]);
                let k = strand.stiffness_n_per_m();
                let (near, far) = strand.tensions_n();
                scale_n = scale_n.max(near).max(far).max(strand.weight_n());
                open = open.max(gap.norm() / strand.rest_m);
                force += strand.end_pull_n();
                stiffness += k;
                drawn += k * gap;
                self.parts.push((k, gap));
            }
            let residual_n = force.norm();
            if open <= FOLLOWED && residual_n <= BALANCED * scale_n {
                return Some(Balance { residual_n, residual: residual_n / scale_n, iterations });
            }
            let step = stiffness.cholesky()?.solve(&(force + drawn));
            if !step.iter().all(|x| x.is_finite()) {
                return None;
            }
            tangle.position_m[0] += step;
            for (strand, (k, gap)) in tangle.strands.iter_mut().zip(&self.parts) {
                strand.set_start_pull(&(strand.start_pull_n() + k * (step - gap)));
            }
        }
        None
    }
}
