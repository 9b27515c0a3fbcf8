//! How a ring sits on a line, and how it came to rest.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use crate::line::{BundleLine, BundleSolution, StiffnessRow};
use crate::quantity::{Angle, Force, Length, MaybeText, Quantity, Ratio, Text};

/// How a ring sits on a line.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum RingHold {
    /// Tied: the lengths of the two sides do not change.
    #[default]
    Tied,
    /// The line runs through the ring.
    Slides {
        /// Coefficient of friction between ring and line; zero for a ring that runs freely.
        #[serde(with = "Text::<Ratio>")]
        friction: Ratio,
        /// Least rest length on the near side: a stop, such as a knot. The near anchor if left out.
        #[serde(with = "MaybeText::<Length>", default)]
        from: Option<Length>,
        /// Largest rest length on the near side. The far anchor if left out.
        #[serde(with = "MaybeText::<Length>", default)]
        to: Option<Length>,
    },
}

/// A line of a bundle and how the ring sits on it. For a ring that slides, the two lengths of the line
/// say where it is at first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RingLine {
    /// The line.
    pub line: BundleLine,
    /// How the ring sits on it; tied if left out.
    #[serde(default)]
    pub hold: RingHold,
}

/// What holds the ring along a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RingHoldKind {
    /// A knot.
    Tied,
    /// Friction, with some to spare.
    Friction,
    /// Friction at its limit; without friction, equal tensions on both sides.
    Limit,
    /// The stop on the near side.
    NearStop,
    /// The stop on the far side.
    FarStop,
}

/// How the ring came to rest on a line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RingHoldState {
    /// Name of the line.
    pub name: String,
    /// Rest length on the near side.
    #[serde(with = "Text::<Length>")]
    pub near_length: Length,
    /// What holds the ring.
    pub kind: RingHoldKind,
    /// Angle by which the ring turns the line.
    #[serde(with = "Text::<Angle>")]
    pub wrap: Angle,
    /// Force of a stop on the ring beyond what friction holds, Eq. (R3).
    #[serde(with = "Text::<Force>")]
    pub stop_force: Force,
}

/// The ring and its lines at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RingsState {
    /// Place, tensions, shares and the stiffness of the ring while nothing slides.
    pub bundle: BundleSolution,
    /// How the ring sits on each line, in the order of the input.
    pub holds: Vec<RingHoldState>,
    /// Stiffness while the ring slides without friction on the lines that it is not tied into and not
    /// stopped on, Eq. (R6).
    pub stiffness_sliding: [StiffnessRow; 3],
    /// Rounds over the sliding lines that it took.
    pub rounds: u32,
}

impl RingsState {
    pub(super) fn ring_m(&self) -> Vector3<f64> {
        Vector3::from(self.bundle.ring.map(Quantity::si))
    }
}
