//! The things that a rig is made of.

use super::KitPiece;
use crate::line::{Knot, LineToBring, Wrap, lengths_to_bring};
use crate::pulley::{Friction, HaulWith, ordinary};
use crate::quantity::{Force, Length, Mass, Quantity, Ratio, show};
use crate::rig::plan::haul_system::system;
use crate::rig::plan::lines::distance_m;
use crate::rig::plan::result::Plan;
use crate::rig::{AnchorEntry, CordageEntry, End, HAUL_ROPE, HaulEntry, Rig, RigError, Side};

/// Every thing but spares, in the order of the document.
pub(super) fn pieces(rig: &Rig, plan: &Plan) -> Result<Vec<KitPiece>, RigError> {
    let mut pieces = lines(rig, plan)?;
    for (i, anchor) in rig.anchor.iter().enumerate() {
        legs(rig, anchor, i, &mut pieces)?;
    }
    ropes(rig, &mut pieces)?;
    stops(rig, plan, &mut pieces)?;
    if let Some(haul) = &rig.haul {
        the_haul(rig, plan, haul, &mut pieces)?;
    }
    lowering(rig, &mut pieces)?;
    frame(rig, &mut pieces);
    gear(rig, &mut pieces);
    pads(rig, &mut pieces);
    items(rig, &mut pieces)?;
    Ok(pieces)
}

fn zero() -> Length {
    Length::from_si(0.0)
}

/// A piece of cordage with what its length is made up of.
struct Cut<'a> {
    name: &'a str,
    cordage: &'a str,
    side: Side,
    from: String,
    rest: Length,
    tails: [Length; 2],
    wraps: Vec<(&'a str, Length)>,
    knots: Length,
    error: Length,
}

impl Cut<'_> {
    /// Eq. (K1) to (K5).
    fn piece(self, rig: &Rig, strength: Option<Force>) -> Result<KitPiece, RigError> {
        let cordage: &CordageEntry = rig.cordage_named(self.cordage)?;
        let wraps = self.wraps.into_iter().filter(|(_, length)| length.si() > 0.0);
        let line = LineToBring {
            name: self.name.to_owned(),
            rest_length: self.rest,
            near_tail: self.tails[0],
            far_tail: self.tails[1],
            wraps: wraps
                .map(|(name, circumference)| Wrap {
                    name: name.to_owned(),
                    circumference,
                    turns: Ratio::from_si(1.0),
                })
                .collect(),
            knots: vec![Knot { name: "both ends".to_owned(), length: self.knots, count: 1 }],
            bedding_in: Ratio::from_si(0.0),
            marking_error: Ratio::from_si(self.error.si() / self.rest.si()),
            linear_density: Some(cordage.linear_density),
        };
        let list = lengths_to_bring(std::slice::from_ref(&line))
            .map_err(|e| RigError::unsolved(&format!("length of {}", self.name), &e))?;
        let items = list.lines.iter().flat_map(|line| &line.items);
        let made_of: Vec<_> =
            items.map(|item| format!("{} {}", item.item, show(item.length, "m", 2))).collect();
        Ok(KitPiece {
            name: self.name.to_owned(),
            kind: self.cordage.to_owned(),
            cut: true,
            side: self.side,
            count: 1,
            length: Some(list.total),
            made_of: made_of.join(", "),
            mass: Some(list.mass),
            strength: Some(strength.unwrap_or(cordage.breaking_strength)),
            from: self.from,
        })
    }
}

fn lines(rig: &Rig, plan: &Plan) -> Result<Vec<KitPiece>, RigError> {
    let tail = rig.kit.as_ref().and_then(|kit| kit.line_tail).unwrap_or_else(zero);
    let each = rig.line.iter().zip(&plan.lines).enumerate();
    let cuts = each.map(|(i, (entry, line))| {
        let wraps = entry.wraps.unwrap_or([zero(); 2]);
        let cut = Cut {
            name: &entry.name,
            cordage: &entry.cordage,
            side: entry.side.unwrap_or(Side::Near),
            from: format!("line[{i}]"),
            rest: line.rest_length,
            tails: entry.tails.unwrap_or([tail; 2]),
            wraps: vec![(entry.from.as_str(), wraps[0]), (entry.to.as_str(), wraps[1])],
            knots: zero(),
            error: zero(),
        };
        cut.piece(rig, None)
    });
    cuts.collect()
}

/// Far where lines only end.
fn side_of(rig: &Rig, anchor: &AnchorEntry) -> Side {
    anchor.side.unwrap_or_else(|| {
        let begins = rig.line.iter().any(|line| line.from == anchor.name);
        let ends = rig.line.iter().any(|line| line.to == anchor.name);
        if ends && !begins { Side::Far } else { Side::Near }
    })
}

fn legs(
    rig: &Rig,
    anchor: &AnchorEntry,
    index: usize,
    pieces: &mut Vec<KitPiece>,
) -> Result<(), RigError> {
    let side = side_of(rig, anchor);
    for (i, leg) in anchor.leg.iter().enumerate() {
        let from = format!("anchor[{index}].leg[{i}]");
        // A leg between knots and one to a fixing are both a cut.
        let rest = anchor.rest_length(leg).unwrap_or_else(zero);
        let others_m: f64 = leg.part.iter().filter_map(|p| p.length).map(Quantity::si).sum();
        let strands = |count: Option<u32>| f64::from(count.unwrap_or(1));
        if let Some(cordage) = &leg.cordage {
            let cut = Cut {
                name: &format!("leg to {}", leg.name),
                cordage,
                side,
                from: from.clone(),
                rest: Length::from_si(rest.si() - others_m) * strands(leg.strands),
                tails: [leg.tails.unwrap_or_else(zero), zero()],
                wraps: vec![(leg.name.as_str(), leg.wraps.unwrap_or_else(zero))],
                knots: zero(),
                error: zero(),
            };
            pieces.push(cut.piece(rig, None)?);
        }
        for (j, part) in leg.part.iter().enumerate() {
            let name = format!("{} of {}", part.name, leg.name);
            let from = format!("{from}.part[{j}]");
            pieces.push(match (&part.cordage, part.length) {
                (Some(cordage), Some(length)) => {
                    let cut = Cut {
                        name: &name,
                        cordage,
                        side,
                        from,
                        rest: length * strands(part.strands),
                        tails: [zero(); 2],
                        wraps: Vec::new(),
                        knots: zero(),
                        error: zero(),
                    };
                    cut.piece(rig, None)?
                }
                _ => KitPiece {
                    kind: part.kind.clone().unwrap_or_else(|| part.name.clone()),
                    side,
                    mass: part.mass,
                    strength: Some(part.strength),
                    ..thing(&name, &from, 1)
                },
            });
        }
    }
    Ok(())
}

fn ropes(rig: &Rig, pieces: &mut Vec<KitPiece>) -> Result<(), RigError> {
    for (i, rope) in rig.jump.rope.iter().enumerate() {
        let cut = Cut {
            name: &rope.name,
            cordage: &rope.cordage,
            side: rope.side.unwrap_or(Side::Near),
            from: format!("jump.rope[{i}]"),
            rest: rope.rest_length,
            tails: [rope.tails.unwrap_or_else(zero), zero()],
            wraps: Vec::new(),
            knots: rope.knots.unwrap_or_else(zero),
            error: rope.length_error.unwrap_or_else(zero),
        };
        pieces.push(cut.piece(rig, None)?);
    }
    Ok(())
}

fn stops(rig: &Rig, plan: &Plan, pieces: &mut Vec<KitPiece>) -> Result<(), RigError> {
    for (i, (entry, stop)) in rig.stop.iter().zip(&plan.stops).enumerate() {
        let cut = Cut {
            name: &entry.name,
            cordage: &entry.cordage,
            side: if entry.end == End::Near { Side::Near } else { Side::Far },
            from: format!("stop[{i}]"),
            rest: stop.length,
            tails: [zero(); 2],
            wraps: Vec::new(),
            knots: entry.knots.unwrap_or_else(zero),
            error: zero(),
        };
        pieces.push(cut.piece(rig, None)?);
    }
    Ok(())
}

/// The haul rope, Eq. (K4), and the pulleys of its system.
fn the_haul(
    rig: &Rig,
    plan: &Plan,
    haul: &HaulEntry,
    pieces: &mut Vec<KitPiece>,
) -> Result<(), RigError> {
    let Some(planned) = &plan.haul else { return Ok(()) };
    let given = rig.kit.as_ref().and_then(|kit| kit.haul_rope);
    let pulley = rig.frame.as_ref().map(|frame| frame.head).or(haul.pulley);
    let to_system = pulley.map_or(0.0, |pulley| distance_m(&pulley, &haul.anchor));
    let in_system = planned.at_most.rope_in_system;
    let cut = Cut {
        name: HAUL_ROPE,
        cordage: &haul.cordage,
        side: Side::Near,
        from: "haul".to_owned(),
        rest: given.unwrap_or(planned.haul_rope),
        tails: [zero(); 2],
        wraps: match given {
            Some(_) => Vec::new(),
            None => vec![
                ("from the pulley to the haul system", Length::from_si(to_system)),
                ("in the haul system", in_system),
            ],
        },
        knots: zero(),
        error: zero(),
    };
    pieces.push(cut.piece(rig, None)?);
    let friction = Friction::Axle { efficiency_180: haul.sheave_efficiency };
    let system = match system(haul)? {
        HaulWith::Ordinary(one) => ordinary(one, friction),
        HaulWith::Own(own) => own.system,
    };
    let pulleys = system.ropes.iter().flat_map(|rope| &rope.over).filter(|s| s.grab.is_none());
    // One more leads the rope over the edge.
    let count = u32::try_from(pulleys.count()).unwrap_or(u32::MAX).saturating_add(1);
    pieces.push(thing("haul pulley", "haul", count));
    Ok(())
}

/// The rope for lowering.
fn lowering(rig: &Rig, pieces: &mut Vec<KitPiece>) -> Result<(), RigError> {
    let lowering = rig.rescue.as_ref().and_then(|rescue| rescue.lowering.as_ref());
    let Some(lowering) = lowering else { return Ok(()) };
    let cut = Cut {
        name: "lowering rope",
        cordage: &lowering.cordage,
        side: Side::Near,
        from: "rescue.lowering".to_owned(),
        rest: lowering.rope_length,
        tails: [zero(); 2],
        wraps: Vec::new(),
        knots: zero(),
        error: zero(),
    };
    pieces.push(cut.piece(rig, None)?);
    Ok(())
}

fn thing(name: &str, from: &str, count: u32) -> KitPiece {
    KitPiece {
        name: name.to_owned(),
        kind: name.to_owned(),
        cut: false,
        side: Side::Near,
        count,
        length: None,
        made_of: String::new(),
        mass: None,
        strength: None,
        from: from.to_owned(),
    }
}

fn frame(rig: &Rig, pieces: &mut Vec<KitPiece>) {
    let Some(frame) = &rig.frame else { return };
    let members = frame.leg.iter().enumerate().map(|(i, m)| ("pole", format!("frame.leg[{i}]"), m));
    let guys = frame.guy.iter().enumerate().map(|(i, m)| ("guy", format!("frame.guy[{i}]"), m));
    for (kind, from, member) in members.chain(guys) {
        pieces.push(KitPiece {
            kind: kind.to_owned(),
            length: Some(Length::from_si(distance_m(&member.foot, &frame.head))),
            made_of: "from foot to head".to_owned(),
            mass: member.mass,
            strength: Some(member.strength),
            ..thing(&member.name, &from, 1)
        });
    }
}

fn gear(rig: &Rig, pieces: &mut Vec<KitPiece>) {
    for (i, gear) in rig.gear.iter().enumerate() {
        let anchor = rig.anchor.iter().find(|anchor| anchor.name == gear.at);
        let side = anchor.map_or(Side::Near, |anchor| side_of(rig, anchor));
        pieces.push(KitPiece {
            kind: gear.kind.clone().unwrap_or_else(|| gear.name.clone()),
            side: gear.side.unwrap_or(side),
            mass: gear.mass,
            strength: Some(gear.strength),
            ..thing(&gear.name, &format!("gear[{i}]"), gear.count.unwrap_or(1))
        });
    }
}

fn pads(rig: &Rig, pieces: &mut Vec<KitPiece>) {
    for (i, edge) in rig.edge.iter().enumerate() {
        for (j, pad) in edge.pad.iter().enumerate() {
            pieces.push(KitPiece {
                kind: "edge pad".to_owned(),
                side: pad.side.unwrap_or(Side::Near),
                mass: pad.mass,
                ..thing(&pad.name, &format!("edge[{i}].pad[{j}]"), 1)
            });
        }
    }
}

fn items(rig: &Rig, pieces: &mut Vec<KitPiece>) -> Result<(), RigError> {
    for (i, item) in rig.kit.iter().flat_map(|kit| kit.item.iter().enumerate()) {
        let side = item.side.unwrap_or(Side::Near);
        let from = format!("kit.item[{i}]");
        let count = item.count.unwrap_or(1);
        let piece = match (&item.cordage, item.length) {
            (Some(cordage), Some(rest)) => {
                let cut = Cut {
                    name: &item.name,
                    cordage,
                    side,
                    from,
                    rest,
                    tails: [zero(); 2],
                    wraps: Vec::new(),
                    knots: zero(),
                    error: zero(),
                };
                KitPiece { count, ..cut.piece(rig, item.strength)? }
            }
            _ => KitPiece {
                kind: item.kind.clone().unwrap_or_else(|| item.name.clone()),
                side,
                length: item.length,
                mass: item.mass,
                strength: item.strength,
                ..thing(&item.name, &from, count)
            },
        };
        pieces.push(piece);
    }
    Ok(())
}

/// Mass of pieces of a kind that is not known counts as nothing.
pub(super) fn mass_kg(mass: Option<Mass>) -> f64 {
    mass.map_or(0.0, Quantity::si)
}
