//! One line of several pieces with loads on it, in space.

use serde::{Deserialize, Serialize};

use super::LineError;
use super::chain_state::{ChainSolution, Hung};
use super::drag::Gust;
use super::elastic::ElasticLine;
use crate::material::{Condition, Stretch};
use crate::quantity::{Force, Length, LineLoad, Quantity, Text, Triple};

/// A piece of a chain.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChainPiece {
    /// Length without tension.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// Weight per rest length.
    #[serde(with = "Text::<LineLoad>")]
    pub weight: LineLoad,
    /// Wind force per rest length: along the span, to the left, up. None if left out.
    #[serde(with = "Triple::<LineLoad>", default = "calm")]
    pub wind: [LineLoad; 3],
    /// Stretch.
    pub stretch: Stretch,
    /// Wind by its speed, added to `wind`, Eq. (17). None if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gust: Option<Gust>,
    /// Where the gust acts across: 0, or left out, across the chord of the whole chain, as a dead load;
    /// n, up to 1000, across each of n equal parts of the piece (cut once more at loads) as it lies in
    /// the shape found.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub gust_parts: usize,
    /// What has changed its rest length since it was measured. Places along the chain, weights and winds
    /// still count on the rest length as measured; strain counts on the changed one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub condition: Option<Condition>,
}

impl ChainPiece {
    /// A piece in still air. Nothing is checked before it is solved.
    pub fn new(rest_length: Length, weight: LineLoad, stretch: Stretch) -> Self {
        Self {
            rest_length,
            weight,
            wind: calm(),
            stretch,
            gust: None,
            gust_parts: 0,
            condition: None,
        }
    }
}

fn calm() -> [LineLoad; 3] {
    [LineLoad::from_si(0.0); 3]
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde calls it so")]
fn is_zero(count: &usize) -> bool {
    *count == 0
}

/// A load tied to a point of a chain. A load of zero marks a point whose place and tension are wanted.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChainLoad {
    /// Rest length from the near end to the load.
    #[serde(with = "Text::<Length>")]
    pub at: Length,
    /// Force: along the span, to the left, up. A weight is negative in the third.
    #[serde(with = "Triple::<Force>")]
    pub force: [Force; 3],
}

/// A line of several pieces between two points.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Chain {
    /// Near end.
    #[serde(with = "Triple::<Length>")]
    pub near: [Length; 3],
    /// Far end.
    #[serde(with = "Triple::<Length>")]
    pub far: [Length; 3],
    /// Pieces from the near end to the far end.
    pub pieces: Vec<ChainPiece>,
    /// Loads tied to the line, in any order.
    #[serde(default)]
    pub loads: Vec<ChainLoad>,
    /// Points of the profile, at equal spacing of rest length; 101 if left out.
    #[serde(default = "usual_samples")]
    pub samples: usize,
}

impl ChainLoad {
    /// A weight at a rest length.
    pub(super) fn weight(at_m: f64, weight_n: f64) -> Self {
        Self { at: Length::from_si(at_m), force: [0.0, 0.0, -weight_n].map(Force::from_si) }
    }

    /// A point whose place and tension are wanted.
    pub(super) fn mark(at_m: f64) -> Self {
        Self { at: Length::from_si(at_m), force: [Force::from_si(0.0); 3] }
    }
}

impl Chain {
    /// A line of one piece from the origin, with loads on it.
    pub(super) fn of(line: &ElasticLine, loads: Vec<ChainLoad>) -> Self {
        let zero = Length::from_si(0.0);
        Self {
            near: [zero; 3],
            far: [line.span, zero, line.rise],
            pieces: vec![ChainPiece::new(line.rest_length, line.weight, line.stretch.clone())],
            loads,
            samples: 2,
        }
    }
}

pub(super) fn usual_samples() -> usize {
    101
}

/// A line of any number of pieces with any number of loads tied to it, in space, Eq. (3) to (10).
///
/// Linear or curved stretch, wind as a force per rest length or by its speed, slack or taut, up to ends on
/// one vertical. What is anywhere along it: [`chain_at`](super::chain_at).
///
/// # Errors
/// [`LineError::Invalid`] for no pieces, values out of range and loads off the line;
/// [`LineError::NotUnique`] for a chain that is slack without load; [`LineError::NotConverged`] where a
/// part between loads hangs slack without weight, and, as [`LineError::Overflow`], at the edge of the
/// range of numbers.
///
/// # Example
/// ```
/// use tautwork::line::{Chain, ChainLoad, ChainPiece, solve_chain};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, ReadLength, Words};
/// let none = 0.0.newtons_per_meter();
/// let chain = Chain {
///     near: [0.0.meters(); 3],
///     far: [6.0.meters(), 0.0.meters(), 0.0.meters()],
///     pieces: vec![ChainPiece::new(10.0.meters(), none, Stretch::axial_rigidity(1e9.newtons())?)],
///     loads: vec![ChainLoad {
///         at: 5.0.meters(),
///         force: [0.0.newtons(), 0.0.newtons(), (-1000.0).newtons()],
///     }],
///     samples: 11,
/// };
/// // Two halves of 5 m over 6 m: 4 m of sag, 625 N.
/// let solved = solve_chain(&chain)?;
/// assert!((solved.loads[0].below_chord.in_meters() - 4.0).abs() < 1e-5);
/// assert!((solved.tension_near.in_newtons() - 625.0).abs() < 1e-2);
/// let off = Chain { loads: vec![ChainLoad { at: 11.0.meters(), ..chain.loads[0].clone() }], ..chain };
/// assert!(solve_chain(&off).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn solve_chain(chain: &Chain) -> Result<ChainSolution, LineError> {
    Hung::new(chain)?.report(chain)
}
