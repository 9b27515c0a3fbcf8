//! One step of all points, ring and body: kick, then drift, Eq. (F6) to (F11).

use super::super::space::{dot, from, size};
use super::grid::{Chain, Grid};
use super::plan::{End, NEAREST, Strand};
use super::slide::Slider;
use crate::material::Law;
use crate::quantity::GRAVITY;

/// Longest step, s: bounds what is missed where nothing is stiff.
const LONGEST_S: f64 = 1e-3;

/// Ring or body: a point mass that chains end at.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Lump {
    pub at_m: [f64; 3],
    pub v_m_per_s: [f64; 3],
    /// With half a segment of every chain that ends here, kg.
    pub mass_kg: f64,
    pub held: bool,
    /// Half the air density times drag area, kg/m.
    pub drag_kg_per_m: f64,
    pub damping_n_s_per_m: f64,
}

impl Lump {
    pub fn speed_m_per_s(&self) -> f64 {
        size(self.v_m_per_s)
    }

    pub fn kinetic_j(&self) -> f64 {
        0.5 * self.mass_kg * dot(self.v_m_per_s, self.v_m_per_s)
    }

    /// Drag and damping over a time, exact without other forces, Eq. (F8). Gives the energy lost.
    fn resist(&mut self, wind_m_per_s: [f64; 3], h_s: f64) -> f64 {
        if self.held || (self.drag_kg_per_m == 0.0 && self.damping_n_s_per_m == 0.0) {
            return 0.0;
        }
        let before_j = self.kinetic_j();
        if self.damping_n_s_per_m > 0.0 {
            let left = (-self.damping_n_s_per_m / self.mass_kg * h_s).exp();
            self.v_m_per_s = self.v_m_per_s.map(|v| v * left);
        }
        let rel = from(wind_m_per_s, self.v_m_per_s);
        let speed = size(rel);
        let left = 1.0 / (1.0 + self.drag_kg_per_m / self.mass_kg * speed * h_s);
        self.v_m_per_s = [0, 1, 2].map(|i| wind_m_per_s[i] + rel[i] * left);
        before_j - self.kinetic_j()
    }

    /// Velocity after a kick of drag, force and drag.
    fn kick(&mut self, force_n: [f64; 3], wind_m_per_s: [f64; 3], h_s: f64) -> f64 {
        if self.held {
            return 0.0;
        }
        let mut lost_j = self.resist(wind_m_per_s, 0.5 * h_s);
        for (v, force_n) in self.v_m_per_s.iter_mut().zip(force_n) {
            *v += h_s * force_n / self.mass_kg;
        }
        self.v_m_per_s[2] -= h_s * GRAVITY;
        lost_j += self.resist(wind_m_per_s, 0.5 * h_s);
        lost_j
    }

    /// As it will be after a kick, without keeping it.
    pub fn kicked(mut self, force_n: [f64; 3], wind_m_per_s: [f64; 3], h_s: f64) -> Self {
        self.kick(force_n, wind_m_per_s, h_s);
        self
    }

    fn drift(&mut self, dt_s: f64) {
        if !self.held {
            for (at, v) in self.at_m.iter_mut().zip(self.v_m_per_s) {
                *at += dt_s * v;
            }
        }
    }
}

/// Everything that moves. Velocities are half a step behind places, but for the start.
#[derive(Debug, Clone)]
pub(super) struct Motion {
    pub grid: Grid,
    pub ring: Lump,
    pub body: Lump,
    pub wind_m_per_s: [f64; 3],
    /// Forces of the chains on ring and body in the present places.
    pub on_ring_n: [f64; 3],
    pub on_body_n: [f64; 3],
    /// Of the jump ropes on the ring.
    pub load_n: [f64; 3],
    pub lost_to_drag_j: f64,
    pub lost_at_ring_j: f64,
    /// Lines that the ring slides along.
    pub sliders: Vec<Slider>,
    /// Chains that begin at each anchor.
    pub anchors: Vec<Vec<usize>>,
    rope_drag: bool,
}

impl Motion {
    pub fn new(
        mut grid: Grid,
        sliders: Vec<Slider>,
        ring: Lump,
        body: Lump,
        wind_m_per_s: [f64; 3],
    ) -> Self {
        let rope_drag = grid.drag_per_m.iter().any(|k| *k > 0.0);
        grid.pull();
        let mut motion = Self {
            grid,
            ring,
            body,
            wind_m_per_s,
            on_ring_n: [0.0; 3],
            on_body_n: [0.0; 3],
            load_n: [0.0; 3],
            lost_to_drag_j: 0.0,
            lost_at_ring_j: 0.0,
            sliders,
            anchors: Vec::new(),
            rope_drag,
        };
        motion.gather();
        motion
    }

    /// Sums of the end segments.
    pub fn gather(&mut self) {
        let [mut ring, mut body, mut load] = [[0.0; 3]; 3];
        let grid = &self.grid;
        let add = |on: &mut [f64; 3], segment: usize, sign: f64| {
            for (on, pull) in on.iter_mut().zip(grid.pull_n(segment)) {
                *on += sign * pull;
            }
        };
        for chain in &grid.chains {
            match (chain.from, chain.to) {
                (End::Ring, _) => {
                    add(&mut load, chain.first, 1.0);
                    add(&mut body, chain.last_segment(), -1.0);
                }
                (_, _) => add(&mut ring, chain.last_segment(), -1.0),
            }
        }
        self.load_n = load;
        for (ring, load) in ring.iter_mut().zip(load) {
            *ring += load;
        }
        (self.on_ring_n, self.on_body_n) = (ring, body);
    }

    /// Forces in the present places.
    pub fn pull(&mut self) {
        for slider in &mut self.sliders {
            slider.slip(&mut self.grid, &mut self.ring);
        }
        self.grid.pull();
        self.gather();
    }

    /// Velocities over a time, then places over a step.
    pub fn advance(&mut self, kick_s: f64, dt_s: f64) {
        self.lost_at_ring_j += self.ring.kick(self.on_ring_n, self.wind_m_per_s, kick_s);
        self.lost_to_drag_j += self.body.kick(self.on_body_n, self.wind_m_per_s, kick_s);
        if self.rope_drag {
            self.brush(0.5 * kick_s);
        }
        self.grid.kick(kick_s);
        if self.rope_drag {
            self.brush(0.5 * kick_s);
        }
        self.ring.drift(dt_s);
        self.body.drift(dt_s);
        self.grid.drift(dt_s);
        self.copy_ends();
    }

    fn copy_ends(&mut self) {
        let Self { grid, ring, body, .. } = self;
        for k in 0..grid.chains.len() {
            let Chain { first, segments, from, to, .. } = grid.chains[k];
            for (end, point) in [(from, first), (to, first + segments)] {
                let at = match end {
                    End::Anchor(_) => continue,
                    End::Ring => ring.at_m,
                    End::Body => body.at_m,
                };
                grid.x_m[point] = at[0];
                grid.y_m[point] = at[1];
                grid.z_m[point] = at[2];
            }
        }
    }

    /// Drag across ropes and lines over a time, Eq. (F8) for the part of the velocity across.
    fn brush(&mut self, h_s: f64) {
        let grid = &mut self.grid;
        for k in 0..grid.chains.len() {
            for i in grid.chains[k].inner() {
                let v = grid.v_m_per_s(i);
                let t = from(grid.at_m(i - 1), grid.at_m(i + 1));
                let rel = from(self.wind_m_per_s, v);
                let along = dot(rel, t) / (dot(t, t) + f64::MIN_POSITIVE);
                let across = [0, 1, 2].map(|k| rel[k] - along * t[k]);
                let taken = 1.0 - 1.0 / (1.0 + grid.drag_per_m[i] * size(across) * h_s);
                let w = [0, 1, 2].map(|k| v[k] - across[k] * taken);
                grid.vx_m_per_s[i] = w[0];
                grid.vy_m_per_s[i] = w[1];
                grid.vz_m_per_s[i] = w[2];
                self.lost_to_drag_j += 0.5 * grid.mass_kg[i] * (dot(v, v) - dot(w, w));
            }
        }
    }
}

impl Grid {
    /// Velocities of the inner points over a time, Eq. (F6).
    pub fn kick(&mut self, h_s: f64) {
        let n = self.x_m.len().saturating_sub(1);
        if n == 0 {
            return;
        }
        let (per_kg, g) = (&self.per_kg[1..=n], &self.g_m_per_s2[1..=n]);
        let (fx, fy, fz) = (&self.fx_n[..=n], &self.fy_n[..=n], &self.fz_n[..=n]);
        let vx = &mut self.vx_m_per_s[1..=n];
        let vy = &mut self.vy_m_per_s[1..=n];
        let vz = &mut self.vz_m_per_s[1..=n];
        for i in 0..n {
            vx[i] += h_s * (per_kg[i] * (fx[i + 1] - fx[i]));
            vy[i] += h_s * (per_kg[i] * (fy[i + 1] - fy[i]));
            vz[i] += h_s * (per_kg[i] * (fz[i + 1] - fz[i]) - g[i]);
        }
    }

    /// Places of the inner points over a step, Eq. (F7).
    pub fn drift(&mut self, dt_s: f64) {
        let n = self.x_m.len();
        for (at, v) in [
            (&mut self.x_m, &self.vx_m_per_s),
            (&mut self.y_m, &self.vy_m_per_s),
            (&mut self.z_m, &self.vz_m_per_s),
        ] {
            for (at, v) in at[..n].iter_mut().zip(&v[..n]) {
                *at += dt_s * v;
            }
        }
    }
}

/// Longest stable step, s, Eq. (F11): Gershgorin's bound on the highest frequency.
pub(super) fn stable_s(strands: &[Strand], grid: &Grid, ring: &Lump, body: &Lump) -> f64 {
    let mut fastest = 0.0_f64;
    let (mut at_ring, mut at_body) = (0.0, 0.0);
    for (strand, chain) in strands.iter().zip(&grid.chains) {
        let long_n = match &strand.spring.law {
            Law::Linear { ea_n } => *ea_n,
            Law::Curve(_) => grid.curve(chain).map_or(0.0, |table| table.steepest_n),
        };
        let k = (long_n + strand.spring.arm_n) / strand.rest_m;
        // The segment at a ring that slides may become shorter.
        let last = if strand.hold.is_some() { 1.0 / NEAREST } else { 1.0 };
        if strand.segments > 1 || strand.hold.is_some() && strand.mass_kg > 0.0 {
            fastest = fastest.max(2.0 * (1.0 + last) * k / strand.mass_kg);
        }
        for end in [chain.from, chain.to] {
            match end {
                End::Anchor(_) => {}
                End::Ring => at_ring += k * last,
                End::Body => at_body += k,
            }
        }
    }
    for (lump, k) in [(ring, at_ring), (body, at_body)] {
        if !lump.held {
            fastest = fastest.max(2.0 * k / lump.mass_kg);
        }
    }
    2.0 / fastest.sqrt()
}

/// Steps to a sample and the length of a step, s, Eq. (F12): a share of the longest stable step, halved a
/// number of times, so that samples fall on steps. None where steps would be too many for a number.
pub(super) fn step_s(
    stable_s: f64,
    share: f64,
    halvings: i32,
    sample_s: f64,
) -> Option<(usize, f64)> {
    let wanted = (share * stable_s).min(LONGEST_S) * 0.5_f64.powi(halvings);
    let count = (sample_s / wanted).ceil().max(1.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "checked")]
    (count.is_finite() && count < 1e15).then(|| (count as usize, sample_s / count))
}
