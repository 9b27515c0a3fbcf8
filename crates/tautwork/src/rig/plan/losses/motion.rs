//! The jumper in motion without a part: in a jump, and from rest.

use std::collections::BTreeSet;

use super::parts::{FAR, Gone, NEAR, Part, ends_at};
use crate::line::{HalfLine, RingField};
use crate::quantity::{Force, Length, Quantity, Speed, Time, show};
use crate::rig::plan::anchors::{Pull, halves};
use crate::rig::plan::check::Ledger;
use crate::rig::plan::flight::{Change, Site, place};
use crate::rig::plan::gear::Defaults;
use crate::rig::plan::lines::size;
use crate::rig::plan::picture::name_of;
use crate::rig::plan::ratings::{self, required_clearance};
use crate::rig::{Rig, RigError};
use crate::swing::{
    self, AfterFault, Clearance, Extreme, Fault, Flight, Happening, Jump, Note, Place, Rest, Run,
    SwingError, When,
};

/// The way in which a part is lost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    Absent,
    AtRest,
    Worst,
}

const RUNS: [Run; 2] = [Run::Stiff, Run::Soft];

/// A launch zone that is left at once: one who falls from rest has no ledge, m.
const NO_ZONE_M: f64 = 1e-3;
/// Time for which the jumper at rest is looked at, to read what everything carries, s.
const GLANCE_S: f64 = 0.1;

/// Both runs in which nothing is lost.
pub(super) struct Whole {
    pub jump: Motion,
    pub rest: Motion,
    flights: [Flight; 2],
    rests: [Rest; 2],
}

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
    pub notes: Vec<String>,
}

impl Motion {
    /// What is left of the clearance where another motion comes nearest, if that is the same wall.
    pub fn spare_at(&self, other: Option<&(String, f64, f64)>) -> Option<f64> {
        let ((wall, _, _), (own, _, spare)) = (other?, self.tightest.as_ref()?);
        (wall == own).then_some(*spare)
    }
}

impl Whole {
    pub fn new(site: &Site<'_>) -> Result<Self, RigError> {
        let fly = |run| {
            let jump = Jump { run, ..beside_the_plan(site)? };
            site.run(&jump).map_err(|e| RigError::unsolved("the jump", &e))
        };
        let flights = [fly(Run::Stiff)?, fly(Run::Soft)?];
        let rest = |flight: &Flight| {
            let missing = || RigError::unsolved("the losses", &"the jumper has no place of rest");
            flight.rest.clone().ok_or_else(missing)
        };
        let rests = [rest(&flights[0])?, rest(&flights[1])?];
        let mut glances = Vec::with_capacity(RUNS.len());
        for (run, rest) in RUNS.iter().zip(&rests) {
            let mut jump = from_rest(beside_the_plan(site)?, *run, rest);
            jump.follow.horizon = Time::from_si(GLANCE_S);
            glances
                .push(site.run(&jump).map_err(|e| RigError::unsolved("the jumper at rest", &e))?);
        }
        let glances: Vec<_> = glances.iter().map(Seen::whole).collect();
        let seen: Vec<_> = flights.iter().map(Seen::whole).collect();
        let nothing = BTreeSet::new();
        let mut rest = motion(site, &glances, &nothing, Kind::AtRest)?;
        rest.notes.clear();
        Ok(Self { jump: motion(site, &seen, &nothing, Kind::Worst)?, rest, flights, rests })
    }

    /// The motion in which nothing is lost, to compare with.
    pub fn of(&self, kind: Kind) -> &Motion {
        if kind == Kind::AtRest { &self.rest } else { &self.jump }
    }

    /// Height of the ring in each run to which an extension is measured.
    pub fn ring_m(&self, kind: Kind) -> [f64; 2] {
        let of = |i: usize| match kind {
            Kind::Absent => self.flights[i].ring.start.z.si(),
            Kind::AtRest => self.rests[i].ring.z.si(),
            Kind::Worst => self.flights[i].ring.lowest.value.si(),
        };
        [of(0), of(1)]
    }

    /// Lowest place of the body in each run without a loss.
    pub fn lowest_m(&self, kind: Kind) -> [f64; 2] {
        let of = |i: usize| match kind {
            Kind::AtRest => self.rests[i].body.z.si(),
            _ => self.flights[i].lowest.value.si(),
        };
        [of(0), of(1)]
    }

    /// When a part carries most in each run, and how much.
    fn greatest(&self, part: Part, rig: &Rig) -> [(Time, Force); 2] {
        let of = |flight: &Flight| {
            let ends = match part {
                Part::Rope(i) => vec![flight.ropes[i].tension],
                Part::Stop(i) => vec![flight.stops[i].tension],
                Part::Half(i, NEAR) => vec![flight.lines[i].near],
                Part::Half(i, _) => vec![flight.lines[i].far],
                Part::Line(i) => vec![flight.lines[i].near, flight.lines[i].far],
                Part::Anchor(i) => anchor_in(flight, rig, i).into_iter().collect(),
            };
            let most = ends.into_iter().max_by(|a, b| a.value.si().total_cmp(&b.value.si()));
            most.map_or((Time::from_si(0.0), Force::from_si(0.0)), |e| (e.time, e.value))
        };
        [of(&self.flights[0]), of(&self.flights[1])]
    }

    /// What the parts that are lost carry in a state, and when they carry it.
    pub fn carried(&self, site: &Site<'_>, gone: &Gone, kind: Kind) -> (Force, String) {
        let rig = site.rig;
        let ledger = &self.of(kind).ledger;
        let most = |part: &Part| match *part {
            Part::Rope(i) => ledger.greatest(&rig.jump.rope[i].name).force_n,
            Part::Stop(i) => ledger.greatest(&rig.stop[i].name).force_n,
            Part::Half(i, side) => ledger.get(&rig.line[i].name, ratings::END[side]).force_n,
            Part::Line(i) => ledger.greatest(&rig.line[i].name).force_n,
            Part::Anchor(i) => size(&self.of(kind).pulls[i].force),
        };
        let force = Force::from_si(gone.parts.iter().map(most).fold(0.0, f64::max));
        let state = match kind {
            Kind::Absent => "before the jump".to_owned(),
            Kind::AtRest => "hanging at rest under the ring".to_owned(),
            Kind::Worst => {
                let at = |part: &Part| {
                    let [stiff, soft] =
                        self.greatest(*part, rig).map(|(time, _)| show(time, "s", 1));
                    let when = format!("at {stiff} in the stiff run, {soft} in the soft run");
                    if gone.parts.len() == 1 {
                        return when;
                    }
                    format!("{} {when}", part.words(rig))
                };
                gone.parts.iter().map(at).collect::<Vec<_>>().join("; ")
            }
        };
        (force, state)
    }

    /// Follows the jumper without the parts.
    pub fn without(&self, site: &Site<'_>, gone: &Gone, kind: Kind) -> Result<Motion, String> {
        let mut flights = Vec::with_capacity(RUNS.len());
        for (i, run) in RUNS.into_iter().enumerate() {
            let mut jump = Jump { run, ..beside_the_plan(site).map_err(|e| e.to_string())? };
            if kind == Kind::AtRest {
                jump = from_rest(jump, run, &self.rests[i]);
            }
            for part in &gone.parts {
                let when = match kind {
                    Kind::Absent => When::BeforeExit,
                    Kind::AtRest => When::Time { at: Time::from_si(0.0) },
                    Kind::Worst => When::Time { at: self.greatest(*part, site.rig)[i].0 },
                };
                jump.faults.extend(failing(site.rig, *part).map(|part| Fault { part, when }));
            }
            flights.push(site.run(&jump).map_err(|e| e.to_string())?);
        }
        let mut seen = Vec::with_capacity(RUNS.len());
        for flight in &flights {
            seen.push(match (kind, &flight.after_fault) {
                (Kind::Absent, _) => Seen::whole(flight),
                (_, Some(after)) => Seen { flight, after: Some(after) },
                (_, None) => return Err("the jump ends before the part carries most".to_owned()),
            });
        }
        motion(site, &seen, &gone.halves(site.rig), kind).map_err(|e| e.to_string())
    }
}

/// The jump of the person, followed as a question beside the plan.
pub(super) fn beside_the_plan(site: &Site<'_>) -> Result<Jump, RigError> {
    site.jump(&site.rig.jumper, Change { what_if: true, ..Change::default() })
}

fn from_rest(jump: Jump, run: Run, rest: &Rest) -> Jump {
    let still = Speed::from_si(0.0);
    Jump {
        run,
        exit: rest.body,
        exit_speed_x: still,
        exit_speed_y: still,
        exit_speed_z: still,
        ring_at_exit: Some(rest.ring),
        launch_zone: Some(Length::from_si(NO_ZONE_M)),
        ..jump
    }
}

/// A part as the jump knows it.
fn failing(rig: &Rig, part: Part) -> impl Iterator<Item = swing::Part> {
    let end = |(line, side): (usize, usize)| {
        let name = rig.line[line].name.clone();
        if side == NEAR {
            swing::Part::NearAnchor { name }
        } else {
            swing::Part::FarAnchor { name }
        }
    };
    let parts = match part {
        Part::Rope(i) => vec![swing::Part::Rope { name: rig.jump.rope[i].name.clone() }],
        Part::Stop(i) => vec![swing::Part::Stop { name: rig.stop[i].name.clone() }],
        Part::Half(line, side) => vec![end((line, side))],
        Part::Line(line) => vec![end((line, NEAR)), end((line, FAR))],
        Part::Anchor(anchor) => ends_at(rig, anchor).into_iter().map(end).collect(),
    };
    parts.into_iter()
}

/// Number of an anchor of the document among those of a flight, which go by their places.
fn anchor_at(flight: &Flight, rig: &Rig, anchor: usize) -> Option<usize> {
    let at: Place = place(&rig.anchor[anchor].position);
    flight.anchors.iter().position(|found| found.place == at)
}

fn anchor_in(flight: &Flight, rig: &Rig, anchor: usize) -> Option<Extreme<Force>> {
    anchor_at(flight, rig, anchor).map(|i| flight.anchors[i].peak)
}

/// One run, from its start or from a loss on.
struct Seen<'a> {
    flight: &'a Flight,
    after: Option<&'a AfterFault>,
}

impl<'a> Seen<'a> {
    fn whole(flight: &'a Flight) -> Self {
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

fn motion(
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
            let force = pull_on(site, anchor, peak.place, gone)?;
            if size(&force) > size(&most.force) {
                let Place { x, y, z } = peak.place;
                *most = Pull { force, ring_m: [x, y, z].map(Quantity::si) };
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
    // From a loss on, the model keeps no peaks of stops.
    for stop in flight.stops.iter().filter(|_| run.after.is_none()) {
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

/// The swing of a jumper who hung at rest on the haul rope and is let go, with words for the walls left out.
pub(super) fn let_go(
    site: &Site<'_>,
    body: [Length; 3],
    ring: [Length; 3],
) -> Result<Motion, String> {
    let still = Speed::from_si(0.0);
    let mut jump = Jump {
        exit: place(&body),
        exit_speed_x: still,
        exit_speed_y: still,
        exit_speed_z: still,
        ring_at_exit: Some(place(&ring)),
        ..beside_the_plan(site).map_err(|e| e.to_string())?
    };
    let mut touched = Vec::new();
    let flights = loop {
        let fly = |run| site.run(&Jump { run, ..jump.clone() });
        match fly(Run::Stiff).and_then(|stiff| Ok([stiff, fly(Run::Soft)?])) {
            Ok(flights) => break flights,
            Err(SwingError::StartsInContact { wall, .. }) => {
                jump.walls.retain(|known| known.name != wall);
                touched.push(wall);
            }
            Err(error) => return Err(error.to_string()),
        }
    };
    let seen: Vec<_> = flights.iter().map(Seen::whole).collect();
    let mut found =
        motion(site, &seen, &BTreeSet::new(), Kind::Worst).map_err(|e| e.to_string())?;
    let left_out = |wall| {
        format!("the body is at the {wall} when it is let go: clearance there is not looked at")
    };
    found.notes.extend(touched.into_iter().map(left_out));
    Ok(found)
}
