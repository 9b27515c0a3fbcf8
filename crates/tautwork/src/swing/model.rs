//! Rates of the reduced jump: body, ring, viscous strain of each jump rope, and the energy books.

use super::beat::{Beat, Bouncing};
use super::fold::Fold;
use super::rope::Rope;
use super::space::{dot, from, size, three};
use super::support::Support;
use crate::ode::Rates;
use crate::quantity::GRAVITY;

/// Places in the state vector: three of place and three of velocity each. The viscous strains of ropes and
/// stops start at `VISCOUS`; after them come the energies lost to drag, to ring damping, to ropes and
/// stops, and given by the falling fold.
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
    pub stops: Vec<Stop>,
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

/// A rope from a fixed anchor that stops a free ring.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Stop {
    pub anchor_m: [f64; 3],
    pub rope: Rope,
}

impl Stop {
    /// Unit vector from the ring to the anchor, zero where they coincide, and strain.
    pub fn reach(&self, ring_m: [f64; 3]) -> ([f64; 3], f64) {
        let r = from(ring_m, self.anchor_m);
        let d = size(r);
        (if d > 0.0 { r.map(|r| r / d) } else { [0.0; 3] }, self.rope.strain(d))
    }
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

/// Sum of the rope pulls on the body.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Pull {
    pub n: [f64; 3],
    pub size_n: f64,
}

/// Unit vector from body to ring and the distance; zero vector where they coincide.
#[expect(
    clippy::inline_always,
    reason = "a call's answer would go through memory, half of its cost"
)]
#[inline(always)]
pub(super) fn towards_ring(y: &[f64]) -> ([f64; 3], f64) {
    let r = from(three(y, BODY), three(y, RING));
    let square = dot(r, r);
    // Root and quotient at once, since neither waits for the other.
    let d = square.sqrt();
    let per_d = d * (1.0 / square);
    if square >= f64::MIN_POSITIVE { (r.map(|r| r * per_d), d) } else { ([0.0; 3], 0.0) }
}

/// Speed of body or ring.
pub(super) fn speed(y: &[f64], at: usize) -> f64 {
    size(three(y, at + SPEED))
}

impl<S: Support> Model<S> {
    /// Length of the state vector.
    pub fn size(&self) -> usize {
        self.books() + BOOKS
    }

    /// Where the energy entries start.
    pub fn books(&self) -> usize {
        VISCOUS + self.cords()
    }

    /// Number of ropes and, after them, stops.
    pub fn cords(&self) -> usize {
        self.ropes.len() + self.stops.len()
    }

    /// One rope or, after them, stop.
    pub fn cord(&self, cord: usize) -> &Rope {
        match cord.checked_sub(self.ropes.len()) {
            None => &self.ropes[cord],
            Some(i) => &self.stops[i].rope,
        }
    }

    /// Puts one rope or stop on a branch.
    pub fn put(&mut self, cord: usize, taut: bool) {
        match cord.checked_sub(self.ropes.len()) {
            None => self.ropes[cord].taut = taut,
            Some(i) => self.stops[i].rope.taut = taut,
        }
    }

    /// Whether a jump rope is taut.
    pub fn hangs(&self) -> bool {
        self.ropes.iter().any(|rope| rope.taut)
    }

    /// Tension of one rope or stop before clipping, N: positive when taut.
    pub fn trial_n(&self, y: &[f64], cord: usize) -> f64 {
        let viscous = y[VISCOUS + cord];
        match cord.checked_sub(self.ropes.len()) {
            None => {
                let rope = &self.ropes[cord];
                rope.trial_n(rope.strain(towards_ring(y).1), viscous)
            }
            Some(i) => {
                let stop = &self.stops[i];
                stop.rope.trial_n(stop.reach(three(y, RING)).1, viscous)
            }
        }
    }

    /// Tension of one rope or stop, N.
    pub fn tension_n(&self, y: &[f64], cord: usize) -> f64 {
        self.trial_n(y, cord).max(0.0)
    }

    /// Pull of one stop on the ring, N.
    pub fn stop_pull_n(&self, y: &[f64], stop: usize) -> [f64; 3] {
        let tension_n = self.tension_n(y, self.ropes.len() + stop);
        self.stops[stop].reach(three(y, RING)).0.map(|u| tension_n * u)
    }

    /// Pull of all ropes on the body, with direction and distance of the ring known.
    #[inline]
    pub fn pull(&self, y: &[f64], (u, d): ([f64; 3], f64)) -> Pull {
        let mut sum_n = 0.0;
        for (rope, viscous) in self.ropes.iter().zip(&y[VISCOUS..]) {
            sum_n += rope.tension_n(rope.strain(d), *viscous);
        }
        Pull { n: u.map(|u| sum_n * u), size_n: if d > 0.0 { sum_n } else { 0.0 } }
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
    #[inline]
    pub fn fold_n(&self, y: &[f64]) -> [f64; 2] {
        if self.fold == Fold::Neglected {
            return [0.0; 2];
        }
        let fallen_m = y[RING + 2] - y[BODY + 2];
        let speed = y[RING + SPEED + 2] - y[BODY + SPEED + 2];
        self.fold.pulls_n(&self.ropes, fallen_m, speed).map_or([0.0; 2], |f| {
            // The body carries its rope as a fixed half: the force is that which gives the acceleration.
            [f.body_n * self.low_kg / (self.body_kg + f.beside_kg), f.ring_n]
        })
    }

    /// Energy that the state holds now, J, Eq. (9): kinetic, of height above z = 0, in ropes and stops,
    /// and in the lines.
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
        let mut stored: f64 =
            ropes.map(|(rope, viscous)| rope.stored_j(rope.strain(d), *viscous)).sum();
        for (stop, viscous) in self.stops.iter().zip(&y[VISCOUS + self.ropes.len()..]) {
            stored += stop.rope.stored_j(stop.reach(three(y, RING)).1, *viscous);
        }
        [kinetic, height, stored, lines]
    }

    /// Energy lost so far, J: to drag, to ring damping, to ropes and stops, and from the fold
    /// (negative where it gave).
    pub fn lost_j(&self, y: &[f64]) -> [f64; 4] {
        let at = self.books();
        [y[at], y[at + 1], y[at + 2], y[at + 3]]
    }
}

impl<S: Support> Bouncing for Model<S> {
    /// That of the ring along the axis in which the lines are stiffest: along the span.
    fn beat(&mut self, y: &[f64]) -> Option<Beat> {
        let moves_kg = self.ring.as_ref()?.moves_kg;
        let k = self.support.stiffness_n_per_m(three(y, RING)).ok()?;
        let axis = (0..3).max_by(|a, b| k[*a][*a].total_cmp(&k[*b][*b]))?;
        let per_s = (k[axis][axis] / moves_kg).sqrt();
        let (place, speed) = (RING + axis, RING + SPEED + axis);
        per_s.is_normal().then_some(Beat { place, speed, per_s })
    }
}

impl<S: Support> Rates for Model<S> {
    #[inline]
    fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
        let (u, d) = towards_ring(y);
        let (viscous, viscous_rates) = (&y[VISCOUS..], &mut dy[VISCOUS..]);
        let (mut pull_n, mut loss_w) = (0.0, 0.0);
        for ((rope, viscous), rate) in self.ropes.iter().zip(viscous).zip(&mut *viscous_rates) {
            let now = rope.answer(rope.strain(d), *viscous);
            *rate = now.viscous_rate;
            pull_n += now.tension_n;
            loss_w += now.loss_w;
        }
        let pull = u.map(|u| pull_n * u);
        let drag = self.drag_n(y);
        let v = three(y, BODY + SPEED);
        let per_kg = 1.0 / self.low_kg;
        let fold_n = self.fold_n(y);
        let mut a = [0, 1, 2].map(|i| (pull[i] + drag[i]) * per_kg);
        a[2] -= GRAVITY + fold_n[0] * per_kg;
        let drag_w = -dot(drag, v);
        let (ring_v, mut ring_a, mut ring_w) = (three(y, RING + SPEED), [0.0; 3], 0.0);
        let mut fold_w = fold_n[0] * v[2];
        if let Some(ring) = &self.ring {
            let place = three(y, RING);
            // A trial step too long may carry the ring out of reach; NaN sends the integrator back.
            let mut force = if place.iter().all(|p| p.is_finite()) {
                self.support.force_n(place).unwrap_or_else(|problem| {
                    self.failure = Some(problem);
                    [f64::NAN; 3]
                })
            } else {
                [f64::NAN; 3]
            };
            let first = self.ropes.len();
            for (i, stop) in self.stops.iter().enumerate() {
                let (u, strain) = stop.reach(place);
                let now = stop.rope.answer(strain, viscous[first + i]);
                viscous_rates[first + i] = now.viscous_rate;
                loss_w += now.loss_w;
                force = [0, 1, 2].map(|k| force[k] + now.tension_n * u[k]);
            }
            let (c, per_kg) = (ring.damping_n_s_per_m, 1.0 / ring.moves_kg);
            ring_a = [0, 1, 2].map(|i| (force[i] - pull[i] - c * ring_v[i]) * per_kg);
            ring_a[2] -= (ring.weighs_kg * GRAVITY + fold_n[1]) * per_kg;
            ring_w = c * dot(ring_v, ring_v);
            fold_w += fold_n[1] * ring_v[2];
        }
        let [x, y, z] = v;
        let [ring_x, ring_y, ring_z] = ring_v;
        let moving =
            [x, y, z, a[0], a[1], a[2], ring_x, ring_y, ring_z, ring_a[0], ring_a[1], ring_a[2]];
        dy[..VISCOUS].copy_from_slice(&moving);
        let books = self.books();
        dy[books..books + BOOKS].copy_from_slice(&[drag_w, ring_w, loss_w, fold_w]);
    }
}
