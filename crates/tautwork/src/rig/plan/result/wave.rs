//! The jump in the full model.

use serde::{Deserialize, Serialize};

use crate::quantity::{Force, Length, MaybeText, Ratio, Text, Time};
use crate::swing::{Limit, RopeClearance};

/// The jump in the full model, where the reduced one is not valid for a line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WavePlan {
    /// Time for which it is followed.
    #[serde(with = "Text::<Time>")]
    pub horizon: Time,
    /// Each line.
    pub lines: Vec<WaveLine>,
    /// Pull of all lines on each anchor.
    pub anchors: Vec<WaveAnchor>,
    /// Force on the body; none if the model has no answer, as a note says.
    pub body_force: Option<Limit<Force>>,
    /// Lowest point within the horizon.
    pub lowest: Option<Limit<Length>>,
    /// Nearest approach of a jump rope to each wall.
    pub rope_clearances: Vec<RopeClearance>,
    /// Limits of the answer, in words.
    pub notes: Vec<String>,
}

/// Greatest tensions of a line with its waves.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WaveLine {
    /// Name.
    pub line: String,
    /// Whether the checks take these figures, since the quasi-static ones are not valid.
    pub taken: bool,
    /// At the near anchor.
    pub near: Limit<Force>,
    /// At the far anchor.
    pub far: Limit<Force>,
    /// At the ring.
    pub ring: Limit<Force>,
    /// Greatest anchor peak over the quasi-static one.
    #[serde(with = "MaybeText::<Ratio>")]
    pub over_quasi_static: Option<Ratio>,
}

/// Greatest pull on an anchor with the waves of all its lines.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WaveAnchor {
    /// Name.
    pub anchor: String,
    /// Pull.
    pub peak: Limit<Force>,
}
