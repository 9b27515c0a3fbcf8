//! What fails in flight, and when.

use serde::{Deserialize, Serialize};

use super::SwingError;
use super::flight::{Clearance, Extreme, RopeResult};
use super::jump::Jump;
use crate::quantity::{Force, Length, Text, Time};

/// A part that fails during the jump, or is missing before it.
///
/// A rope or a stop that fails is gone. A line that fails at an anchor still holds the ring from its other anchor;
/// one that fails at the ring is gone altogether. The moving mass of the ring stays as it was, unless the part is
/// missing before the jump.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fault {
    /// What fails.
    pub part: Part,
    /// When.
    pub when: When,
}

/// A part of the rig, by name.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Part {
    /// A jump rope.
    Rope {
        /// Its name.
        name: String,
    },
    /// A line, at the ring: both of its halves are lost.
    Line {
        /// Its name.
        name: String,
    },
    /// A line at its near anchor, or the anchor itself.
    NearAnchor {
        /// Name of the line.
        name: String,
    },
    /// A line at its far anchor, or the anchor itself.
    FarAnchor {
        /// Name of the line.
        name: String,
    },
    /// A stop of the ring.
    Stop {
        /// Its name.
        name: String,
    },
}

/// When a part fails.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum When {
    /// Before the jump: the ring waits where the other parts hold it, and no part fails in flight. Only in the
    /// reduced model.
    BeforeExit,
    /// At the greatest tension that the part has in the jump in which nothing fails.
    PartPeak,
    /// At the greatest force on the body in the jump in which nothing fails.
    BodyPeak,
    /// At a time after the exit.
    Time {
        /// The time.
        #[serde(with = "Text::<Time>")]
        at: Time,
    },
}

/// What happened after the first fault.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct AfterFault {
    /// When the first part failed.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
    /// Peak of the resultant rope force on the body.
    pub resultant: Extreme<Force>,
    /// Peak tension of each rope.
    pub ropes: Vec<RopeResult>,
    /// Peak tension of each stop, with the ring's place.
    pub stops: Vec<RopeResult>,
    /// Peak tension of each line at its near anchor, with its name.
    pub lines_near: Vec<RopeResult>,
    /// Peak tension of each line at its far anchor, with its name.
    pub lines_far: Vec<RopeResult>,
    /// Peak force on each anchor, in the order of the results.
    pub anchors: Vec<Extreme<Force>>,
    /// Lowest point of the body.
    pub lowest: Extreme<Length>,
    /// Lowest point of the ring.
    pub ring_lowest: Option<Extreme<Length>>,
    /// Nearest approach to each wall outside the launch zone; empty in the full model.
    pub clearances: Vec<Clearance>,
}

impl Part {
    /// Place of the part in the list of ropes or lines of a jump.
    pub(super) fn index(&self, jump: &Jump, key: &str) -> Result<usize, SwingError> {
        let found = match self {
            Self::Rope { name } => jump.ropes.iter().position(|rope| rope.name == *name),
            Self::Line { name } | Self::NearAnchor { name } | Self::FarAnchor { name } => {
                jump.lines.iter().position(|line| line.name == *name)
            }
            Self::Stop { name } => jump.stops.iter().position(|stop| stop.name == *name),
        };
        let (Self::Rope { name }
        | Self::Line { name }
        | Self::NearAnchor { name }
        | Self::FarAnchor { name }
        | Self::Stop { name }) = self;
        let problem = format!("no part is named \"{name}\"");
        found.ok_or_else(|| SwingError::contradiction(&format!("{key}.part"), &problem))
    }
}
