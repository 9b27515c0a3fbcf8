//! The line, where the load is wanted, and the line with the load on it.

use serde::{Deserialize, Serialize};

use crate::line::{ChainLoad, ChainPiece};
use crate::quantity::{Angle, Force, Length, Ratio, Text, Triple};

/// A line with someone, or something, on it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Walk {
    /// Near anchor.
    #[serde(with = "Triple::<Length>")]
    pub near: [Length; 3],
    /// Far anchor.
    #[serde(with = "Triple::<Length>")]
    pub far: [Length; 3],
    /// Pieces from the near to the far anchor.
    pub pieces: Vec<ChainPiece>,
    /// Other loads, tied to the line.
    #[serde(default)]
    pub loads: Vec<ChainLoad>,
    /// Weight of the load.
    #[serde(with = "Text::<Force>")]
    pub weight: Force,
}

/// Where the load is along the span.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WalkPlace {
    /// Horizontal distance from the near anchor.
    Distance(#[serde(with = "Text::<Length>")] Length),
    /// The same over the span.
    Fraction(#[serde(with = "Text::<Ratio>")] Ratio),
}

/// The line with the load at one place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WalkState {
    /// Rest length from the near anchor to the load.
    #[serde(with = "Text::<Length>")]
    pub at: Length,
    /// Where the load is.
    #[serde(with = "Triple::<Length>")]
    pub position: [Length; 3],
    /// Its depth below the chord.
    #[serde(with = "Text::<Length>")]
    pub below_chord: Length,
    /// Tension beside it, on the near side.
    #[serde(with = "Text::<Force>")]
    pub tension_before: Force,
    /// Tension beside it, on the far side.
    #[serde(with = "Text::<Force>")]
    pub tension_after: Force,
    /// Tension at the near anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_near: Force,
    /// Tension at the far anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_far: Force,
    /// Pull of the line on the near anchor.
    #[serde(with = "Triple::<Force>")]
    pub pull_near: [Force; 3],
    /// Pull of the line on the far anchor.
    #[serde(with = "Triple::<Force>")]
    pub pull_far: [Force; 3],
    /// Angle below the horizontal at which the line leaves the near anchor.
    #[serde(with = "Text::<Angle>")]
    pub slope_near: Angle,
    /// Angle below the horizontal at which it leaves the far anchor.
    #[serde(with = "Text::<Angle>")]
    pub slope_far: Angle,
    /// Angle at which the line rises from the load towards the near anchor.
    #[serde(with = "Text::<Angle>")]
    pub rise_before: Angle,
    /// Angle at which it rises from the load towards the far anchor.
    #[serde(with = "Text::<Angle>")]
    pub rise_after: Angle,
    /// Force along the span that holds the load there, positive towards the far anchor; zero for feet.
    #[serde(with = "Text::<Force>")]
    pub hold: Force,
    /// Distance by which the computed line misses the far anchor, over the larger of rest length and
    /// chord.
    #[serde(with = "Text::<Ratio>")]
    pub residual: Ratio,
}
