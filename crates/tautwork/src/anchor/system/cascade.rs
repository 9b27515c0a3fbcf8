//! Which losses leave a holding path, and where a cascade ends when it is slow.

use std::collections::BTreeSet;

use nalgebra::DVector;
use serde::{Deserialize, Serialize};

use super::super::AnchorError;
use super::super::knots::{Rest, energy_j, place};
use super::input::AnchorSystem;
use super::model::{Left, Model};
use super::overshoot::{Overshoot, overshoot};
use super::rest::{SystemRest, described};
use crate::quantity::{Energy, Length, MaybeText};

/// Most legs and fixed points of which all pairs are tried.
const MOST_FOR_PAIRS: usize = 60;

/// Losses one at a time, and two at a time.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Losses {
    /// With everything.
    pub before: SystemRest,
    /// Each leg and each fixed point alone.
    pub single: Vec<Loss>,
    /// Each two of them, where asked for.
    pub double: Vec<Loss>,
    /// Whether every single loss leaves a path that holds: the system is redundant.
    pub redundant: bool,
}

/// What the loss of something does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Loss {
    /// Legs and fixed points that are taken away.
    pub lost: Vec<String>,
    /// What is lost after that, stage by stage, Eq. (S5).
    pub stages: Vec<LossStage>,
    /// Whether a path holds in the end.
    pub held: bool,
    /// At rest in the end, where it holds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub after: Option<SystemRest>,
    /// How far the junction that is pulled goes along the pull from rest to rest, where it holds.
    #[serde(with = "MaybeText::<Length>", default, skip_serializing_if = "Option::is_none")]
    pub extension: Option<Length>,
    /// Energy that pull and legs set free on the way between the last two places of rest.
    #[serde(with = "MaybeText::<Energy>", default, skip_serializing_if = "Option::is_none")]
    pub energy_released: Option<Energy>,
    /// What the jerk of the last loss does, by energy, where it holds; the stages above are slow.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub overshoot: Option<Overshoot>,
}

/// What breaks at one place of rest of a cascade.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LossStage {
    /// Legs and fixed points whose factor is below 1 there.
    pub broke: Vec<String>,
}

/// The loss of each leg and of each fixed point, and with `pairs` of each two, Eq. (S5).
///
/// The stages of the cascade are slow, without a jerk. The jerk of the last loss is added by energy, Eq. (S8);
/// [`break_in_time`](super::break_in_time) has the jerk of each.
///
/// # Errors
/// Those of [`system_rest`](super::system_rest); [`AnchorError::TooMany`] for pairs of more than 60.
///
/// # Example
/// ```
/// use tautwork::anchor::{AnchorSystem, FixedPoint, Junction, LegPart, SystemLeg, system_losses};
/// use tautwork::quantity::{ReadForce, Words};
///
/// let point = |x: f64, z: f64| [x.meters(), 0.0.meters(), z.meters()];
/// let leg = |name: &str, to: &str| SystemLeg {
///     name: name.to_owned(),
///     from: "master".to_owned(),
///     to: to.to_owned(),
///     rest_length: 1.0.meters(),
///     parts: vec![LegPart {
///         name: "sling".to_owned(),
///         stiffness: Some(100.0.kilonewtons_per_meter()),
///         strength: Some(22.0.kilonewtons()),
///     }],
/// };
/// let system = AnchorSystem {
///     fixed: ["left", "right"]
///         .map(|name| FixedPoint { name: name.to_owned(), position: point(0.0, 2.0), strength: None })
///         .to_vec(),
///     junctions: vec![Junction { name: "master".to_owned(), near: point(0.0, 0.0) }],
///     legs: vec![leg("a", "left"), leg("b", "right")],
///     pull_at: "master".to_owned(),
///     pull: [0.0.newtons(), 0.0.newtons(), (-1000.0).newtons()],
///     line: None,
/// };
/// let losses = system_losses(&system, true)?;
/// assert!(losses.redundant && !losses.double[0].held);
/// // Half a kilonewton more on 100 kN/m: 5 mm.
/// assert!((losses.single[0].extension.unwrap().value - 0.005).abs() < 1e-9);
/// // And as far again in the jerk: 1.5 kN in the leg that is left.
/// assert!((losses.single[0].overshoot.as_ref().unwrap().peaks[0].tension.in_newtons() - 1500.0).abs() < 1e-3);
/// assert!(system_losses(&AnchorSystem { legs: vec![], ..system }, true).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
pub fn system_losses(system: &AnchorSystem, pairs: bool) -> Result<Losses, AnchorError> {
    let (model, rest) = Model::at_rest(system)?;
    let whole = model.whole();
    let (legs, fixed) = (model.legs.len(), model.fixed_n.len());
    let count = legs + fixed;
    if pairs && count > MOST_FOR_PAIRS {
        return Err(AnchorError::TooMany { found: count, most: MOST_FOR_PAIRS });
    }
    let run = |lost: &[usize]| lose(system, &model, &rest, lost);
    let single = (0..count).map(|i| run(&[i])).collect::<Result<Vec<_>, _>>()?;
    let mut double = Vec::new();
    for i in 0..count {
        for j in (i + 1..count).filter(|_| pairs) {
            double.push(run(&[i, j])?);
        }
    }
    let redundant = single.iter().all(|loss| loss.held);
    Ok(Losses { before: described(system, &model, &whole, &rest)?, single, double, redundant })
}

/// Name of a leg, or behind the legs of a fixed point.
pub(super) fn name(system: &AnchorSystem, i: usize) -> String {
    let legs = system.legs.len();
    if i < legs { system.legs[i].name.clone() } else { system.fixed[i - legs].name.clone() }
}

/// Takes a leg, or behind the legs a fixed point, out of what is left.
pub(super) fn take(left: &mut Left, i: usize) {
    let legs = left.legs.len();
    if i < legs { left.legs[i] = false } else { left.fixed[i - legs] = false }
}

fn lose(
    system: &AnchorSystem,
    model: &Model,
    before: &Rest,
    lost: &[usize],
) -> Result<Loss, AnchorError> {
    let mut left = model.whole();
    let mut loss = Loss {
        lost: lost.iter().map(|i| name(system, *i)).collect(),
        stages: Vec::new(),
        held: false,
        after: None,
        extension: None,
        energy_released: None,
        overshoot: None,
    };
    for i in lost {
        take(&mut left, *i);
    }
    let mut from = before.x.clone();
    // Each stage takes at least one part away, so there are no more stages than parts.
    while model.holds(&left) {
        let rest = model.rest(&left)?;
        let (legs, fixed) = model.uses(&left, &rest.x);
        let broken: Vec<usize> = legs
            .iter()
            .chain(&fixed)
            .enumerate()
            .filter(|(_, u)| **u > 1.0)
            .map(|(i, _)| i)
            .collect();
        if broken.is_empty() {
            let jolt = jolt(system, model, &left, before, &from, &rest)?;
            loss.held = true;
            loss.extension = Some(jolt.extension);
            loss.energy_released = Some(jolt.energy_released);
            loss.overshoot = Some(jolt.overshoot);
            loss.after = Some(jolt.after);
            break;
        }
        loss.stages.push(LossStage { broke: broken.iter().map(|i| name(system, *i)).collect() });
        for i in broken {
            take(&mut left, i);
        }
        from = rest.x;
    }
    Ok(loss)
}

/// What comes of a loss if nothing else is lost, whatever its factor.
pub(crate) struct Jolt {
    pub(crate) before: SystemRest,
    pub(crate) after: SystemRest,
    /// Of the junction that is pulled, from rest to rest, and its part along the pull.
    pub(crate) travel: [Length; 3],
    pub(crate) extension: Length,
    energy_released: Energy,
    pub(crate) overshoot: Overshoot,
}

fn jolt(
    system: &AnchorSystem,
    model: &Model,
    left: &Left,
    before: &Rest,
    from: &DVector<f64>,
    rest: &Rest,
) -> Result<Jolt, AnchorError> {
    let along = model.pull_n / model.pull_n.norm();
    let travel = place(&rest.x, model.pulled) - place(&before.x, model.pulled);
    let (_, links) = model.links(left);
    let loads = model.loads_n();
    let freed_j = energy_j(&links, &loads, from) - energy_j(&links, &loads, &rest.x);
    Ok(Jolt {
        before: described(system, model, &model.whole(), before)?,
        after: described(system, model, left, rest)?,
        travel: AnchorError::finite_triple("position", &travel)?,
        extension: AnchorError::finite("extension", travel.dot(&along))?,
        // Rounding may leave a little less than nothing.
        energy_released: AnchorError::finite("energy_released", freed_j.max(0.0))?,
        overshoot: overshoot(system, model, left, from, &rest.x)?,
    })
}

/// The loss of several legs, by their numbers, at one instant, without what may follow; none where no path is left.
pub(crate) fn lose_at_once(
    system: &AnchorSystem,
    legs: &BTreeSet<usize>,
) -> Result<Option<Jolt>, AnchorError> {
    let (model, before) = Model::at_rest(system)?;
    let mut left = model.whole();
    for leg in legs {
        take(&mut left, *leg);
    }
    if !model.holds(&left) {
        return Ok(None);
    }
    let rest = model.rest(&left)?;
    jolt(system, &model, &left, &before, &before.x, &rest).map(Some)
}

/// The loss of several legs, by their numbers, at one instant, and what is lost after that, Eq. (S5).
pub(crate) fn cascade(system: &AnchorSystem, legs: &BTreeSet<usize>) -> Result<Loss, AnchorError> {
    let (model, before) = Model::at_rest(system)?;
    lose(system, &model, &before, &legs.iter().copied().collect::<Vec<_>>())
}
