//! Lines, jump ropes and the haul rope on edges of rock.

mod pieces;
mod terrain;

use self::pieces::{
    Piece, haul_piece, lines_at_rest, lines_in_flight, ropes_in_flight, starts_over, waiting,
};
use self::terrain::terrain;
use super::flight::{Site, place};
use super::result::{EdgePlan, HaulStep, StatePlan};
use super::wear::force_travel_j;
use crate::material::RubCase;
use crate::quantity::{Energy, Force, Length, LineLoad, Quantity, Ratio};
use crate::rig::{EdgeEntry, HAUL_ROPE, PadEntry, Rig, RigError};
use crate::swing::{
    Outlook, RockEdge, RopeEdgeCase, RopeOnEdge, SwingError, Track, Waiting, rope_on_edge,
};

/// A touch and how it rubs.
pub(super) struct Touch {
    pub plan: EdgePlan,
    /// Force on the edge and travel, sample by sample, where it moves.
    pub rub: Option<Rub>,
}

/// A motion over an edge for the model of wear.
pub(super) struct Rub {
    pub case: RubCase,
    pub from: String,
}

/// Every touch, and where the model has no answer.
#[derive(Default)]
pub(super) struct Touches {
    pub all: Vec<Touch>,
    pub notes: Vec<String>,
}

/// Everything of the plan that may lie on an edge.
pub(super) struct Over<'a> {
    pub states: [&'a [StatePlan]; 2],
    pub waiting: &'a Waiting,
    pub jump: &'a Outlook,
    pub haul: Option<&'a [HaulStep]>,
}

/// All touches of the plan: of each part and edge the greatest force and the greatest rub.
pub(super) fn touches(site: &Site<'_>, over: &Over<'_>) -> Result<Touches, RigError> {
    let rig = site.rig;
    let mut found = Touches::default();
    let mut pieces = Vec::new();
    if !rig.edge.is_empty() {
        for (what, states) in ["standing", "jumper at the ring"].iter().zip(over.states) {
            lines_at_rest(site, what, states, &mut pieces);
        }
        for flight in [&over.jump.stiff, &over.jump.soft] {
            lines_in_flight(site, flight, &mut pieces);
        }
        waiting(rig, over.waiting, &mut pieces);
    }
    let ropes = ropes_in_flight(rig, over.jump)?;
    for edge in &rig.edge {
        for piece in pieces.iter().chain(&ropes) {
            found.look(rig, edge, piece);
        }
    }
    if let Some(steps) = over.haul {
        haul_rope(rig, steps, &mut found)?;
    }
    // One path for all jump ropes.
    for piece in
        ropes.iter().filter(|piece| rig.jump.rope.first().is_some_and(|r| r.name == piece.part))
    {
        terrain(site, piece, &mut found);
    }
    Ok(found)
}

/// The friction, radius and pad of a part on an edge.
fn on<'a>(edge: &'a EdgeEntry, part: &str) -> (Option<&'a PadEntry>, Ratio, Option<Length>) {
    let pad = edge.pad.iter().find(|pad| pad.under.iter().any(|name| name == part));
    let friction = pad.map_or(edge.friction, |pad| pad.friction);
    (pad, friction, pad.and_then(|pad| pad.radius).or(edge.radius))
}

impl Touches {
    fn look(&mut self, rig: &Rig, edge: &EdgeEntry, piece: &Piece) {
        let (pad, friction, radius) = on(edge, &piece.part);
        let at = RockEdge::Corner { at: place(&edge.position) };
        let case = piece.case(at, friction, starts_over(piece, edge.position.map(Quantity::si)));
        match longest(&case) {
            Ok((rope, stopped)) => {
                if let Some(error) = stopped {
                    self.unclear(&edge.name, piece, &error);
                }
                let pad = pad.map(|pad| (pad.name.clone(), pad.done));
                let done = pad.as_ref().map_or(rig.wear.as_ref().and_then(|w| w.done), |p| p.1);
                let where_ = (edge.name.as_str(), pad.map(|p| p.0), Some(friction), radius);
                self.take(where_, piece, &rope, done);
            }
            Err(error) => self.unclear(&edge.name, piece, &error),
        }
    }

    fn unclear(&mut self, edge: &str, piece: &Piece, error: &SwingError) {
        let Piece { part, from, .. } = piece;
        self.notes.push(format!("{part} on the {edge}, {from}: no answer from then on: {error}"));
    }

    /// Takes a rope that touches into the list: the greatest of each figure over all parts of the plan.
    fn take(
        &mut self,
        (edge, pad, friction, radius): (&str, Option<String>, Option<Ratio>, Option<Length>),
        piece: &Piece,
        rope: &RopeOnEdge,
        done: Option<Energy>,
    ) {
        let (Some(turn), Some(force)) = (rope.greatest_turn, rope.greatest_force) else { return };
        let highest = |n: &[f64]| n.iter().copied().fold(0.0, f64::max);
        let tension_n = highest(&rope.behind_high_n);
        let mu = friction.map_or(0.0, Quantity::si);
        let plan = EdgePlan {
            edge: edge.to_owned(),
            part: piece.part.clone(),
            pad,
            friction,
            turn: turn.value,
            contact: force.value,
            from: piece.from.clone(),
            capstan_ratio: Ratio::from_si((mu * turn.value.si()).exp()),
            behind: Force::from_si(tension_n),
            pressure: radius.map(|radius| LineLoad::from_si(tension_n / radius.si())),
            travel: rope.rub,
        };
        let moves = piece.t_s.len() > 1;
        let case = || RubCase {
            contact_n: rope.force_most_n.clone(),
            travel_m: rope.rub_m.clone(),
            friction,
            retire_at: None,
            done,
        };
        let rub = moves.then(|| Rub { case: case(), from: piece.from.clone() });
        self.add(Touch { plan, rub });
    }

    fn add(&mut self, new: Touch) {
        let same = |t: &&mut Touch| t.plan.edge == new.plan.edge && t.plan.part == new.plan.part;
        let Some(known) = self.all.iter_mut().find(same) else {
            self.all.push(new);
            return;
        };
        let (a, b) = (&mut known.plan, new.plan);
        if b.contact > a.contact {
            (a.contact, a.from) = (b.contact, b.from);
        }
        if b.capstan_ratio > a.capstan_ratio {
            a.capstan_ratio = b.capstan_ratio;
        }
        a.turn = if b.turn > a.turn { b.turn } else { a.turn };
        a.behind = if b.behind > a.behind { b.behind } else { a.behind };
        a.pressure = if b.pressure > a.pressure { b.pressure } else { a.pressure };
        a.travel = if b.travel > a.travel { b.travel } else { a.travel };
        let product = |rub: &Option<Rub>| rub.as_ref().map_or(-1.0, |r| force_travel_j(&r.case));
        if product(&new.rub) > product(&known.rub) {
            known.rub = new.rub;
        }
    }
}

/// The haul rope from the pulley to the jumper. It is drawn over the edge: what comes in rubs.
fn haul_rope(rig: &Rig, steps: &[HaulStep], found: &mut Touches) -> Result<(), RigError> {
    let Some(piece) = haul_piece(rig, steps)? else { return Ok(()) };
    for edge in &rig.edge {
        let before = found.all.len();
        found.look(rig, edge, &piece);
        let Some(touch) = found.all.get_mut(before) else { continue };
        let Some(rub) = &mut touch.rub else { continue };
        let contact_n = &rub.case.contact_n;
        let mut travel_m = vec![0.0; steps.len()];
        for i in 1..steps.len() {
            let drawn_m = (steps[i - 1].rope_out.si() - steps[i].rope_out.si()).abs();
            let over = contact_n[i - 1] > 0.0 || contact_n[i] > 0.0;
            travel_m[i] = travel_m[i - 1] + if over { drawn_m } else { 0.0 };
        }
        touch.plan.travel = Length::from_si(travel_m.last().copied().unwrap_or(0.0));
        rub.case.travel_m = travel_m;
    }
    Ok(())
}

/// What the edges do to the pull of the haul at a step: the product of their capstan ratios.
pub(super) fn haul_ratio(rig: &Rig, steps: &[HaulStep], step: usize) -> Result<Ratio, RigError> {
    let Some(piece) = haul_piece(rig, steps)? else { return Ok(Ratio::from_si(1.0)) };
    let mut exponent = 0.0;
    for edge in &rig.edge {
        let (_, friction, _) = on(edge, HAUL_ROPE);
        let over = starts_over(&piece, edge.position.map(Quantity::si));
        let at = RockEdge::Corner { at: place(&edge.position) };
        if let Ok(rope) = rope_on_edge(&piece.case(at, friction, over)) {
            exponent += friction.si() * rope.turn_rad.get(step).copied().unwrap_or(0.0);
        }
    }
    Ok(Ratio::from_si(exponent.exp()))
}

/// The answer for as much of a motion as has one, and what ends it.
fn longest(case: &RopeEdgeCase) -> Result<(RopeOnEdge, Option<SwingError>), SwingError> {
    let error = match rope_on_edge(case) {
        Ok(rope) => return Ok((rope, None)),
        Err(error) => error,
    };
    let cut = |samples: usize| {
        let column = |values: &[f64]| values[..samples.min(values.len())].to_vec();
        let track =
            |t: &Track| Track { x_m: column(&t.x_m), y_m: column(&t.y_m), z_m: column(&t.z_m) };
        rope_on_edge(&RopeEdgeCase {
            t_s: column(&case.t_s),
            anchor: track(&case.anchor),
            body: track(&case.body),
            tension_n: column(&case.tension_n),
            ..case.clone()
        })
    };
    let (mut good, mut bad) = (1, case.t_s.len());
    let mut rope = cut(good)?;
    while bad - good > 1 {
        let middle = usize::midpoint(good, bad);
        match cut(middle) {
            Ok(longer) => (rope, good) = (longer, middle),
            Err(_) => bad = middle,
        }
    }
    Ok((rope, Some(error)))
}
