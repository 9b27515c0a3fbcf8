//! The pulleys of the document's haul.

use crate::pulley::{
    Body, BodyKind, Friction, HaulWith, Ordinary, OwnSystem, Rope, Sheave, System, Towards,
    ordinary_systems,
};
use crate::quantity::{Length, Quantity};
use crate::rig::{
    BodyWord, GrabWord, HAUL_ROPE, HaulEntry, HaulSystem, NetworkEntry, RigError, SheaveEntry,
};

/// The pulley that leads the haul rope to the system.
pub(super) const LEAD_PULLEY: &str = "pulley";

/// Every ordinary system.
pub(super) fn every() -> Vec<HaulWith> {
    ordinary_systems().into_iter().map(|about| about.system.into()).collect()
}

/// The system of the document: an ordinary one, or its own network.
pub(super) fn system(haul: &HaulEntry) -> Result<HaulWith, RigError> {
    let ordinary_one = match (haul.system, &haul.network) {
        (_, Some(network)) => {
            let friction = Friction::Axle { efficiency_180: haul.sheave_efficiency };
            let system = network_of(network, friction);
            return Ok(HaulWith::Own(OwnSystem { name: "of the document".to_owned(), system }));
        }
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
        HaulSystem::SimpleFour => Ordinary::SimpleFour,
        HaulSystem::SixTurned => Ordinary::SixTurned,
        HaulSystem::EightToOne => Ordinary::EightToOne,
        HaulSystem::ComplexThree => Ordinary::ComplexThree,
        HaulSystem::ComplexFive => Ordinary::ComplexFive,
    };
    Ok(one.into())
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

/// The sheave that turns the haul rope from the jumper to the system.
pub(super) fn redirect(
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
            at(LEAD_PULLEY, BodyKind::Anchor, pulley, None),
            at("system", BodyKind::Hand, anchor, None),
        ],
        ropes: vec![Rope {
            name: HAUL_ROPE.to_owned(),
            from: "jumper".to_owned(),
            over: vec![Sheave { on: LEAD_PULLEY.to_owned(), friction, wrap: None, grab: None }],
            to: "system".to_owned(),
        }],
        haul: None,
    }
}
