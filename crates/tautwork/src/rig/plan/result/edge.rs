//! Lines and ropes on edges.

use serde::{Deserialize, Serialize};

use crate::quantity::{Angle, Force, Length, LineLoad, MaybeText, Ratio, Text};

/// A line or a rope that comes to lie on an edge.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct EdgePlan {
    /// Name of the edge, or of the terrain with the place of its corner.
    pub edge: String,
    /// What lies on it.
    pub part: String,
    /// The pad between them; none on bare rock.
    pub pad: Option<String>,
    /// Friction coefficient there; none on terrain, whose friction is not known.
    #[serde(with = "MaybeText::<Ratio>")]
    pub friction: Option<Ratio>,
    /// Greatest angle by which it turns there.
    #[serde(with = "Text::<Angle>")]
    pub turn: Angle,
    /// Greatest force on the edge, with friction.
    #[serde(with = "Text::<Force>")]
    pub contact: Force,
    /// Which part of the plan gave that force.
    pub from: String,
    /// Tension behind the edge over that before it when drawn over it, at the greatest angle.
    #[serde(with = "Text::<Ratio>")]
    pub capstan_ratio: Ratio,
    /// Greatest tension behind the edge, when drawn over it.
    #[serde(with = "Text::<Force>")]
    pub behind: Force,
    /// Greatest force per length of contact: tension over the radius; none on a sharp edge.
    #[serde(with = "MaybeText::<LineLoad>")]
    pub pressure: Option<LineLoad>,
    /// Rub in one jump, or in the haul.
    #[serde(with = "Text::<Length>")]
    pub travel: Length,
}
