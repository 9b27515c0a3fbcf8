//! What a system gives.

use serde::{Deserialize, Serialize};

use super::super::Interval;
use crate::quantity::{Angle, Force, Length, Ratio, Text, Triple};

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
    /// Forces while nothing moves and the hand lets go; none if no grab holds the load. Sheaves that
    /// stand are taken to help nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub held: Option<State>,
    /// Travel of each body.
    pub travel: Vec<Travel>,
    /// Rope, body, wrap and efficiency of each turn, in the order of the ropes.
    pub turns: Vec<Turn>,
    /// How far it goes before two bodies meet; none if nothing comes together.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub throw: Option<Throw>,
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

/// One turn of a rope.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Turn {
    /// Rope.
    pub rope: String,
    /// Body that carries the turn.
    pub on: String,
    /// Angle by which the rope turns.
    #[serde(with = "Text::<Angle>")]
    pub wrap: Angle,
    /// Tension behind over tension ahead.
    #[serde(with = "Text::<Ratio>")]
    pub efficiency: Ratio,
    /// Whether a grab there holds the rope while the load rises.
    pub holds: bool,
}

/// The way of one stroke, Eq. (10).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Throw {
    /// Rope through the hand.
    #[serde(with = "Text::<Length>")]
    pub hand: Length,
    /// Travel of the load.
    #[serde(with = "Text::<Length>")]
    pub load: Length,
    /// Rope whose part is used up.
    pub rope: String,
    /// Body at the start of that part.
    pub from: String,
    /// Body at its end.
    pub to: String,
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
    /// The load does not run back when the hand lets go: the losses hold it.
    HoldsItself,
    /// To lower, this grab must be held open.
    OpenToLower {
        /// Rope.
        rope: String,
        /// Body that carries the grab.
        on: String,
    },
    /// A figure of half a turn is used at a quarter turn or less, where it takes too much; an axle law follows
    /// the wrap.
    FarFromHalfTurn {
        /// Rope.
        rope: String,
        /// Body that carries the sheave.
        on: String,
    },
    /// Ropes pull this body aside by more than a hundredth of the load while it rises. Something must guide it,
    /// or it swings until they do not.
    Aside {
        /// Body.
        body: String,
        /// Force across its direction of travel.
        #[serde(with = "Text::<Force>")]
        force: Force,
    },
}
