//! What to know about an answer.

use serde::{Deserialize, Serialize};

use super::Run;
use crate::quantity::{MaybeText, Text, Time};

/// A limit of the answer, for people and for programs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Note {
    /// The quasi-static answer is not valid for this line: a wave does not run from ring to anchor and
    /// back within half of the rise time of the catch. A slack line may see several times this value.
    QuasiStaticNotValid {
        /// Name of the line.
        line: String,
        /// Time of the wave, Eq. (12); none for a line without tension.
        #[serde(with = "MaybeText::<Time>")]
        wave_time: Option<Time>,
        /// Rise time of the catch.
        #[serde(with = "Text::<Time>")]
        rise_time: Time,
    },
    /// No rope went taut before the end.
    NeverTaut,
    /// A rope is taut at exit.
    TautAtExit {
        /// Name of the rope.
        rope: String,
    },
    /// The launch zone was never left, so there is no clearance in flight.
    LaunchZoneNotLeft,
    /// The motion had not settled at the horizon: a later extreme is possible.
    NotSettled,
    /// The body touched a wall: nothing is known after it.
    Contact {
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
    /// A limit comes from the run that its rule names, but the other run is worse.
    OtherRunWorse {
        /// The limit.
        limit: String,
        /// The worse run.
        run: Run,
    },
}
