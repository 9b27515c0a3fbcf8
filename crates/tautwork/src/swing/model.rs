//! Rates of the reduced jump: body, ring, viscous strain of each jump rope, and the energy books.

use super::fold::Fold;
use super::rope::Rope;
use super::space::{from, size, three};
use super::support::Support;
use crate::ode::Rates;
use crate::quantity::GRAVITY;

/// Places in the state vector: three of place and three of velocity each. The viscous strains start at
/// `VISCOUS`; after them come the energies lost to drag, to ring damping, to the ropes, and given by the
/// falling fold.
pub(super) const BODY: usize = 0;
pub(super) const RING: usize = 6;
pub(super) const VISCOUS: usize = 12;
/// From a place to its velocity.
pub(super) const SPEED: usize = 3;
/// Energy entries after the viscous strains.
pub(super) const BOOKS: usize = 4;

/// Everything that sets the motion, in SI.
#[derive(Debug, Clone)]
pub(super) struct Model<S> {
    pub ropes: Vec<Rope>,
    /// Mass of the body alone, kg.
    pub body_kg: f64,
    /// Body and half of the jump ropes, kg.
    pub low_kg: f64,
    /// What a free ring weighs and resists; none for a fixed ring.
    pub ring: Option<RingMass>,
    /// Half the air density times the drag area, kg/m.
    pub drag_kg_per_m: f64,
    /// Wind along x and y, m/s.
    pub wind_m_per_s: [f64; 2],
    pub fold: Fold,
    pub support: S,
    /// What the support said when it last failed.
    pub failure: Option<String>,
}

/// Mass of the ring.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct RingMass {
    /// Ring set and half of the jump ropes, kg: what weighs.
    pub weighs_kg: f64,
    /// The same and the share of the lines that moves with the ring, kg: what accelerates.
    pub moves_kg: f64,
    /// Viscous damping of the ring, N s/m.
    pub damping_n_s_per_m: f64,
}

/// Sum of the rope pulls on the body, with the loss in the ropes.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Pull {
    pub n: [f64; 3],
    pub size_n: f64,
    pub loss_w: f64,
}

/// Unit vector from body to ring and the distance; zero vector where they coincide.
pub(super) fn towards_ring(y: &[f64]) -> ([f64; 3], f64) {
    let r = from(three(y, BODY), three(y, RING));
    let d = size(r);
    if d > 0.0 { (r.map(|r| r / d), d) } else { ([0.0; 3], 0.0) }
}

/// Speed of body or ring.
pub(super) fn speed(y: &[f64], at: usize) -> f64 {
    size(three(y, at + SPEED))
}

impl<S: Support> Model<S> {
    /// Length of the state vector.
    pub fn size(&self) -> usize {
        VISCOUS + self.ropes.len() + BOOKS
    }

    /// Where the energy entries start.
    pub fn books(&self) -> usize {
        VISCOUS + self.ropes.len()
    }

    /// Tension of one rope before clipping, N: positive when taut.
    pub fn trial_n(&self, y: &[f64], rope: usize) -> f64 {
        let (_, d) = towards_ring(y);
        self.ropes[rope].trial_n(self.ropes[rope].strain(d), y[VISCOUS + rope])
    }

    /// Tension of one rope, N.
    pub fn tension_n(&self, y: &[f64], rope: usize) -> f64 {
        self.trial_n(y, rope).max(0.0)
    }

    /// Pull of all ropes on the body, with direction and distance of the ring known.
    #[inline]
    pub fn pull(&self, y: &[f64], (u, d): ([f64; 3], f64)) -> Pull {
        let (mut sum_n, mut loss_w) = (0.0, 0.0);
        for (rope, viscous) in self.ropes.iter().zip(&y[VISCOUS..]) {
            let strain = rope.strain(d);
            sum_n += rope.tension_n(strain, *viscous);
            loss_w += rope.loss_w(strain, *viscous);
        }
        Pull { n: u.map(|u| sum_n * u), size_n: if d > 0.0 { sum_n } else { 0.0 }, loss_w }
    }

    /// Force of the ropes on the jumper, N, Eq. (15): the half of the ropes that moves with the body
    /// takes its part of the tension.
    pub fn body_force_n(&self, y: &[f64]) -> f64 {
        self.pull(y, towards_ring(y)).size_n * self.body_kg / self.low_kg
    }

    /// Drag on the body, N, Eq. (3).
    pub fn drag_n(&self, y: &[f64]) -> [f64; 3] {
        let [along, left] = self.wind_m_per_s;
        let v = [y[BODY + SPEED] - along, y[BODY + SPEED + 1] - left, y[BODY + SPEED + 2]];
        let k = -self.drag_kg_per_m * size(v);
        v.map(|v| k * v)
    }

    /// Acceleration of the body, m/s², Eq. (1).
    pub fn body_acceleration(&self, y: &[f64], pull: Pull) -> [f64; 3] {
        let drag = self.drag_n(y);
        let mut a = [0, 1, 2].map(|i| (pull.n[i] + drag[i]) / self.low_kg);
        a[2] -= GRAVITY + self.fold_n(y)[0] / self.low_kg;
        a
    }

    /// Downward forces of the falling fold on body and ring, N, Eq. (18).
    pub fn fold_n(&self, y: &[f64]) -> [f64; 2] {
        if self.fold == Fold::Neglected {
            return [0.0; 2];
        }
        let fallen_m = y[RING + 2] - y[BODY + 2];
        let speed = y[RING + SPEED + 2] - y[BODY + SPEED + 2];
        let (_, d) = towards_ring(y);
        self.fold.pulls_n(&self.ropes, &y[VISCOUS..], d, fallen_m, speed).map_or([0.0; 2], |f| {
            // The body carries its rope as a fixed half: the force is that which gives the acceleration.
            [f.body_n * self.low_kg / (self.body_kg + f.beside_kg), f.ring_n]
        })
    }

    /// Energy that the state holds now, J, Eq. (9): kinetic, of height above z = 0, in the ropes and in
    /// the lines.
    pub fn energy_j(&mut self, y: &[f64]) -> [f64; 4] {
        let square = |at: usize| {
            let v = three(y, at + SPEED);
            v[0] * v[0] + v[1] * v[1] + v[2] * v[2]
        };
        let mut kinetic = 0.5 * self.low_kg * square(BODY);
        let mut height = self.low_kg * GRAVITY * y[BODY + 2];
        let mut lines = 0.0;
        if let Some(ring) = &self.ring {
            kinetic += 0.5 * ring.moves_kg * square(RING);
            height += ring.weighs_kg * GRAVITY * y[RING + 2];
            lines = self.support.potential_j(three(y, RING)).unwrap_or(f64::NAN);
        }
        let (_, d) = towards_ring(y);
        let ropes = self.ropes.iter().zip(&y[VISCOUS..]);
        let stored = ropes.map(|(rope, viscous)| rope.stored_j(rope.strain(d), *viscous)).sum();
        [kinetic, height, stored, lines]
    }

    /// Energy lost so far, J: to drag, to ring damping, to the ropes, and from the fold (negative where
    /// it gave).
    pub fn lost_j(&self, y: &[f64]) -> [f64; 4] {
        let at = self.books();
        [y[at], y[at + 1], y[at + 2], y[at + 3]]
    }
}

impl<S: Support> Rates for Model<S> {
    fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
        let (u, d) = towards_ring(y);
        let pull = self.pull(y, (u, d));
        let drag = self.drag_n(y);
        let v = three(y, BODY + SPEED);
        dy[BODY..BODY + SPEED].copy_from_slice(&v);
        for i in 0..3 {
            dy[BODY + SPEED + i] = (pull.n[i] + drag[i]) / self.low_kg;
        }
        dy[BODY + SPEED + 2] -= GRAVITY;
        dy[RING..RING + 6].fill(0.0);
        let books = self.books();
        dy[books] = -(drag[0] * v[0] + drag[1] * v[1] + drag[2] * v[2]);
        dy[books + 1] = 0.0;
        dy[books + 2] = pull.loss_w;
        dy[books + 3] = 0.0;
        for (i, rope) in self.ropes.iter().enumerate() {
            dy[VISCOUS + i] = rope.viscous_rate(rope.strain(d), y[VISCOUS + i]);
        }
        let mut ring_fold_n = 0.0;
        if self.fold != Fold::Neglected {
            let [body_n, ring_n] = self.fold_n(y);
            dy[BODY + SPEED + 2] -= body_n / self.low_kg;
            dy[books + 3] += body_n * v[2];
            ring_fold_n = ring_n;
        }
        if let Some(ring) = &self.ring {
            let place = three(y, RING);
            let v = three(y, RING + SPEED);
            // A trial step too long may carry the ring out of reach; NaN sends the integrator back.
            let force = if place.iter().all(|p| p.is_finite()) {
                match self.support.force_n(place) {
                    Ok(force) => force,
                    Err(problem) => {
                        self.failure = Some(problem);
                        [f64::NAN; 3]
                    }
                }
            } else {
                [f64::NAN; 3]
            };
            let c = ring.damping_n_s_per_m;
            for i in 0..3 {
                dy[RING + i] = v[i];
                dy[RING + SPEED + i] = (force[i] - pull.n[i] - c * v[i]) / ring.moves_kg;
            }
            dy[RING + SPEED + 2] -= (ring.weighs_kg * GRAVITY + ring_fold_n) / ring.moves_kg;
            dy[books + 1] = c * (v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
            dy[books + 3] += ring_fold_n * v[2];
        }
    }
}
