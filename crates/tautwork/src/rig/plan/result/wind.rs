//! The rig in winds.

use serde::{Deserialize, Serialize};

use super::StatePlan;
use crate::quantity::{Force, Length, MaybeText, Speed, Text, Triple};
use crate::swing::{Limit, WallLimit};

/// The rig in one wind.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WindPlan {
    /// Name of the condition.
    pub name: String,
    /// Velocity of the air: along the span, to the left, up.
    #[serde(with = "Triple::<Speed>")]
    pub velocity: [Speed; 3],
    /// Everything on: standing, and with the jumper's weight and drag at the ring.
    pub states: Vec<StatePlan>,
    /// Greatest force on the body in the jump.
    pub body_force: Limit<Force>,
    /// Lowest point of the body.
    pub lowest: Limit<Length>,
    /// Farthest to the left that the body was: greatest y.
    pub leftmost: Limit<Length>,
    /// Farthest to the right: least y.
    pub rightmost: Limit<Length>,
    /// Least clearance on the way out.
    pub exit_clearance: Option<WallLimit>,
    /// Least clearance of each wall in flight.
    pub clearances: Vec<WallLimit>,
    /// The largest wind of this direction for each wall.
    pub largest: Vec<LargestWind>,
    /// Limits of the answer, in words.
    pub notes: Vec<String>,
}

/// The largest wind of a direction at which the clearance of a wall holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LargestWind {
    /// Name of the wall.
    pub wall: String,
    /// Clearance that it needs.
    #[serde(with = "Text::<Length>")]
    pub required: Length,
    /// The largest wind; none if the clearance falls short in still air already.
    #[serde(with = "MaybeText::<Speed>")]
    pub largest: Option<Speed>,
    /// Greatest wind looked at: the largest is this one if the clearance holds in all of them.
    #[serde(with = "Text::<Speed>")]
    pub looked_up_to: Speed,
}
