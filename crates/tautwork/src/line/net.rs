//! Points joined by lines: rings, loops of slack rope, a jumper on a haul line.

use std::collections::BTreeMap;

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::LineError;
use super::note::LineNote;
use super::strand::Strand;
use super::tangle::Tangle;
use crate::material::Stretch;
use crate::quantity::check::{finite, non_negative, positive};
use crate::quantity::{Force, Invalid, Length, LineLoad, Quantity, Ratio, Stiffness, Text, Triple};

/// A point of a net.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Node {
    /// Name.
    pub name: String,
    /// Where it is; for a free node, where the search starts.
    #[serde(with = "Triple::<Length>")]
    pub position: [Length; 3],
    /// Whether it is held in place.
    pub fixed: bool,
    /// Dead load, such as a weight: along the span, to the left, up.
    #[serde(with = "Triple::<Force>", default = "no_load")]
    pub load: [Force; 3],
}

fn no_load() -> [Force; 3] {
    [Force::from_si(0.0); 3]
}

/// A line of a net.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NetLine {
    /// Name.
    pub name: String,
    /// Node where it starts.
    pub from: String,
    /// Node where it ends.
    pub to: String,
    /// Length without tension.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// Weight per rest length; zero for a line whose weight does not matter.
    #[serde(with = "Text::<LineLoad>")]
    pub weight: LineLoad,
    /// Stretch.
    pub stretch: Stretch,
}

/// Points and lines.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Net {
    /// Points, at least one of them fixed.
    pub nodes: Vec<Node>,
    /// Lines between them.
    pub lines: Vec<NetLine>,
}

/// A point at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct NodeState {
    /// Name.
    pub name: String,
    /// Where it is.
    #[serde(with = "Triple::<Length>")]
    pub position: [Length; 3],
    /// Force of all its lines on it.
    #[serde(with = "Triple::<Force>")]
    pub pull: [Force; 3],
    /// Stiffness of a free node along x, y and z, the other free nodes giving way.
    #[serde(with = "Triple::<Stiffness>")]
    pub stiffness: [Stiffness; 3],
}

/// A line at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct NetLineState {
    /// Name.
    pub name: String,
    /// Tension where it starts.
    #[serde(with = "Text::<Force>")]
    pub tension_from: Force,
    /// Tension where it ends.
    #[serde(with = "Text::<Force>")]
    pub tension_to: Force,
    /// Pull of the line on the node where it starts.
    #[serde(with = "Triple::<Force>")]
    pub pull_from: [Force; 3],
    /// Pull of the line on the node where it ends.
    #[serde(with = "Triple::<Force>")]
    pub pull_to: [Force; 3],
    /// Length under tension.
    #[serde(with = "Text::<Length>")]
    pub stretched_length: Length,
    /// Its lowest point.
    #[serde(with = "Triple::<Length>")]
    pub lowest: [Length; 3],
    /// Remarks.
    pub notes: Vec<LineNote>,
}

/// A net at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct NetSolution {
    /// Nodes in the order of the input.
    pub nodes: Vec<NodeState>,
    /// Lines in the order of the input.
    pub lines: Vec<NetLineState>,
    /// Largest force left at a free node over the largest force in the net.
    #[serde(with = "Text::<Ratio>")]
    pub residual: Ratio,
    /// Newton steps made.
    pub iterations: u32,
}

/// Where the free points of a net come to rest, and what its lines carry, Eq. (14).
///
/// Lines pull and never push; they may be slack. Valid for dead loads.
///
/// # Errors
/// [`LineError::Invalid`] for values out of range and unknown or repeated names;
/// [`LineError::NotConverged`] where nothing holds a free node.
///
/// # Example
/// ```
/// use tautwork::line::{Net, NetLine, Node, solve_net};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{Quantity, ReadForce, ReadLength, Words};
/// let at = |x: f64, z: f64| [x.meters(), 0.0.meters(), z.meters()];
/// let load = [0.0.newtons(), 0.0.newtons(), (-1000.0).newtons()];
/// let none = [0.0.newtons(); 3];
/// let node = |name: &str, position, fixed, load| Node { name: name.to_owned(), position, fixed, load };
/// let line = |name: &str, from: &str| -> Result<_, tautwork::material::MaterialError> {
///     Ok(NetLine {
///         name: name.to_owned(),
///         from: from.to_owned(),
///         to: "ring".to_owned(),
///         rest_length: 5.0.meters(),
///         weight: 0.0.newtons_per_meter(),
///         stretch: Stretch::axial_rigidity(1e9.newtons())?,
///     })
/// };
/// // Two hardly stretching legs of 5 m over a gap of 6 m: the ring hangs 4 m down, each leg takes
/// // 1000 N / (2 · 4/5).
/// let net = Net {
///     nodes: vec![
///         node("near", at(0.0, 0.0), true, none),
///         node("far", at(6.0, 0.0), true, none),
///         node("ring", at(3.0, -1.0), false, load),
///     ],
///     lines: vec![line("left", "near")?, line("right", "far")?],
/// };
/// let solved = solve_net(&net)?;
/// assert!((solved.nodes[2].position[2].in_meters() + 4.0).abs() < 1e-5);
/// assert!((solved.lines[0].tension_to.in_newtons() - 625.0).abs() < 1e-2);
/// let alone = Net { lines: vec![], ..net };
/// assert!(solve_net(&alone).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn solve_net(net: &Net) -> Result<NetSolution, LineError> {
    let mut tangle = tangle(net)?;
    let balance = tangle.settle()?;
    let pulls = tangle.forces_n();
    // Stiffness of one node with the others giving way: the inverse of the flexibility.
    let flexibility = tangle.stiffness().try_inverse();
    let nodes = net.nodes.iter().enumerate().map(|(i, node)| {
        let stiffness = |axis: usize| match (tangle.free[i], &flexibility) {
            (Some(row), Some(f)) => 1.0 / f[(3 * row + axis, 3 * row + axis)],
            _ => 0.0,
        };
        NodeState {
            name: node.name.clone(),
            position: triple(&tangle.position_m[i]),
            pull: triple(&(pulls[i] - tangle.load_n[i])),
            stiffness: [0, 1, 2].map(|axis| Stiffness::from_si(stiffness(axis))),
        }
    });
    let lines = net.lines.iter().enumerate().map(|(i, line)| {
        let strand = &tangle.strands[i];
        let (from, to) = tangle.ends[i];
        let chord = tangle.position_m[to] - tangle.position_m[from];
        let (near, far) = strand.tensions_n();
        NetLineState {
            name: line.name.clone(),
            tension_from: Force::from_si(near),
            tension_to: Force::from_si(far),
            pull_from: triple(&strand.start_pull_n()),
            pull_to: triple(&strand.end_pull_n()),
            stretched_length: Length::from_si(strand.stretched_m()),
            lowest: triple(&(tangle.position_m[from] + strand.lowest_m(&chord))),
            notes: LineNote::past_table(&strand.law, near.max(far)).into_iter().collect(),
        }
    });
    let solution = NetSolution {
        nodes: nodes.collect(),
        lines: lines.collect(),
        residual: Ratio::from_si(balance.residual),
        iterations: balance.iterations,
    };
    let positions = solution.nodes.iter().flat_map(|n| n.position);
    if positions.into_iter().all(|p| p.si().is_finite()) {
        Ok(solution)
    } else {
        Err(LineError::Overflow { result: "net" })
    }
}

pub(super) fn triple<Q: Quantity>(v: &Vector3<f64>) -> [Q; 3] {
    [v.x, v.y, v.z].map(Q::from_si)
}

pub(super) fn vector<Q: Quantity>(name: &str, v: &[Q; 3]) -> Result<Vector3<f64>, Invalid> {
    Ok(Vector3::new(finite(name, v[0])?, finite(name, v[1])?, finite(name, v[2])?))
}

/// A strand of a checked length, weight and stretch.
pub(super) fn strand(
    rest_length: Length,
    weight: LineLoad,
    stretch: &Stretch,
) -> Result<Strand, Invalid> {
    let rest_m = positive("rest_length", rest_length)?;
    let weight = non_negative("weight", weight)?;
    Ok(Strand::new(rest_m, Vector3::new(0.0, 0.0, -weight), stretch.law().clone()))
}

fn tangle(net: &Net) -> Result<Tangle, LineError> {
    let mut index: BTreeMap<&str, usize> = BTreeMap::new();
    let mut tangle = Tangle {
        position_m: Vec::new(),
        load_n: Vec::new(),
        free: Vec::new(),
        ends: Vec::new(),
        strands: Vec::new(),
    };
    let mut free = 0;
    for (i, node) in net.nodes.iter().enumerate() {
        let within = |e: Invalid| e.within(&format!("nodes[{i}]"));
        tangle.position_m.push(vector("position", &node.position).map_err(within)?);
        tangle.load_n.push(vector("load", &node.load).map_err(within)?);
        tangle.free.push((!node.fixed).then_some(free));
        free += usize::from(!node.fixed);
        if index.insert(&node.name, i).is_some() {
            return Err(named(&format!("nodes[{i}].name"), &node.name, "a name of its own"));
        }
    }
    for (i, line) in net.lines.iter().enumerate() {
        let within = |e: Invalid| e.within(&format!("lines[{i}]"));
        let end = |key: &str, name: &str| {
            index
                .get(name)
                .copied()
                .ok_or_else(|| named(&format!("lines[{i}].{key}"), name, "the name of a node"))
        };
        let (from, to) = (end("from", &line.from)?, end("to", &line.to)?);
        if from == to {
            let allowed = "another node than the line starts at";
            return Err(named(&format!("lines[{i}].to"), &line.to, allowed));
        }
        tangle.ends.push((from, to));
        let strand = strand(line.rest_length, line.weight, &line.stretch).map_err(within)?;
        tangle.strands.push(strand);
    }
    Ok(tangle)
}

fn named(parameter: &str, name: &str, allowed: &str) -> LineError {
    LineError::Invalid(Invalid::new(parameter, format!("\"{name}\""), allowed))
}
