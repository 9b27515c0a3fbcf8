//! What a self-adjusting anchor is made of.

use serde::{Deserialize, Serialize};

use crate::pulley::Friction;
use crate::quantity::{Force, Length, MaybeText, Text, Triple};

/// A loop of cordage through points and, between each two of them, through the master connector.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SelfAdjusting {
    /// Two to four points, in the order in which the loop visits them.
    pub points: Vec<AdjustingPoint>,
    /// Length of the whole loop without tension, what the knots take not counted.
    #[serde(with = "Text::<Length>")]
    pub loop_length: Length,
    /// Axial rigidity of one strand.
    #[serde(with = "Text::<Force>")]
    pub axial_rigidity: Force,
    /// Strength of one strand, knots and bends included.
    #[serde(with = "MaybeText::<Force>", default, skip_serializing_if = "Option::is_none")]
    pub strength: Option<Force>,
    /// Friction of each turn at a point; none for none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub friction_at_points: Option<Friction>,
    /// Friction of each turn at the master connector; none for none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub friction_at_master: Option<Friction>,
    /// Whether the master connector stays in the loop when one point alone is left, as by a twist in one strand.
    pub captive: bool,
    /// Pull on the master point.
    #[serde(with = "Triple::<Force>")]
    pub pull: [Force; 3],
}

/// A point that the loop runs through.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AdjustingPoint {
    /// Name.
    pub name: String,
    /// Position.
    #[serde(with = "Triple::<Length>")]
    pub position: [Length; 3],
    /// Length of each strand from the point to its limiter knot; none without knots.
    #[serde(with = "MaybeText::<Length>", default, skip_serializing_if = "Option::is_none")]
    pub limiter: Option<Length>,
}
