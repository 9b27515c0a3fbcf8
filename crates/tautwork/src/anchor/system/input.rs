//! What an anchor system is made of.

use serde::{Deserialize, Serialize};

use crate::quantity::{Force, Length, MaybeText, Stiffness, Text, Triple};

/// An anchor of fixed points, junctions and legs, and the pull on one of its junctions.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AnchorSystem {
    /// Bolts, trees, boulders.
    pub fixed: Vec<FixedPoint>,
    /// Master points and the knots or rings between.
    pub junctions: Vec<Junction>,
    /// Legs between them.
    pub legs: Vec<SystemLeg>,
    /// Name of the junction that is pulled.
    pub pull_at: String,
    /// Pull on it.
    #[serde(with = "Triple::<Force>")]
    pub pull: [Force; 3],
    /// The line that pulls, where the pull falls as the junction moves with it, Eq. (S9); after a loss only. Without
    /// it the pull stays what it is, which is the upper bound.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub line: Option<PullLine>,
}

/// A line that pulls: a spring along the pull.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PullLine {
    /// By how much the pull falls for each length of way along it. Of a line that sags, the secant over the whole way
    /// leaves no less pull than the line does.
    #[serde(with = "Text::<Stiffness>")]
    pub stiffness: Stiffness,
    /// From the junction to where the line is held; longer than the pull over the stiffness.
    #[serde(with = "Text::<Length>")]
    pub length: Length,
}

/// A point that does not move.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FixedPoint {
    /// Name.
    pub name: String,
    /// Position.
    #[serde(with = "Triple::<Length>")]
    pub position: [Length; 3],
    /// What it holds, in the direction in which it is pulled.
    #[serde(with = "MaybeText::<Force>", default, skip_serializing_if = "Option::is_none")]
    pub strength: Option<Force>,
}

/// A free knot.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Junction {
    /// Name.
    pub name: String,
    /// Where it is, roughly; a loose one stays there.
    #[serde(with = "Triple::<Length>")]
    pub near: [Length; 3],
}

/// A leg between two points.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SystemLeg {
    /// Name.
    pub name: String,
    /// Name of the junction or fixed point at one end.
    pub from: String,
    /// And at the other.
    pub to: String,
    /// Length of the whole leg without tension; longer than the distance for a backup with slack.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// Its parts, one behind the other: sling, connector, hanger.
    pub parts: Vec<LegPart>,
}

/// One part of a leg.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LegPart {
    /// Name.
    pub name: String,
    /// Stiffness; a part without one does not give, but one part at least must.
    #[serde(with = "MaybeText::<Stiffness>", default, skip_serializing_if = "Option::is_none")]
    pub stiffness: Option<Stiffness>,
    /// Strength, knots and bends included.
    #[serde(with = "MaybeText::<Force>", default, skip_serializing_if = "Option::is_none")]
    pub strength: Option<Force>,
}
