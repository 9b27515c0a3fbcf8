//! What a pulley system is made of.

use serde::{Deserialize, Serialize};

use super::super::Friction;
use crate::quantity::{Angle, Length, MaybeText, Triple};

/// Bodies and the ropes that run over them.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct System {
    /// Bodies, in any order.
    pub bodies: Vec<Body>,
    /// Ropes, in any order. A rope counts once, and once more for each grab that holds it; as many as
    /// there are moving bodies, the load included.
    pub ropes: Vec<Rope>,
    /// Direction in which the load and the moving bodies travel unless they state their own. Up if
    /// left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub haul: Option<[f64; 3]>,
}

/// An anchor, a moving block, the load or the hand.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Body {
    /// Name that ropes refer to.
    pub name: String,
    /// What it is.
    pub kind: BodyKind,
    /// Where it is: x along the span, y to the left, z up.
    #[serde(with = "Triple::<Length>")]
    pub position: [Length; 3],
    /// Direction of travel when raising, of any length; the haul direction if left out. Only for the
    /// load and moving bodies: an anchor stays and the hand pulls along its rope.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub travel: Option<[f64; 3]>,
}

/// What a body is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BodyKind {
    /// Does not move.
    Anchor,
    /// Moves with the ropes on it: a travelling block.
    Moving,
    /// What is raised. Exactly one.
    Load,
    /// What pulls. Exactly one.
    Hand,
}

/// One rope from body to body over sheaves.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rope {
    /// Name.
    pub name: String,
    /// Body where it is tied at its start.
    pub from: String,
    /// Sheaves in the order in which the rope meets them.
    #[serde(default)]
    pub over: Vec<Sheave>,
    /// Body where it is tied at its end.
    pub to: String,
}

/// A sheave, a carabiner, a bar or an edge that a rope turns on, or a grab that grips it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sheave {
    /// Body that carries it.
    pub on: String,
    /// Its loss.
    pub friction: Friction,
    /// Wrap angle; from the directions of the two parts if left out. Give it for extra turns.
    #[serde(with = "MaybeText::<Angle>", default, skip_serializing_if = "Option::is_none")]
    pub wrap: Option<Angle>,
    /// Holds rope that would run towards this end of the rope and lets it run to the other: a rope
    /// grab, a progress capture. The rope runs both ways if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub grab: Option<Towards>,
}

/// An end of a rope.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Towards {
    /// Where the rope is tied first.
    Start,
    /// Where it is tied last.
    End,
}
