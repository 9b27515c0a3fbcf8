//! Tensions with losses: one linear system for each sense of motion.

use nalgebra::{DMatrix, DVector, Vector3};

use super::PulleyError;
use super::layout::Layout;
use super::motion::Motion;

/// Which way the ropes run.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Sense {
    Raising,
    Lowering,
    /// No losses.
    Ideal,
}

/// Tensions for one sense of motion.
pub(super) struct Tensions {
    /// Of each part of each rope, in N.
    pub(super) parts_n: Vec<Vec<f64>>,
    pub(super) hand_n: f64,
    /// Work lost at the sheaves per travel of the hand, in N.
    pub(super) lost_n: f64,
    /// What is missing in Eq. (11), relative to its largest term.
    pub(super) residual: f64,
}

/// Below this flow per travel of the hand a sheave stands still; flows are sums of a few unit terms.
pub(super) const STANDS: f64 = 1e-12;

/// Tension after a sheave over tension before it, along the rope from start to end, Eq. (4).
fn ratio(eta: f64, flow: f64, sense: Sense) -> f64 {
    let forward = match sense {
        Sense::Raising => flow,
        Sense::Lowering => -flow,
        Sense::Ideal => return 1.0,
    };
    if forward.abs() <= STANDS {
        1.0
    } else if forward > 0.0 {
        1.0 / eta
    } else {
        eta
    }
}

/// Force of rope `r` on the body at stop `j`, given the tensions of its parts.
pub(super) fn pull(layout: &Layout, r: usize, j: usize, tension: &[f64]) -> Vector3<f64> {
    let along = &layout.paths[r].along;
    let mut force = Vector3::zeros();
    if j > 0 {
        force -= along[j - 1] * tension[j - 1];
    }
    if j < along.len() {
        force += along[j] * tension[j];
    }
    force
}

/// Solves Eqs. (3) and (4).
pub(super) fn tensions(
    layout: &Layout,
    motion: &Motion,
    load_n: f64,
    sense: Sense,
) -> Result<Tensions, Failure> {
    let n = layout.unknown.len();
    let mut factors = Vec::new();
    let mut a = DMatrix::zeros(n, n);
    for (r, path) in layout.paths.iter().enumerate() {
        let mut factor = vec![1.0];
        for (i, &eta) in path.eta.iter().enumerate() {
            factor.push(factor[i] * ratio(eta, motion.flow[r][i], sense));
        }
        // The largest part sets the scale of a column, so that steep losses do not spoil the solve.
        let largest = factor.iter().fold(0.0_f64, |m, f| m.max(*f));
        for f in &mut factor {
            *f /= largest;
        }
        for (j, &body) in path.stops.iter().enumerate() {
            if let Some(row) = layout.column[body] {
                a[(row, r)] += layout.travel[body].dot(&pull(layout, r, j, &factor));
            }
        }
        factors.push(factor);
    }
    let mut rhs = DVector::zeros(n);
    if let Some(row) = layout.column[layout.load] {
        rhs[row] = 1.0;
    }
    let base = a.full_piv_lu().solve(&rhs).ok_or(Failure::Singular)?;
    let largest = base.iter().fold(0.0_f64, |m, t| m.max(t.abs()));
    if !largest.is_finite() {
        return Err(Failure::Singular);
    }
    // Rounding may leave an idle rope a hair below zero.
    if let Some(rope) = base.iter().position(|&t| t < -1e-9 * largest) {
        return Err(Failure::Pushes(rope));
    }
    let parts_n: Vec<Vec<f64>> = factors
        .iter()
        .zip(base.iter())
        .map(|(factor, &t)| factor.iter().map(|f| f * t.max(0.0) * load_n).collect())
        .collect();
    let (rope, part) = layout.hand_part;
    let hand_n = parts_n[rope][part];
    let mut lost_n = 0.0;
    for (tension, flow) in parts_n.iter().zip(&motion.flow) {
        for (pair, flow) in tension.windows(2).zip(flow) {
            lost_n += ((pair[1] - pair[0]) * flow).abs();
        }
    }
    let raised_n = load_n * motion.travel[layout.load];
    let (given_n, taken_n) =
        if sense == Sense::Lowering { (raised_n, hand_n) } else { (hand_n, raised_n) };
    let residual = (given_n - taken_n - lost_n).abs() / given_n.abs().max(taken_n.abs());
    Ok(Tensions { parts_n, hand_n, lost_n, residual })
}

/// Why one sense of motion has no tensions.
pub(super) enum Failure {
    /// A rope would push.
    Pushes(usize),
    /// The losses make the equilibrium singular.
    Singular,
}

impl Failure {
    /// As the error of a system that cannot be raised.
    pub(super) fn named(self, ropes: &[super::Rope]) -> PulleyError {
        match self {
            Self::Pushes(rope) => PulleyError::WouldPush { rope: ropes[rope].name.clone() },
            Self::Singular => PulleyError::FrictionLocks,
        }
    }
}
