//! Which components can fail, and what is gone when one does.

use std::collections::BTreeSet;

use crate::rig::plan::anchors::{self, idle};
use crate::rig::plan::result::{LossComponent, LossComponentKind};
use crate::rig::{End, HAUL_ROPE, Rig};

/// The near and the far half of a line.
pub(super) const NEAR: usize = 0;
pub(super) const FAR: usize = 1;

/// A part that goes at one instant: that of its own greatest load.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Part {
    /// A jump rope.
    Rope(usize),
    /// A line between an anchor and the ring.
    Half(usize, usize),
    /// A line at the ring: both halves.
    Line(usize),
    /// An anchor with every line end on it.
    Anchor(usize),
    /// A stop of the ring.
    Stop(usize),
}

impl Part {
    /// In words.
    pub fn words(self, rig: &Rig) -> String {
        match self {
            Self::Rope(rope) => rig.jump.rope[rope].name.clone(),
            Self::Stop(stop) => rig.stop[stop].name.clone(),
            Self::Half(line, side) => {
                let (line, side) = (&rig.line[line].name, side_name(side));
                format!("{line} between the {side} anchor and the ring")
            }
            Self::Line(line) => format!("{} on both sides of the ring", rig.line[line].name),
            Self::Anchor(anchor) => match ends_at(rig, anchor).len() {
                0 => format!("{}, on which no line ends", rig.anchor[anchor].name),
                n => format!("{} with its {n} line ends", rig.anchor[anchor].name),
            },
        }
    }
}

/// What is gone. Two components with the same are in series.
#[derive(Debug, Clone, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Gone {
    /// The ring, the harness: what everything hangs on.
    pub all: bool,
    pub parts: BTreeSet<Part>,
    /// Legs of anchors that keep others: anchor and leg.
    pub legs: BTreeSet<(usize, usize)>,
    /// Members of the frame, its legs before its guys.
    pub members: BTreeSet<usize>,
    pub haul_rope: bool,
}

impl Gone {
    fn part(part: Part) -> Self {
        Self { parts: BTreeSet::from([part]), ..Self::default() }
    }

    /// Everything at an anchor; with one line end on it that is this end.
    fn anchor(rig: &Rig, anchor: usize) -> Self {
        match ends_at(rig, anchor).as_slice() {
            [(line, side)] => Self::part(Part::Half(*line, *side)),
            _ => Self::part(Part::Anchor(anchor)),
        }
    }

    /// Legs of an anchor; all of them are the anchor.
    fn legs(rig: &Rig, anchor: usize, legs: &BTreeSet<usize>) -> Self {
        if legs.len() == rig.anchor[anchor].leg.len() {
            return Self::anchor(rig, anchor);
        }
        Self { legs: legs.iter().map(|leg| (anchor, *leg)).collect(), ..Self::default() }
    }

    /// Legs of one anchor that are gone.
    pub fn legs_of(&self, anchor: usize) -> BTreeSet<usize> {
        let of = self.legs.iter().filter(|(at, _)| *at == anchor);
        of.map(|(_, leg)| *leg).collect()
    }

    /// Whether it is of the jump, not of the haul.
    pub fn of_jump(&self) -> bool {
        self.members.is_empty() && !self.haul_rope
    }

    /// Halves of lines that are gone.
    pub fn halves(&self, rig: &Rig) -> BTreeSet<(usize, usize)> {
        let of = |part: &Part| match *part {
            Part::Rope(_) | Part::Stop(_) => vec![],
            Part::Half(line, side) => vec![(line, side)],
            Part::Line(line) => vec![(line, NEAR), (line, FAR)],
            Part::Anchor(anchor) => ends_at(rig, anchor),
        };
        self.parts.iter().flat_map(of).collect()
    }

    /// Stops that are gone.
    pub fn stops(&self) -> BTreeSet<usize> {
        let stop = |part: &Part| if let Part::Stop(stop) = *part { Some(stop) } else { None };
        self.parts.iter().filter_map(stop).collect()
    }

    /// Jump ropes that are gone.
    pub fn ropes(&self) -> BTreeSet<usize> {
        let rope = |part: &Part| if let Part::Rope(rope) = *part { Some(rope) } else { None };
        self.parts.iter().filter_map(rope).collect()
    }

    /// Whether nothing holds the jumper any more: no rope, or no line from both sides of the gap.
    pub fn falls(&self, rig: &Rig) -> bool {
        let halves = self.halves(rig);
        let held = |side| (0..rig.line.len()).any(|line| !halves.contains(&(line, side)));
        self.all || self.ropes().len() == rig.jump.rope.len() || !held(NEAR) || !held(FAR)
    }

    /// Both together; none where that is what one of them does alone, or where they have nothing to do with
    /// each other.
    pub fn and(&self, other: &Self, rig: &Rig) -> Option<Self> {
        let meet = self.of_jump() == other.of_jump() && !self.haul_rope && !other.haul_rope;
        if !meet || self.falls(rig) || other.falls(rig) {
            return None;
        }
        let mut both = Self {
            parts: &self.parts | &other.parts,
            legs: &self.legs | &other.legs,
            members: &self.members | &other.members,
            ..Self::default()
        };
        for (index, anchor) in rig.anchor.iter().enumerate() {
            let lost = both.legs_of(index);
            if !lost.is_empty() {
                // The last way takes the anchor with it, and an anchor that is gone needs no legs.
                let gone = Self::legs(rig, index, &idle(anchor, &lost));
                both.parts.extend(gone.parts);
                both.legs.extend(gone.legs);
            }
            let (gone, ends) = (both.halves(rig), ends_at(rig, index));
            if ends.iter().all(|end| gone.contains(end)) {
                both.legs.retain(|(of, _)| *of != index);
            }
        }
        let what = |gone: &Self| {
            let (legs, members) = (gone.legs.clone(), gone.members.clone());
            (gone.halves(rig), gone.ropes(), gone.stops(), legs, members)
        };
        let same = what(&both);
        (same != what(self) && same != what(other)).then_some(both)
    }

    /// In words.
    pub fn words(&self, rig: &Rig) -> String {
        let mut words = Vec::new();
        if self.all {
            words.push("what everything hangs on".to_owned());
        }
        words.extend(self.parts.iter().map(|part| part.words(rig)));
        for (i, anchor) in rig.anchor.iter().enumerate() {
            let legs = self.legs_of(i);
            let names: Vec<_> = legs.iter().map(|leg| anchor.leg[*leg].name.as_str()).collect();
            if !names.is_empty() {
                words.push(format!("{} of {}", names.join(", "), anchor.name));
            }
        }
        words.extend(
            self.members.iter().map(|member| format!("{} of the frame", member_name(rig, *member))),
        );
        if self.haul_rope {
            words.push("the haul rope".to_owned());
        }
        words.join(" and ")
    }
}

pub(super) fn side_name(side: usize) -> &'static str {
    if side == NEAR { "near" } else { "far" }
}

/// Line ends on an anchor: line and side.
pub(super) fn ends_at(rig: &Rig, anchor: usize) -> Vec<(usize, usize)> {
    let name = &rig.anchor[anchor].name;
    let ends = rig
        .line
        .iter()
        .enumerate()
        .flat_map(|(i, line)| [(i, NEAR, &line.from), (i, FAR, &line.to)]);
    ends.filter(|(_, _, at)| *at == name).map(|(line, side, _)| (line, side)).collect()
}

/// Name of a member of the frame, its legs before its guys.
pub(super) fn member_name(rig: &Rig, member: usize) -> &str {
    let members = rig.frame.iter().flat_map(|frame| frame.leg.iter().chain(&frame.guy));
    members.map(|m| m.name.as_str()).nth(member).unwrap_or_default()
}

/// A piece of gear goes with what it is in series with.
fn gear(rig: &Rig, at: &str, end: Option<End>) -> Gone {
    if let Some(line) = rig.line.iter().position(|l| l.name == at) {
        return Gone::part(match end {
            None => Part::Line(line),
            Some(End::Near) => Part::Half(line, NEAR),
            Some(End::Far) => Part::Half(line, FAR),
        });
    }
    if let Some(stop) = rig.stop.iter().position(|s| s.name == at) {
        return Gone::part(Part::Stop(stop));
    }
    if let Some(rope) = rig.jump.rope.iter().position(|r| r.name == at) {
        return Gone::part(Part::Rope(rope));
    }
    match rig.anchor.iter().position(|a| a.name == at) {
        Some(anchor) => Gone::anchor(rig, anchor),
        None => Gone { all: true, ..Gone::default() },
    }
}

/// A list of components and of the distinct losses, in the order of the document.
#[derive(Debug, Default)]
pub(super) struct Parts {
    pub components: Vec<LossComponent>,
    pub losses: Vec<(Gone, Vec<String>)>,
}

impl Parts {
    fn add(&mut self, kind: LossComponentKind, name: impl Into<String>, at: &str, gone: Gone) {
        let name = name.into();
        let known = self.losses.iter().position(|(known, _)| *known == gone);
        let loss = known.unwrap_or(self.losses.len());
        if known.is_none() {
            self.losses.push((gone, Vec::new()));
        }
        self.losses[loss].1.push(name.clone());
        self.components.push(LossComponent { name, at: at.to_owned(), kind, loss });
    }

    /// Every component of a rig that can fail.
    pub fn of(rig: &Rig) -> Self {
        use LossComponentKind as Kind;
        let mut parts = Self::default();
        for (i, line) in rig.line.iter().enumerate() {
            for side in [NEAR, FAR] {
                let name = format!("{}, {} side", line.name, side_name(side));
                parts.add(Kind::LineSide, name, &line.name, Gone::part(Part::Half(i, side)));
            }
            let name = format!("{}, tie-in at the ring", line.name);
            parts.add(Kind::LineTieIn, name, &line.name, Gone::part(Part::Line(i)));
        }
        for (i, rope) in rig.jump.rope.iter().enumerate() {
            parts.add(Kind::JumpRope, &rope.name, "ring", Gone::part(Part::Rope(i)));
        }
        for (i, stop) in rig.stop.iter().enumerate() {
            parts.add(Kind::Stop, &stop.name, "ring", Gone::part(Part::Stop(i)));
        }
        parts.add(Kind::Ring, "ring set", "ring", Gone { all: true, ..Gone::default() });
        for entry in &rig.gear {
            parts.add(Kind::Gear, &entry.name, &entry.at, gear(rig, &entry.at, entry.end));
        }
        for (i, anchor) in rig.anchor.iter().enumerate() {
            if anchor.leg.is_empty() {
                parts.add(Kind::Anchor, &anchor.name, &anchor.name, Gone::anchor(rig, i));
            }
            for part in anchors::parts(anchor) {
                let gone = Gone::legs(rig, i, &part.legs);
                parts.add(part.kind, part.name, &anchor.name, gone);
            }
        }
        if rig.haul.is_some() {
            let gone = Gone { haul_rope: true, ..Gone::default() };
            parts.add(Kind::HaulRope, HAUL_ROPE, "jumper", gone);
            let frame = rig.frame.iter();
            let members = frame.flat_map(|f| {
                let legs = f.leg.iter().map(|m| (Kind::FrameLeg, m));
                legs.chain(f.guy.iter().map(|m| (Kind::FrameGuy, m)))
            });
            for (i, (kind, member)) in members.enumerate() {
                let gone = Gone { members: BTreeSet::from([i]), ..Gone::default() };
                parts.add(kind, &member.name, "frame", gone);
            }
        }
        parts
    }

    /// Distinct pairs of losses, with one name of each.
    pub fn pairs(&self, rig: &Rig) -> Vec<(Gone, Vec<String>)> {
        let mut seen = BTreeSet::new();
        let mut pairs = Vec::new();
        for (i, (a, names)) in self.losses.iter().enumerate() {
            for (b, others) in &self.losses[i + 1..] {
                if let Some(both) = a.and(b, rig)
                    && seen.insert(both.clone())
                {
                    pairs.push((both, vec![names[0].clone(), others[0].clone()]));
                }
            }
        }
        pairs
    }
}
