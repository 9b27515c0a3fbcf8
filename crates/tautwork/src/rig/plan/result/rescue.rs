//! A second person out to a stuck jumper, and the way down.

use serde::{Deserialize, Serialize};

use super::StatePlan;
use crate::pulley::{ClimbBounce, LoweringHolds};
use crate::quantity::{Force, Length, MaybeText, Stiffness, Text};

/// What a stuck jumper asks of the rig.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RescuePlan {
    /// Everything on, with the weight of both at the ring.
    pub two: StatePlan,
    /// How much lower the ring is than with the jumper alone.
    #[serde(with = "Text::<Length>")]
    pub lower_by: Length,
    /// Stiffness under the climber: jump ropes and ring one after the other, the ropes as they are for quick pulls.
    #[serde(with = "Text::<Stiffness>")]
    pub stiffness: Stiffness,
    /// The second person climbs the jump ropes.
    pub climb: ClimbBounce,
    /// The way down; none unless the document gives it.
    pub lowering: Option<LoweringPlan>,
}

/// Lowering from the ring to the ground, the jump ropes taken off.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LoweringPlan {
    /// From where the jumper hangs at rest straight down to the highest terrain; none if there is none.
    #[serde(with = "MaybeText::<Length>")]
    pub height: Option<Length>,
    /// Rope from the device to the ring and down to the ground; none without ground.
    #[serde(with = "MaybeText::<Length>")]
    pub rope_needed: Option<Length>,
    /// What is left of the rope that is there; negative if it is too short.
    #[serde(with = "MaybeText::<Length>")]
    pub rope_left: Option<Length>,
    /// Whether the rope reaches the ground.
    pub reaches: bool,
    /// The jumper alone.
    pub one: LoweringHolds,
    /// Both together.
    pub both: LoweringHolds,
    /// Pull on the pulley at the ring with both, held without friction there.
    #[serde(with = "Text::<Force>")]
    pub on_pulley: Force,
    /// Everything on with that pull at the ring.
    pub state: StatePlan,
}
