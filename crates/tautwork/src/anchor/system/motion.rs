//! The motion of the mass behind the pull, the junctions between at rest at each instant.

use nalgebra::{DVector, Vector3};

use super::super::AnchorError;
use super::super::knots::{End, Link, follow};
use super::model::{Left, Model};
use crate::ode::Rates;

/// The motion with what is left: place and velocity of the mass; the other junctions follow.
pub(super) struct Motion<'a> {
    pub(super) model: &'a Model,
    pub(super) links: Vec<Link>,
    pub(super) which: Vec<usize>,
    pub(super) left: Left,
    pub(super) mass_kg: f64,
    /// All junctions where they were last.
    pub(super) x: DVector<f64>,
}

impl<'a> Motion<'a> {
    pub(super) fn new(model: &'a Model, left: Left, mass_kg: f64, x: DVector<f64>) -> Self {
        let (which, links) = model.links(&left);
        Self { model, links, which, left, mass_kg, x }
    }

    /// All junctions with the mass at `p`: least stored energy, Eq. (S6).
    pub(super) fn settle(&mut self, p: &Vector3<f64>) -> Result<(), AnchorError> {
        let pulled = self.model.pulled;
        self.x.fixed_rows_mut::<3>(3 * pulled).copy_from(p);
        if self.x.len() > 3 {
            let held = |end| if end == End::Knot(pulled) { End::Fixed(*p) } else { end };
            let links: Vec<Link> = self
                .links
                .iter()
                .map(|l| Link { from: held(l.from), to: held(l.to), ..*l })
                .collect();
            let no_load = DVector::zeros(self.x.len());
            self.x = follow(&links, &no_load, &self.x, self.model.pull_n.norm())?.x;
            self.x.fixed_rows_mut::<3>(3 * pulled).copy_from(p);
        }
        Ok(())
    }

    /// Links of the legs, without the line that pulls.
    pub(super) fn legs_left(&self) -> impl Iterator<Item = &Link> {
        self.links.iter().take(self.which.len())
    }

    /// Pull of the legs and the line on the mass, and the energy they store.
    pub(super) fn legs(&self) -> (Vector3<f64>, f64) {
        let pulled = End::Knot(self.model.pulled);
        let (mut force, mut stored_j) = (Vector3::zeros(), 0.0);
        for link in &self.links {
            let state = link.pulled(&self.x);
            let tension_n = link.k_n_per_m * state.stretch_m;
            stored_j += 0.5 * tension_n * state.stretch_m;
            if link.from == pulled {
                force += state.toward * tension_n;
            } else if link.to == pulled {
                force -= state.toward * tension_n;
            }
        }
        (force, stored_j)
    }
}

impl Motion<'_> {
    /// Which legs are taut; between two changes of this the motion is smooth. What a loose junction drags along is
    /// not taut: its tension is rounding.
    pub(super) fn taut(&mut self, p: &Vector3<f64>) -> Result<Vec<bool>, AnchorError> {
        self.settle(p)?;
        let least_n = 1e-9 * self.model.pull_n.norm();
        Ok(self.links.iter().map(|l| l.tension_n(&self.x) > least_n).collect())
    }
}

impl Rates for Motion<'_> {
    fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
        let p = Vector3::new(y[0], y[1], y[2]);
        if self.settle(&p).is_err() {
            dy.fill(f64::NAN);
            return;
        }
        let a = (self.model.steady_n() + self.legs().0) / self.mass_kg;
        dy[..3].copy_from_slice(&y[3..6]);
        dy[3..6].copy_from_slice(a.as_slice());
    }
}
