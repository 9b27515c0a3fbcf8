//! Standing states, the jumper's weight on them, and the load sweep.

use super::lines::{Span, bundle, down, size};
use super::result::{Engagement, LineState, StatePlan, SweepStep};
use crate::line::{BundleSolution, LineError, bundle_engagement, solve_bundle, sweep_bundle};
use crate::quantity::{Force, GRAVITY, Quantity, Words};
use crate::rig::{Rig, RigError};

/// Loads at the ring besides its weight, in kN, at which the sweep is shown.
const SWEEP_KN: [f64; 6] = [0.5, 1.0, 2.0, 4.0, 6.0, 8.0];
/// Load up to which the beginning of each line is sought, in kN.
const ENGAGED_BY_KN: f64 = 20.0;

/// A named set of lines.
#[derive(Debug)]
pub(super) struct Set<'a> {
    name: String,
    spans: Vec<&'a Span<'a>>,
    ring: bool,
}

/// The states of the document, or each line alone and everything on.
pub(super) fn sets<'a>(rig: &Rig, spans: &'a [Span<'a>]) -> Vec<Set<'a>> {
    let mut sets = Vec::new();
    for state in &rig.state {
        let on = spans.iter().filter(|s| state.lines.contains(&s.entry.name));
        sets.push(Set {
            name: state.name.clone(),
            spans: on.collect(),
            ring: state.ring.unwrap_or(state.lines.len() > 1),
        });
    }
    if sets.is_empty() {
        for span in spans {
            let name = format!("{} alone", span.entry.name);
            sets.push(Set { name, spans: vec![span], ring: false });
        }
        sets.push(Set { name: "all on".to_owned(), spans: spans.iter().collect(), ring: true });
    }
    sets
}

/// Solves each set with a load at the ring besides its weight.
pub(super) fn states(rig: &Rig, sets: &[Set<'_>], load_n: f64) -> Result<Vec<StatePlan>, RigError> {
    let solve = |set: &Set<'_>| {
        let ring_n = if set.ring { rig.ring.mass.si() * GRAVITY } else { 0.0 };
        let lines = bundle(set.spans.iter().copied());
        solve_bundle(&lines, down(load_n + ring_n))
            .map(|solved| state(&set.name, load_n, &solved))
            .map_err(|e| RigError::unsolved(&format!("standing state {}", set.name), &e))
    };
    sets.iter().map(solve).collect()
}

/// Everything on with a force at the ring besides its weight.
pub(super) fn loaded(
    name: &str,
    spans: &[Span<'_>],
    force: [Force; 3],
    ring_n: f64,
) -> Result<StatePlan, RigError> {
    let mut all = force;
    all[2] -= Force::from_si(ring_n);
    let solved = solve_bundle(&bundle(spans.iter()), all)
        .map_err(|e| RigError::unsolved(&format!("standing state {name}"), &e))?;
    Ok(state(name, size(&force), &solved))
}

pub(super) fn state(name: &str, load_n: f64, solved: &BundleSolution) -> StatePlan {
    let lines = solved.lines.iter().map(|line| LineState {
        name: line.name.clone(),
        tension_near: line.tension_near,
        tension_ring: Force::from_si(line.tension_ring_near.si().max(line.tension_ring_far.si())),
        tension_far: line.tension_far,
        sag_below_chord: line.sag_below_chord,
        sag_below_near: line.sag_below_near,
        share: line.share,
    });
    StatePlan {
        name: name.to_owned(),
        load: Force::from_si(load_n),
        ring: solved.ring,
        lines: lines.collect(),
        residual: solved.residual,
    }
}

/// The load sweep with everything on.
pub(super) fn sweep(rig: &Rig, spans: &[Span<'_>]) -> Result<Vec<SweepStep>, RigError> {
    let ring_n = rig.ring.mass.si() * GRAVITY;
    let loads_n = SWEEP_KN.map(|kn| 1e3 * kn);
    let loads = loads_n.map(|n| down(n + ring_n));
    let solved = sweep_bundle(&bundle(spans.iter()), &loads).map_err(|e| fail(&e))?;
    let step = |(solved, load_n): (&BundleSolution, f64)| SweepStep {
        state: state(
            &format!("{} at the ring", crate::quantity::show(load_n.newtons(), "kN", 1)),
            load_n,
            solved,
        ),
        stiffness_along: solved.stiffness[0].0[0],
        stiffness_vertical: solved.stiffness[2].0[2],
    };
    Ok(solved.iter().zip(loads_n).map(step).collect())
}

/// When each line begins to carry, everything on.
pub(super) fn engagement(rig: &Rig, spans: &[Span<'_>]) -> Result<Vec<Engagement>, RigError> {
    let ring_n = rig.ring.mass.si() * GRAVITY;
    let begins = bundle_engagement(&bundle(spans.iter()), ENGAGED_BY_KN.kilonewtons())
        .map_err(|e| fail(&e))?;
    // The model counts the ring's own weight as load.
    let beyond_ring = |load: Force| Force::from_si((load.si() - ring_n).max(0.0));
    Ok(begins
        .into_iter()
        .map(|b| Engagement {
            line: b.line,
            from_start: b.load.is_some_and(|load| load.si() <= ring_n),
            load: b.load.map(beyond_ring),
        })
        .collect())
}

fn fail(error: &LineError) -> RigError {
    RigError::unsolved("load at the ring", error)
}
