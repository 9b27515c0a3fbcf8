//! How far the mass behind a pull runs past its new rest, by energy.

use std::cell::RefCell;

use nalgebra::{DVector, Vector3};
use serde::{Deserialize, Serialize};

use super::super::knots::place;
use super::super::turning::turning_point;
use super::super::{AnchorError, LegPeak};
use super::cascade::name;
use super::input::AnchorSystem;
use super::model::{Left, Model};
use super::motion::Motion;
use crate::quantity::{Length, MaybeText, Quantity, Ratio, Text};

/// Places on the way that are read, besides its start, where junctions between move too.
const PLACES: usize = 16;

/// What the jerk of a loss does, by energy, Eq. (S8).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Overshoot {
    /// Way along the pull to the turning point, from the rest before.
    #[serde(with = "Text::<Length>")]
    pub extension: Length,
    /// Greatest tensions on the way, of the legs that are left.
    pub peaks: Vec<LegPeak>,
    /// Least factor on the way, where strengths are given; below 1 the jerk breaks what the slow loss leaves.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub least_factor: Option<Ratio>,
    /// Leg or fixed point that has it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weakest: Option<String>,
    /// What the energy at the turning point misses, as part of the energy set free.
    pub residual: f64,
}

/// The way on from the rest `from`, past the rest `after` without what is lost.
pub(super) fn overshoot(
    system: &AnchorSystem,
    model: &Model,
    left: &Left,
    from: &DVector<f64>,
    after: &DVector<f64>,
) -> Result<Overshoot, AnchorError> {
    let from_p = place(from, model.pulled);
    let travel = place(after, model.pulled) - from_p;
    let mut motion = Motion::new(model, left.clone(), 1.0, from.clone());
    motion.settle(&from_p)?;
    let start: Vec<f64> = motion.links.iter().map(|l| l.pulled(&motion.x).stretch_m).collect();
    let rounding_j: f64 = motion
        .links
        .iter()
        .map(|l| {
            let pulled = l.pulled(after);
            8.0 * f64::EPSILON * l.k_n_per_m * pulled.stretch_m * pulled.length_m
        })
        .sum();
    let motion = RefCell::new(motion);
    let at = |part: f64| {
        let mut motion = motion.borrow_mut();
        let settled = motion.settle(&(from_p + travel * part));
        settled.map(|()| motion)
    };
    // Energy gained since the start, so that no common part is lost in rounding.
    let gain = |part: f64| {
        let Ok(motion) = at(part) else { return f64::NAN };
        let stored = motion.links.iter().zip(&start).map(|(link, x0)| {
            let x = link.pulled(&motion.x).stretch_m;
            0.5 * link.k_n_per_m * (x - x0) * (x + x0)
        });
        stored.sum::<f64>() - model.steady_n().dot(&travel) * part
    };
    let slope = |part: f64| {
        let Ok(motion) = at(part) else { return f64::NAN };
        -(motion.legs().0 + model.steady_n()).dot(&travel)
    };
    let turn = turning_point(gain, slope, rounding_j)?;
    // With one junction the stretches are convex along the straight way: their greatest values are at its ends.
    let places = if model.start.len() > 3 { PLACES } else { 1 };
    let mut peaks_n = vec![0.0_f64; model.legs.len()];
    let mut used = (0.0_f64, 0);
    for i in 0..=places {
        let motion = at(turn.part * i as f64 / places as f64)?;
        for (peak_n, t) in peaks_n.iter_mut().zip(model.tensions_n(left, &motion.x)) {
            *peak_n = peak_n.max(t);
        }
        let (legs, fixed) = model.uses(left, &motion.x);
        for (i, u) in legs.into_iter().chain(fixed).enumerate() {
            if u > used.0 {
                used = (u, i);
            }
        }
    }
    let rest_n = model.tensions_n(left, after);
    let (which, _) = model.links(left);
    let mut peaks = Vec::new();
    for i in which {
        let strength = model.legs[i].strength;
        let ratio = |f: f64| Some(f).filter(|f| f.is_finite()).map(Ratio::from_si);
        peaks.push(LegPeak {
            name: system.legs[i].name.clone(),
            tension: AnchorError::finite("peak", peaks_n[i])?,
            dynamic_factor: ratio(peaks_n[i] / rest_n[i]),
            factor: strength.and_then(|(s, _)| ratio(s / peaks_n[i])),
        });
    }
    let along: Vector3<f64> = model.pull_n / model.pull_n.norm();
    let factor = Some(1.0 / used.0).filter(|f| f.is_finite());
    Ok(Overshoot {
        extension: AnchorError::finite("extension", travel.dot(&along) * turn.part)?,
        peaks,
        least_factor: factor.map(Ratio::from_si),
        weakest: factor.map(|_| name(system, used.1)),
        residual: turn.residual,
    })
}
