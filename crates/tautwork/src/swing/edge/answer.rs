//! What is answered.

use serde::{Deserialize, Serialize};

use super::super::Place;
use super::super::flight::Extreme;
use crate::quantity::{Angle, Force, Length, MaybeText, Text, Time};

/// How a touch ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TouchEnd {
    /// The rope is straight again and leaves the edge.
    LiftsOff,
    /// It slides over an end of the edge.
    SlipsOff,
    /// The samples end.
    Last,
}

/// One time that the rope lies over the edge.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct EdgeTouch {
    /// When it begins.
    #[serde(with = "Text::<Time>")]
    pub begins: Time,
    /// Where on the edge.
    pub place: Place,
    /// When it ends.
    #[serde(with = "Text::<Time>")]
    pub ends: Time,
    /// How.
    pub ending: TouchEnd,
}

/// A rope and an edge over a motion.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct RopeOnEdge {
    /// When the rope first lies over the edge. None if it never does.
    #[serde(with = "MaybeText::<Time>")]
    pub first_touch: Option<Time>,
    /// Each time that it does.
    pub touches: Vec<EdgeTouch>,
    /// Greatest angle over the edge at a sample, and where on the edge.
    pub greatest_turn: Option<Extreme<Angle>>,
    /// Greatest force on the edge at a sample, with friction, and where on the edge.
    pub greatest_force: Option<Extreme<Force>>,
    /// Rub along the rope, Eq. (K7).
    #[serde(with = "Text::<Length>")]
    pub rub_along_rope: Length,
    /// Rub sideways along the edge.
    #[serde(with = "Text::<Length>")]
    pub rub_along_edge: Length,
    /// Both together.
    #[serde(with = "Text::<Length>")]
    pub rub: Length,
    /// Angle over the edge at each sample; zero while it is free.
    pub turn_rad: Vec<f64>,
    /// Force on the edge without friction, Eq. (K5).
    pub force_n: Vec<f64>,
    /// Greatest force on the edge with friction, Eq. (K6).
    pub force_most_n: Vec<f64>,
    /// Least tension behind the edge: the rope runs to the body.
    pub behind_low_n: Vec<f64>,
    /// Greatest tension behind the edge: the rope runs to the anchor.
    pub behind_high_n: Vec<f64>,
    /// Rub up to each sample.
    pub rub_m: Vec<f64>,
}
