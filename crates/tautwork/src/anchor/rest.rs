//! Where a free knot on tension-only springs rests: the kernel.

use nalgebra::{Matrix3, Vector3};

use super::AnchorError;

/// A tension-only spring from the knot to a fixed point, in SI units.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spring {
    pub(super) at: Vector3<f64>,
    pub(super) rest_m: f64,
    pub(super) k_n_per_m: f64,
}

/// Stretch of a spring, its direction from the knot to the fixing, and its length.
pub(super) struct Pulled {
    pub(super) stretch_m: f64,
    pub(super) toward: Vector3<f64>,
    pub(super) length_m: f64,
}

impl Spring {
    pub(super) fn pulled(&self, p: &Vector3<f64>) -> Pulled {
        let d = self.at - p;
        let length_m = d.norm();
        let toward = if length_m > 0.0 { d / length_m } else { Vector3::zeros() };
        Pulled { stretch_m: (length_m - self.rest_m).max(0.0), toward, length_m }
    }
}

/// Energy of springs and pull, Eq. (2).
pub(super) fn energy_j(springs: &[Spring], pull_n: &Vector3<f64>, p: &Vector3<f64>) -> f64 {
    let stored: f64 =
        springs.iter().map(|s| 0.5 * s.k_n_per_m * s.pulled(p).stretch_m.powi(2)).sum();
    stored - pull_n.dot(p)
}

/// What is missing in Eq. (3).
pub(super) fn unbalanced(
    springs: &[Spring],
    pull_n: &Vector3<f64>,
    p: &Vector3<f64>,
) -> Vector3<f64> {
    springs.iter().fold(*pull_n, |sum, s| {
        let pulled = s.pulled(p);
        sum + pulled.toward * (s.k_n_per_m * pulled.stretch_m)
    })
}

/// Second derivative of Eq. (2): taut springs only.
fn curvature(springs: &[Spring], p: &Vector3<f64>) -> Matrix3<f64> {
    springs.iter().fold(Matrix3::zeros(), |sum, s| {
        let Pulled { stretch_m, toward, length_m } = s.pulled(p);
        if stretch_m <= 0.0 {
            return sum;
        }
        let along = toward * toward.transpose();
        let across = (Matrix3::identity() - along) * (stretch_m / length_m);
        sum + (along + across) * s.k_n_per_m
    })
}

/// What rounding of positions to a few units in the last place makes of the forces.
fn rounding_n(springs: &[Spring], p: &Vector3<f64>) -> f64 {
    springs.iter().fold(0.0, |sum, s| {
        let pulled = s.pulled(p);
        let taut = f64::from(u8::from(pulled.stretch_m > 0.0));
        sum + taut * 4.0 * f64::EPSILON * s.k_n_per_m * (pulled.length_m + p.norm() + s.at.norm())
    })
}

/// A rest position and what it took.
pub(super) struct Rest {
    pub(super) p: Vector3<f64>,
    /// Unbalanced force over the pull.
    pub(super) residual: f64,
    pub(super) iterations: usize,
}

/// Newton steps of one stage. A stage takes five to ten; more only at slack-taut borders.
const BUDGET: usize = 200;
/// Aim: rounding of a stretch of a thousandth leaves about this much.
const AIM: f64 = 1e-13;
/// What a result may miss, as part of the pull.
const ACCEPT: f64 = 1e-9;
/// What it may miss at most, where legs are so stiff that rounding of lengths leaves no more digits.
const WORST: f64 = 1e-6;
/// Compliance added in the first stage, in lengths per pull: the knot sags by about this much.
const SOFT: f64 = 0.1;

/// Solves Eq. (3) by damped Newton on Eq. (2); `pull_n` is not zero.
pub(super) fn rest(springs: &[Spring], pull_n: &Vector3<f64>) -> Result<Rest, AnchorError> {
    // Lengths in the size of the anchor, forces in the pull, origin amid the fixings.
    let middle = springs.iter().fold(Vector3::zeros(), |sum, s| sum + s.at) / springs.len() as f64;
    let size_m = springs.iter().fold(0.0_f64, |m, s| m.max(s.rest_m).max((s.at - middle).norm()));
    let pull = pull_n.norm();
    let scaled: Vec<Spring> = springs
        .iter()
        .map(|s| Spring {
            at: (s.at - middle) / size_m,
            rest_m: s.rest_m / size_m,
            k_n_per_m: s.k_n_per_m / pull * size_m,
        })
        .collect();
    let direction = pull_n / pull;
    let numbers = scaled.iter().all(|s| {
        s.at.iter().all(|c| c.is_finite()) && s.k_n_per_m.is_finite() && s.k_n_per_m > 0.0
    });
    if !numbers || !direction.iter().all(|c| c.is_finite()) {
        return Err(AnchorError::Overflow { result: "the scale of the anchor" });
    }
    let stiffest = scaled.iter().fold(0.0_f64, |m, s| m.max(s.k_n_per_m));
    let mut p = direction;
    let mut iterations = 0;
    let mut compliance = SOFT;
    // Until the softening is lost beside the legs' own compliance: 17 stages at most for stiffness
    // that leaves any digits.
    while compliance * stiffest > 1e-2 && compliance > 1e-18 {
        let soft: Vec<Spring> = scaled
            .iter()
            .map(|s| Spring { k_n_per_m: 1.0 / (1.0 / s.k_n_per_m + compliance), ..*s })
            .collect();
        iterations += newton(&soft, &direction, &mut p, 1e-3);
        compliance *= 0.1;
    }
    iterations += newton(&scaled, &direction, &mut p, AIM);
    let p = p * size_m + middle;
    let residual = unbalanced(springs, pull_n, &p).norm() / pull;
    // Written so that NaN fails too.
    if residual <= (rounding_n(springs, &p) / pull).clamp(ACCEPT, WORST) {
        Ok(Rest { p, residual, iterations })
    } else {
        Err(AnchorError::NotConverged { what: "the master point", iterations, residual })
    }
}

/// Moves `p` towards rest until the unbalanced force is below `aim` or nothing improves.
fn newton(springs: &[Spring], pull: &Vector3<f64>, p: &mut Vector3<f64>, aim: f64) -> usize {
    for iteration in 0..BUDGET {
        let force = unbalanced(springs, pull, p);
        if force.norm() <= aim {
            return iteration;
        }
        let h = curvature(springs, p);
        // All slack: nothing resists, so go along the pull by one size.
        let damping = if h.trace() > 0.0 { h.trace() * 1e-14 } else { 1.0 };
        let Some(mut step) = solve(&h, damping, &force) else { return iteration };
        // Half a size at most: the model of a step does not see legs that become taut on the way.
        let long = step.norm();
        if long > 0.5 {
            step *= 0.5 / long;
        }
        let Some(next) = descend(springs, pull, p, &step, &force) else { return iteration };
        *p = next;
    }
    BUDGET
}

fn solve(h: &Matrix3<f64>, damping: f64, force: &Vector3<f64>) -> Option<Vector3<f64>> {
    let mut damping = damping;
    for _ in 0..20 {
        if let Some(c) = (h + Matrix3::identity() * damping).cholesky() {
            return Some(c.solve(force)).filter(|s| s.iter().all(|c| c.is_finite()));
        }
        damping *= 10.0;
    }
    None
}

/// Halves the step until energy falls as it should, or, where energy is lost in rounding, the
/// unbalanced force does.
fn descend(
    springs: &[Spring],
    pull: &Vector3<f64>,
    p: &Vector3<f64>,
    step: &Vector3<f64>,
    force: &Vector3<f64>,
) -> Option<Vector3<f64>> {
    let here = energy_j(springs, pull, p);
    let promised = force.dot(step);
    let mut part = 1.0;
    for _ in 0..60 {
        let next = p + step * part;
        let falls = energy_j(springs, pull, &next) <= here - 1e-4 * part * promised;
        let calms = || unbalanced(springs, pull, &next).norm() < 0.5 * force.norm();
        let rounding = promised * part <= 1e-12 * (1.0 + here.abs());
        if (falls && !rounding) || calms() {
            return Some(next);
        }
        part *= 0.5;
    }
    None
}
