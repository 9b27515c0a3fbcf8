//! The way back up: from hanging free under the ring to the lip.

use super::flight::wall;
use super::frame::frame_plan;
use super::gear::stretch;
use super::lines::{Span, bundle};
use super::result::{HaulPlan, HaulStep};
use crate::pulley::{
    Body, BodyKind, Friction, Ordinary, Rope, Sheave, System, Towards, WayBack, WayRope,
    capstan_ratio, ordinary, solve, way_back,
};
use crate::quantity::{Angle, Energy, Force, GRAVITY, Length, LineLoad, Quantity, Words};
use crate::rig::{
    BodyWord, CordageEntry, GrabWord, HaulEntry, HaulSystem, NetworkEntry, Rig, RigError,
    SheaveEntry,
};

/// Positions shown on the way.
const STEPS: usize = 15;

/// Solves the haul of the document from where the jumper comes to rest.
pub(super) fn haul(
    rig: &Rig,
    spans: &[Span<'_>],
    ring: [Length; 3],
    rest: [Length; 3],
) -> Result<Option<HaulPlan>, RigError> {
    let Some(haul) = &rig.haul else { return Ok(None) };
    let pulley = match (&rig.frame, haul.pulley) {
        (Some(frame), _) => frame.head,
        (None, Some(pulley)) => pulley,
        (None, None) => return Err(RigError::unsolved("haul", &"no pulley is given")),
    };
    let way = way(rig, spans, haul, pulley, ring, rest)?;
    let worst = way.iter().max_by(|a, b| a.pull.si().total_cmp(&b.pull.si()));
    let Some(worst) = worst else { return Ok(None) };
    let fail = |e: crate::pulley::PulleyError| RigError::unsolved("haul", &e);
    // Edge, then the sheave at the pulley, then the system.
    let edge = capstan_ratio(
        haul.edge_friction.unwrap_or_else(|| 0.0.ratio()),
        haul.edge_wrap.unwrap_or_else(|| 0.0.degrees()),
    )
    .map_err(fail)?;
    let over_edge = Force::from_si(worst.pull.si() * edge.si());
    let friction = Friction::Axle { efficiency_180: haul.sheave_efficiency };
    let redirect = redirect(worst.body, pulley, haul.anchor, friction);
    let behind = solve(&redirect, over_edge).map_err(fail)?.raising.hand;
    let system = solve(&system(haul, friction)?, behind).map_err(fail)?;
    let lift_m =
        way.first().map_or(0.0, |s| s.rope_out.si()) - way.last().map_or(0.0, |s| s.rope_out.si());
    let ideal = system.ideal_advantage.si();
    let hand_per_pull = system.raising.hand.si() / worst.pull.si().max(f64::MIN_POSITIVE);
    let work_j: f64 = way
        .windows(2)
        .map(|w| {
            0.5 * (w[0].pull.si() + w[1].pull.si()) * (w[0].rope_out.si() - w[1].rope_out.si())
        })
        .sum::<f64>()
        * hand_per_pull
        * ideal;
    let fixed = |name: &str| match &haul.network {
        Some(network) => network.body.iter().any(|b| b.name == name && b.kind == BodyWord::Anchor),
        None => name == "anchor",
    };
    let anchors = system.raising.bodies.iter().filter(|b| fixed(&b.name));
    let anchor = anchors.max_by(|a, b| a.resultant.si().total_cmp(&b.resultant.si()));
    Ok(Some(HaulPlan {
        pull: worst.pull,
        pull_over_edge: over_edge,
        pull_behind_pulley: behind,
        ideal_advantage: system.ideal_advantage,
        actual_advantage: system.actual_advantage,
        hand_force: system.raising.hand,
        holding_force: system.hold.low,
        people_needed: whole(system.raising.hand.si() / haul.pull_each.si()),
        people: haul.people,
        haul_rope: way.first().map_or(worst.rope_out, |s| s.rope_out),
        rope_through_hands: Length::from_si(lift_m * ideal),
        resets: whole(lift_m / haul.throw.si()).saturating_sub(1),
        work: Energy::from_si(work_j),
        system_anchor: anchor.map_or(Force::from_si(0.0), |b| b.resultant),
        frame: rig
            .frame
            .as_ref()
            .map(|frame| frame_plan(frame, haul, &way, behind.si() / worst.pull.si().max(1e-9))),
        steps: way,
    }))
}

/// The next whole number, for people and strokes.
fn whole(x: f64) -> u32 {
    // Small and positive: checked inputs divided by checked inputs.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    {
        x.ceil().clamp(0.0, 1e6) as u32
    }
}

/// The system of the document: an ordinary one, or its own network.
fn system(haul: &HaulEntry, friction: Friction) -> Result<System, RigError> {
    let ordinary_one = match (haul.system, &haul.network) {
        (_, Some(network)) => return Ok(network_of(network, friction)),
        (None, None) => return Err(RigError::unsolved("haul", &"no system is given")),
        (Some(one), None) => one,
    };
    let one = match ordinary_one {
        HaulSystem::Redirect => Ordinary::Redirect,
        HaulSystem::TwoToOne => Ordinary::TwoToOne,
        HaulSystem::ThreeToOne => Ordinary::ThreeToOne,
        HaulSystem::FourToOne => Ordinary::FourToOne,
        HaulSystem::FiveToOne => Ordinary::FiveToOne,
        HaulSystem::SixToOne => Ordinary::SixToOne,
        HaulSystem::NineToOne => Ordinary::NineToOne,
    };
    Ok(ordinary(one, friction))
}

/// The network of the document; a sheave without a figure of its own has that of the haul.
fn network_of(network: &NetworkEntry, friction: Friction) -> System {
    let bodies = network.body.iter().map(|b| Body {
        name: b.name.clone(),
        kind: match b.kind {
            BodyWord::Anchor => BodyKind::Anchor,
            BodyWord::Block => BodyKind::Moving,
            BodyWord::Load => BodyKind::Load,
            BodyWord::Hand => BodyKind::Hand,
        },
        position: b.position,
        travel: b.travel.map(|t| t.map(Quantity::si)),
    });
    let sheave = |s: &SheaveEntry| Sheave {
        on: s.on.clone(),
        friction: s.efficiency.map_or(friction, |e| Friction::Axle { efficiency_180: e }),
        wrap: None,
        grab: s.grab.map(|grab| match grab {
            GrabWord::Start => Towards::Start,
            GrabWord::End => Towards::End,
        }),
    };
    let ropes = network.rope.iter().map(|r| Rope {
        name: r.name.clone(),
        from: r.from.clone(),
        over: r.over.iter().map(sheave).collect(),
        to: r.to.clone(),
    });
    System { bodies: bodies.collect(), ropes: ropes.collect(), haul: None }
}

/// The way of the jumper who hangs at rest.
fn way(
    rig: &Rig,
    spans: &[Span<'_>],
    haul: &HaulEntry,
    pulley: [Length; 3],
    ring: [Length; 3],
    rest: [Length; 3],
) -> Result<Vec<HaulStep>, RigError> {
    let weight = |cordage: &CordageEntry| LineLoad::from_si(cordage.linear_density.si() * GRAVITY);
    let cordage = rig.cordage_named(&haul.cordage)?;
    let mut ropes = Vec::with_capacity(rig.jump.rope.len());
    for rope in &rig.jump.rope {
        let cordage = rig.cordage_named(&rope.cordage)?;
        ropes.push(WayRope {
            name: rope.name.clone(),
            rest_length: rope.rest_length,
            weight: weight(cordage),
            stretch: stretch(&cordage.stretch)?,
        });
    }
    let way = WayBack {
        lines: bundle(spans),
        ring_mass: rig.ring.mass,
        ropes,
        mass: rig.jumper.mass,
        ring,
        body: rest,
        pulley,
        lip: haul.lip,
        // The document gives the turn at the edge itself.
        lip_friction: 0.0.ratio(),
        haul_weight: weight(cordage),
        haul_stretch: stretch(&cordage.stretch)?,
        walls: rig.terrain.iter().map(wall).collect(),
        body_radius: rig.jumper.radius_or_default(),
        steps: STEPS,
    };
    let places = way_back(&way).map_err(|e| RigError::unsolved("haul", &e))?;
    let m = |column: &[f64], i: usize| Length::from_si(column[i]);
    let step = |i: usize| HaulStep {
        rope_out: m(&places.rope_out_m, i),
        pull: Force::from_si(places.pull_n[i]),
        body: [m(&places.x_m, i), m(&places.y_m, i), m(&places.z_m, i)],
        ring: [m(&places.ring_x_m, i), m(&places.ring_y_m, i), m(&places.ring_z_m, i)],
        jump_ropes: Force::from_si(places.jump_ropes_n[i]),
        below_level: Angle::from_si(places.below_level_rad[i]),
        clearance: places.clearance_m.get(i).copied().map(Length::from_si),
    };
    Ok((0..STEPS).map(step).collect())
}

/// The sheave that turns the haul rope from the jumper to the system.
fn redirect(
    body: [Length; 3],
    pulley: [Length; 3],
    anchor: [Length; 3],
    friction: Friction,
) -> System {
    let travel = [0, 1, 2].map(|i| pulley[i].si() - body[i].si());
    let at =
        |name: &str, kind, position, travel| Body { name: name.to_owned(), kind, position, travel };
    System {
        bodies: vec![
            at("jumper", BodyKind::Load, body, Some(travel)),
            at("pulley", BodyKind::Anchor, pulley, None),
            at("system", BodyKind::Hand, anchor, None),
        ],
        ropes: vec![Rope {
            name: "haul rope".to_owned(),
            from: "jumper".to_owned(),
            over: vec![Sheave { on: "pulley".to_owned(), friction, wrap: None, grab: None }],
            to: "system".to_owned(),
        }],
        haul: None,
    }
}
