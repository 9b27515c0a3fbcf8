//! A rope from the load over edges in space to the hand.

use std::f64::consts::TAU;

use serde::{Deserialize, Serialize};

use super::super::{Friction, Interval, Note, PulleyError, Rope, Solution, State, System, solve};
use crate::quantity::check::{count, positive};
use crate::quantity::{Angle, Force, Length, Quantity, Ratio, Text, Triple};

/// A rope over edges.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RopeOverEdges {
    /// Pull of the load.
    #[serde(with = "Text::<Force>")]
    pub load: Force,
    /// Where the load is: x along the span, y to the left, z up.
    #[serde(with = "Triple::<Length>")]
    pub from: [Length; 3],
    /// What the rope runs over, from the load to the hand.
    pub edges: Vec<RopeEdge>,
    /// Where the hand is.
    #[serde(with = "Triple::<Length>")]
    pub to: [Length; 3],
}

/// An edge, a post, a bar, a carabiner.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RopeEdge {
    /// Name.
    pub name: String,
    /// Where it is.
    #[serde(with = "Triple::<Length>")]
    pub at: [Length; 3],
    /// What it takes.
    pub friction: Friction,
    /// Whole turns around it besides the one that the directions show; none if left out.
    #[serde(default)]
    pub turns: u32,
}

/// What a rope over edges gives.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EdgesHold {
    /// Hand forces that hold, from the one at which the load runs to the one at which it rises.
    pub hold: Interval,
    /// Sum of all wraps.
    #[serde(with = "Text::<Angle>")]
    pub total_wrap: Angle,
    /// Greatest over least hand force that holds.
    #[serde(with = "Text::<Ratio>")]
    pub ratio: Ratio,
    /// Each edge.
    pub edges: Vec<EdgeForce>,
    /// What to know about the result.
    pub notes: Vec<Note>,
}

/// One edge.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EdgeForce {
    /// Name.
    pub name: String,
    /// Wrap, whole turns included.
    #[serde(with = "Text::<Angle>")]
    pub wrap: Angle,
    /// Tension behind over tension ahead.
    #[serde(with = "Text::<Ratio>")]
    pub efficiency: Ratio,
    /// Force on it while the load rises.
    #[serde(with = "Text::<Force>")]
    pub raising: Force,
    /// The same along x, y and z.
    #[serde(with = "Triple::<Force>")]
    pub raising_xyz: [Force; 3],
    /// Force on it while the load runs down.
    #[serde(with = "Text::<Force>")]
    pub lowering: Force,
    /// Heat for each metre of rope that runs, raising; in J/m.
    pub heat_raising_j_per_m: f64,
    /// The same lowering.
    pub heat_lowering_j_per_m: f64,
}

/// What holds and raises a load by a rope over edges, Eq. (C2) to (C5).
///
/// # Errors
/// [`PulleyError`] for values out of range, two edges of one name (`load` and `hand` are taken), two places on each
/// other, and where the tension leaves the number range.
///
/// # Example
/// ```
/// use tautwork::pulley::{Friction, RopeEdge, RopeOverEdges, over_edges};
/// use tautwork::quantity::{ReadForce, Words};
/// // 100 kg over a bar with a quarter turn, friction 0.3: from 612 N to 1572 N.
/// let at = |x: f64, z: f64| [x.meters(), 0.0.meters(), z.meters()];
/// let friction = Friction::Capstan { mu: 0.3.ratio() };
/// let bar = RopeEdge { name: "bar".to_owned(), at: at(0.0, 0.0), friction, turns: 0 };
/// let rope = RopeOverEdges {
///     load: 981.0.newtons(), from: at(0.0, -10.0), edges: vec![bar], to: at(5.0, 0.0),
/// };
/// let answer = over_edges(&rope)?;
/// assert!((answer.hold.low.in_newtons() - 612.4).abs() < 0.1);
/// assert!((answer.hold.high.in_newtons() - 1571.5).abs() < 0.1);
/// assert!(over_edges(&RopeOverEdges { load: 0.0.newtons(), ..rope }).is_err());
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
///
/// # Source
/// Euler–Eytelwein; Meriam & Kraige, *Statics*, Sample Problem 6/9 (from memory) is the example.
pub fn over_edges(rope: &RopeOverEdges) -> Result<EdgesHold, PulleyError> {
    positive("load", rope.load)?;
    count("edges", rope.edges.len(), 1, 1000)?;
    let mut points = vec![rope.from];
    points.extend(rope.edges.iter().map(|e| e.at));
    points.push(rope.to);
    let first: [f64; 3] = std::array::from_fn(|i| points[1][i].si() - points[0][i].si());
    let mut system = System::new().load_along("load", rope.from, first);
    let mut path = Rope::new("rope", "load", "hand");
    // Without loss first: it gives the wraps in space, to which the turns are added.
    let bare = Friction::Fixed { efficiency: Ratio::from_si(1.0) };
    for edge in &rope.edges {
        system = system.anchor(&edge.name, edge.at);
        path = path.over(&edge.name, bare);
    }
    system = system.hand("hand", rope.to).rope(path);
    let geometry = solve(&system, rope.load)?;
    let sheaves = system.ropes.iter_mut().flat_map(|r| &mut r.over);
    for ((sheave, edge), turn) in sheaves.zip(&rope.edges).zip(&geometry.turns) {
        sheave.friction = edge.friction;
        if edge.turns > 0 {
            let turns = count("turns", edge.turns as usize, 0, 1000)?;
            sheave.wrap = Some(Angle::from_si(turn.wrap.si() + turns as f64 * TAU));
        }
    }
    answer(rope, &solve(&system, rope.load)?)
}

fn answer(rope: &RopeOverEdges, solved: &Solution) -> Result<EdgesHold, PulleyError> {
    // A rope with one load and no block always runs back.
    let lowering = solved.lowering.as_ref().unwrap_or(&solved.raising);
    let drop = |state: &State, i: usize| {
        (state.parts[i + 1].tension.si() - state.parts[i].tension.si()).abs()
    };
    let ratio = solved.hold.high.si() / solved.hold.low.si();
    if !ratio.is_finite() {
        return Err(PulleyError::Overflow { result: "ratio" });
    }
    let edges = rope.edges.iter().zip(&solved.turns).enumerate();
    Ok(EdgesHold {
        hold: solved.hold,
        total_wrap: Angle::from_si(solved.turns.iter().map(|t| t.wrap.si()).sum()),
        ratio: Ratio::from_si(ratio),
        edges: edges
            .map(|(i, (edge, turn))| EdgeForce {
                name: edge.name.clone(),
                wrap: turn.wrap,
                efficiency: turn.efficiency,
                raising: solved.raising.bodies[i + 1].resultant,
                raising_xyz: solved.raising.bodies[i + 1].force,
                lowering: lowering.bodies[i + 1].resultant,
                heat_raising_j_per_m: drop(&solved.raising, i),
                heat_lowering_j_per_m: drop(lowering, i),
            })
            .collect(),
        notes: solved.notes.clone(),
    })
}
