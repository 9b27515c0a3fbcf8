//! The state of a fall, and how it changes in each phase.

use super::motion::Course;
use super::solid::Damper;
use crate::ode::Rates;
use crate::quantity::GRAVITY;

pub(super) const DEPTH: usize = 0;
pub(super) const SPEED: usize = 1;
pub(super) const DAMPER: usize = 2;
/// What the rope has turned into heat.
pub(super) const LOST: usize = 3;
/// What the air has taken.
pub(super) const DRAG: usize = 4;
/// What devices have let through.
pub(super) const SLIPPED: usize = 5;
/// Depth of the soft part of the body below its place, and the speed of that.
pub(super) const SOFT: usize = 6;
pub(super) const SOFT_SPEED: usize = 7;
/// What the body has turned into heat.
pub(super) const BODY_LOST: usize = 8;
/// How many numbers.
pub(super) const STATE: usize = 9;

pub(super) type Numbers = [f64; STATE];

/// What the rope does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Phase {
    Slack,
    Taut,
    /// A device holds the tension at its force.
    Slipping,
}

/// A phase with its right-hand side.
pub(super) struct Mode<'a, 'b> {
    pub course: &'a Course<'b>,
    pub phase: Phase,
    /// Devices at their end; the next one in the list is the next to slip.
    pub spent: usize,
}

impl<'a, 'b> Mode<'a, 'b> {
    /// The phase at the start of a fall.
    pub fn at_start(course: &'a Course<'b>, y: &Numbers) -> Self {
        let mut mode = Self { course, phase: Phase::Slack, spent: 0 };
        mode.spend(y);
        if mode.strain(y).0 >= course.solid.rest_strain(y[DAMPER]) {
            mode.phase = Phase::Taut;
        }
        mode
    }

    /// Counts the devices at their end.
    fn spend(&mut self, y: &[f64]) {
        self.spent = self.course.slips.partition_point(|device| device.until_m <= y[SLIPPED]);
    }

    /// Geometric strain and its rate.
    pub fn strain(&self, y: &[f64]) -> (f64, f64) {
        let rest_m = self.course.solid.rest_m;
        ((y[DEPTH] - y[SLIPPED]) / rest_m, y[SPEED] / rest_m)
    }

    fn taut(&self) -> bool {
        self.phase != Phase::Slack
    }

    /// Force and end of the device that slips next.
    fn device(&self) -> Option<(f64, f64)> {
        self.course.slips.get(self.spent).map(|device| (device.force_n, device.until_m))
    }

    /// Rate of the strain of the rope itself.
    fn own_rate(&self, y: &[f64]) -> f64 {
        let (e, rate) = self.strain(y);
        match (self.phase, self.device()) {
            (Phase::Slipping, Some((force_n, _))) => {
                self.course.solid.held_rate(e, y[DAMPER], force_n)
            }
            _ => rate,
        }
    }

    /// Tension before clipping: smooth past the event that ends the phase.
    fn trial_n(&self, y: &[f64]) -> f64 {
        match (self.phase, self.device()) {
            (Phase::Slack, _) => 0.0,
            (Phase::Slipping, Some((force_n, _))) => force_n,
            _ => {
                let (e, rate) = self.strain(y);
                self.course.solid.trial_n(e, rate, y[DAMPER])
            }
        }
    }

    /// Tension, between nothing and what the next device lets pass.
    pub fn tension_n(&self, y: &[f64]) -> f64 {
        let most_n = self.device().map_or(f64::INFINITY, |(force_n, _)| force_n);
        self.trial_n(y).min(most_n).max(0.0)
    }

    /// The phase that follows if this one has ended, and whether a device has come to its end.
    pub fn next(&self, y: &[f64]) -> Option<(Phase, bool)> {
        let (e, rate) = self.strain(y);
        let margin = |taut| self.course.solid.margin(e, rate, y[DAMPER], taut);
        match self.phase {
            Phase::Slack => (margin(false) > 0.0).then_some((Phase::Taut, false)),
            Phase::Taut if margin(true) < 0.0 => Some((Phase::Slack, false)),
            Phase::Taut => {
                let (force_n, _) = self.device()?;
                (self.trial_n(y) > force_n).then_some((Phase::Slipping, false))
            }
            Phase::Slipping => {
                let (_, until_m) = self.device()?;
                let rate = y[SPEED] - self.course.solid.rest_m * self.own_rate(y);
                if y[SLIPPED] >= until_m {
                    Some((Phase::Taut, true))
                } else {
                    (rate < 0.0).then_some((Phase::Taut, false))
                }
            }
        }
    }

    /// Goes on to the next phase.
    pub fn turn(&mut self, (phase, at_end): (Phase, bool), y: &mut [f64]) {
        if at_end {
            if let Some((_, until_m)) = self.device() {
                y[SLIPPED] = until_m;
            }
            self.spend(y);
        }
        self.phase = phase;
        if let Damper::Beside { .. } = self.course.solid.damper {
            // Both ways the strain of the rope and the geometric one are the same here.
            y[DAMPER] = self.strain(y).0;
            // The tension of Eq. (D4) may jump past the force of a device.
            if phase == Phase::Taut
                && let Some((Phase::Slipping, _)) = self.next(y)
            {
                self.phase = Phase::Slipping;
            }
        }
    }

    /// Stored in the rope.
    pub fn stored_j(&self, y: &[f64]) -> f64 {
        self.course.solid.stored_j(self.strain(y).0, y[DAMPER], self.taut())
    }
}

impl Rates for Mode<'_, '_> {
    fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
        let course = self.course;
        let t_n = self.trial_n(y);
        let own_rate = self.own_rate(y);
        let (damper, loss) = course.solid.rates(self.strain(y).0, own_rate, y[DAMPER], self.taut());
        let slip = match self.phase {
            Phase::Slipping => y[SPEED] - course.solid.rest_m * own_rate,
            Phase::Slack | Phase::Taut => 0.0,
        };
        let drag_n = course.drag_kg_per_m * y[SPEED] * y[SPEED].abs();
        // What hangs on the rope, and what hangs on that.
        let (tied_kg, soft_kg) = (course.mass_kg - course.body.soft_kg, course.body.soft_kg);
        let hold_n = course.body.hold_n(y);
        let fall = GRAVITY - drag_n / course.mass_kg;
        let pull = fall - (t_n - hold_n) / tied_kg;
        let soft_pull = if soft_kg > 0.0 { fall - hold_n / soft_kg - pull } else { 0.0 };
        let tied_drag_w = drag_n * y[SPEED];
        let soft_drag_w = drag_n * (soft_kg / course.mass_kg) * y[SOFT_SPEED];
        dy.copy_from_slice(&[
            y[SPEED],
            pull,
            damper,
            loss,
            tied_drag_w + soft_drag_w,
            slip,
            y[SOFT_SPEED],
            soft_pull,
            course.body.damping_n_s_per_m * y[SOFT_SPEED] * y[SOFT_SPEED],
        ]);
    }
}
