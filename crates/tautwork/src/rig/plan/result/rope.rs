//! Rope to cut.

use serde::{Deserialize, Serialize};

use crate::quantity::{Length, Mass, Text};

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
