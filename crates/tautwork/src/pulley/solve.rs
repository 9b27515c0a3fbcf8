//! Raise, hold and lower a load through given pulleys.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::layout::{Layout, triple};
use super::motion::{Motion, motion};
use super::statics::{STANDS, Sense, Tensions, pull, tensions};
use super::{Interval, PulleyError, System};
use crate::quantity::check::positive;
use crate::quantity::{Force, Quantity, Ratio, Text, Triple};

/// What a system gives.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Solution {
    /// Hand travel over load travel, Eq. (2).
    #[serde(with = "Text::<Ratio>")]
    pub ideal_advantage: Ratio,
    /// Load over the force that raises it, Eq. (10).
    #[serde(with = "Text::<Ratio>")]
    pub actual_advantage: Ratio,
    /// Actual over ideal advantage: the part of the hand's work that reaches the load.
    #[serde(with = "Text::<Ratio>")]
    pub efficiency: Ratio,
    /// Hand forces that hold the load, Eq. (9): from the one at which it runs back to the one at
    /// which it rises. The low end is zero if friction alone holds it.
    pub hold: Interval,
    /// Hand force without any loss.
    #[serde(with = "Text::<Force>")]
    pub frictionless: Force,
    /// Forces while the load rises.
    pub raising: State,
    /// Forces while the load runs back; none if friction alone holds it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lowering: Option<State>,
    /// Travel of each body.
    pub travel: Vec<Travel>,
    /// Largest relative error of the rope lengths and of the power balance, Eqs. (1) and (11).
    pub residual: f64,
    /// What to know about the result.
    pub notes: Vec<Note>,
}

/// Forces for one sense of motion.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct State {
    /// Tension in the hand.
    #[serde(with = "Text::<Force>")]
    pub hand: Force,
    /// Tension of each rope part, rope by rope from start to end.
    pub parts: Vec<PartTension>,
    /// Force of the ropes on each body.
    pub bodies: Vec<BodyForce>,
}

/// Tension of one rope part.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PartTension {
    /// Rope.
    pub rope: String,
    /// Body at the start of the part.
    pub from: String,
    /// Body at its end.
    pub to: String,
    /// Tension.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
}

/// Force of the ropes on one body.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BodyForce {
    /// Body.
    pub name: String,
    /// Components along x, y and z.
    #[serde(with = "Triple::<Force>")]
    pub force: [Force; 3],
    /// Their resultant.
    #[serde(with = "Text::<Force>")]
    pub resultant: Force,
}

/// Travel of one body.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Travel {
    /// Body.
    pub name: String,
    /// Travel along its direction per travel of the hand.
    #[serde(with = "Text::<Ratio>")]
    pub per_hand: Ratio,
}

/// What to know about a result.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "note", rename_all = "snake_case", deny_unknown_fields)]
pub enum Note {
    /// No rope passes this sheave, so its tension ratio is open; it is taken as 1.
    SheaveStands {
        /// Rope.
        rope: String,
        /// Body that carries the sheave.
        on: String,
    },
    /// The load does not run back when the hand lets go.
    HoldsItself,
}

/// Solves a pulley system for a load that resists along its direction of travel with `load`.
///
/// Eqs. (1) to (11). Valid for the geometry given: see the module page.
///
/// # Errors
/// See [`PulleyError`]: an input out of range, a rope to an unknown body, bodies that no rope holds,
/// ropes that lock, a rope that would have to push.
///
/// # Example
/// ```
/// use tautwork::pulley::{Friction, Ordinary, ordinary, solve};
/// use tautwork::quantity::{ReadForce, ReadRatio, Words};
///
/// // Z-shaped 3:1 without friction: a third of the load, two thirds on the anchor.
/// let system = ordinary(Ordinary::ThreeToOne, Friction::Fixed { efficiency: 1.0.ratio() });
/// let result = solve(&system, 900.0.newtons())?;
/// assert!((result.ideal_advantage.in_ratio() - 3.0).abs() < 1e-12);
/// assert!((result.raising.hand.in_newtons() - 300.0).abs() < 1e-9);
/// assert!((result.raising.bodies[0].resultant.in_newtons() - 600.0).abs() < 1e-9);
/// assert!(solve(&system, 0.0.newtons()).is_err());
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
pub fn solve(system: &System, load: Force) -> Result<Solution, PulleyError> {
    let load_n = positive("load", load)?;
    let layout = Layout::new(system)?;
    let moved = motion(system, &layout)?;
    let raised = moved.travel[layout.load];
    // A load that hangs still while the hand runs has a travel of rounding size.
    if raised <= STANDS {
        return Err(PulleyError::LoadNotRaised { travel: raised });
    }
    let run = |sense| tensions(&layout, &moved, load_n, sense);
    let ideal = checked(run(Sense::Ideal).map_err(|f| f.named(&system.ropes))?)?;
    let up = checked(run(Sense::Raising).map_err(|f| f.named(&system.ropes))?)?;
    // A system whose losses hold the load has no equilibrium with every rope running back.
    let down = run(Sense::Lowering).ok().map(checked).transpose()?;
    let actual = load_n / up.hand_n;
    let residual = [Some(&ideal), Some(&up), down.as_ref()]
        .into_iter()
        .flatten()
        .fold(moved.residual, |m, t| m.max(t.residual));
    let mut notes = standing(system, &moved);
    if down.is_none() {
        notes.push(Note::HoldsItself);
    }
    let results = [1.0 / raised, actual, actual * raised, up.hand_n, ideal.hand_n];
    if results.iter().any(|r| !r.is_finite()) {
        return Err(PulleyError::Overflow { result: "advantage" });
    }
    Ok(Solution {
        ideal_advantage: Ratio::from_si(1.0 / raised),
        actual_advantage: Ratio::from_si(actual),
        efficiency: Ratio::from_si(actual * raised),
        hold: Interval {
            low: Force::from_si(down.as_ref().map_or(0.0, |t| t.hand_n)),
            high: Force::from_si(up.hand_n),
        },
        frictionless: Force::from_si(ideal.hand_n),
        raising: state(system, &layout, &up)?,
        lowering: down.map(|t| state(system, &layout, &t)).transpose()?,
        travel: system
            .bodies
            .iter()
            .zip(&moved.travel)
            .map(|(b, &v)| Travel { name: b.name.clone(), per_hand: Ratio::from_si(v) })
            .collect(),
        residual,
        notes,
    })
}

fn checked(tensions: Tensions) -> Result<Tensions, PulleyError> {
    let finite = tensions.parts_n.iter().flatten().all(|t| t.is_finite());
    if !finite || !tensions.lost_n.is_finite() {
        return Err(PulleyError::Overflow { result: "tension" });
    }
    // Written so that NaN fails too.
    if tensions.residual <= 1e-9 {
        Ok(tensions)
    } else {
        Err(PulleyError::Residual { balance: "power", residual: tensions.residual })
    }
}

fn standing(system: &System, moved: &Motion) -> Vec<Note> {
    let mut notes = Vec::new();
    for (rope, flows) in system.ropes.iter().zip(&moved.flow) {
        for (sheave, flow) in rope.over.iter().zip(flows) {
            if flow.abs() <= STANDS {
                let (rope, on) = (rope.name.clone(), sheave.on.clone());
                notes.push(Note::SheaveStands { rope, on });
            }
        }
    }
    notes
}

fn state(system: &System, layout: &Layout, tensions: &Tensions) -> Result<State, PulleyError> {
    let mut forces = vec![Vector3::zeros(); system.bodies.len()];
    let mut parts = Vec::new();
    for (r, path) in layout.paths.iter().enumerate() {
        let tension = &tensions.parts_n[r];
        for (j, &body) in path.stops.iter().enumerate() {
            forces[body] += pull(layout, r, j, tension);
        }
        for (pair, &tension_n) in path.stops.windows(2).zip(tension) {
            parts.push(PartTension {
                rope: system.ropes[r].name.clone(),
                from: system.bodies[pair[0]].name.clone(),
                to: system.bodies[pair[1]].name.clone(),
                tension: Force::from_si(tension_n),
            });
        }
    }
    let mut bodies = Vec::new();
    for (body, force) in system.bodies.iter().zip(forces) {
        let resultant = force.x.hypot(force.y).hypot(force.z);
        if !resultant.is_finite() {
            return Err(PulleyError::Overflow { result: "resultant" });
        }
        bodies.push(BodyForce {
            name: body.name.clone(),
            force: triple(force),
            resultant: Force::from_si(resultant),
        });
    }
    Ok(State { hand: Force::from_si(tensions.hand_n), parts, bodies })
}
