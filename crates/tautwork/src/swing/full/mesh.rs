//! How finely lines and ropes are divided, and what the full model needs beyond the jump.

use serde::{Deserialize, Serialize};

use crate::quantity::{AxialRigidity, Length, MaybeText, Ratio, Text, Time};

/// Loss of a line: a viscous arm beside its spring.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LineLoss {
    /// Name of the line; its stretch must be linear.
    pub line: String,
    /// Rigidity of the arm.
    #[serde(with = "Text::<AxialRigidity>")]
    pub arm: AxialRigidity,
    /// Relaxation time of the arm.
    #[serde(with = "Text::<Time>")]
    pub relaxation: Time,
}

/// A line that the ring slides along.
///
/// `near_length` and `far_length` of the line then only add up to its length, and say where the ring was
/// put: there it stays while friction holds it; else it starts where friction just holds it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Slide {
    /// Name of the line; it has no loss of its own.
    pub line: String,
    /// Coefficient of friction between ring and line; zero for a ring that runs freely.
    #[serde(with = "Text::<Ratio>")]
    pub friction: Ratio,
    /// Least rest length on the near side: a stop, such as a knot. The near anchor if left out.
    #[serde(with = "MaybeText::<Length>", default)]
    pub from: Option<Length>,
    /// Largest rest length on the near side. The far anchor if left out.
    #[serde(with = "MaybeText::<Length>", default)]
    pub to: Option<Length>,
}

/// Masses along lines and ropes, and steps.
///
/// # Example
/// ```
/// use tautwork::swing::Mesh;
/// let mesh = Mesh { nodes_per_rope: 40, ..Mesh::default() };
/// assert_eq!((mesh.nodes_per_line, mesh.nodes_per_rope), (66, 40));
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Mesh {
    /// Moving masses on each line, the ring not counted; shared by its halves as their lengths. A line
    /// without mass has none.
    pub nodes_per_line: usize,
    /// Moving masses on each jump rope, ring and body not counted.
    pub nodes_per_rope: usize,
    /// First step tried over the longest stable one, Eq. (F12): from 0.01 to 0.95.
    #[serde(with = "Text::<Ratio>")]
    pub step_share: Ratio,
    /// Greatest error of the energy books over the energy of the fall, Eq. (F18), from 1e-9 to 1: a run
    /// that exceeds it starts again with half the step.
    #[serde(with = "Text::<Ratio>")]
    pub drift: Ratio,
    /// Most steps of all attempts, at most a hundred million. Those of the first are known before it. The
    /// last attempt that can be afforded stands, with a note if it exceeds `drift`.
    pub most_steps: usize,
    /// Drag coefficient times diameter of each jump rope, for drag across it. The `rope_drag_area` of the
    /// jump then does not count. None for ropes without drag of their own.
    #[serde(with = "MaybeText::<Length>")]
    pub rope_drag_width: Option<Length>,
    /// The same for each line; none for lines without drag.
    #[serde(with = "MaybeText::<Length>")]
    pub line_drag_width: Option<Length>,
    /// Losses in lines; a line that is not named has none.
    pub line_losses: Vec<LineLoss>,
    /// Lines that the ring slides along; it is tied to the others.
    pub slides: Vec<Slide>,
}

impl Default for Mesh {
    fn default() -> Self {
        use crate::quantity::Words;
        Self {
            nodes_per_line: 66,
            nodes_per_rope: 66,
            step_share: 0.25.ratio(),
            drift: 1e-3.ratio(),
            most_steps: 5_000_000,
            rope_drag_width: None,
            line_drag_width: None,
            line_losses: Vec::new(),
            slides: Vec::new(),
        }
    }
}

/// What the mesh came to.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct MeshReport {
    /// Moving masses, ring and body included.
    pub nodes: usize,
    /// Segments.
    pub segments: usize,
    /// Step taken.
    #[serde(with = "Text::<Time>")]
    pub step: Time,
    /// Longest stable step, Eq. (F11).
    #[serde(with = "Text::<Time>")]
    pub longest_stable_step: Time,
    /// Steps made.
    pub steps: usize,
    /// Steps of all attempts.
    pub all_steps: usize,
}
