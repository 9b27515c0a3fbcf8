//! The motion of one fall, from event to event.

use super::super::FallError;
use super::super::slip::Device;
use super::solid::Solid;
use super::state::{
    BODY_LOST, DAMPER, DEPTH, Mode, Numbers, Phase, SLIPPED, SOFT, SOFT_SPEED, STATE,
};
use super::watch::{Outcome, first};
use crate::ode::{Control, DormandPrince, Halt};
use crate::quantity::GRAVITY;

/// Local error kept in each step, relative to the scale of each number.
pub(super) const TOLERANCE: f64 = 1e-12;
/// Steps tried before the run is given up.
pub(super) const BUDGET: usize = 50_000;

/// What to follow.
pub(super) struct Course<'a> {
    pub solid: Solid<'a>,
    pub mass_kg: f64,
    pub height_m: f64,
    pub body: Body,
    /// Devices in the order of their force.
    pub slips: Vec<Device>,
    /// Half the air density times the drag area.
    pub drag_kg_per_m: f64,
    /// State of the damper, and what devices have let through, at the start.
    pub damper: f64,
    pub slipped_m: f64,
    pub duration_s: f64,
    pub thresholds_n: &'a [f64],
    pub samples: usize,
}

/// The part of the body that hangs soft; nothing of a rigid one.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Body {
    pub soft_kg: f64,
    pub stiffness_n_per_m: f64,
    pub damping_n_s_per_m: f64,
}

impl Body {
    /// What holds the soft part, Eq. (D9).
    pub fn hold_n(&self, y: &[f64]) -> f64 {
        self.stiffness_n_per_m * y[SOFT] + self.damping_n_s_per_m * y[SOFT_SPEED]
    }
}

impl Course<'_> {
    /// Follows the mass from rest at its height to the end of the duration.
    pub fn run(&self) -> Result<Outcome, FallError> {
        let mut start: Numbers = [0.0; STATE];
        (start[DEPTH], start[DAMPER], start[SLIPPED]) =
            (-self.height_m, self.damper, self.slipped_m);
        let mut mode = Mode::at_start(self, &start);
        let free_m = self.height_m
            + self.slipped_m
            + self.solid.rest_m * self.solid.rest_strain(self.damper);
        let speed = (2.0 * GRAVITY * free_m).sqrt().max(GRAVITY * 0.01);
        let length = self.height_m + 0.01 * self.solid.rest_m;
        let energy = self.mass_kg * GRAVITY * length;
        let mut scales: Numbers = [energy; STATE];
        scales[..=DAMPER].copy_from_slice(&[length, speed, length / self.solid.rest_m]);
        scales[SLIPPED..BODY_LOST].copy_from_slice(&[length, length, speed]);
        let control = Control {
            rtol: TOLERANCE,
            atol: scales.iter().map(|scale| scale * TOLERANCE).collect(),
            longest_s: self.duration_s / 20.0,
            budget: BUDGET,
        };
        let mut out = Outcome {
            deepest_m: -self.height_m,
            above_s: vec![0.0; self.thresholds_n.len()],
            taut_s: (mode.phase == Phase::Taut).then_some(0.0),
            stored_start_j: mode.stored_j(&start),
            ..Outcome::default()
        };
        let mut ode = DormandPrince::new(&mut mode, start.to_vec(), control.clone());
        let (mut base_s, mut attempts) = (0.0, 0);
        while base_s + ode.t_s < self.duration_s * (1.0 - 1e-14) {
            let halted = |halt: Halt, ode: &DormandPrince| FallError::Unfinished {
                reached_s: base_s + ode.t_s,
                wanted_s: self.duration_s,
                steps: attempts + ode.attempts,
                stalled: halt == Halt::Stalled,
            };
            let left_s = self.duration_s - base_s - ode.t_s;
            ode.advance(&mut mode, left_s).map_err(|h| halted(h, &ode))?;
            let cut = first(&ode.step, |y| mode.next(y).is_some());
            let mut next = None;
            if let Some(theta) = cut {
                let mut y: Numbers = [0.0; STATE];
                ode.step.read(theta, &mut y);
                next = mode.next(&y);
                if theta < 1.0 {
                    ode.shorten(&mut mode, theta).map_err(|h| halted(h, &ode))?;
                }
            }
            out.keep(&mode, &ode.step, base_s);
            ode.commit();
            if let Some(next) = next {
                let mut y = ode.y.clone();
                mode.turn(next, &mut y);
                base_s += ode.t_s;
                attempts += ode.attempts;
                if mode.phase != Phase::Slack {
                    out.taut_s.get_or_insert(base_s);
                }
                // The rates jump here, so the integrator begins anew with what is left of the budget.
                let control =
                    Control { budget: BUDGET.saturating_sub(attempts), ..control.clone() };
                ode = DormandPrince::new(&mut mode, y, control);
            }
        }
        out.attempts = attempts + ode.attempts;
        out.end.copy_from_slice(&ode.y);
        out.stored_j = mode.stored_j(&ode.y);
        Ok(out)
    }
}
