//! Where the energy went, and what the falling fold may add.

use super::course::Outcome;
use super::flight::{Catch, EnergyBooks, FoldBound};
use super::model::Model;
use super::support::Support;
use crate::quantity::{Energy, GRAVITY, Quantity, Ratio};

/// Rounding of the books, over the energies in them.
const ROUNDING: f64 = 1e-13;

/// The books while they are kept, Eq. (9). They are not part of the error control, so they tell of what it
/// did not see: a line that was taut for a part of a step. Of ropes and stops they follow the branch.
#[expect(clippy::struct_field_names, reason = "the unit")]
pub(super) struct Books {
    /// What they should hold, and what they held after the last step, J.
    begin_j: f64,
    now_j: f64,
    /// What they hold at the end of the step last looked at, J.
    end_j: f64,
    /// What a step may change, J.
    bound_j: f64,
    pub drift_j: f64,
}

impl Books {
    pub fn new<S: Support>(model: &mut Model<S>, rtol: f64, y: &[f64]) -> Self {
        let begin_j = Self::total_j(model, y).0;
        let [kinetic_j, ..] = model.energy_j(y);
        let longest_m = model.ropes.iter().map(|r| r.rest_m).fold(0.0, f64::max);
        let fall_j = kinetic_j + model.low_kg * GRAVITY * longest_m;
        Self { begin_j, now_j: begin_j, end_j: begin_j, bound_j: rtol * fall_j, drift_j: 0.0 }
    }

    /// Sum, and the sum of all sizes.
    fn total_j<S: Support>(model: &mut Model<S>, y: &[f64]) -> (f64, f64) {
        let (held, lost) = (model.energy_j(y), model.lost_j(y));
        let all = || held.iter().chain(&lost);
        (all().sum(), all().map(|j| j.abs()).sum())
    }

    /// Whether they hold at the end of a step.
    pub fn hold<S: Support>(&mut self, model: &mut Model<S>, end: &[f64]) -> bool {
        let (total_j, size_j) = Self::total_j(model, end);
        self.end_j = total_j;
        let change_j = (total_j - self.now_j).abs();
        change_j <= self.bound_j + ROUNDING * size_j || !change_j.is_finite()
    }

    /// Takes the step last looked at in; false if the numbers left the range of doubles.
    pub fn keep(&mut self) -> bool {
        self.now_j = self.end_j;
        let drift_j = (self.now_j - self.begin_j).abs();
        self.drift_j = self.drift_j.max(drift_j);
        drift_j.is_finite()
    }

    /// What went with a part that failed just now, J.
    pub fn restart<S: Support>(&mut self, model: &mut Model<S>, y: &[f64]) -> f64 {
        let left_j = Self::total_j(model, y).0;
        let gone_j = self.now_j - left_j;
        self.now_j = left_j;
        self.begin_j -= gone_j;
        gone_j
    }
}

/// Eq. (9) and (10).
pub(super) fn books<S: Support>(model: &Model<S>, out: &Outcome, drop_m: f64) -> EnergyBooks {
    let [kinetic_0, height_0, ropes_0, lines_0] = out.start_j;
    let [kinetic, height, ropes, lines] = out.end_j;
    let [drag, ring, rope_loss, fold] = model.lost_j(&out.end);
    let fall_j = kinetic_0 + model.low_kg * GRAVITY * drop_m.abs();
    EnergyBooks {
        kinetic_at_exit: Energy::from_si(kinetic_0),
        ropes_at_exit: Energy::from_si(ropes_0),
        from_height: Energy::from_si(height_0 - height),
        kinetic: Energy::from_si(kinetic),
        ropes: Energy::from_si(ropes),
        lines: Energy::from_si(lines - lines_0),
        lost_to_drag: Energy::from_si(drag),
        lost_in_ropes: Energy::from_si(rope_loss),
        lost_at_ring: Energy::from_si(ring),
        lost_at_fold: Energy::from_si(fold),
        failed: Energy::from_si(out.failed_j),
        drift: Ratio::from_si(out.drift_j / fall_j.max(f64::MIN_POSITIVE)),
    }
}

/// Bound on what the falling fold adds, Eq. (13) and (14).
pub(super) fn fold<S>(model: &Model<S>, catch: Option<&Catch>) -> FoldBound {
    let m = model.ropes.iter().map(|r| r.mass_kg).sum::<f64>();
    let length = model.ropes.iter().map(|r| r.rest_m).fold(0.0, f64::max);
    let mass = model.body_kg;
    if m == 0.0 {
        return FoldBound {
            acceleration_over_g: Ratio::from_si(1.0),
            speed_excess: Ratio::from_si(0.0),
        };
    }
    let y = catch.map_or(length, |c| c.drop.si().clamp(0.0, length));
    let top = 4.0 * mass * length + 2.0 * m * length - m * y;
    let bottom = m * length - m * y + 2.0 * mass * length;
    FoldBound {
        acceleration_over_g: Ratio::from_si(1.0 + m * y * top / (2.0 * bottom * bottom)),
        speed_excess: Ratio::from_si((top / (2.0 * bottom)).sqrt() - 1.0),
    }
}
