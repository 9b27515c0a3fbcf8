//! Anchors under their greatest pull.

use serde::{Deserialize, Serialize};

use crate::quantity::{Force, Length, MaybeText, Ratio, Text, Triple};

/// An anchor under its greatest pull.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct AnchorPlan {
    /// Name.
    pub name: String,
    /// Greatest pull of all lines together: along the span, to the left, up.
    #[serde(with = "Triple::<Force>")]
    pub pull: [Force; 3],
    /// Size of that pull.
    #[serde(with = "Text::<Force>")]
    pub pull_size: Force,
    /// Which part of the plan gave it.
    pub from: String,
    /// Legs, if the anchor has any.
    pub legs: Vec<LegPlan>,
    /// The same pull with each leg lost.
    pub lost: Vec<LegLossPlan>,
}

/// One leg under the pull.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LegPlan {
    /// Name.
    pub name: String,
    /// Tension.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Share of the pull.
    #[serde(with = "Text::<Ratio>")]
    pub share: Ratio,
}

/// An anchor after the loss of a leg under the greatest pull.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LegLossPlan {
    /// Leg that is lost.
    pub leg: String,
    /// Way of the master point along the pull; none if nothing holds.
    #[serde(with = "MaybeText::<Length>")]
    pub extension: Option<Length>,
    /// Greatest tension of a remaining leg at rest.
    #[serde(with = "MaybeText::<Force>")]
    pub worst_tension: Option<Force>,
    /// Greatest tension of a remaining leg while the master point swings to its new place, by energy.
    #[serde(with = "MaybeText::<Force>")]
    pub peak_tension: Option<Force>,
    /// Leg with the greatest tension at rest.
    pub worst_leg: Option<String>,
    /// In plain words.
    pub verdict: String,
}
