//! Tension and pull of every segment: the inner loop.

use super::super::space::from;
use super::grid::Grid;

/// Shorter than any segment that pulls, m; keeps a point on another from dividing by nothing.
const TINY_M: f64 = 1e-300;

impl Grid {
    /// Tensions and pulls in the present places, and half a step of relaxation before them and after,
    /// Eq. (F2) to (F5) and (F9).
    pub fn pull(&mut self) {
        self.pull_linear();
        self.pull_curved();
        self.pull_lossy();
    }

    fn pull_linear(&mut self) {
        let (a, n) = (self.linear.start, self.linear.len());
        if n == 0 {
            return;
        }
        let (x, y, z) = (&self.x_m[a..=a + n], &self.y_m[a..=a + n], &self.z_m[a..=a + n]);
        let (long, per_rest) = (&self.long_n[a..a + n], &self.per_rest[a..a + n]);
        let t_out = &mut self.tension_n[a..a + n];
        let fx = &mut self.fx_n[a..a + n];
        let fy = &mut self.fy_n[a..a + n];
        let fz = &mut self.fz_n[a..a + n];
        for i in 0..n {
            let (dx, dy, dz) = (x[i + 1] - x[i], y[i + 1] - y[i], z[i + 1] - z[i]);
            let d = (dx * dx + dy * dy + dz * dz).sqrt();
            let trial = long[i] * (d * per_rest[i] - 1.0);
            let t = if trial > 0.0 { trial } else { 0.0 };
            let over = t / (d + TINY_M);
            t_out[i] = t;
            fx[i] = over * dx;
            fy[i] = over * dy;
            fz[i] = over * dz;
        }
    }

    fn pull_curved(&mut self) {
        for curve in &self.curved {
            for i in curve.segments.clone() {
                let [dx, dy, dz] = from(self.at_m(i), self.at_m(i + 1));
                let d = (dx * dx + dy * dy + dz * dz).sqrt();
                let t = curve.table.tension_n(d * self.per_rest[i] - 1.0);
                let over = t / (d + TINY_M);
                self.tension_n[i] = t;
                self.fx_n[i] = over * dx;
                self.fy_n[i] = over * dy;
                self.fz_n[i] = over * dz;
            }
        }
    }

    fn pull_lossy(&mut self) {
        let (a, n) = (self.lossy.start, self.lossy.len());
        if n == 0 {
            return;
        }
        let (x, y, z) = (&self.x_m[a..=a + n], &self.y_m[a..=a + n], &self.z_m[a..=a + n]);
        let (rest, per_rest) = (&self.rest_m[a..a + n], &self.per_rest[a..a + n]);
        let (long, arm) = (&self.long_n[a..a + n], &self.arm_n[a..a + n]);
        let share = &self.rest_share[a..a + n];
        let (taut_left, slack_left) = (&self.taut_left[a..a + n], &self.slack_left[a..a + n]);
        let (viscous, lost) = (&mut self.viscous[a..a + n], &mut self.lost_j[a..a + n]);
        let t_out = &mut self.tension_n[a..a + n];
        let fx = &mut self.fx_n[a..a + n];
        let fy = &mut self.fy_n[a..a + n];
        let fz = &mut self.fz_n[a..a + n];
        for i in 0..n {
            let (dx, dy, dz) = (x[i + 1] - x[i], y[i + 1] - y[i], z[i + 1] - z[i]);
            let d = (dx * dx + dy * dy + dz * dz).sqrt();
            let e = d * per_rest[i] - 1.0;
            let before = viscous[i];
            let middle = relaxed(e, before, long[i], arm[i], taut_left[i], slack_left[i]);
            let trial = long[i] * e + arm[i] * (e - middle);
            let t = if trial > 0.0 { trial } else { 0.0 };
            let after = relaxed(e, middle, long[i], arm[i], taut_left[i], slack_left[i]);
            let over = t / (d + TINY_M);
            t_out[i] = t;
            fx[i] = over * dx;
            fy[i] = over * dy;
            fz[i] = over * dz;
            viscous[i] = after;
            let stored = |v: f64| {
                let own = if e > share[i] * v { e } else { share[i] * v };
                long[i] * own * own + arm[i] * (own - v) * (own - v)
            };
            lost[i] += 0.5 * rest[i] * (stored(before) - stored(after));
        }
    }
}

/// Viscous strain after half a step at a fixed place: towards the strain when taut; when slack it decays
/// with its own spring, and stops where the segment would go taut.
#[inline(always)]
#[expect(clippy::inline_always, reason = "the loop around it must stay one loop to use vectors")]
fn relaxed(e: f64, viscous: f64, long_n: f64, arm_n: f64, taut_left: f64, slack_left: f64) -> f64 {
    let taut = e + (viscous - e) * taut_left;
    let decayed = viscous * slack_left;
    let least = if e < viscous { e } else { viscous };
    let slack = if decayed > least { decayed } else { least };
    if long_n * e + arm_n * (e - viscous) > 0.0 { taut } else { slack }
}
