//! Rates of the reduced jump: body, ring, viscous strain of each jump rope, and the energy books.

use super::rope::Rope;
use super::support::Support;
use crate::ode::Rates;
use crate::quantity::GRAVITY;

/// Places in the state vector. The viscous strains start at `VISCOUS`; after them come the energies
/// lost to drag, to ring damping and to the ropes, and the work done by the ring on the lines.
pub(super) const BODY: usize = 0;
pub(super) const RING: usize = 4;
pub(super) const VISCOUS: usize = 8;
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
    /// Horizontal wind along x, m/s.
    pub wind_m_per_s: f64,
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
    pub x_n: f64,
    pub z_n: f64,
    pub loss_w: f64,
}

impl Pull {
    pub fn size_n(self) -> f64 {
        self.x_n.hypot(self.z_n)
    }
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

    /// Unit vector from body to ring and the distance; zero vector where they coincide.
    pub fn towards_ring(y: &[f64]) -> ([f64; 2], f64) {
        let (dx, dz) = (y[RING] - y[BODY], y[RING + 1] - y[BODY + 1]);
        let d = dx.hypot(dz);
        if d > 0.0 { ([dx / d, dz / d], d) } else { ([0.0; 2], 0.0) }
    }

    /// Tension of one rope, N.
    pub fn tension_n(&self, y: &[f64], rope: usize) -> f64 {
        let (_, d) = Self::towards_ring(y);
        self.ropes[rope].tension_n(self.ropes[rope].strain(d), y[VISCOUS + rope])
    }

    /// Tension of one rope before clipping, N: positive when taut.
    pub fn trial_n(&self, y: &[f64], rope: usize) -> f64 {
        let (_, d) = Self::towards_ring(y);
        self.ropes[rope].trial_n(self.ropes[rope].strain(d), y[VISCOUS + rope])
    }

    /// Pull of all ropes on the body.
    pub fn pull(&self, y: &[f64]) -> Pull {
        let ([ux, uz], d) = Self::towards_ring(y);
        let mut sum = Pull::default();
        for (rope, viscous) in self.ropes.iter().zip(&y[VISCOUS..]) {
            let strain = rope.strain(d);
            let t = rope.tension_n(strain, *viscous);
            sum.x_n += t * ux;
            sum.z_n += t * uz;
            sum.loss_w += rope.loss_w(strain, *viscous);
        }
        sum
    }

    /// Force of the ropes on the jumper, N, Eq. (15): the half of the ropes that moves with the body
    /// takes its part of the tension.
    pub fn body_force_n(&self, y: &[f64]) -> f64 {
        self.pull(y).size_n() * self.body_kg / self.low_kg
    }

    /// Drag on the body, N, Eq. (3).
    pub fn drag_n(&self, y: &[f64]) -> [f64; 2] {
        let (vx, vz) = (y[BODY + 2] - self.wind_m_per_s, y[BODY + 3]);
        let k = -self.drag_kg_per_m * vx.hypot(vz);
        [k * vx, k * vz]
    }

    /// Acceleration of the body, m/s², Eq. (1).
    pub fn body_acceleration(&self, y: &[f64], pull: Pull) -> [f64; 2] {
        let [dx, dz] = self.drag_n(y);
        [(pull.x_n + dx) / self.low_kg, (pull.z_n + dz) / self.low_kg - GRAVITY]
    }

    /// Energy that the state holds now, J, Eq. (9): kinetic, of height above z = 0, in the ropes, and
    /// given by the ring to the lines since the start.
    pub fn energy_j(&self, y: &[f64]) -> [f64; 4] {
        let half_square = |at: usize| 0.5 * (y[at + 2] * y[at + 2] + y[at + 3] * y[at + 3]);
        let mut kinetic = self.low_kg * half_square(BODY);
        let mut height = self.low_kg * GRAVITY * y[BODY + 1];
        if let Some(ring) = &self.ring {
            kinetic += ring.moves_kg * half_square(RING);
            height += ring.weighs_kg * GRAVITY * y[RING + 1];
        }
        let (_, d) = Self::towards_ring(y);
        let ropes = self.ropes.iter().zip(&y[VISCOUS..]);
        let stored = ropes.map(|(rope, viscous)| rope.stored_j(rope.strain(d), *viscous)).sum();
        [kinetic, height, stored, y[self.books() + 3]]
    }

    /// Energy lost so far, J: to drag, to ring damping, to the ropes.
    pub fn lost_j(&self, y: &[f64]) -> [f64; 3] {
        let at = self.books();
        [y[at], y[at + 1], y[at + 2]]
    }
}

impl<S: Support> Rates for Model<S> {
    fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
        let pull = self.pull(y);
        let [ax, az] = self.body_acceleration(y, pull);
        let [dx, dz] = self.drag_n(y);
        dy[BODY..BODY + 4].copy_from_slice(&[y[BODY + 2], y[BODY + 3], ax, az]);
        dy[RING..RING + 4].fill(0.0);
        let books = self.books();
        dy[books] = -(dx * y[BODY + 2] + dz * y[BODY + 3]);
        dy[books + 1] = 0.0;
        dy[books + 2] = pull.loss_w;
        dy[books + 3] = 0.0;
        let (_, d) = Self::towards_ring(y);
        for (i, rope) in self.ropes.iter().enumerate() {
            dy[VISCOUS + i] = rope.viscous_rate(rope.strain(d), y[VISCOUS + i]);
        }
        if let Some(ring) = &self.ring {
            let place = [y[RING], y[RING + 1]];
            let (vx, vz) = (y[RING + 2], y[RING + 3]);
            // A trial step too long may carry the ring out of reach; NaN sends the integrator back.
            let [fx, fz] = if place[0].is_finite() && place[1].is_finite() {
                match self.support.force_n(place) {
                    Ok(force) => force,
                    Err(problem) => {
                        self.failure = Some(problem);
                        [f64::NAN; 2]
                    }
                }
            } else {
                [f64::NAN; 2]
            };
            let c = ring.damping_n_s_per_m;
            dy[RING] = vx;
            dy[RING + 1] = vz;
            dy[RING + 2] = (fx - pull.x_n - c * vx) / ring.moves_kg;
            dy[RING + 3] = (fz - pull.z_n - c * vz - ring.weighs_kg * GRAVITY) / ring.moves_kg;
            dy[books + 1] = c * (vx * vx + vz * vz);
            dy[books + 3] = -(fx * vx + fz * vz);
        }
    }
}
