//! Which parts of an anchor can fail, and which legs carry nothing without them.

use std::collections::BTreeSet;

use crate::rig::AnchorEntry;
use crate::rig::document::LegEnd;
use crate::rig::plan::result::LossComponentKind;

/// A part of an anchor that can fail.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::rig::plan) struct AnchorPart {
    pub name: String,
    pub kind: LossComponentKind,
    /// Legs that carry nothing without it, by their numbers; all of them where no path is left.
    pub legs: BTreeSet<usize>,
}

/// Every leg with its parts, then the knots, then the fixings with a name.
pub(in crate::rig::plan) fn parts(anchor: &AnchorEntry) -> Vec<AnchorPart> {
    use LossComponentKind as Kind;
    let mut parts = Vec::new();
    let mut add = |name: String, kind, lost: BTreeSet<usize>| {
        parts.push(AnchorPart { name, kind, legs: idle(anchor, &lost) });
    };
    for (i, leg) in anchor.leg.iter().enumerate() {
        add(leg.name.clone(), Kind::AnchorLeg, BTreeSet::from([i]));
        for part in &leg.part {
            let name = format!("{} of {}", part.name, leg.name);
            add(name, Kind::AnchorLegPart, BTreeSet::from([i]));
        }
    }
    let ways: Vec<_> = anchor.leg.iter().map(|leg| anchor.way(leg)).collect();
    for (i, knot) in anchor.knot.iter().enumerate() {
        let at = |way: &Option<[LegEnd; 2]>| way.is_some_and(|w| w.contains(&LegEnd::Knot(i)));
        let lost = (0..ways.len()).filter(|leg| at(&ways[*leg])).collect();
        add(knot.name.clone(), Kind::AnchorKnot, lost);
    }
    for fixing in &anchor.fixing {
        let legs = anchor.leg.iter().enumerate();
        let lost = legs.filter(|(_, leg)| leg.from.as_ref() == Some(&fixing.name));
        add(fixing.name.clone(), Kind::AnchorFixing, lost.map(|(i, _)| i).collect());
    }
    parts
}

/// The parts with one and the same effect together, in their order.
pub(in crate::rig::plan) fn effects(anchor: &AnchorEntry) -> Vec<(BTreeSet<usize>, Vec<String>)> {
    let mut effects: Vec<(BTreeSet<usize>, Vec<String>)> = Vec::new();
    for part in parts(anchor) {
        match effects.iter_mut().find(|(legs, _)| *legs == part.legs) {
            Some((_, names)) => names.push(part.name),
            None => effects.push((part.legs, vec![part.name])),
        }
    }
    effects
}

/// Legs that carry nothing without those that are lost, these included: ends that hang from a knot, what no way of
/// legs joins to the master point; all where no way leads from there to a fixing.
pub(in crate::rig::plan) fn idle(anchor: &AnchorEntry, lost: &BTreeSet<usize>) -> BTreeSet<usize> {
    let ways: Vec<_> = anchor.leg.iter().map(|leg| anchor.way(leg)).collect();
    let mut left: Vec<(usize, [LegEnd; 2])> = (0..ways.len())
        .filter(|i| !lost.contains(i))
        .filter_map(|i| ways[i].map(|way| (i, way)))
        .collect();
    loop {
        let before = left.len();
        let joined = joined(&left, anchor.knot.len());
        left.retain(|(_, way)| way.iter().any(|end| is_in(&joined, *end)));
        let mut ends = vec![0; anchor.knot.len()];
        for (_, way) in &left {
            for end in way {
                if let LegEnd::Knot(knot) = end {
                    ends[*knot] += 1;
                }
            }
        }
        let hangs = |end: &LegEnd| matches!(end, LegEnd::Knot(knot) if ends[*knot] == 1);
        left.retain(|(_, way)| !way.iter().any(hangs));
        if left.len() == before {
            break;
        }
    }
    if left.iter().all(|(_, way)| !way.contains(&LegEnd::Fixed)) {
        left.clear();
    }
    let kept: BTreeSet<usize> = left.into_iter().map(|(i, _)| i).collect();
    (0..ways.len()).filter(|i| !kept.contains(i)).collect()
}

fn is_in(knots: &[bool], end: LegEnd) -> bool {
    match end {
        LegEnd::Master => true,
        LegEnd::Knot(knot) => knots[knot],
        LegEnd::Fixed => false,
    }
}

/// Knots to which legs lead from the master point, in either direction; none through a fixing.
fn joined(legs: &[(usize, [LegEnd; 2])], knots: usize) -> Vec<bool> {
    let mut seen = vec![false; knots];
    let mut next = vec![LegEnd::Master];
    while let Some(at) = next.pop() {
        for (_, [from, to]) in legs {
            let other = if *from == at {
                *to
            } else if *to == at {
                *from
            } else {
                continue;
            };
            if let LegEnd::Knot(knot) = other
                && !std::mem::replace(&mut seen[knot], true)
            {
                next.push(other);
            }
        }
    }
    seen
}
