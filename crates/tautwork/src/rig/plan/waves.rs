//! The jump in the full model, where the reduced one says that it is not valid for a line.

use super::flight::Site;
use super::result::{WaveAnchor, WaveLine, WavePlan};
use crate::quantity::{Force, Length, Quantity, Time};
use crate::rig::{BodyEntry, Rig};
use crate::swing::{Extreme, FullFlight, FullNote, Limit, Note, Outlook, Run};

/// Time for which the full model is followed, s: the catch and two swings. Later, slack lines without loss flap
/// without order.
const WAVES_S: f64 = 15.0;

/// The same for the bag.
pub(super) fn of_bag(site: &Site<'_>, jump: &Outlook) -> Option<WavePlan> {
    waves(site, site.rig.bag.as_ref()?, jump)
}

/// Flies the jump of a body in the full model if a wave is too slow for a line: the rule on its page.
/// None if every line is quick enough.
pub(super) fn waves(site: &Site<'_>, body: &BodyEntry, jump: &Outlook) -> Option<WavePlan> {
    let slow: Vec<&str> = [&jump.stiff, &jump.soft]
        .into_iter()
        .flat_map(|flight| &flight.notes)
        .filter_map(|note| match note {
            Note::QuasiStaticNotValid { line, .. } => Some(line.as_str()),
            _ => None,
        })
        .collect();
    if slow.is_empty() {
        return None;
    }
    let horizon = Time::from_si(WAVES_S.min(site.defaults.horizon.si()));
    let mut plan = WavePlan {
        horizon,
        lines: Vec::new(),
        anchors: Vec::new(),
        body_force: None,
        lowest: None,
        rope_clearances: Vec::new(),
        notes: Vec::new(),
    };
    let mut flights = Vec::new();
    for run in [Run::Stiff, Run::Soft] {
        match site.fly_full(body, run, horizon) {
            Ok(flight) => flights.push(flight),
            // The reduced answer stands, and the plan says so.
            Err(error) => plan.notes.push(error.to_string()),
        }
    }
    let Some(first) = flights.first() else { return Some(plan) };
    for (i, line) in first.lines.iter().enumerate() {
        let of = |at: fn(&FullFlight, usize) -> Extreme<Force>| worst(&flights, |f| at(f, i));
        let ring = |f: &FullFlight, i: usize| {
            let [near, far] = [f.lines[i].ring_near, f.lines[i].ring_far];
            if near.value > far.value { near } else { far }
        };
        let over = flights.iter().filter_map(|f| f.lines[i].over_quasi_static);
        plan.lines.push(WaveLine {
            line: line.name.clone(),
            taken: slow.contains(&line.name.as_str()),
            near: of(|f, i| f.lines[i].near),
            far: of(|f, i| f.lines[i].far),
            ring: of(ring),
            over_quasi_static: over.max_by(|a, b| a.si().total_cmp(&b.si())),
        });
    }
    for (i, anchor) in first.anchors.iter().enumerate() {
        let name = anchor_at(site.rig, &anchor.parts, anchor.place.x, anchor.place.z);
        let peak = worst(&flights, |f| f.anchors[i].peak);
        plan.anchors.extend(name.map(|anchor| WaveAnchor { anchor, peak }));
    }
    plan.body_force = Some(worst(&flights, |f| f.resultant));
    let lower =
        |a: &&FullFlight, b: &&FullFlight| a.lowest.value.si().total_cmp(&b.lowest.value.si());
    plan.lowest = flights.iter().min_by(lower).map(|f| Limit { run: f.run, extreme: f.lowest });
    for flight in &flights {
        for clearance in &flight.rope_clearances {
            let known = plan.rope_clearances.iter_mut().find(|c| c.wall == clearance.wall);
            match known {
                Some(known) if known.least <= clearance.least => {}
                Some(known) => *known = clearance.clone(),
                None => plan.rope_clearances.push(clearance.clone()),
            }
        }
        plan.notes.extend(flight.notes.iter().filter_map(|note| words(flight.run, note)));
    }
    Some(plan)
}

fn worst(flights: &[FullFlight], of: impl Fn(&FullFlight) -> Extreme<Force>) -> Limit<Force> {
    let mut worst = Limit { run: flights[0].run, extreme: of(&flights[0]) };
    for flight in &flights[1..] {
        let extreme = of(flight);
        if extreme.value > worst.extreme.value {
            worst = Limit { run: flight.run, extreme };
        }
    }
    worst
}

/// Name of the anchor of the document at which some lines end.
fn anchor_at(rig: &Rig, lines: &[String], x: Length, z: Length) -> Option<String> {
    let here = |p: &[Length; 3]| p[0] == x && p[2] == z;
    let line = rig.line.iter().find(|line| lines.contains(&line.name))?;
    let names = [&line.from, &line.to];
    let anchor = rig.anchor.iter().find(|a| names.contains(&&a.name) && here(&a.position))?;
    Some(anchor.name.clone())
}

fn words(run: Run, note: &FullNote) -> Option<String> {
    let run = super::picture::name_of(run);
    let text = match note {
        FullNote::RopeCrossedWall { rope, wall } => format!("{rope} touches the {wall}"),
        FullNote::CoarseStep => "the energy books close badly".to_owned(),
        FullNote::PastTable { line } => format!("{line} is past its stretch table"),
        FullNote::RanToAnchor { line } => format!("the ring ran along {line} to an anchor"),
        FullNote::NeverTaut
        | FullNote::LaunchZoneNotLeft
        | FullNote::NotSettled
        | FullNote::Contact { .. }
        | FullNote::NoRest { .. } => return None,
    };
    Some(format!("{run} run: {text}"))
}
