//! What a picture is made of, in its own units: x right, y down.

use super::super::{BodyKind, Towards};

/// A picture before it is written.
#[derive(Debug, Default)]
pub(super) struct Scene {
    pub(super) title: String,
    pub(super) width: f64,
    pub(super) height: f64,
    pub(super) ropes: Vec<Line>,
    pub(super) wheels: Vec<Wheel>,
    pub(super) bars: Vec<Bar>,
    pub(super) grabs: Vec<GrabMark>,
    pub(super) arrows: Vec<Arrow>,
    pub(super) chips: Vec<Chip>,
    pub(super) labels: Vec<Label>,
    pub(super) below: Vec<String>,
}

/// Height of a line of text.
pub(super) const LINE: f64 = 24.0;

impl Scene {
    /// Puts the labels into a margin from `x` on, each beside its body or as near below as there is room, and sets
    /// the width.
    pub(super) fn margin(&mut self, x: f64) {
        self.labels.sort_by(|a, b| a.at.1.total_cmp(&b.at.1));
        let mut free = f64::NEG_INFINITY;
        for label in &mut self.labels {
            let y = label.at.1.max(free);
            label.at = (x, y);
            free = y + LINE * label.lines.len() as f64 + 6.0;
        }
        let widest = self.labels.iter().flat_map(|l| &l.lines).map(|t| t.chars().count()).max();
        self.width = x + 14.0 + 10.5 * widest.unwrap_or(0) as f64;
        self.height = self.height.max(free + 10.0);
    }
}

/// One rope as a path.
#[derive(Debug)]
pub(super) struct Line {
    pub(super) path: String,
    /// Number of the rope: its look.
    pub(super) rope: usize,
    pub(super) name: String,
}

/// A sheave, and the link that holds it to its bar.
#[derive(Debug)]
pub(super) struct Wheel {
    pub(super) at: (f64, f64),
    pub(super) radius: f64,
    pub(super) hangs_from: (f64, f64),
}

/// A body.
#[derive(Debug)]
pub(super) struct Bar {
    pub(super) kind: BodyKind,
    pub(super) middle: (f64, f64),
    /// Half of its length, across the ropes.
    pub(super) half: f64,
    /// Clockwise turn from ropes that leave downwards.
    pub(super) degrees: f64,
}

/// A grab on a rope at a place, and the way in which it holds on paper.
#[derive(Debug)]
pub(super) struct GrabMark {
    pub(super) at: (f64, f64),
    /// Unit vector towards which the rope cannot run.
    pub(super) against: (f64, f64),
}

/// The hand's pull.
#[derive(Debug)]
pub(super) struct Arrow {
    pub(super) from: (f64, f64),
    pub(super) to: (f64, f64),
}

/// A force on a rope.
#[derive(Debug)]
pub(super) struct Chip {
    pub(super) at: (f64, f64),
    pub(super) text: String,
}

/// Words about a body, with a leader to it.
#[derive(Debug)]
pub(super) struct Label {
    pub(super) at: (f64, f64),
    pub(super) leader_from: (f64, f64),
    pub(super) lines: Vec<String>,
}

/// The direction on paper against which a grab holds, from that of the rope's start to its end.
pub(super) fn against(holds: Towards, along: (f64, f64)) -> (f64, f64) {
    match holds {
        Towards::Start => (-along.0, -along.1),
        Towards::End => along,
    }
}
