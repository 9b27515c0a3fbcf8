//! The jump with one part absent.

use serde::{Deserialize, Serialize};

use crate::quantity::{Force, Length, MaybeText, Ratio, Text};

/// The jump without one part.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LossPlan {
    /// Part that is absent before the jump.
    pub part: String,
    /// Results; none if nothing would hold the jumper.
    pub jump: Option<LossJump>,
    /// In plain words.
    pub verdict: String,
    /// Whether a limit or a factor is missed.
    pub falls_short: bool,
}

/// Results of a jump without one part.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LossJump {
    /// Peak force on the body.
    #[serde(with = "Text::<Force>")]
    pub body_force: Force,
    /// Greatest tension of any line, and which.
    pub line: String,
    /// That tension.
    #[serde(with = "Text::<Force>")]
    pub line_tension: Force,
    /// Least ratio of derated strength to demand over lines and jump ropes.
    #[serde(with = "Text::<Ratio>")]
    pub factor: Ratio,
    /// Where that ratio is.
    pub weakest: String,
    /// Lowest point.
    #[serde(with = "Text::<Length>")]
    pub lowest: Length,
    /// Clearance left where least of it is left beyond the requirement.
    #[serde(with = "MaybeText::<Length>")]
    pub clearance: Option<Length>,
    /// Wall of that clearance.
    pub wall: Option<String>,
    /// Speed at which a wall is hit, if one is.
    pub contact: Option<String>,
}
