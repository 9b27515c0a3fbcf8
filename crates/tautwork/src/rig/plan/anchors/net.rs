//! An anchor of the document as the anchor model takes it.

use std::collections::BTreeSet;

use super::fixing::limit;
use crate::anchor::{AnchorSystem, FixedPoint, Junction, LegPart, SystemLeg};
use crate::quantity::{Force, Length, Quantity, Stiffness};
use crate::rig::document::LegEnd;
use crate::rig::plan::check::Rated;
use crate::rig::plan::gear::stretch;
use crate::rig::{AnchorEntry, FixingEntry, LegEntry, LegPartEntry, Rig, RigError};

/// Name of what a leg is cut from, where the document has none.
const CORD: &str = "cord";

/// Fixings with a name first, then those of the legs; the master point, then the knots; legs in their order.
/// Strengths are derated with the lower factors. Nothing pulls yet; none without legs.
pub(in crate::rig::plan) fn net(
    rig: &Rig,
    anchor: &AnchorEntry,
) -> Result<Option<AnchorSystem>, RigError> {
    if anchor.leg.is_empty() {
        return Ok(None);
    }
    // The model wants one set of names, which those without one in the document must not disturb.
    let mut taken: BTreeSet<String> = BTreeSet::new();
    taken.extend(anchor.leg.iter().map(|leg| leg.name.clone()));
    taken.extend(anchor.knot.iter().map(|knot| knot.name.clone()));
    taken.extend(anchor.fixing.iter().map(|fixing| fixing.name.clone()));
    let master = free(format!("master point of {}", anchor.name), &mut taken);
    let mut fixed = Vec::new();
    for fixing in &anchor.fixing {
        let left = rated_fixing(anchor, fixing).map(|rated| rated.left()).transpose()?;
        let strengths = [left.map(|left| left.low), limit(anchor, fixing)];
        let least = strengths.into_iter().flatten().min_by(|a, b| a.si().total_cmp(&b.si()));
        fixed.push(FixedPoint {
            name: fixing.name.clone(),
            position: fixing.position,
            strength: least,
        });
    }
    let knots = anchor.knot.iter().map(|knot| (knot.name.clone(), knot.position));
    let junctions: Vec<Junction> = std::iter::once((master.clone(), anchor.position))
        .chain(knots)
        .map(|(name, near)| Junction { name, near })
        .collect();
    let mut legs = Vec::new();
    for leg in &anchor.leg {
        let missing = || RigError::unsolved("anchor", &format!("{} leads nowhere", leg.name));
        let [_, to] = anchor.way(leg).ok_or_else(missing)?;
        let rest_length = anchor.rest_length(leg).ok_or_else(missing)?;
        let from = if let Some(position) = leg.fixing {
            let name = free(format!("fixing of {}", leg.name), &mut taken);
            fixed.push(FixedPoint { name: name.clone(), position, strength: None });
            name
        } else {
            leg.from.clone().ok_or_else(missing)?
        };
        let to = match to {
            LegEnd::Knot(knot) => anchor.knot[knot].name.clone(),
            _ => master.clone(),
        };
        legs.push(SystemLeg {
            name: leg.name.clone(),
            from,
            to,
            rest_length,
            parts: parts(rig, anchor, leg, rest_length)?,
        });
    }
    let pull = [Force::from_si(0.0); 3];
    Ok(Some(AnchorSystem { fixed, junctions, legs, pull_at: master, pull, line: None }))
}

fn free(mut name: String, taken: &mut BTreeSet<String>) -> String {
    while !taken.insert(name.clone()) {
        name.push('\'');
    }
    name
}

/// The cord of a leg, and what else is in it.
fn parts(
    rig: &Rig,
    anchor: &AnchorEntry,
    leg: &LegEntry,
    rest_length: Length,
) -> Result<Vec<LegPart>, RigError> {
    let others_m: f64 = leg.part.iter().filter_map(|p| p.length).map(Quantity::si).sum();
    let cord = Length::from_si(rest_length.si() - others_m);
    let cut = |name: &Option<String>, strands: Option<u32>, strength: Force, length: Length| {
        let name = name.as_ref();
        name.map(|name| cut_stiffness(rig, name, strands, strength, length)).transpose()
    };
    let mut parts = vec![LegPart {
        name: leg.cordage.clone().unwrap_or_else(|| CORD.to_owned()),
        stiffness: match leg.stiffness {
            Some(k) => Some(k),
            None => cut(&leg.cordage, leg.strands, leg.strength, cord)?,
        },
        strength: Some(rated_cord(anchor, leg).left()?.low),
    }];
    for part in &leg.part {
        let length = part.length.unwrap_or(cord);
        parts.push(LegPart {
            name: part.name.clone(),
            stiffness: match part.stiffness {
                Some(k) => Some(k),
                None => cut(&part.cordage, part.strands, part.strength, length)?,
            },
            strength: Some(rated_part(&leg.name, "", part).left()?.low),
        });
    }
    Ok(parts)
}

/// Stiffness of strands of a cordage. A curve is taken at its secant to a quarter of the strength: legs are linear.
fn cut_stiffness(
    rig: &Rig,
    cordage: &str,
    strands: Option<u32>,
    strength: Force,
    length: Length,
) -> Result<Stiffness, RigError> {
    let law = stretch(&rig.cordage_named(cordage)?.stretch)?;
    let at = Force::from_si(0.25 * strength.si());
    let strain = law.strain(at).map_err(|e| RigError::unsolved("anchor leg", &e))?;
    let ea_n = f64::from(strands.unwrap_or(1)) * at.si() / strain.si();
    Ok(Stiffness::from_si(ea_n / length.si()))
}

/// The cord of a leg with what reduces its strength.
pub(in crate::rig::plan) fn rated_cord<'a>(
    anchor: &'a AnchorEntry,
    leg: &'a LegEntry,
) -> Rated<'a> {
    Rated {
        component: &leg.name,
        place: &anchor.name,
        strength: leg.strength,
        factors: leg.factor.iter().collect(),
    }
}

/// A part of a leg with what reduces its strength.
pub(in crate::rig::plan) fn rated_part<'a>(
    component: &'a str,
    place: &'a str,
    part: &'a LegPartEntry,
) -> Rated<'a> {
    Rated { component, place, strength: part.strength, factors: part.factor.iter().collect() }
}

/// A fixing that has a strength of its own.
pub(in crate::rig::plan) fn rated_fixing<'a>(
    anchor: &'a AnchorEntry,
    fixing: &'a FixingEntry,
) -> Option<Rated<'a>> {
    let factors = fixing.factor.iter().collect();
    let rated =
        |strength| Rated { component: &fixing.name, place: &anchor.name, strength, factors };
    fixing.strength.map(rated)
}

/// A leg with the part of it that governs, or a fixing, in words.
pub(in crate::rig::plan) fn weak_place(system: &AnchorSystem, name: &str) -> String {
    let leg = system.legs.iter().find(|leg| leg.name == name);
    let si = |part: &LegPart| part.strength.map_or(f64::INFINITY, Quantity::si);
    let parts = leg.iter().flat_map(|leg| leg.parts.iter().enumerate());
    match parts.min_by(|(_, a), (_, b)| si(a).total_cmp(&si(b))) {
        Some((i, part)) if i > 0 => format!("{} of {name}", part.name),
        _ => name.to_owned(),
    }
}
