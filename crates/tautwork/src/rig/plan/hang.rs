//! The rig with the jumper on it, at rest: waiting at the exit.

use super::gear::stretch;
use super::lines::{Span, size};
use super::result::Waiting;
use crate::line::{LineError, Net, NetLine, NetSolution, Node, solve_net};
use crate::quantity::{Force, GRAVITY, Length, LineLoad, Quantity};
use crate::rig::{Rig, RigError};

/// Names of the nodes that move.
pub(super) const RING: &str = "ring";
pub(super) const BODY: &str = "jumper";

/// Lines, ring and jump ropes as a net, the jumper at a place, held or free.
pub(super) fn net(
    rig: &Rig,
    spans: &[Span<'_>],
    ring: [Length; 3],
    body: [Length; 3],
    held: bool,
) -> Result<Net, RigError> {
    let down = |kg: f64| [0.0, 0.0, -kg * GRAVITY].map(Force::from_si);
    let node = |name: &str, position, fixed, kg: f64| Node {
        name: name.to_owned(),
        position,
        fixed,
        load: down(kg),
    };
    let mut nodes = vec![
        node(RING, ring, false, rig.ring.mass.si()),
        node(BODY, body, held, rig.jumper.mass.si()),
    ];
    let mut lines = Vec::new();
    for span in spans {
        for (side, anchor, rest_length) in
            [("near", span.near, span.near_length()), ("far", span.far, span.far_length())]
        {
            // Names of lines are unique, so these are too; no document name holds a line break.
            let anchor_name = format!("{side}\n{}", span.entry.name);
            nodes.push(node(&anchor_name, anchor, true, 0.0));
            lines.push(NetLine {
                name: anchor_name.clone(),
                from: anchor_name,
                to: RING.to_owned(),
                rest_length,
                weight: span.weight(),
                stretch: span.stretch.clone(),
            });
        }
    }
    for rope in &rig.jump.rope {
        let cordage = rig.cordage_named(&rope.cordage)?;
        lines.push(NetLine {
            name: rope.name.clone(),
            from: RING.to_owned(),
            to: BODY.to_owned(),
            rest_length: rope.rest_length,
            weight: LineLoad::from_si(cordage.linear_density.si() * GRAVITY),
            stretch: stretch(&cordage.stretch)?,
        });
    }
    Ok(Net { nodes, lines })
}

pub(super) fn position(solved: &NetSolution, name: &str) -> Option<[Length; 3]> {
    solved.nodes.iter().find(|n| n.name == name).map(|n| n.position)
}

/// The jumper at the exit, tied in, held by the edge.
pub(super) fn waiting(
    rig: &Rig,
    spans: &[Span<'_>],
    ring: [Length; 3],
) -> Result<Waiting, RigError> {
    let fail = |e: LineError| RigError::unsolved("waiting at the exit", &e);
    let solved = solve_net(&net(rig, spans, ring, rig.jump.exit, true)?).map_err(fail)?;
    let missing = || RigError::unsolved("waiting at the exit", &"the jumper is not in the result");
    let body = solved.nodes.iter().find(|n| n.name == BODY).ok_or_else(missing)?;
    let ring = position(&solved, RING).ok_or_else(missing)?;
    let loops = solved.lines.iter().filter(|l| rig.jump.rope.iter().any(|r| r.name == l.name));
    let lowest = loops.map(|l| l.lowest[2].si()).fold(f64::INFINITY, f64::min);
    Ok(Waiting {
        ring,
        pull: body.pull,
        pull_size: Force::from_si(size(&body.pull)),
        lowest: Length::from_si(lowest),
    })
}
