//! What a motion did to the rig.

use std::collections::BTreeSet;

use super::motion::Kind;
use super::parts::{NEAR, ends_at};
use crate::line::{HalfLine, RingField};
use crate::quantity::{Force, Quantity, Time, show};
use crate::rig::plan::anchors::{Pull, halves, with_stops};
use crate::rig::plan::check::Ledger;
use crate::rig::plan::flight::{Site, anchor_at};
use crate::rig::plan::gear::Defaults;
use crate::rig::plan::lines::size;
use crate::rig::plan::picture::name_of;
use crate::rig::plan::ratings::{self, required_clearance};
use crate::rig::{Rig, RigError};
use crate::swing::{AfterFault, Clearance, Extreme, Flight, Happening, Note, Place};

/// What a motion did to the rig, of the stiff and the soft run the worse.
#[derive(Debug)]
pub(super) struct Motion {
    pub ledger: Ledger,
    /// Greatest pull of the lines on each anchor.
    pub pulls: Vec<Pull>,
    /// Height of the ring in each run: waiting, at rest after the loss, or at its lowest.
    pub ring_m: [Option<f64>; 2],
    /// Lowest place of the body in each run.
    pub lowest_m: [f64; 2],
    pub body_force: Force,
    /// Wall, clearance less the survey error, and what is left of it beyond the requirement, m.
    pub tightest: Option<(String, f64, f64)>,
    pub contact: Option<String>,
    /// Lines too slow for their quasi-static tension.
    pub slow_lines: Vec<String>,
    pub notes: Vec<String>,
}

impl Motion {
    /// What is left of the clearance where another motion comes nearest, if that is the same wall.
    pub fn spare_at(&self, other: Option<&(String, f64, f64)>) -> Option<f64> {
        let ((wall, _, _), (own, _, spare)) = (other?, self.tightest.as_ref()?);
        (wall == own).then_some(*spare)
    }
}

/// One run, from its start or from a loss on.
pub(super) struct Seen<'a> {
    pub flight: &'a Flight,
    pub after: Option<&'a AfterFault>,
}

impl<'a> Seen<'a> {
    pub fn whole(flight: &'a Flight) -> Self {
        Self { flight, after: None }
    }

    /// Peaks of the ends of each line, in the order of the lines.
    fn ends(&self, line: usize) -> [Option<Extreme<Force>>; 2] {
        match self.after {
            None => {
                let line = &self.flight.lines[line];
                [Some(line.near), Some(line.far)]
            }
            Some(after) => {
                let name = &self.flight.lines[line].name;
                [&after.lines_near, &after.lines_far]
                    .map(|list| list.iter().find(|l| l.name == *name).map(|l| l.tension))
            }
        }
    }

    fn clearances(&self) -> Vec<Clearance> {
        let in_flight = self.after.map_or(&self.flight.clearances, |after| &after.clearances);
        let mut list = in_flight.clone();
        if list.is_empty() && self.after.is_none() {
            // Someone at rest does not leave.
            list.extend(self.flight.exit_clearance.clone());
        }
        list
    }
}

/// Pull of the lines on an anchor with the ring at a place.
fn pull_on(
    site: &Site<'_>,
    anchor: usize,
    ring: Place,
    gone: &BTreeSet<(usize, usize)>,
) -> Result<[Force; 3], RigError> {
    let ends: Vec<_> =
        ends_at(site.rig, anchor).into_iter().filter(|end| !gone.contains(end)).collect();
    let half = |&(line, side): &(usize, usize)| -> HalfLine {
        let [near, far] = halves(&site.spans[line]);
        if side == NEAR { near } else { far }
    };
    let mut field = RingField::new(ends.iter().map(half).collect());
    let at = [ring.x, ring.y, ring.z].map(Quantity::si);
    field.force(at).map_err(|e| RigError::unsolved("pull on the anchors", &e))?;
    let mut sum = [0.0; 3];
    for pull in (0..ends.len()).filter_map(|i| field.anchor_pull_n(i)) {
        sum = [0, 1, 2].map(|k| sum[k] + pull[k]);
    }
    Ok(sum.map(Force::from_si))
}

pub(super) fn motion(
    site: &Site<'_>,
    runs: &[Seen<'_>],
    gone: &BTreeSet<(usize, usize)>,
    kind: Kind,
) -> Result<Motion, RigError> {
    let (rig, defaults) = (site.rig, site.defaults);
    let mut motion = Motion {
        ledger: Ledger::default(),
        pulls: vec![Pull::none(); rig.anchor.len()],
        ring_m: [None; 2],
        lowest_m: [0.0; 2],
        body_force: Force::from_si(0.0),
        tightest: None,
        contact: None,
        slow_lines: Vec::new(),
        notes: Vec::new(),
    };
    for (i, run) in runs.iter().enumerate() {
        let flight = run.flight;
        book(&mut motion.ledger, rig, run, gone);
        for (anchor, most) in motion.pulls.iter_mut().enumerate() {
            let Some(at) = anchor_at(flight, rig, anchor) else { continue };
            let peak = match run.after {
                None => Some(flight.anchors[at].peak),
                Some(after) => after.anchors.get(at).copied(),
            };
            let Some(peak) = peak else { continue };
            let lines = pull_on(site, anchor, peak.place, gone)?;
            let Place { x, y, z } = peak.place;
            let ring_m = [x, y, z].map(Quantity::si);
            let force = with_stops(rig, &rig.anchor[anchor], lines, ring_m, peak.value);
            if size(&force) > size(&most.force) {
                *most = Pull { force, ring_m };
            }
        }
        motion.ring_m[i] = match kind {
            Kind::Absent => Some(flight.ring.start.z.si()),
            Kind::AtRest => flight.rest.as_ref().map(|rest| rest.ring.z.si()),
            Kind::Worst => {
                let lowest = run.after.and_then(|after| after.ring_lowest);
                Some(lowest.unwrap_or(flight.ring.lowest).value.si())
            }
        };
        let (lowest, body) = match run.after {
            None => (flight.lowest, flight.resultant),
            Some(after) => (after.lowest, after.resultant),
        };
        motion.lowest_m[i] = lowest.value.si();
        motion.body_force = Force::from_si(motion.body_force.si().max(body.value.si()));
        for clearance in run.clearances() {
            tighter(&mut motion.tightest, rig, defaults, &clearance);
        }
        if let Some((wall, hits)) = contact(flight) {
            motion.tightest = Some((wall, 0.0, f64::NEG_INFINITY));
            motion.contact.get_or_insert(hits);
        }
        for note in &flight.notes {
            if let Note::QuasiStaticNotValid { line, .. } = note
                && !motion.slow_lines.contains(line)
            {
                motion.slow_lines.push(line.clone());
            }
        }
        for note in flight.notes.iter().filter_map(words) {
            if !motion.notes.contains(&note) {
                motion.notes.push(note);
            }
        }
    }
    Ok(motion)
}

/// Peaks of a run by component and place.
fn book(ledger: &mut Ledger, rig: &Rig, run: &Seen<'_>, gone: &BTreeSet<(usize, usize)>) {
    let flight = run.flight;
    let from = |time: Time| format!("{} run, at {}", name_of(flight.run), show(time, "s", 1));
    for (i, line) in rig.line.iter().enumerate() {
        let mut larger: Option<Extreme<Force>> = None;
        for (side, end) in run.ends(i).into_iter().enumerate() {
            let Some(end) = end.filter(|_| !gone.contains(&(i, side))) else { continue };
            ledger.put(&line.name, ratings::END[side], end.value.si(), &from(end.time));
            if larger.is_none_or(|l| end.value > l.value) {
                larger = Some(end);
            }
        }
        if let Some(end) = larger {
            ledger.put(&line.name, ratings::AT_RING, end.value.si(), &from(end.time));
        }
    }
    let ropes = run.after.map_or(&flight.ropes, |after| &after.ropes);
    let mut together = 0.0;
    for rope in ropes {
        let n = rope.tension.value.si();
        together += n;
        for place in [ratings::AT_RING, ratings::AT_JUMPER] {
            ledger.put(&rope.name, place, n, &from(rope.tension.time));
        }
    }
    for stop in run.after.map_or(&flight.stops, |after| &after.stops) {
        let (n, at) = (stop.tension.value.si(), stop.tension.time);
        ledger.put(&stop.name, ratings::STOP, n, &from(at));
    }
    let body = run.after.map_or(&flight.resultant, |after| &after.resultant);
    ledger.put("jumper", "", body.value.si(), &from(body.time));
    ledger.put("ring", "", together, &from(body.time));
}

/// Keeps the wall with the least clearance beyond its requirement.
fn tighter(
    tightest: &mut Option<(String, f64, f64)>,
    rig: &Rig,
    defaults: &Defaults,
    clearance: &Clearance,
) {
    let left = clearance.least.value.si() - defaults.survey_error.si();
    let spare = left - required_clearance(rig, &clearance.wall).si();
    if tightest.as_ref().is_none_or(|(_, _, least)| spare < *least) {
        *tightest = Some((clearance.wall.clone(), left, spare));
    }
}

/// Wall of a contact, and words for it, if a run ended in one.
fn contact(flight: &Flight) -> Option<(String, String)> {
    flight.events.iter().find_map(|event| match &event.what {
        Happening::Contact { wall, speed } => {
            Some((wall.clone(), format!("hits the {wall} at {}", show(*speed, "m/s", 0))))
        }
        _ => None,
    })
}

/// Notes that bear on a loss.
fn words(note: &Note) -> Option<String> {
    match note {
        Note::QuasiStaticNotValid { line, .. } => Some(format!(
            "{line} is too slow for its quasi-static tension: a snap may be several times the figure"
        )),
        Note::PastTable { line } => Some(format!("the stretch of {line} went past its table")),
        Note::NoRest { problem } => Some(format!("no place of rest was found: {problem}")),
        _ => None,
    }
}
