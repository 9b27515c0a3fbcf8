//! How the pull of the lines on an anchor falls as its master point gives.

use crate::anchor::PullLine;
use crate::line::{BundleLine, RingField, solve_bundle};
use crate::quantity::{Force, Length, Quantity, Stiffness};
use crate::rig::plan::lines::{Span, distance_m, size};

/// The pull of the lines on an anchor, and where the ring was.
#[derive(Debug, Clone, Copy)]
pub(in crate::rig::plan) struct Pull {
    pub force: [Force; 3],
    pub ring_m: [f64; 3],
}

impl Pull {
    pub fn none() -> Self {
        Self { force: [Force::from_si(0.0); 3], ring_m: [0.0; 3] }
    }

    /// The lines as one that pulls, over a way of the master point along the pull: their secant over all of it, with
    /// the ring free under the load it has. The pull falls less and less on the way, and a ring that stays where it
    /// is lets it fall faster, so this leaves no less than the lines do. None where the lines have no answer.
    pub fn line(&self, spans: &[Span<'_>], anchor: &str, way: Length) -> Option<PullLine> {
        let size_n = size(&self.force);
        let along = self.force.map(|f| f.si() / size_n);
        let mut field = RingField::new(spans.iter().flat_map(super::halves).collect());
        let on_ring = field.force(self.ring_m).ok()?;
        let before_n = dot(&super::pull_on(&field, spans, anchor), &along);
        let travel = along.map(|a| Length::from_si(a * way.si()));
        let lines: Vec<_> = spans.iter().map(|span| shifted(span, anchor, &travel)).collect();
        let moved = solve_bundle(&lines, on_ring.map(|f| Force::from_si(-f))).ok()?;
        let mut after_n = 0.0;
        for (span, line) in spans.iter().zip(&moved.lines) {
            for (at, pull) in [(&span.entry.from, line.pull_near), (&span.entry.to, line.pull_far)]
            {
                if at == anchor {
                    after_n += dot(&pull, &along);
                }
            }
        }
        let k = (before_n - after_n) / way.si();
        // Written so that NaN fails too.
        if !(k > 0.0 && k.is_finite()) {
            return None;
        }
        let ends = spans.iter().flat_map(|s| [(&s.entry.from, &s.near), (&s.entry.to, &s.far)]);
        let (_, place) = ends.into_iter().find(|(at, _)| *at == anchor)?;
        let to_ring_m = distance_m(place, &self.ring_m.map(Length::from_si));
        // A spring as long as the line, and longer than it gives.
        let length = Length::from_si(to_ring_m.max(2.0 * size_n / k));
        Some(PullLine { stiffness: Stiffness::from_si(k), length })
    }
}

pub(super) fn dot(force: &[Force; 3], along: &[f64; 3]) -> f64 {
    force.iter().zip(along).map(|(f, a)| f.si() * a).sum()
}

/// A line with the master point of one of its anchors moved.
pub(in crate::rig::plan) fn shifted(
    span: &Span<'_>,
    anchor: &str,
    travel: &[Length; 3],
) -> BundleLine {
    let mut line = span.bundle_line();
    for (at, end) in [(&span.entry.from, &mut line.near), (&span.entry.to, &mut line.far)] {
        if at == anchor {
            *end = [0, 1, 2].map(|k| end[k] + travel[k]);
        }
    }
    line
}
