//! One free knot on tension-only springs.

use nalgebra::{DVector, Vector3};

use super::AnchorError;
use super::knots::{self, End, Link};

/// A tension-only spring from the knot to a fixed point, in SI units.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spring {
    pub(super) at: Vector3<f64>,
    pub(super) rest_m: f64,
    pub(super) k_n_per_m: f64,
}

impl Spring {
    pub(super) fn pulled(&self, p: &Vector3<f64>) -> knots::Pulled {
        self.link().pulled(&whole(p))
    }

    fn link(&self) -> Link {
        let Self { at, rest_m, k_n_per_m } = *self;
        Link { from: End::Knot(0), to: End::Fixed(at), rest_m, k_n_per_m }
    }
}

fn whole(p: &Vector3<f64>) -> DVector<f64> {
    DVector::from_column_slice(p.as_slice())
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

/// A rest position and what it took.
pub(super) struct Rest {
    pub(super) p: Vector3<f64>,
    /// Unbalanced force over the pull.
    pub(super) residual: f64,
    pub(super) iterations: usize,
}

/// Solves Eq. (3); `pull_n` is not zero.
pub(super) fn rest(springs: &[Spring], pull_n: &Vector3<f64>) -> Result<Rest, AnchorError> {
    let links: Vec<Link> = springs.iter().map(Spring::link).collect();
    let found = knots::rest(&links, &whole(pull_n), None, pull_n.norm())?;
    Ok(Rest {
        p: knots::place(&found.x, 0),
        residual: found.residual,
        iterations: found.iterations,
    })
}
