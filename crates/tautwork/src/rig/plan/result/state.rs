//! Standing states and the load sweep at the ring.

use serde::{Deserialize, Serialize};

use crate::quantity::{Force, Length, LineLoad, MaybeText, Ratio, Text, Triple};

/// One standing state.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct StatePlan {
    /// Name.
    pub name: String,
    /// Load at the ring besides its own weight.
    #[serde(with = "Text::<Force>")]
    pub load: Force,
    /// Where the ring is (the material point of the ring on a line alone).
    #[serde(with = "Triple::<Length>")]
    pub ring: [Length; 3],
    /// Lines that are on.
    pub lines: Vec<LineState>,
    /// Residual force at the ring over the largest line force: the accuracy of the answer.
    #[serde(with = "Text::<Ratio>")]
    pub residual: Ratio,
}

/// One line in a state.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LineState {
    /// Name.
    pub name: String,
    /// Tension at the near anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_near: Force,
    /// Greater tension at the ring, of the two sides.
    #[serde(with = "Text::<Force>")]
    pub tension_ring: Force,
    /// Tension at the far anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_far: Force,
    /// Greatest vertical distance below the chord.
    #[serde(with = "Text::<Length>")]
    pub sag_below_chord: Length,
    /// Greatest distance below the near anchor; negative if the line is nowhere below it.
    #[serde(with = "Text::<Length>")]
    pub sag_below_near: Length,
    /// Share of the vertical force that the lines give to the ring.
    #[serde(with = "Text::<Ratio>")]
    pub share: Ratio,
}

/// One step of the load sweep.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SweepStep {
    /// The state under this load, straight down.
    pub state: StatePlan,
    /// Stiffness of the ring along the span.
    #[serde(with = "Text::<LineLoad>")]
    pub stiffness_along: LineLoad,
    /// Stiffness of the ring up and down.
    #[serde(with = "Text::<LineLoad>")]
    pub stiffness_vertical: LineLoad,
}

/// When a line begins to carry.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Engagement {
    /// Name of the line.
    pub line: String,
    /// Load at the ring at which it begins; none if it carries from the start, or not within the
    /// sweep.
    #[serde(with = "MaybeText::<Force>")]
    pub load: Option<Force>,
    /// Whether it carries without load.
    pub from_start: bool,
}
