//! What happens when a part is lost.

use serde::{Deserialize, Serialize};

use crate::quantity::{Force, Length, MaybeText, Ratio, Text};

/// What to look at in a loss table.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct LossOptions {
    /// Also every pair of parts; some times as long.
    pub pairs: bool,
}

/// How far a loss table is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LossProgress {
    /// Cases that are done.
    pub done: usize,
    /// All cases.
    pub total: usize,
    /// What was done last: the component, or the first of several with one effect.
    pub component: String,
}

/// Every component that can fail, one at a time, in three ways.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LossTable {
    /// How many cases hold, fall short and fall.
    pub verdict: String,
    /// Factor that the rigger requires.
    #[serde(with = "Text::<Ratio>")]
    pub required: Ratio,
    /// Every component, with the loss that is its own.
    pub components: Vec<LossComponent>,
    /// What the loss of one component does. Components in series, whose loss has one and the same effect, share
    /// one entry that names them all.
    pub single: Vec<Loss>,
    /// What two losses together do; empty unless asked for. Pairs that do what one of the two does are left out.
    pub pairs: Vec<Loss>,
    /// Motions that were followed for this.
    pub motions: usize,
    /// Limits of the answers, in words.
    pub notes: Vec<String>,
}

/// A component that can fail.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LossComponent {
    /// Name.
    pub name: String,
    /// Where it is: its anchor, its line, the ring, the jumper, the frame.
    pub at: String,
    /// What it is.
    pub kind: LossComponentKind,
    /// Number of its entry in `single`, from 0.
    pub loss: usize,
}

/// Kinds of component.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LossComponentKind {
    /// A line between an anchor and the ring.
    LineSide,
    /// What ties a line to the ring: both of its sides go with it.
    LineTieIn,
    /// A jump rope.
    JumpRope,
    /// A stop of the ring.
    Stop,
    /// The ring set.
    Ring,
    /// A link, connector, tie-in or another piece of gear.
    Gear,
    /// An anchor without legs.
    Anchor,
    /// A leg of an anchor.
    AnchorLeg,
    /// A connector, hanger or further sling in a leg.
    AnchorLegPart,
    /// A knot of an anchor: every leg that meets there goes with it.
    AnchorKnot,
    /// A fixing of an anchor: every leg that begins there goes with it.
    AnchorFixing,
    /// A leg of the frame.
    FrameLeg,
    /// A guy of the frame.
    FrameGuy,
    /// The haul rope.
    HaulRope,
}

/// What the loss of a part does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Loss {
    /// Components whose loss has this effect; of a pair, one name for each of the two.
    pub parts: Vec<String>,
    /// What is gone then.
    pub gone: String,
    /// Absent before the jump, or before the haul for what only the haul loads.
    pub absent_before: LossResult,
    /// Lost while the jumper hangs at rest: on the ring, or on the haul rope at the end of the haul.
    pub lost_at_rest: LossResult,
    /// Lost at the instant of the jump, or of the haul, at which the part carries most.
    pub lost_at_worst_instant: LossResult,
}

/// The outcome of a loss.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LossOutcome {
    /// The part carries nothing in this state.
    CarriesNothing,
    /// Held within all of the rigger's limits.
    Held,
    /// Held, but short of a limit.
    Short,
    /// A further part is loaded past its derated strength; what follows is not solved.
    Breaks,
    /// The body hits a wall or the ground.
    Hits,
    /// Nothing holds.
    Falls,
    /// The models have no answer; the verdict says why.
    NoAnswer,
}

impl LossOutcome {
    /// Whether a limit is missed, or nothing is known.
    #[must_use]
    pub fn falls_short(self) -> bool {
        !matches!(self, Self::CarriesNothing | Self::Held)
    }
}

/// One loss in one of the three ways.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LossResult {
    /// The state in which the part is lost, with its time.
    pub state: String,
    /// What the part carries in that state before it is lost; of an absent part, what it would carry at most.
    #[serde(with = "MaybeText::<Force>")]
    pub carries: Option<Force>,
    /// What takes the load: the component whose force rises most.
    pub takes_load: Option<TakesLoad>,
    /// Drop of the ring (jump), travel of the master point along its pull (anchor leg) or of the head (frame);
    /// of which state, the page of the model says.
    #[serde(with = "MaybeText::<Length>")]
    pub extension: Option<Length>,
    /// How much lower the body comes than without the loss.
    #[serde(with = "MaybeText::<Length>")]
    pub body_lower: Option<Length>,
    /// Greatest force on the body.
    #[serde(with = "MaybeText::<Force>")]
    pub body_force: Option<Force>,
    /// Least ratio of derated strength to peak over all that is left.
    #[serde(with = "MaybeText::<Ratio>")]
    pub factor: Option<Ratio>,
    /// Where that is.
    pub weakest: Option<String>,
    /// Clearance left where least of it is left beyond the requirement, the survey error taken off.
    #[serde(with = "MaybeText::<Length>")]
    pub clearance: Option<Length>,
    /// Wall of that clearance.
    pub wall: Option<String>,
    /// The outcome.
    pub outcome: LossOutcome,
    /// In plain words.
    pub verdict: String,
    /// Lines too slow for their quasi-static tension in this motion: a snap may be several times the figures here.
    #[serde(default)]
    pub slow_lines: Vec<String>,
    /// Limits of this answer, in words.
    pub notes: Vec<String>,
}

/// The component that takes most of the load.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct TakesLoad {
    /// Component and place.
    pub component: String,
    /// Force before: at rest, or the peak of the jump in which nothing is lost.
    #[serde(with = "Text::<Force>")]
    pub before: Force,
    /// Peak after the loss.
    #[serde(with = "Text::<Force>")]
    pub peak: Force,
    /// Of a leg of an anchor, where the pull falls as the lines slacken: the peak if the pull stayed what it is, the
    /// upper bound.
    #[serde(with = "MaybeText::<Force>")]
    pub peak_if_pull_stays: Option<Force>,
}

impl Loss {
    /// The three results with the words of their names.
    #[must_use]
    pub fn results(&self) -> [(&'static str, &LossResult); 3] {
        [
            (ABSENT, &self.absent_before),
            (AT_REST, &self.lost_at_rest),
            (WORST, &self.lost_at_worst_instant),
        ]
    }
}

pub(in crate::rig::plan) const ABSENT: &str = "absent before";
pub(in crate::rig::plan) const AT_REST: &str = "lost at rest";
pub(in crate::rig::plan) const WORST: &str = "lost at the worst instant";
