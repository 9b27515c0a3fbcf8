//! Anchors under their greatest pull: shares of the legs, and the loss of each part.

mod fixing;
mod lost;
mod net;
mod parts;
mod slack;
#[cfg(test)]
mod tests;

pub(super) use self::net::{net, rated_cord, rated_fixing, rated_part, weak_place};
pub(super) use self::parts::{idle, parts};
pub(super) use self::slack::{Pull, shifted};

use self::lost::losses;
use self::slack::dot;
use super::flight::anchor_in;
use super::lines::{Span, distance_m, size};
use super::ratings::from_limit;
use super::result::{AnchorPlan, FixingPlan, KnotPlan, LegPlan, StatePlan, WavePlan};
use crate::anchor::{AnchorSystem, FixedState, JunctionState, LegState, system_rest};
use crate::line::{HalfLine, RingField};
use crate::quantity::{Force, Length, Quantity};
use crate::rig::{AnchorEntry, FixingEntry, Rig, RigError};
use crate::swing::{Limit, Outlook, Place};

/// What pulls on the anchors.
pub(super) struct Pulls<'a> {
    /// Standing states, each with what it is.
    pub states: Vec<(&'static str, &'a StatePlan)>,
    /// Jumps, each with what it is: of both runs the peak of each anchor is looked at.
    pub jumps: Vec<(String, &'a Outlook)>,
    pub waves: Option<&'a WavePlan>,
}

/// Greatest pull of all lines and stops on each anchor, and what its legs make of it.
pub(super) fn anchors(
    rig: &Rig,
    spans: &[Span<'_>],
    pulls: &Pulls<'_>,
) -> Result<Vec<AnchorPlan>, RigError> {
    let mut field = RingField::new(spans.iter().flat_map(halves).collect());
    let mut worst = vec![(Pull::none(), "no load".to_owned()); rig.anchor.len()];
    let mut look = |at: usize, ring_m: [f64; 3], peak: Option<Force>, from: String| {
        field.force(ring_m).map_err(|e| RigError::unsolved("pull on the anchors", &e))?;
        let anchor = &rig.anchor[at];
        let lines = pull_on(&field, spans, &anchor.name);
        let force = peak.map_or(lines, |peak| with_stops(rig, anchor, lines, ring_m, peak));
        if size(&force) > size(&worst[at].0.force) {
            worst[at] = (Pull { force, ring_m }, from);
        }
        Ok(())
    };
    for at in 0..rig.anchor.len() {
        for (what, state) in &pulls.states {
            look(at, state.ring.map(Quantity::si), None, format!("{what}, {}", state.name))?;
        }
        for (what, jump) in &pulls.jumps {
            for flight in [&jump.stiff, &jump.soft] {
                let Some(extreme) = anchor_in(flight, rig, at) else { continue };
                let Place { x, y, z } = extreme.place;
                let from = from_limit(what, &Limit { run: flight.run, extreme });
                look(at, [x, y, z].map(Quantity::si), Some(extreme.value), from)?;
            }
        }
    }
    let waves = pulls.waves;
    let each = rig.anchor.iter().zip(worst);
    each.map(|(anchor, (pull, from))| {
        let peaks = waves.iter().flat_map(|waves| &waves.anchors);
        let snap = peaks.filter(|peak| peak.anchor == anchor.name).map(|peak| &peak.peak);
        let size_n = size(&pull.force);
        match snap.max_by(|a, b| a.extreme.value.si().total_cmp(&b.extreme.value.si())) {
            // As hard as the lines snap, in the direction in which they pull hardest otherwise.
            Some(snap) if snap.extreme.value.si() > size_n && size_n > 0.0 => {
                let more = snap.extreme.value.si() / size_n;
                let pull = Pull { force: pull.force.map(|f| f * more), ..pull };
                plan(rig, spans, anchor, &pull, &from_limit("jump with waves", snap))
            }
            _ => plan(rig, spans, anchor, &pull, &from),
        }
    })
    .collect()
}

/// Both halves of a line as the ring feels them.
pub(super) fn halves(span: &Span<'_>) -> [HalfLine; 2] {
    let half = |anchor: [Length; 3], length: Length| HalfLine {
        anchor_m: anchor.map(Quantity::si),
        rest_m: length.si(),
        load_n_per_m: [0.0, 0.0, -span.weight().si()],
        law: span.stretch.law().clone(),
    };
    [half(span.near, span.near_length()), half(span.far, span.far_length())]
}

/// The pull on an anchor at its peak, with that of the lines there: what is beyond it comes from the stops at this
/// anchor, all of which pull straight to the ring.
pub(super) fn with_stops(
    rig: &Rig,
    anchor: &AnchorEntry,
    lines: [Force; 3],
    ring_m: [f64; 3],
    peak: Force,
) -> [Force; 3] {
    if !rig.stop.iter().any(|stop| stop.anchor(rig) == anchor.name) {
        return lines;
    }
    let far_m = distance_m(&anchor.position, &ring_m.map(Length::from_si));
    let way = [0, 1, 2].map(|i| (ring_m[i] - anchor.position[i].si()) / far_m);
    let along_n = dot(&lines, &way);
    // |lines + stops way| is the peak.
    let square = along_n * along_n + (peak.si() - size(&lines)) * (peak.si() + size(&lines));
    let stops_n = square.sqrt() - along_n;
    if stops_n > 0.0 && stops_n.is_finite() {
        return [0, 1, 2].map(|i| Force::from_si(lines[i].si() + stops_n * way[i]));
    }
    lines
}

/// Sum of the pulls of the lines that end at an anchor.
fn pull_on(field: &RingField, spans: &[Span<'_>], name: &str) -> [Force; 3] {
    let mut sum = [Force::from_si(0.0); 3];
    for (i, span) in spans.iter().enumerate() {
        for (side, end) in [&span.entry.from, &span.entry.to].into_iter().enumerate() {
            let pull = field.anchor_pull_n(2 * i + side).filter(|_| end == name);
            for (s, p) in sum.iter_mut().zip(pull.unwrap_or_default()) {
                *s += Force::from_si(p);
            }
        }
    }
    sum
}

fn plan(
    rig: &Rig,
    spans: &[Span<'_>],
    anchor: &AnchorEntry,
    pull: &Pull,
    from: &str,
) -> Result<AnchorPlan, RigError> {
    let force = pull.force;
    let mut plan = AnchorPlan {
        name: anchor.name.clone(),
        pull: force,
        pull_size: Force::from_si(size(&force)),
        from: from.to_owned(),
        legs: Vec::new(),
        knots: Vec::new(),
        fixings: Vec::new(),
        factor: None,
        weakest: None,
        redundancy: String::new(),
        lost: Vec::new(),
        pairs: Vec::new(),
    };
    let Some(system) = net(rig, anchor)?.filter(|_| size(&force) > 0.0) else { return Ok(plan) };
    let system = AnchorSystem { pull: force, ..system };
    let fail = |e| RigError::unsolved(&format!("anchor {}", anchor.name), &e);
    let rest = system_rest(&system).map_err(fail)?;
    plan.legs = rest.legs.iter().map(leg).collect();
    // The master point is the first junction, and fixings without a name are the last.
    plan.knots = rest.junctions.iter().skip(1).map(knot).collect();
    plan.fixings = anchor.fixing.iter().zip(&rest.fixed).map(fixing_plan).collect();
    plan.factor = rest.least_factor;
    plan.weakest = rest.weakest.as_ref().map(|name| weak_place(&system, name));
    let lost = losses(anchor, &system, &|way| pull.line(spans, &anchor.name, way));
    (plan.lost, plan.pairs, plan.redundancy) = (lost.single, lost.pairs, lost.redundancy);
    Ok(plan)
}

fn leg(leg: &LegState) -> LegPlan {
    LegPlan {
        name: leg.name.clone(),
        tension: leg.tension,
        share: leg.share,
        factor: leg.factor,
        governed_by: leg.governed_by.clone(),
    }
}

fn knot(knot: &JunctionState) -> KnotPlan {
    KnotPlan { name: knot.name.clone(), position: knot.position, loose: knot.loose }
}

fn fixing_plan((entry, found): (&FixingEntry, &FixedState)) -> FixingPlan {
    FixingPlan {
        name: found.name.clone(),
        force: found.force,
        size: found.size,
        factor: found.factor,
        hold: if found.size.si() > 0.0 { fixing::hold(entry, found.force) } else { None },
    }
}
