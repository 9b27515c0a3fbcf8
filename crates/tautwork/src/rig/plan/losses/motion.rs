//! The jumper in motion without a part: in a jump, and from rest.

use std::collections::BTreeSet;

use super::parts::{FAR, Gone, NEAR, Part, ends_at};
use super::seen::{Motion, Seen, motion};
use crate::quantity::{Force, Length, Quantity, Speed, Time, show};
use crate::rig::plan::flight::{Change, Site, anchor_in, place};
use crate::rig::plan::lines::size;
use crate::rig::plan::ratings;
use crate::rig::{Rig, RigError};
use crate::swing::{self, Fault, Flight, Jump, Rest, Run, SwingError, When};

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
        rest.slow_lines.clear();
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
