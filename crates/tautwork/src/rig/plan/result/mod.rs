//! What a plan answers.

mod anchor;
mod edge;
mod haul;
mod jump;
mod line;
mod loss;
mod people;
mod rescue;
mod rope;
mod state;
mod stop;
mod wave;
mod wind;

pub use anchor::*;
pub use edge::*;
pub use haul::*;
pub use jump::*;
pub use line::*;
pub use loss::*;
pub use people::*;
pub use rescue::*;
pub use rope::*;
pub use state::*;
pub use stop::*;
pub use wave::*;
pub use wind::*;

use serde::{Deserialize, Serialize};

use super::check::Checks;
use super::gear::Assumption;
use super::kit::KitList;
use super::picture::Pictures;
use super::table::Table;
use crate::rig::Input;
use crate::swing::Outlook;

/// Version of the form of a [`Plan`]: grows when a field changes its meaning or goes away.
pub const PLAN_VERSION: u32 = 2;

/// The whole plan of a rig. As JSON, quantities are texts with their units.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Plan {
    /// Version of the form of this result, [`PLAN_VERSION`].
    pub version: u32,
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
    /// The rig in each wind of the document.
    #[serde(default)]
    pub winds: Vec<WindPlan>,
    /// The jump of the bag.
    pub bag: Option<Outlook>,
    /// The same in the full model; none if every line is quick enough for the reduced one.
    #[serde(default)]
    pub bag_waves: Option<WavePlan>,
    /// Spread of the jump over the part of the lines' mass that moves with the ring.
    pub line_mass: Vec<LineMassStep>,
    /// Every component that can fail, one at a time, in three ways.
    pub losses: LossTable,
    /// Rope to cut.
    pub cut: Vec<CutPlan>,
    /// What to bring, side by side and bag by bag.
    pub kit: KitList,
    /// What longer jump ropes change.
    pub rope_sensitivity: Vec<Sensitivity>,
    /// Anchors under their greatest pull.
    pub anchors: Vec<AnchorPlan>,
    /// The way back up.
    pub haul: Option<HaulPlan>,
    /// A second person out to a stuck jumper, and the way down.
    pub rescue: Option<RescuePlan>,
    /// Stops of the ring.
    #[serde(default)]
    pub stops: Vec<StopPlan>,
    /// Lines and ropes on edges.
    #[serde(default)]
    pub edges: Vec<EdgePlan>,
    /// What rubs in one jump.
    pub rubs: Vec<RubPlan>,
    /// Rest of each jump rope between jumps.
    pub rests: Vec<RestPlan>,
    /// Where dropped things may land.
    pub drops: Vec<DropPlan>,
    /// Lines that break.
    pub breaks: Vec<BreakPlan>,
    /// Demand against rating, and results against the rigger's limits.
    pub checks: Checks,
    /// Every value that was assumed.
    pub assumptions: Vec<Assumption>,
    /// Every value of the document.
    pub inputs: Vec<Input>,
    /// Limits of the answers, in words.
    pub notes: Vec<String>,
    /// The results as tables for people.
    pub tables: Vec<Table>,
    /// Drawings.
    pub pictures: Pictures,
}
