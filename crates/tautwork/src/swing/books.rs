//! Where the energy went, and what the falling fold may add.

use super::course::Outcome;
use super::flight::{Catch, EnergyBooks, FoldBound};
use super::model::Model;
use super::support::Support;
use crate::quantity::{Energy, GRAVITY, Quantity, Ratio};

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
