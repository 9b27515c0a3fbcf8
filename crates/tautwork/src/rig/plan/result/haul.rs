//! The way back up and the raised frame.

use serde::{Deserialize, Serialize};

use crate::pulley::{HaulWork, Hauls};
use crate::quantity::{Angle, Energy, Force, Length, MaybeText, Ratio, Text, Triple};

/// The way back up.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HaulPlan {
    /// From hanging free under the ring to the lip.
    pub steps: Vec<HaulStep>,
    /// Greatest pull on the jumper.
    #[serde(with = "Text::<Force>")]
    pub pull: Force,
    /// The same with the friction of the edge.
    #[serde(with = "Text::<Force>")]
    pub pull_over_edge: Force,
    /// The same behind the pulley that leads the rope to the system.
    #[serde(with = "Text::<Force>")]
    pub pull_behind_pulley: Force,
    /// Ideal advantage of the system.
    #[serde(with = "Text::<Ratio>")]
    pub ideal_advantage: Ratio,
    /// Advantage when raising.
    #[serde(with = "Text::<Ratio>")]
    pub actual_advantage: Ratio,
    /// Force of all haulers together at the greatest pull.
    #[serde(with = "Text::<Force>")]
    pub hand_force: Force,
    /// Least force of the hand that holds.
    #[serde(with = "Text::<Force>")]
    pub holding_force: Force,
    /// Haulers needed at the pull that each sustains.
    pub people_needed: u32,
    /// Haulers there.
    pub people: u32,
    /// Rope from the jumper to the system when hanging free.
    #[serde(with = "Text::<Length>")]
    pub haul_rope: Length,
    /// Rope through the hands.
    #[serde(with = "Text::<Length>")]
    pub rope_through_hands: Length,
    /// Resets of the system.
    pub resets: u32,
    /// Work at the hand, friction included, without the edge.
    #[serde(with = "Text::<Energy>")]
    pub work: Energy,
    /// Pull on the anchor of the system.
    #[serde(with = "Text::<Force>")]
    pub system_anchor: Force,
    /// Pull on the pulley that leads the rope to the system, at the greatest pull.
    #[serde(with = "Text::<Force>")]
    pub lead_pulley: Force,
    /// Strokes, rope, time and work as if the greatest pull lasted all the way.
    pub at_most: HaulWork,
    /// The same lift with every ordinary system, and the least that the people there can pull.
    pub compared: Hauls,
    /// The frame at the greatest load on its head.
    pub frame: Option<FramePlan>,
}

/// One position on the way back.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HaulStep {
    /// Rope from the pulley to the jumper, at rest length.
    #[serde(with = "Text::<Length>")]
    pub rope_out: Length,
    /// Tension of the haul rope at the pulley.
    #[serde(with = "Text::<Force>")]
    pub pull: Force,
    /// Where the jumper is.
    #[serde(with = "Triple::<Length>")]
    pub body: [Length; 3],
    /// Where the ring is.
    #[serde(with = "Triple::<Length>")]
    pub ring: [Length; 3],
    /// Force left in the jump ropes on the jumper, all together.
    #[serde(with = "Text::<Force>")]
    pub jump_ropes: Force,
    /// Angle of the haul rope at the pulley, below level.
    #[serde(with = "Text::<Angle>")]
    pub below_level: Angle,
    /// Nearest wall or ledge, less the body radius.
    #[serde(with = "MaybeText::<Length>")]
    pub clearance: Option<Length>,
}

/// The raised frame under the haul.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FramePlan {
    /// Load on the head: along the span, to the left, up.
    #[serde(with = "Triple::<Force>")]
    pub load: [Force; 3],
    /// Force of each member: legs in compression, guys in tension, both positive.
    pub members: Vec<MemberPlan>,
    /// Least angle by which the haul rope may swing aside, whichever way, before the frame no longer stands.
    #[serde(with = "MaybeText::<Angle>")]
    pub margin: Option<Angle>,
    /// Where on the way it cannot stand, and why; none if it stands all the way.
    pub problem: Option<String>,
}

/// A leg or guy of the frame.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct MemberPlan {
    /// Name.
    pub name: String,
    /// Leg or guy.
    pub kind: String,
    /// Greatest force on the way.
    #[serde(with = "Text::<Force>")]
    pub force: Force,
    /// Greatest coefficient of friction that the foot of a leg needs on level ground, without a hobble.
    #[serde(with = "MaybeText::<Ratio>")]
    pub friction_needed: Option<Ratio>,
    /// Compression at which a leg buckles, with the least figures of its material, if its pole is given.
    #[serde(with = "MaybeText::<Force>")]
    pub buckles_at: Option<Force>,
}
