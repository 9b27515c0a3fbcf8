//! Lengths of the lines.

use serde::{Deserialize, Serialize};

use crate::quantity::{Length, Mass, Text};

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
