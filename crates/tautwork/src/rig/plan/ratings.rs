//! What every component carries at most, and what it is rated for.

use super::anchors::{rated_cord, rated_fixing, rated_part};
use super::check::{
    Checks, Demand, Ledger, OtherCheck, Rated, StrengthCheck, clearance_check, factors_at,
    force_check,
};
use super::edges::Touch;
use super::gear::Defaults;
use super::lines::Span;
use super::picture::name_of;
use super::result::{AnchorPlan, HaulPlan, RescuePlan, StatePlan, Waiting, WavePlan, WindPlan};
use crate::quantity::{Force, Length, Quantity, Ratio, show};
use crate::rig::{End, GearEntry, HAUL_ROPE, Place, Rig, RigError};
use crate::swing::{Flight, Happening, Limit, Outlook};

const NEAR: &str = "near end";
const FAR: &str = "far end";
/// Both ends of a line.
pub(super) const END: [&str; 2] = [NEAR, FAR];
pub(super) const AT_RING: &str = "at the ring";
/// A stop carries the same all along.
pub(super) const STOP: &str = "whole length";
pub(super) const AT_JUMPER: &str = "at the jumper";

/// Everything that loads the rig as planned.
pub(super) struct Loads<'a> {
    pub states: &'a [StatePlan],
    pub person: &'a [StatePlan],
    pub waiting: &'a Waiting,
    pub jump: &'a Outlook,
    pub waves: Option<&'a WavePlan>,
    /// The rig in each wind, with the jump in it.
    pub winds: &'a [(WindPlan, Outlook)],
    pub anchors: &'a [AnchorPlan],
    pub haul: Option<&'a HaulPlan>,
    pub rescue: Option<&'a RescuePlan>,
    pub touches: &'a [Touch],
}

/// Words for where a limit comes from.
pub(super) fn from_limit<Q: Quantity>(what: &str, limit: &Limit<Q>) -> String {
    format!("{what}, {} run, at {}", name_of(limit.run), show(limit.extreme.time, "s", 1))
}

/// Peaks of a jump, by component and place.
pub(super) fn jump_ledger(ledger: &mut Ledger, what: &str, jump: &Outlook) {
    for (near, far) in jump.lines_near.iter().zip(&jump.lines_far) {
        let (n, f) = (near.force.extreme.value.si(), far.force.extreme.value.si());
        ledger.put(&near.name, NEAR, n, &from_limit(what, &near.force));
        ledger.put(&far.name, FAR, f, &from_limit(what, &far.force));
        // A line pulls hardest at its higher end, so the ring sees no more than the larger of the two.
        let larger = if n >= f { &near.force } else { &far.force };
        ledger.put(&near.name, AT_RING, n.max(f), &from_limit(what, larger));
    }
    for flight in [&jump.stiff, &jump.soft] {
        for stop in &flight.stops {
            let limit = Limit { run: flight.run, extreme: stop.tension };
            ledger.put(&stop.name, STOP, stop.tension.value.si(), &from_limit(what, &limit));
        }
    }
    let mut together = 0.0;
    for rope in &jump.ropes {
        let n = rope.force.extreme.value.si();
        together += n;
        for place in [AT_RING, AT_JUMPER] {
            ledger.put(&rope.name, place, n, &from_limit(what, &rope.force));
        }
    }
    let body = &jump.body_force;
    ledger.put("jumper", "", body.extreme.value.si(), &from_limit(what, body));
    // Ropes that peak together pull on the ring with the sum of their peaks; more than that they cannot.
    ledger.put("ring", "", together, &from_limit(what, body));
}

/// Peaks of the full model: of lines for which the reduced one is not valid, and of the body, where it may be
/// higher.
fn wave_ledger(ledger: &mut Ledger, waves: &WavePlan) {
    for line in waves.lines.iter().filter(|line| line.taken) {
        for (place, limit) in [(NEAR, &line.near), (FAR, &line.far), (AT_RING, &line.ring)] {
            let from = from_limit("jump with waves", limit);
            ledger.put(&line.line, place, limit.extreme.value.si(), &from);
        }
    }
    if let Some(body) = &waves.body_force {
        ledger.put("jumper", "", body.extreme.value.si(), &from_limit("jump with waves", body));
    }
}

fn state_ledger(ledger: &mut Ledger, what: &str, states: &[StatePlan]) {
    for state in states {
        let from = format!("{what}, {}", state.name);
        for line in &state.lines {
            ledger.put(&line.name, NEAR, line.tension_near.si(), &from);
            ledger.put(&line.name, AT_RING, line.tension_ring.si(), &from);
            ledger.put(&line.name, FAR, line.tension_far.si(), &from);
        }
    }
}

/// Lines, jump ropes and ring in a rescue. One jump rope may have to carry the climb alone.
fn rescue_ledger(ledger: &mut Ledger, rig: &Rig, rescue: &RescuePlan) {
    let lowered = rescue.lowering.iter().map(|l| l.state.clone());
    let states: Vec<StatePlan> = std::iter::once(rescue.two.clone()).chain(lowered).collect();
    state_ledger(ledger, "rescue", &states);
    let climb_n = rescue.climb.greatest.si();
    for rope in &rig.jump.rope {
        ledger.put(&rope.name, AT_RING, climb_n, "rescue, a second person climbs this rope");
    }
    let pulley_n = rescue.lowering.as_ref().map_or(0.0, |l| l.on_pulley.si());
    ledger.put("ring", "", climb_n.max(pulley_n), "rescue");
}

/// Lines and jump ropes with what acts at each place.
pub(super) fn rated<'a>(rig: &'a Rig, spans: &'a [Span<'a>]) -> Result<Vec<Rated<'a>>, RigError> {
    let mut list = Vec::new();
    for span in spans {
        for (place, at) in [(NEAR, Place::Near), (AT_RING, Place::Ring), (FAR, Place::Far)] {
            list.push(Rated {
                component: &span.entry.name,
                place,
                strength: span.cordage.breaking_strength,
                factors: factors_at(&span.entry.factor, at),
            });
        }
    }
    for rope in &rig.jump.rope {
        let strength = rig.cordage_named(&rope.cordage)?.breaking_strength;
        for (place, at) in [(AT_RING, Place::Near), (AT_JUMPER, Place::Far)] {
            list.push(Rated {
                component: &rope.name,
                place,
                strength,
                factors: factors_at(&rope.factor, at),
            });
        }
    }
    for stop in &rig.stop {
        list.push(Rated {
            component: &stop.name,
            place: STOP,
            strength: rig.cordage_named(&stop.cordage)?.breaking_strength,
            factors: stop.factor.iter().collect(),
        });
    }
    Ok(list)
}

/// A piece of gear.
pub(super) fn rated_gear(gear: &GearEntry) -> Rated<'_> {
    Rated {
        component: &gear.name,
        place: &gear.at,
        strength: gear.strength,
        factors: gear.factor.iter().collect(),
    }
}

/// Greatest force on a piece of gear: where it is, or at the end of the line at which it is.
pub(super) fn gear_demand(ledger: &Ledger, gear: &GearEntry) -> Demand {
    match gear.end {
        Some(End::Near) => ledger.get(&gear.at, NEAR),
        Some(End::Far) => ledger.get(&gear.at, FAR),
        None => ledger.greatest(&gear.at),
    }
}

/// All checks of the rig as planned.
pub(super) fn checks(
    rig: &Rig,
    spans: &[Span<'_>],
    defaults: &Defaults,
    loads: &Loads<'_>,
) -> Result<Checks, RigError> {
    let mut ledger = Ledger::default();
    state_ledger(&mut ledger, "standing", loads.states);
    state_ledger(&mut ledger, "jumper at the ring", loads.person);
    jump_ledger(&mut ledger, "jump", loads.jump);
    if let Some(rescue) = loads.rescue {
        rescue_ledger(&mut ledger, rig, rescue);
    }
    if let Some(waves) = loads.waves {
        wave_ledger(&mut ledger, waves);
    }
    for (wind, jump) in loads.winds {
        state_ledger(&mut ledger, "in wind", &wind.states);
        jump_ledger(&mut ledger, &format!("jump, {}", wind.name), jump);
    }
    let waiting = loads.waiting.pull_size.si();
    ledger.put("jumper", "", waiting, "waiting at the exit");
    let required = rig.requirements.factor;
    let mut checks = Checks::default();
    for rated in rated(rig, spans)? {
        let demand = ledger.get(rated.component, rated.place);
        checks.strength.push(rated.against(&demand, required)?);
    }
    anchors(rig, loads.anchors, &mut ledger, &mut checks)?;
    if let Some(haul) = loads.haul {
        haul_checks(rig, haul, required, &mut ledger, &mut checks.strength)?;
    }
    for gear in &rig.gear {
        let (rated, demand) = (rated_gear(gear), gear_demand(&ledger, gear));
        checks.strength.push(rated.against(&demand, required)?);
    }
    let (mut body, mut from) = (&loads.jump.body_force, "jump");
    if let Some(with_waves) = loads.waves.and_then(|waves| waves.body_force.as_ref())
        && with_waves.extreme.value > body.extreme.value
    {
        (body, from) = (with_waves, "jump with waves");
    }
    checks.force.push(force_check(
        "force on the body in the jump",
        body.extreme.value,
        rig.requirements.body_force,
        &from_limit(from, body),
    ));
    clearances(rig, defaults, ("", loads.jump), &mut checks);
    for (wind, jump) in loads.winds {
        let body = &jump.body_force;
        checks.force.push(force_check(
            &format!("force on the body in the jump, {}", wind.name),
            body.extreme.value,
            rig.requirements.body_force,
            &from_limit("jump", body),
        ));
        clearances(rig, defaults, (&format!(", {}", wind.name), jump), &mut checks);
    }
    contacts(loads.jump, &mut checks);
    bare_edges(loads.touches, &mut checks);
    if let Some(frame) = loads.haul.and_then(|h| h.frame.as_ref()) {
        checks.other.push(OtherCheck {
            what: "the frame over the whole way of the haul".to_owned(),
            answer: frame.problem.clone().unwrap_or_else(|| "stands".to_owned()),
            falls_short: frame.problem.is_some(),
        });
    }
    if let Some(lowering) = loads.rescue.and_then(|r| r.lowering.as_ref()) {
        checks.other.push(OtherCheck {
            what: "the rope to lower with".to_owned(),
            answer: match lowering.rope_left {
                Some(left) if lowering.reaches => format!("{} left over", show(left, "m", 1)),
                Some(left) => format!("{} too short", show(Length::from_si(-left.si()), "m", 1)),
                None => "no ground is known below".to_owned(),
            },
            falls_short: !lowering.reaches,
        });
        for (who, holds) in [("the jumper", &lowering.one), ("both", &lowering.both)] {
            let up_to = show(holds.holds_up_to, "kN", 2);
            checks.other.push(OtherCheck {
                what: format!("the hand at the device, lowering {who}"),
                answer: format!("holds up to {up_to}"),
                falls_short: !holds.holds,
            });
        }
    }
    if let (Some(haul), Some(entry)) = (loads.haul, &rig.haul) {
        let limit = Force::from_si(f64::from(haul.people) * entry.pull_each.si());
        let from = format!("{} haulers at {} each", haul.people, show(entry.pull_each, "N", 0));
        checks.force.push(force_check("hand force of the haul", haul.hand_force, limit, &from));
    }
    Ok(checks)
}

/// Whatever lies on an edge without a pad.
fn bare_edges(touches: &[Touch], checks: &mut Checks) {
    for plan in touches.iter().map(|touch| &touch.plan).filter(|plan| plan.pad.is_none()) {
        checks.other.push(OtherCheck {
            what: format!("{} on the {}", plan.part, plan.edge),
            answer: format!(
                "a bare edge without a pad turns it by {} with {}",
                show(plan.turn, "deg", 0),
                show(plan.contact, "kN", 2)
            ),
            falls_short: true,
        });
    }
}

/// Runs in which the jumper hits something.
fn contacts(jump: &Outlook, checks: &mut Checks) {
    for (run, flight) in [("stiff", &jump.stiff), ("soft", &jump.soft)] {
        if let Some(contact) = contact(flight) {
            checks.other.push(OtherCheck {
                what: format!("the jumper in the {run} run"),
                answer: contact,
                falls_short: true,
            });
        }
    }
}

fn anchors(
    rig: &Rig,
    plans: &[AnchorPlan],
    ledger: &mut Ledger,
    checks: &mut Checks,
) -> Result<(), RigError> {
    let required = rig.requirements.factor;
    let (out, other) = (&mut checks.strength, &mut checks.other);
    for (anchor, plan) in rig.anchor.iter().zip(plans) {
        ledger.put(&anchor.name, "", plan.pull_size.si(), &plan.from);
        if let Some(strength) = anchor.strength {
            let rated =
                Rated { component: &anchor.name, place: "anchor", strength, factors: Vec::new() };
            out.push(rated.against(&ledger.get(&anchor.name, ""), required)?);
        }
        for (leg, found) in anchor.leg.iter().zip(&plan.legs) {
            let demand = Demand { force_n: found.tension.si(), from: plan.from.clone() };
            out.push(rated_cord(anchor, leg).against(&demand, required)?);
            for part in &leg.part {
                let component = format!("{} of {}", part.name, leg.name);
                let rated = rated_part(&component, &anchor.name, part);
                out.push(rated.against(&demand, required)?);
            }
        }
        for (fixing, found) in anchor.fixing.iter().zip(&plan.fixings) {
            let demand = Demand { force_n: found.size.si(), from: plan.from.clone() };
            if let Some(rated) = rated_fixing(anchor, fixing) {
                out.push(rated.against(&demand, required)?);
            }
            let Some(hold) = &found.hold else { continue };
            if let Some(strength) = hold.limit.filter(|limit| limit.si() > 0.0) {
                let place = format!("{}, as a {}", anchor.name, hold.kind.word());
                let factors = Vec::new();
                let rated = Rated { component: &fixing.name, place: &place, strength, factors };
                out.push(rated.against(&demand, required)?);
            } else if !hold.answered || hold.limit.is_some() {
                other.push(OtherCheck {
                    what: format!("{} of {} as a {}", fixing.name, anchor.name, hold.kind.word()),
                    answer: hold.how.clone(),
                    falls_short: true,
                });
            }
        }
    }
    Ok(())
}

fn haul_checks(
    rig: &Rig,
    haul: &HaulPlan,
    required: Ratio,
    ledger: &mut Ledger,
    out: &mut Vec<StrengthCheck>,
) -> Result<(), RigError> {
    let Some(entry) = &rig.haul else { return Ok(()) };
    let tension = haul.pull_over_edge.si().max(haul.pull_behind_pulley.si());
    ledger.put(HAUL_ROPE, "", tension, "haul, at the greatest pull");
    let rope = Rated {
        component: HAUL_ROPE,
        place: "",
        strength: rig.cordage_named(&entry.cordage)?.breaking_strength,
        factors: entry.factor.iter().collect(),
    };
    out.push(rope.against(&ledger.get(HAUL_ROPE, ""), required)?);
    let (Some(frame), Some(entry)) = (&haul.frame, &rig.frame) else { return Ok(()) };
    for member in entry.leg.iter().chain(&entry.guy) {
        let found = frame.members.iter().find(|m| m.name == member.name);
        let force = found.map_or(0.0, |m| m.force.si());
        ledger.put(&member.name, "frame", force, "haul, over the whole way");
        let rated = Rated {
            component: &member.name,
            place: "frame",
            strength: member.strength,
            factors: Vec::new(),
        };
        out.push(rated.against(&ledger.get(&member.name, "frame"), required)?);
        if let Some(strength) = found.and_then(|m| m.buckles_at) {
            let factors = Vec::new();
            let pole =
                Rated { component: &member.name, place: "frame, buckling", strength, factors };
            out.push(pole.against(&ledger.get(&member.name, "frame"), required)?);
        }
    }
    Ok(())
}

/// The clearances of a jump, with the condition in words.
fn clearances(
    rig: &Rig,
    defaults: &Defaults,
    (condition, jump): (&str, &Outlook),
    checks: &mut Checks,
) {
    let less = |value: Length| Length::from_si(value.si() - defaults.survey_error.si());
    for limit in &jump.clearances {
        checks.clearance.push(clearance_check(
            &format!("{} in flight{condition}", limit.wall),
            less(limit.least.extreme.value),
            required_clearance(rig, &limit.wall),
            &from_limit("jump", &limit.least),
        ));
    }
    if let (Some(required), Some(exit)) = (rig.requirements.exit_clearance, &jump.exit_clearance) {
        checks.clearance.push(clearance_check(
            &format!("{} on the way out{condition}", exit.wall),
            less(exit.least.extreme.value),
            required,
            &from_limit("jump", &exit.least),
        ));
    }
}

/// Clearance required at a wall: its own, or that of the requirements.
pub(super) fn required_clearance(rig: &Rig, wall: &str) -> Length {
    let own = rig.terrain.iter().find(|t| t.name == wall).and_then(|t| t.clearance);
    own.unwrap_or(rig.requirements.clearance)
}

/// Words for a contact, if a run ended in one.
pub(super) fn contact(flight: &Flight) -> Option<String> {
    flight.events.iter().find_map(|event| match &event.what {
        Happening::Contact { wall, speed } => {
            Some(format!("hits the {wall} at {}", show(*speed, "m/s", 0)))
        }
        _ => None,
    })
}
