//! One step of all points, ring and body: kick, then drift, Eq. (21) to (26).

use super::grid::{Chain, Grid};
use super::plan::{End, Strand};
use crate::material::Law;
use crate::quantity::GRAVITY;

/// Longest step, s: bounds what is missed where nothing is stiff.
const LONGEST_S: f64 = 1e-3;

/// Ring or body: a point mass that chains end at.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Lump {
    pub at_m: [f64; 2],
    pub v_m_per_s: [f64; 2],
    /// With half a segment of every chain that ends here, kg.
    pub mass_kg: f64,
    pub held: bool,
    /// Half the air density times drag area, kg/m.
    pub drag_kg_per_m: f64,
    pub damping_n_s_per_m: f64,
}

impl Lump {
    pub fn speed_m_per_s(&self) -> f64 {
        self.v_m_per_s[0].hypot(self.v_m_per_s[1])
    }

    pub fn kinetic_j(&self) -> f64 {
        let [vx, vz] = self.v_m_per_s;
        0.5 * self.mass_kg * (vx * vx + vz * vz)
    }

    /// Drag and damping over a time, exact without other forces, Eq. (23). Gives the energy lost.
    fn resist(&mut self, wind_m_per_s: f64, h_s: f64) -> f64 {
        if self.held || (self.drag_kg_per_m == 0.0 && self.damping_n_s_per_m == 0.0) {
            return 0.0;
        }
        let before_j = self.kinetic_j();
        if self.damping_n_s_per_m > 0.0 {
            let left = (-self.damping_n_s_per_m / self.mass_kg * h_s).exp();
            self.v_m_per_s = self.v_m_per_s.map(|v| v * left);
        }
        let rel = [self.v_m_per_s[0] - wind_m_per_s, self.v_m_per_s[1]];
        let speed = (rel[0] * rel[0] + rel[1] * rel[1]).sqrt();
        let left = 1.0 / (1.0 + self.drag_kg_per_m / self.mass_kg * speed * h_s);
        self.v_m_per_s = [wind_m_per_s + rel[0] * left, rel[1] * left];
        before_j - self.kinetic_j()
    }

    /// Velocity after a kick of drag, force and drag.
    fn kick(&mut self, force_n: [f64; 2], wind_m_per_s: f64, h_s: f64) -> f64 {
        if self.held {
            return 0.0;
        }
        let mut lost_j = self.resist(wind_m_per_s, 0.5 * h_s);
        self.v_m_per_s[0] += h_s * force_n[0] / self.mass_kg;
        self.v_m_per_s[1] += h_s * (force_n[1] / self.mass_kg - GRAVITY);
        lost_j += self.resist(wind_m_per_s, 0.5 * h_s);
        lost_j
    }

    /// As it will be after a kick, without keeping it.
    pub fn kicked(mut self, force_n: [f64; 2], wind_m_per_s: f64, h_s: f64) -> Self {
        self.kick(force_n, wind_m_per_s, h_s);
        self
    }

    fn drift(&mut self, dt_s: f64) {
        if !self.held {
            self.at_m[0] += dt_s * self.v_m_per_s[0];
            self.at_m[1] += dt_s * self.v_m_per_s[1];
        }
    }
}

/// Everything that moves. Velocities are half a step behind places, but for the start.
#[derive(Debug, Clone)]
pub(super) struct Motion {
    pub grid: Grid,
    pub ring: Lump,
    pub body: Lump,
    pub wind_m_per_s: f64,
    /// Forces of the chains on ring and body in the present places.
    pub on_ring_n: [f64; 2],
    pub on_body_n: [f64; 2],
    pub lost_to_drag_j: f64,
    pub lost_at_ring_j: f64,
    rope_drag: bool,
}

impl Motion {
    pub fn new(mut grid: Grid, ring: Lump, body: Lump, wind_m_per_s: f64) -> Self {
        let rope_drag = grid.drag_per_m.iter().any(|k| *k > 0.0);
        grid.pull();
        let mut motion = Self {
            grid,
            ring,
            body,
            wind_m_per_s,
            on_ring_n: [0.0; 2],
            on_body_n: [0.0; 2],
            lost_to_drag_j: 0.0,
            lost_at_ring_j: 0.0,
            rope_drag,
        };
        motion.gather();
        motion
    }

    /// Sums of the end segments.
    fn gather(&mut self) {
        let (mut ring, mut body) = ([0.0; 2], [0.0; 2]);
        let grid = &self.grid;
        let mut add = |end: End, segment: usize, sign: f64| {
            let on = match end {
                End::Anchor(_) => return,
                End::Ring => &mut ring,
                End::Body => &mut body,
            };
            on[0] += sign * grid.fx_n[segment];
            on[1] += sign * grid.fz_n[segment];
        };
        for chain in &grid.chains {
            add(chain.from, chain.first, 1.0);
            add(chain.to, chain.last_segment(), -1.0);
        }
        (self.on_ring_n, self.on_body_n) = (ring, body);
    }

    /// Forces in the present places.
    pub fn pull(&mut self) {
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
            let Chain { first, segments, from, to } = grid.chains[k];
            for (end, point) in [(from, first), (to, first + segments)] {
                let at = match end {
                    End::Anchor(_) => continue,
                    End::Ring => ring.at_m,
                    End::Body => body.at_m,
                };
                grid.x_m[point] = at[0];
                grid.z_m[point] = at[1];
            }
        }
    }

    /// Drag across ropes and lines over a time, Eq. (23) for the part of the velocity across.
    fn brush(&mut self, h_s: f64) {
        let grid = &mut self.grid;
        for k in 0..grid.chains.len() {
            for i in grid.chains[k].inner() {
                let drag_per_m = grid.drag_per_m[i];
                let tx = grid.x_m[i + 1] - grid.x_m[i - 1];
                let tz = grid.z_m[i + 1] - grid.z_m[i - 1];
                let (vx, vz) = (grid.vx_m_per_s[i], grid.vz_m_per_s[i]);
                let rel = vx - self.wind_m_per_s;
                let along = (rel * tx + vz * tz) / (tx * tx + tz * tz + f64::MIN_POSITIVE);
                let (nx, nz) = (rel - along * tx, vz - along * tz);
                let speed = (nx * nx + nz * nz).sqrt();
                let taken = 1.0 - 1.0 / (1.0 + drag_per_m * speed * h_s);
                let (wx, wz) = (vx - nx * taken, vz - nz * taken);
                grid.vx_m_per_s[i] = wx;
                grid.vz_m_per_s[i] = wz;
                self.lost_to_drag_j +=
                    0.5 * grid.mass_kg[i] * (vx * vx + vz * vz - wx * wx - wz * wz);
            }
        }
    }
}

impl Grid {
    /// Velocities of the inner points over a time, Eq. (21).
    pub fn kick(&mut self, h_s: f64) {
        let n = self.x_m.len().saturating_sub(1);
        if n == 0 {
            return;
        }
        let (per_kg, g) = (&self.per_kg[1..=n], &self.g_m_per_s2[1..=n]);
        let (fx, fz) = (&self.fx_n[..=n], &self.fz_n[..=n]);
        let (vx, vz) = (&mut self.vx_m_per_s[1..=n], &mut self.vz_m_per_s[1..=n]);
        for i in 0..n {
            vx[i] += h_s * (per_kg[i] * (fx[i + 1] - fx[i]));
            vz[i] += h_s * (per_kg[i] * (fz[i + 1] - fz[i]) - g[i]);
        }
    }

    /// Places of the inner points over a step, Eq. (22).
    pub fn drift(&mut self, dt_s: f64) {
        let n = self.x_m.len();
        let (vx, vz) = (&self.vx_m_per_s[..n], &self.vz_m_per_s[..n]);
        let (x, z) = (&mut self.x_m[..n], &mut self.z_m[..n]);
        for i in 0..n {
            x[i] += dt_s * vx[i];
            z[i] += dt_s * vz[i];
        }
    }
}

/// Longest stable step, s, Eq. (26): Gershgorin's bound on the highest frequency.
pub(super) fn stable_s(strands: &[Strand], grid: &Grid, ring: &Lump, body: &Lump) -> f64 {
    let mut fastest = 0.0_f64;
    let (mut at_ring, mut at_body) = (0.0, 0.0);
    for (strand, chain) in strands.iter().zip(&grid.chains) {
        let long_n = match &strand.spring.law {
            Law::Linear { ea_n } => *ea_n,
            Law::Curve(_) => {
                let segments = chain.first..chain.last_point();
                let curve = grid.curved.iter().find(|c| c.segments == segments);
                curve.map_or(0.0, |c| c.table.steepest_n)
            }
        };
        let k = (long_n + strand.spring.arm_n) / strand.rest_m;
        if strand.segments > 1 {
            fastest = fastest.max(4.0 * k / strand.mass_kg);
        }
        for end in [chain.from, chain.to] {
            match end {
                End::Anchor(_) => {}
                End::Ring => at_ring += k,
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

/// Steps to a sample and the length of a step, s, Eq. (27): a share of the longest stable step, halved a
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
