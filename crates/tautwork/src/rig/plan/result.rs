//! What a plan answers.

use serde::{Deserialize, Serialize};

use super::check::Checks;
use super::gear::Assumption;
use super::picture::Pictures;
use super::table::Table;
use crate::quantity::{
    Energy, Force, Length, LineLoad, Mass, MaybeText, Ratio, Text, Time, Triple,
};
use crate::swing::{Limit, Outlook, RopeClearance};

/// The whole plan of a rig.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Plan {
    /// Name of the rig.
    pub rig: String,
    /// Remark of the document.
    pub note: Option<String>,
    /// How many checks fall short, and which.
    pub verdict: String,
    /// What to keep in mind; printed with every report.
    pub cautions: Vec<String>,
    /// Lengths of the lines.
    pub lines: Vec<LinePlan>,
    /// Standing states.
    pub states: Vec<StatePlan>,
    /// The same states with the jumper's weight at the ring.
    pub person: Vec<StatePlan>,
    /// Load at the ring, step by step.
    pub sweep: Vec<SweepStep>,
    /// Load at which each line begins to carry.
    pub engagement: Vec<Engagement>,
    /// The jumper waiting at the exit.
    pub waiting: Waiting,
    /// The jump of the person.
    pub jump: Outlook,
    /// The same in the full model; none if every line is quick enough for the reduced one.
    pub waves: Option<WavePlan>,
    /// The jump of the bag.
    pub bag: Option<Outlook>,
    /// Spread of the jump over the part of the lines' mass that moves with the ring.
    pub line_mass: Vec<LineMassStep>,
    /// The jump with one part absent before it.
    pub losses: Vec<LossPlan>,
    /// Rope to cut.
    pub cut: Vec<CutPlan>,
    /// What longer jump ropes change.
    pub rope_sensitivity: Vec<Sensitivity>,
    /// Anchors under their greatest pull.
    pub anchors: Vec<AnchorPlan>,
    /// The way back up.
    pub haul: Option<HaulPlan>,
    /// Demand against rating, and results against the rigger's limits.
    pub checks: Checks,
    /// Every value that was assumed.
    pub assumptions: Vec<Assumption>,
    /// Limits of the answers, in words.
    pub notes: Vec<String>,
    /// The results as tables for people.
    pub tables: Vec<Table>,
    /// Drawings.
    pub pictures: Pictures,
}

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

/// Length of a line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LinePlan {
    /// Name.
    pub name: String,
    /// Distance between its anchors.
    #[serde(with = "Text::<Length>")]
    pub chord: Length,
    /// Rest length from anchor to anchor.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// Rest length from the near anchor to the ring.
    #[serde(with = "Text::<Length>")]
    pub near_length: Length,
    /// Mass from anchor to anchor.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
    /// How the length was found.
    pub from: String,
}

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

/// The jumper at the exit, tied in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Waiting {
    /// Where the ring is.
    #[serde(with = "Triple::<Length>")]
    pub ring: [Length; 3],
    /// Force of the loops on the jumper: along the span, to the left, up.
    #[serde(with = "Triple::<Force>")]
    pub pull: [Force; 3],
    /// Size of that force.
    #[serde(with = "Text::<Force>")]
    pub pull_size: Force,
    /// Lowest point of the loops.
    #[serde(with = "Text::<Length>")]
    pub lowest: Length,
}

/// The jump with another part of the lines' mass at the ring.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LineMassStep {
    /// Part of the mass of the lines that moves with the ring.
    #[serde(with = "Text::<Ratio>")]
    pub fraction: Ratio,
    /// Peak force on the body.
    #[serde(with = "Text::<Force>")]
    pub body_force: Force,
    /// Lowest point.
    #[serde(with = "Text::<Length>")]
    pub lowest: Length,
}

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

/// Rope to cut.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct CutPlan {
    /// Name of the rope.
    pub rope: String,
    /// Rest length from tie-in to tie-in.
    #[serde(with = "Text::<Length>")]
    pub tie_in_to_tie_in: Length,
    /// Length with knots and tails.
    #[serde(with = "Text::<Length>")]
    pub cut: Length,
    /// Error of marking and bedding-in.
    #[serde(with = "Text::<Length>")]
    pub error: Length,
    /// Mass as cut.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
}

/// What one metre more of all jump ropes changes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Sensitivity {
    /// Result that changes.
    pub what: String,
    /// Change of that length per length of rope, from half a metre shorter and longer.
    #[serde(with = "Text::<Ratio>")]
    pub per_rope_length: Ratio,
}

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
    #[serde(with = "Text::<crate::quantity::Angle>")]
    pub below_level: crate::quantity::Angle,
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
    #[serde(with = "MaybeText::<crate::quantity::Angle>")]
    pub margin: Option<crate::quantity::Angle>,
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
