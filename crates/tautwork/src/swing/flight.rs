//! What is answered: the whole history of one run.

use serde::{Deserialize, Serialize};

use super::fault::{AfterFault, Part};
use super::{Note, Place, Run};
use crate::quantity::{Energy, Force, Length, MaybeText, Quantity, Ratio, Speed, Text, Time};

/// The greatest (or least) value of a figure over the whole history, with when and where.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(bound = "")]
pub struct Extreme<Q: Quantity> {
    /// The value.
    #[serde(with = "Text::<Q>")]
    pub value: Q,
    /// Time since exit.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
    /// Where the body was then; the ring for figures of the ring and the lines.
    pub place: Place,
}

/// An extreme of a named rope.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RopeResult {
    /// Name of the rope.
    pub name: String,
    /// Peak tension.
    pub tension: Extreme<Force>,
}

/// What one line carried, as its quasi-static answer to the ring.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LineResult {
    /// Name of the line.
    pub name: String,
    /// Tension at the near anchor before the jump.
    #[serde(with = "Text::<Force>")]
    pub near_standing: Force,
    /// Tension at the far anchor before the jump.
    #[serde(with = "Text::<Force>")]
    pub far_standing: Force,
    /// Peak tension at the near anchor.
    pub near: Extreme<Force>,
    /// Peak tension at the far anchor.
    pub far: Extreme<Force>,
    /// Time in which a wave runs from the ring to an anchor and back, Eq. (12); none for a line
    /// without tension.
    #[serde(with = "MaybeText::<Time>")]
    pub wave_time: Option<Time>,
}

/// What an anchor carried: the sum, as vectors, of all line ends and stops at one place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct AnchorResult {
    /// Where it is.
    pub place: Place,
    /// Names of the lines and stops that end there.
    pub parts: Vec<String>,
    /// Force before the jump.
    #[serde(with = "Text::<Force>")]
    pub standing: Force,
    /// Peak force.
    pub peak: Extreme<Force>,
}

/// Nearest approach to a wall, less the body radius.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Clearance {
    /// Name of the wall.
    pub wall: String,
    /// Distance of the body's surface from the wall; zero at contact.
    pub least: Extreme<Length>,
}

/// The first time the ropes go taut.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Catch {
    /// Time since exit.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
    /// Height lost since exit.
    #[serde(with = "Text::<Length>")]
    pub drop: Length,
    /// Speed of the body.
    #[serde(with = "Text::<Speed>")]
    pub speed: Speed,
    /// From taut to the greatest resultant before the body first rises again; none if the run ended
    /// before.
    #[serde(with = "MaybeText::<Time>")]
    pub rise_time: Option<Time>,
}

/// How long the resultant rope force was above a given one, in all.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct TimeAbove {
    /// The force.
    #[serde(with = "Text::<Force>")]
    pub force: Force,
    /// The force over the weight of the jumper: the load in g.
    #[serde(with = "Text::<Ratio>")]
    pub over_weight: Ratio,
    /// Total duration.
    #[serde(with = "Text::<Time>")]
    pub duration: Time,
}

/// How far the ring moved.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RingResult {
    /// At exit.
    pub start: Place,
    /// Greatest pull of the jump ropes on it. At any time it is the resultant on the body times M over m.
    pub load: Extreme<Force>,
    /// Lowest z.
    pub lowest: Extreme<Length>,
    /// Highest z.
    pub highest: Extreme<Length>,
    /// Least x.
    pub nearest: Extreme<Length>,
    /// Greatest x.
    pub farthest: Extreme<Length>,
}

/// Ring and body at rest after the jump, with the ropes at their long-term stiffness.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Rest {
    /// The ring.
    pub ring: Place,
    /// The body.
    pub body: Place,
}

/// What happened, in order of time.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Event {
    /// Time since exit.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
    /// The body then.
    pub place: Place,
    /// What.
    pub what: Happening,
}

/// Kinds of event.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Happening {
    /// The body leaves the edge: the start of the run.
    LeavesEdge,
    /// A rope takes load.
    Taut {
        /// Name of the rope.
        rope: String,
    },
    /// A rope lets go.
    Slack {
        /// Name of the rope.
        rope: String,
    },
    /// A stop of the ring takes load.
    StopTaut {
        /// Name of the stop.
        stop: String,
    },
    /// A stop of the ring lets go.
    StopSlack {
        /// Name of the stop.
        stop: String,
    },
    /// The body leaves the launch zone for the first time.
    LeftLaunchZone,
    /// A part fails.
    Failed {
        /// The part.
        part: Part,
    },
    /// The greatest resultant rope force of the history.
    Peak,
    /// The body first rises after the first catch.
    FirstLowest,
    /// The lowest point of the history.
    Lowest,
    /// The nearest approach to a wall after the launch zone.
    NearestApproach {
        /// Name of the wall.
        wall: String,
    },
    /// The body touches a wall; nothing is computed after it.
    Contact {
        /// Name of the wall.
        wall: String,
        /// Speed at contact.
        #[serde(with = "Text::<Speed>")]
        speed: Speed,
    },
    /// The settle rule held for its time.
    Settled,
    /// The horizon was reached.
    Horizon,
}

/// Why the run ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Ending {
    /// The body touched a wall.
    Contact,
    /// The motion died down.
    Settled,
    /// The horizon was reached.
    Horizon,
}

/// Where the energy went; the sum of all parts is that at exit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct EnergyBooks {
    /// Kinetic energy at exit.
    #[serde(with = "Text::<Energy>")]
    pub kinetic_at_exit: Energy,
    /// Energy stored in ropes and stops at exit.
    #[serde(with = "Text::<Energy>")]
    pub ropes_at_exit: Energy,
    /// Height given up by body and ring.
    #[serde(with = "Text::<Energy>")]
    pub from_height: Energy,
    /// Kinetic energy at the end.
    #[serde(with = "Text::<Energy>")]
    pub kinetic: Energy,
    /// Stored in ropes and stops at the end.
    #[serde(with = "Text::<Energy>")]
    pub ropes: Energy,
    /// Stored in the lines since exit, their own height included.
    #[serde(with = "Text::<Energy>")]
    pub lines: Energy,
    /// Lost to drag; negative if the wind gave more than it took.
    #[serde(with = "Text::<Energy>")]
    pub lost_to_drag: Energy,
    /// Lost in ropes and stops.
    #[serde(with = "Text::<Energy>")]
    pub lost_in_ropes: Energy,
    /// Lost to ring damping.
    #[serde(with = "Text::<Energy>")]
    pub lost_at_ring: Energy,
    /// Lost at the fold of slack rope; negative where the falling rope gave to the body.
    #[serde(with = "Text::<Energy>")]
    pub lost_at_fold: Energy,
    /// Gone with the parts that failed.
    #[serde(with = "Text::<Energy>")]
    pub failed: Energy,
    /// Greatest error of the books at any step over the energy of the fall: the accuracy of the
    /// integration.
    #[serde(with = "Text::<Ratio>")]
    pub drift: Ratio,
}

/// How much faster than computed the body may fall, since slack rope falls beside it in a fold.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FoldBound {
    /// Greatest acceleration before the catch over that of free fall, Eq. (13).
    #[serde(with = "Text::<Ratio>")]
    pub acceleration_over_g: Ratio,
    /// Greatest excess of the speed at the catch, as a share of it, Eq. (14).
    #[serde(with = "Text::<Ratio>")]
    pub speed_excess: Ratio,
}

/// The motion at equal spacing, in SI.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Series {
    /// Time since exit.
    pub t_s: Vec<f64>,
    /// Body along the span.
    pub x_m: Vec<f64>,
    /// Body to the left.
    pub y_m: Vec<f64>,
    /// Body up.
    pub z_m: Vec<f64>,
    /// Ring along the span.
    pub ring_x_m: Vec<f64>,
    /// Ring to the left.
    pub ring_y_m: Vec<f64>,
    /// Ring up.
    pub ring_z_m: Vec<f64>,
    /// Resultant rope force on the body.
    pub resultant_n: Vec<f64>,
    /// Tension of each rope, in the order of the input.
    pub rope_tension_n: Vec<Vec<f64>>,
    /// Tension of each stop, in the order of the input.
    pub stop_tension_n: Vec<Vec<f64>>,
    /// Tension of each line at its near anchor, in the order of the input.
    pub line_near_tension_n: Vec<Vec<f64>>,
    /// Tension of each line at its far anchor.
    pub line_far_tension_n: Vec<Vec<f64>>,
    /// Force on each anchor, in the order of the results.
    pub anchor_force_n: Vec<Vec<f64>>,
}

/// A value that the input left out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Assumed {
    /// Name of the parameter.
    pub parameter: String,
    /// Value taken, with its unit.
    pub value: String,
}

/// Work done by the integrator.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Work {
    /// Steps kept.
    pub steps: usize,
    /// Steps tried.
    pub attempts: usize,
}

/// The whole history of one run.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Flight {
    /// Which end of the ropes' stretch.
    pub run: Run,
    /// Why it ended.
    pub ending: Ending,
    /// When it ended.
    #[serde(with = "Text::<Time>")]
    pub duration: Time,
    /// What happened, in order of time.
    pub events: Vec<Event>,
    /// The first time the ropes went taut; none if they never did.
    pub catch: Option<Catch>,
    /// Peak tension of each rope.
    pub ropes: Vec<RopeResult>,
    /// Peak of the resultant rope force on the body.
    pub resultant: Extreme<Force>,
    /// That peak over the weight of the jumper.
    #[serde(with = "Text::<Ratio>")]
    pub tension_over_weight: Ratio,
    /// Peak kinematic acceleration of the body over that of free fall; free fall itself counts 1.
    pub acceleration_over_g: Extreme<Ratio>,
    /// Time of the resultant above each timed force.
    pub time_above: Vec<TimeAbove>,
    /// Lowest point of the body over the whole history.
    pub lowest: Extreme<Length>,
    /// Free height under the body at its lowest point, straight down to the nearest wall; none if there is
    /// none below.
    #[serde(with = "MaybeText::<Length>")]
    pub height_left: Option<Length>,
    /// Lowest point of the first swing only; a later one is often lower.
    pub first_lowest: Option<Extreme<Length>>,
    /// Farthest to the left of the span that the body was.
    pub leftmost: Extreme<Length>,
    /// Farthest to the right: least y.
    pub rightmost: Extreme<Length>,
    /// Top speed of the body.
    pub top_speed: Extreme<Speed>,
    /// What each line carried.
    pub lines: Vec<LineResult>,
    /// Peak tension of each stop, with the ring's place.
    pub stops: Vec<RopeResult>,
    /// What each anchor carried, in the order in which lines and stops name them.
    pub anchors: Vec<AnchorResult>,
    /// How far the ring moved.
    pub ring: RingResult,
    /// Nearest wall before the launch zone was left; none without walls.
    pub exit_clearance: Option<Clearance>,
    /// Nearest approach to each wall after the launch zone was left; empty if it was not.
    pub clearances: Vec<Clearance>,
    /// Where body and ring come to rest with the parts that are left; none without ropes or lines.
    pub rest: Option<Rest>,
    /// When the motion had settled; none if it had not.
    #[serde(with = "MaybeText::<Time>")]
    pub settled: Option<Time>,
    /// Mean time of a whole swing, from the passes below the rest position; none before three passes.
    #[serde(with = "MaybeText::<Time>")]
    pub swing_period: Option<Time>,
    /// Whole swings until the run ended or the motion had settled.
    pub swings: usize,
    /// Angle through which the taut ropes turned at the ring in all, in radians: times the radius of the
    /// ring's section, how far they rubbed on it if they do not roll.
    #[serde(with = "Text::<Ratio>")]
    pub turned: Ratio,
    /// What happened after the first fault; none if nothing failed.
    pub after_fault: Option<AfterFault>,
    /// Where the energy went.
    pub energy: EnergyBooks,
    /// Bound on what the falling fold of slack rope adds.
    pub fold: FoldBound,
    /// The motion at equal spacing.
    pub series: Series,
    /// Limits of the answer.
    pub notes: Vec<Note>,
    /// Values that the input left out.
    pub assumed: Vec<Assumed>,
    /// Work done.
    pub work: Work,
}
