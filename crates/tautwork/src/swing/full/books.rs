//! The energy books, Eq. (F17).

use super::super::space::{dot, from};
use super::run::Run;
use crate::quantity::GRAVITY;

/// Energies at one instant, J.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Energies {
    pub kinetic: f64,
    pub height: f64,
    pub in_ropes: f64,
    pub in_lines: f64,
    pub material: f64,
    pub drag: f64,
    pub ring: f64,
    pub friction: f64,
    pub passed: f64,
    pub failed: f64,
}

impl Energies {
    pub fn total(&self) -> f64 {
        self.kinetic
            + self.height
            + self.in_ropes
            + self.in_lines
            + self.material
            + self.drag
            + self.ring
            + self.friction
            + self.passed
            + self.failed
    }
}

impl Run<'_> {
    fn energies(&self, lag_s: f64) -> Energies {
        let motion = &self.motion;
        let grid = &motion.grid;
        let mut e = Energies {
            material: grid.lost_j.iter().sum(),
            drag: motion.lost_to_drag_j,
            ring: motion.lost_at_ring_j,
            friction: motion.sliders.iter().map(|s| s.lost_j).sum(),
            failed: self.out.failed_j,
            passed: motion.sliders.iter().map(|s| s.passed_j).sum(),
            ..Energies::default()
        };
        for (lump, force) in [(motion.ring, motion.on_ring_n), (motion.body, motion.on_body_n)] {
            if !lump.held {
                let v = lump.kicked(force, motion.wind_m_per_s, lag_s).speed_m_per_s();
                e.kinetic += 0.5 * lump.mass_kg * v * v;
                e.height += lump.mass_kg * GRAVITY * lump.at_m[2];
            }
        }
        for (k, chain) in grid.chains.iter().enumerate() {
            for i in chain.inner() {
                let net = from(grid.pull_n(i - 1), grid.pull_n(i));
                let mut v = grid.v_m_per_s(i);
                for (v, net) in v.iter_mut().zip(net) {
                    *v += lag_s * grid.per_kg[i] * net;
                }
                v[2] -= lag_s * GRAVITY;
                e.kinetic += 0.5 * grid.mass_kg[i] * dot(v, v);
                e.height += grid.mass_kg[i] * GRAVITY * grid.z_m[i];
            }
            let stored = grid.chain_stored_j(chain);
            if k < 2 * self.course.lines {
                e.in_lines += stored;
            } else {
                e.in_ropes += stored;
            }
        }
        e
    }

    /// Takes the books at an instant.
    pub fn book(&mut self, lag_s: f64, exit: bool) {
        self.out.at_end = self.energies(lag_s);
        if exit {
            self.out.at_exit = self.out.at_end;
        }
        let off = (self.out.at_end.total() - self.out.at_exit.total()).abs();
        // Not max(): that would drop a NaN.
        if off.partial_cmp(&self.out.off_j) != Some(core::cmp::Ordering::Less) {
            self.out.off_j = off;
        }
    }
}
