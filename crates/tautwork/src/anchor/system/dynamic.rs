//! A cascade in time: what the jerk of a loss breaks.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::super::AnchorError;
use super::cascade::{name, take};
use super::input::AnchorSystem;
use super::model::Model;
use super::motion::Motion;
use super::record::Record;
use crate::ode::{Control, DormandPrince};
use crate::quantity::check::positive;
use crate::quantity::{Force, Length, Mass, MaybeText, Ratio, Speed, Text, Time};

/// Most attempts of the integrator.
const BUDGET: usize = 50_000;
/// Relative error in a step.
const TOLERANCE: f64 = 1e-9;

/// A loss with a jerk.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SystemBreak {
    /// The system, at rest at first.
    pub system: AnchorSystem,
    /// Legs and fixed points that are lost at time zero.
    pub lost: Vec<String>,
    /// Mass behind the junction that is pulled.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
    /// How long to look.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
}

/// What comes of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SystemBroken {
    /// What the jerk breaks, in order.
    pub events: Vec<BreakEvent>,
    /// Whether a path holds at the end.
    pub held: bool,
    /// Greatest tension of each leg, in the order given.
    pub peaks: Vec<LegPeakInTime>,
    /// Greatest way of the junction that is pulled, along the pull.
    #[serde(with = "Text::<Length>")]
    pub extension: Length,
    /// Its greatest speed.
    #[serde(with = "Text::<Speed>")]
    pub speed: Speed,
    /// Most that the energy strays over the energy of motion, Eq. (S7).
    pub energy_drift: f64,
    /// Times of the record.
    pub t_s: Vec<f64>,
    /// Way along the pull at those times.
    pub way_m: Vec<f64>,
    /// Greatest tension of any leg at those times.
    pub worst_tension_n: Vec<f64>,
}

/// Greatest tension of a leg.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LegPeakInTime {
    /// Name.
    pub name: String,
    /// Greatest tension, that before the loss included.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// When.
    #[serde(with = "Text::<Time>")]
    pub at: Time,
    /// Strength over that, where one is given and the leg was taut.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub factor: Option<Ratio>,
}

/// Something breaks.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BreakEvent {
    /// When.
    #[serde(with = "Text::<Time>")]
    pub at: Time,
    /// Leg or fixed point.
    pub broke: String,
}

/// What the jerk of a loss does: the motion of the mass behind the pull, and what breaks in it, Eqs. (S6) and (S7).
///
/// It ends early where no path holds any more.
///
/// # Errors
/// Those of [`system_rest`](super::system_rest); [`AnchorError::Unknown`] for a name in `lost`;
/// [`AnchorError::NotConverged`] where the motion takes too many steps.
///
/// # Example
/// ```
/// use tautwork::anchor::{
///     AnchorSystem, FixedPoint, Junction, LegPart, SystemBreak, SystemLeg, break_in_time,
/// };
/// use tautwork::quantity::{ReadForce, Words};
///
/// let point = |x: f64, z: f64| [x.meters(), 0.0.meters(), z.meters()];
/// let leg = |name: &str, strength: f64| SystemLeg {
///     name: name.to_owned(),
///     from: "bolt".to_owned(),
///     to: "master".to_owned(),
///     rest_length: 1.0.meters(),
///     parts: vec![LegPart {
///         name: "sling".to_owned(),
///         stiffness: Some(100.0.kilonewtons_per_meter()),
///         strength: Some(strength.kilonewtons()),
///     }],
/// };
/// let mut run = SystemBreak {
///     system: AnchorSystem {
///         fixed: vec![FixedPoint { name: "bolt".to_owned(), position: point(0.0, 1.0), strength: None }],
///         junctions: vec![Junction { name: "master".to_owned(), near: point(0.0, 0.0) }],
///         legs: vec![leg("a", 22.0), leg("b", 22.0)],
///         pull_at: "master".to_owned(),
///         pull: [0.0.newtons(), 0.0.newtons(), (-1000.0).newtons()],
///         line: None,
///     },
///     lost: vec!["a".to_owned()],
///     mass: 10.0.kilograms(),
///     time: 1.0.seconds(),
/// };
/// // 500 N each at first; then as far beyond 1000 N as it was short of it.
/// assert!((break_in_time(&run)?.peaks[1].tension.in_newtons() - 1500.0).abs() < 1.0);
/// // A leg of 1.2 kN would hold the pull at rest, but not the jerk.
/// run.system.legs[1].parts[0].strength = Some(1.2.kilonewtons());
/// let broken = break_in_time(&run)?;
/// assert!(!broken.held && broken.events[0].broke == "b");
/// run.lost = vec!["c".to_owned()];
/// assert!(break_in_time(&run).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
pub fn break_in_time(input: &SystemBreak) -> Result<SystemBroken, AnchorError> {
    let mass_kg = positive("mass", input.mass)?;
    let time_s = positive("time", input.time)?;
    let system = &input.system;
    let (model, rest) = Model::at_rest(system)?;
    let mut left = model.whole();
    let count = left.legs.len() + left.fixed.len();
    for lost in &input.lost {
        let i = (0..count).find(|i| name(system, *i) == *lost);
        let what = "leg or fixed point";
        take(&mut left, i.ok_or_else(|| AnchorError::Unknown { what, name: lost.clone() })?);
    }
    let mut record = Record::new(&model, &rest.x);
    let mut left_s = time_s;
    let mut motion = Motion::new(&model, left, mass_kg, rest.x);
    let mut state = vec![0.0; 6];
    state[..3].copy_from_slice(record.from.as_slice());
    let mut attempts = 0;
    // Each round ends with the time or with something broken.
    while motion.model.holds(&motion.left) && left_s > 0.0 {
        let run = until_break(&mut motion, &state, left_s, &mut record, &mut attempts)?;
        left_s -= run.after_s;
        state = run.state;
        for i in run.broken {
            let at = AnchorError::finite("time", record.since_s)?;
            record.events.push(BreakEvent { at, broke: name(system, i) });
            let mut left = motion.left.clone();
            take(&mut left, i);
            motion = Motion::new(&model, left, mass_kg, motion.x);
        }
    }
    let held = motion.model.holds(&motion.left);
    record.told(system, held)
}

struct Run {
    after_s: f64,
    state: Vec<f64>,
    broken: Vec<usize>,
}

/// Runs until something breaks or the time is over.
fn until_break(
    motion: &mut Motion<'_>,
    state: &[f64],
    time_s: f64,
    record: &mut Record,
    attempts: &mut usize,
) -> Result<Run, AnchorError> {
    let stiffness: f64 = motion.links.iter().map(|l| l.k_n_per_m).sum();
    let period_s = core::f64::consts::TAU * (motion.mass_kg / stiffness).sqrt();
    // The legs alone: a line is many times as long.
    let size_m = motion.legs_left().fold(0.0_f64, |m, l| m.max(l.rest_m));
    let fail = |ode: &DormandPrince| AnchorError::NotConverged {
        what: "the motion after the loss",
        iterations: ode.attempts,
        // The part of the time that is left.
        residual: 1.0 - ode.t_s / time_s,
    };
    let control = Control {
        rtol: TOLERANCE,
        atol: [vec![TOLERANCE * size_m; 3], vec![TOLERANCE * size_m / period_s; 3]].concat(),
        longest_s: period_s / 20.0,
        budget: BUDGET.saturating_sub(*attempts),
    };
    let mut ode = DormandPrince::new(motion, state.to_vec(), control);
    let start_j = record.start(motion, state)?;
    let mut here = vec![0.0; 6];
    while ode.t_s < time_s * (1.0 - 1e-12) {
        ode.advance(motion, time_s - ode.t_s).map_err(|_| fail(&ode))?;
        if let Some(theta) = kink(motion, &ode, &mut here)?
            && theta * ode.step.h_s > 1e-9 * period_s
        {
            ode.shorten(motion, theta).map_err(|_| fail(&ode))?;
        }
        // Uses along the step, where the first beyond one is looked for.
        let mut broken = None;
        for share in [0.25, 0.5, 0.75, 1.0] {
            ode.step.read(share, &mut here);
            if over(motion, &here)? {
                broken = Some(share);
                break;
            }
        }
        if let Some(high) = broken {
            let (mut low, mut high) = (0.0, high);
            for _ in 0..50 {
                let middle = 0.5 * (low + high);
                ode.step.read(middle, &mut here);
                if over(motion, &here)? { high = middle } else { low = middle }
            }
            ode.step.read(high, &mut here);
            let after_s = ode.step.t_s + high * ode.step.h_s;
            record.add(motion, after_s, &here, start_j)?;
            record.since_s += after_s;
            *attempts += ode.attempts;
            let (legs, fixed) = motion.model.uses(&motion.left, &motion.x);
            let used = legs.iter().chain(&fixed).enumerate();
            let broken = used.filter(|(_, u)| **u >= 1.0).map(|(i, _)| i).collect();
            return Ok(Run { after_s, state: here, broken });
        }
        for share in [0.25, 0.5, 0.75, 1.0] {
            ode.step.read(share, &mut here);
            record.add(motion, ode.step.t_s + share * ode.step.h_s, &here, start_j)?;
        }
        ode.commit();
    }
    record.since_s += time_s;
    *attempts += ode.attempts;
    Ok(Run { after_s: time_s, state: ode.y, broken: Vec::new() })
}

/// Where in the step a leg becomes taut or slack first: the force has a corner there.
fn kink(
    motion: &mut Motion<'_>,
    ode: &DormandPrince,
    here: &mut [f64],
) -> Result<Option<f64>, AnchorError> {
    let place = |y: &[f64]| Vector3::new(y[0], y[1], y[2]);
    let before = motion.taut(&place(ode.step.start()))?;
    if motion.taut(&place(&ode.step.end))? == before {
        return Ok(None);
    }
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        ode.step.read(middle, here);
        if motion.taut(&place(here))? == before { low = middle } else { high = middle }
    }
    Ok(Some(high))
}

/// Whether something is at its strength.
fn over(motion: &mut Motion<'_>, state: &[f64]) -> Result<bool, AnchorError> {
    motion.settle(&Vector3::new(state[0], state[1], state[2]))?;
    let (legs, fixed) = motion.model.uses(&motion.left, &motion.x);
    Ok(legs.iter().chain(&fixed).any(|u| *u >= 1.0))
}
