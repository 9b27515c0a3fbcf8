//! What the full model answers.

use serde::{Deserialize, Serialize};

use super::super::fault::AfterFault;
use super::super::flight::{
    AnchorResult, Assumed, Catch, Clearance, Ending, Event, Extreme, Rest, RingResult, RopeResult,
    TimeAbove,
};
use super::super::jump::{Place, Run};
use super::mesh::MeshReport;
use crate::quantity::{Energy, Force, Length, MaybeText, Ratio, Speed, Text, Time};

/// Peak tension of a jump rope at both its ends; a wave makes them differ.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FullRope {
    /// Name of the rope.
    pub name: String,
    /// At the body.
    pub body_end: Extreme<Force>,
    /// At the ring.
    pub ring_end: Extreme<Force>,
}

/// What one line carried.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FullLine {
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
    /// Peak tension at the ring, on the near side.
    pub ring_near: Extreme<Force>,
    /// Peak tension at the ring, on the far side.
    pub ring_far: Extreme<Force>,
    /// Greatest tension at an anchor if the line had been at rest at each sampled place of the ring; none
    /// for a line that the ring slides along.
    #[serde(with = "MaybeText::<Force>")]
    pub quasi_static: Option<Force>,
    /// Greater of both anchor peaks over `quasi_static`; none for a line that would carry nothing.
    #[serde(with = "MaybeText::<Ratio>")]
    pub over_quasi_static: Option<Ratio>,
    /// How it slid; none for a line that is tied to the ring.
    pub slid: Option<Slid>,
}

/// How a line slid through the ring, by its rest length from the near anchor.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Slid {
    /// Place of the ring before the jump.
    #[serde(with = "Text::<Length>")]
    pub start: Length,
    /// Nearest to the near anchor.
    #[serde(with = "Text::<Length>")]
    pub least: Length,
    /// Nearest to the far anchor.
    #[serde(with = "Text::<Length>")]
    pub greatest: Length,
    /// Line that rubbed over the ring, to and fro.
    #[serde(with = "Text::<Length>")]
    pub travel: Length,
    /// Lost to friction there.
    #[serde(with = "Text::<Energy>")]
    pub lost: Energy,
}

/// Nearest approach of any jump rope to a wall after the launch zone was left.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RopeClearance {
    /// Name of the wall.
    pub wall: String,
    /// Name of the rope.
    pub rope: String,
    /// Distance, at the samples; zero where the rope crosses the wall.
    #[serde(with = "Text::<Length>")]
    pub least: Length,
    /// When.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
    /// Where on the rope.
    pub place: Place,
}

/// Where the energy went, Eq. (F17).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FullBooks {
    /// Kinetic energy at exit.
    #[serde(with = "Text::<Energy>")]
    pub kinetic_at_exit: Energy,
    /// Stored in ropes and lines at exit.
    #[serde(with = "Text::<Energy>")]
    pub stored_at_exit: Energy,
    /// Height given up by everything that moves.
    #[serde(with = "Text::<Energy>")]
    pub from_height: Energy,
    /// Kinetic energy at the end.
    #[serde(with = "Text::<Energy>")]
    pub kinetic: Energy,
    /// Stored in the ropes at the end.
    #[serde(with = "Text::<Energy>")]
    pub stored_in_ropes: Energy,
    /// Stored in the lines at the end.
    #[serde(with = "Text::<Energy>")]
    pub stored_in_lines: Energy,
    /// Lost in ropes and lines.
    #[serde(with = "Text::<Energy>")]
    pub lost_in_material: Energy,
    /// Lost to drag; negative if the wind gave more than it took.
    #[serde(with = "Text::<Energy>")]
    pub lost_to_drag: Energy,
    /// Lost to ring damping.
    #[serde(with = "Text::<Energy>")]
    pub lost_at_ring: Energy,
    /// Lost to friction of lines on the ring.
    #[serde(with = "Text::<Energy>")]
    pub lost_to_friction: Energy,
    /// Lost by masses that pass the ring where it slides: a figure of the mesh, Eq. (F23). Negative if
    /// they gained.
    #[serde(with = "Text::<Energy>")]
    pub lost_in_passing: Energy,
    /// Gone with the segments that broke.
    #[serde(with = "Text::<Energy>")]
    pub failed: Energy,
    /// Greatest error of the books at any look over the energy of the fall, Eq. (F18).
    #[serde(with = "Text::<Ratio>")]
    pub drift: Ratio,
}

/// The motion at equal spacing, in SI.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct FullSeries {
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
    /// Tension of each rope at the body.
    pub rope_body_tension_n: Vec<Vec<f64>>,
    /// Tension of each rope at the ring.
    pub rope_ring_tension_n: Vec<Vec<f64>>,
    /// Tension of each line at its near anchor.
    pub line_near_tension_n: Vec<Vec<f64>>,
    /// Tension of each line at its far anchor.
    pub line_far_tension_n: Vec<Vec<f64>>,
    /// Rest length of each line from its near anchor to the ring.
    pub ring_on_line_m: Vec<Vec<f64>>,
}

/// A limit of the answer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum FullNote {
    /// The distance from ring to body never reached the rest length of a rope.
    NeverTaut,
    /// The body did not leave the launch zone, so there is no clearance in flight.
    LaunchZoneNotLeft,
    /// The motion had not settled at the horizon: a later extreme is possible.
    NotSettled,
    /// The body touched a wall: nothing is known after it.
    Contact {
        /// Name of the wall.
        wall: String,
        /// Speed at contact.
        #[serde(with = "Text::<Speed>")]
        speed: Speed,
    },
    /// A jump rope crossed a wall; that it would lie on it is not modelled.
    RopeCrossedWall {
        /// Name of the rope.
        rope: String,
        /// Name of the wall.
        wall: String,
    },
    /// The rest position could not be found.
    NoRest {
        /// Why.
        problem: String,
    },
    /// The stretch of a line went past the last point of its table.
    PastTable {
        /// Name of the line.
        line: String,
    },
    /// The ring slid along a line to an anchor.
    RanToAnchor {
        /// Name of the line.
        line: String,
    },
    /// The energy books are off by more than the mesh allows: allow more steps or fewer nodes.
    CoarseStep,
}

/// The whole history of one run of the full model.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FullFlight {
    /// Which end of the ropes' stretch.
    pub run: Run,
    /// Why it ended.
    pub ending: Ending,
    /// When it ended.
    #[serde(with = "Text::<Time>")]
    pub duration: Time,
    /// What happened, in order of time.
    pub events: Vec<Event>,
    /// The first time the distance from ring to body reached the rest length of a rope.
    pub catch: Option<Catch>,
    /// Peak of the resultant rope force on the body.
    pub resultant: Extreme<Force>,
    /// That peak over the weight of the jumper.
    #[serde(with = "Text::<Ratio>")]
    pub tension_over_weight: Ratio,
    /// Time of the resultant above each timed force.
    pub time_above: Vec<TimeAbove>,
    /// Lowest point of the body over the whole history.
    pub lowest: Extreme<Length>,
    /// Lowest point of the first swing only.
    pub first_lowest: Option<Extreme<Length>>,
    /// Top speed of the body.
    pub top_speed: Extreme<Speed>,
    /// Peak tension of each rope.
    pub ropes: Vec<FullRope>,
    /// What each line carried.
    pub lines: Vec<FullLine>,
    /// Peak tension of each stop, with the ring's place.
    pub stops: Vec<RopeResult>,
    /// Peak pull of all lines and stops on each anchor.
    pub anchors: Vec<AnchorResult>,
    /// How far the ring moved.
    pub ring: RingResult,
    /// Nearest wall before the launch zone was left; none without walls.
    pub exit_clearance: Option<Clearance>,
    /// Nearest approach of the body to each wall after the launch zone was left.
    pub clearances: Vec<Clearance>,
    /// Nearest approach of a jump rope to each wall after the launch zone was left.
    pub rope_clearances: Vec<RopeClearance>,
    /// Where body and ring come to rest; none without ropes or lines.
    pub rest: Option<Rest>,
    /// When the motion had settled; none if it had not.
    #[serde(with = "MaybeText::<Time>")]
    pub settled: Option<Time>,
    /// What happened after the first fault; none if nothing failed.
    pub after_fault: Option<AfterFault>,
    /// Where the energy went.
    pub energy: FullBooks,
    /// The motion at equal spacing.
    pub series: FullSeries,
    /// What the mesh came to.
    pub mesh: MeshReport,
    /// Limits of the answer.
    pub notes: Vec<FullNote>,
    /// Values that the input left out.
    pub assumed: Vec<Assumed>,
}
