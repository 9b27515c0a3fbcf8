//! Stops of the ring.

use serde::{Deserialize, Serialize};

use crate::quantity::{Force, Length, Text};
use crate::swing::Limit;

/// A stop of the ring in the jump.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct StopPlan {
    /// Name.
    pub name: String,
    /// Anchor where it is tied.
    pub anchor: String,
    /// Slack in it while the jumper waits.
    #[serde(with = "Text::<Length>")]
    pub travel: Length,
    /// Its length from tie-in to tie-in: from the anchor to the waiting ring, and the travel.
    #[serde(with = "Text::<Length>")]
    pub length: Length,
    /// Greatest tension in the jump; zero where it is never reached.
    pub tension: Limit<Force>,
}
