//! The path of a thing with quadratic drag, to where it lands.

use crate::fall::FallError;
use crate::ode::{Control, DormandPrince, Halt, Rates};
use crate::quantity::GRAVITY;

/// A thing in SI.
#[derive(Debug, Clone, Copy)]
pub(super) struct Thing {
    pub height_m: f64,
    pub speed: f64,
    /// ρ A / (2 m), 1/m.
    pub drag_per_m: f64,
    pub wind: f64,
}

/// Where it lands.
#[derive(Debug, Clone, Copy)]
pub(super) struct Landing {
    pub x_m: f64,
    pub time_s: f64,
    pub speed: f64,
}

/// Steps allowed for one path.
const BUDGET: usize = 20_000;

impl Rates for Thing {
    // Eq. (Z2); the state is x, z, x′, z′.
    fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
        let (vx, vz) = (y[2], y[3]);
        let through_air = (vx - self.wind).hypot(vz);
        dy[0] = vx;
        dy[1] = vz;
        dy[2] = -self.drag_per_m * through_air * (vx - self.wind);
        dy[3] = -GRAVITY - self.drag_per_m * through_air * vz;
    }
}

impl Thing {
    /// Where it lands if it leaves at this elevation, down the wind.
    pub fn land(mut self, elevation_rad: f64) -> Result<Landing, FallError> {
        let (up, along) = elevation_rad.sin_cos();
        let (vx, vz) = (self.speed * along, self.speed * up);
        let vacuum_s = (vz + (vz * vz + 2.0 * GRAVITY * self.height_m).sqrt()) / GRAVITY;
        if self.drag_per_m == 0.0 {
            let end_vz = vz - GRAVITY * vacuum_s;
            return Ok(Landing { x_m: vx * vacuum_s, time_s: vacuum_s, speed: vx.hypot(end_vz) });
        }
        if vacuum_s <= 0.0 {
            return Ok(Landing { x_m: 0.0, time_s: 0.0, speed: self.speed });
        }
        // Falling at its terminal speed, which it never exceeds for long.
        let terminal = (GRAVITY / self.drag_per_m).sqrt();
        let wanted_s = vacuum_s + self.height_m / terminal;
        let speed_scale = self.speed + self.wind + terminal.min(GRAVITY * vacuum_s);
        let control = Control {
            rtol: 1e-9,
            atol: vec![
                1e-9 * (self.height_m + speed_scale * vacuum_s),
                1e-9 * self.height_m.max(1e-6),
                1e-9 * speed_scale,
                1e-9 * speed_scale,
            ],
            longest_s: wanted_s,
            budget: BUDGET,
        };
        let mut ode = DormandPrince::new(&mut self, vec![0.0, 0.0, vx, vz], control);
        loop {
            if let Err(halt) = ode.advance(&mut self, wanted_s) {
                return Err(FallError::Unfinished {
                    reached_s: ode.t_s,
                    wanted_s,
                    steps: ode.attempts,
                    stalled: halt == Halt::Stalled,
                });
            }
            if ode.step.end[1] <= -self.height_m && ode.step.end[3] < 0.0 {
                return Ok(self.crossing(&ode));
            }
            ode.commit();
        }
    }

    /// Where the last step comes to the ground.
    fn crossing(&self, ode: &DormandPrince) -> Landing {
        let mut y = [0.0; 4];
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            ode.step.read(middle, &mut y);
            if y[1] <= -self.height_m && y[3] < 0.0 { high = middle } else { low = middle }
        }
        ode.step.read(high, &mut y);
        Landing { x_m: y[0], time_s: ode.step.t_s + high * ode.step.h_s, speed: y[2].hypot(y[3]) }
    }
}
