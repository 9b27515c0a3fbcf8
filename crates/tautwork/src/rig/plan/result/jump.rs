//! The jumper at the exit, and what changes the jump.

use serde::{Deserialize, Serialize};

use crate::quantity::{Force, Length, Ratio, Text, Triple};

/// The jumper at the exit, tied in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Waiting {
    /// Where the ring is.
    #[serde(with = "Triple::<Length>")]
    pub ring: [Length; 3],
    /// Force of the loops on the jumper: along the span, to the left, up.
    #[serde(with = "Triple::<Force>")]
    pub pull: [Force; 3],
    /// Size of that force.
    #[serde(with = "Text::<Force>")]
    pub pull_size: Force,
    /// Lowest point of the loops.
    #[serde(with = "Text::<Length>")]
    pub lowest: Length,
}

/// The jump with another part of the lines' mass at the ring.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LineMassStep {
    /// Part of the mass of the lines that moves with the ring.
    #[serde(with = "Text::<Ratio>")]
    pub fraction: Ratio,
    /// Peak force on the body.
    #[serde(with = "Text::<Force>")]
    pub body_force: Force,
    /// Lowest point.
    #[serde(with = "Text::<Length>")]
    pub lowest: Length,
}

/// What one metre more of all jump ropes changes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Sensitivity {
    /// Result that changes.
    pub what: String,
    /// Change of that length per length of rope, from half a metre shorter and longer.
    #[serde(with = "Text::<Ratio>")]
    pub per_rope_length: Ratio,
}
