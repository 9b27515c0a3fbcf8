//! Wear of ropes, waits between jumps, and zones where nobody may be.

use serde::{Deserialize, Serialize};

use crate::fall::DropZone;
use crate::line::Recoil;
use crate::material::RubWear;
use crate::quantity::{Force, Length, MaybeText, Ratio, Text, Time};

/// What rubs in one jump.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RubPlan {
    /// What rubs.
    pub part: String,
    /// Where.
    pub place: String,
    /// How much.
    pub wear: RubWear,
    /// Which part of the plan gave it.
    pub from: String,
}

/// How long a jump rope must rest before the next jump.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RestPlan {
    /// Name of the rope.
    pub rope: String,
    /// Greatest strain in the jump, the bound for what its damper keeps.
    #[serde(with = "Text::<Ratio>")]
    pub strain: Ratio,
    /// Wait by the model; none without a relaxation time or a stretch that may be left.
    #[serde(with = "MaybeText::<Time>")]
    pub by_model: Option<Time>,
    /// Wait between jumps: the longer of the model's and the rigger's own.
    #[serde(with = "MaybeText::<Time>")]
    pub wait: Option<Time>,
}

/// Where a dropped thing may land.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct DropPlan {
    /// What is dropped.
    pub thing: String,
    /// From where.
    pub place: String,
    /// Height above the lowest ground.
    #[serde(with = "Text::<Length>")]
    pub height: Length,
    /// Zone around the point straight below.
    pub zone: DropZone,
}

/// A line that breaks at its greatest tension.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BreakPlan {
    /// Name of the line or the jump rope.
    pub line: String,
    /// Where it breaks.
    pub at: String,
    /// Where the part that recoils stays tied.
    pub towards: String,
    /// Greatest tension.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// What it does.
    pub recoil: Recoil,
}
