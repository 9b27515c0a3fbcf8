//! The raised frame over the whole way of the haul.

use super::lines::size;
use super::result::{FramePlan, HaulStep, MemberPlan};
use crate::anchor::{
    AnchorError, Frame, FrameGuy, FrameLeg, FrameLift, HeadPulley, Hobble, LiftPlace, MemberWorst,
    Pole, PoleMaterial, PoleSection, buckling, frame_lift,
};
use crate::quantity::{AxialRigidity, Force, Quantity, Ratio, show};
use crate::rig::{FrameEntry, HaulEntry, HobbleEntry, MaterialEntry, MemberEntry, PoleEntry};

/// The rope at the head.
pub(super) const HAUL: &str = "haul rope\n";

/// Greatest force of each member of the frame over the way. `behind` is the tension behind the pulley over
/// the pull. A frame that falls over is a result, not the end of the plan.
pub(super) fn frame_plan(
    entry: &FrameEntry,
    haul: &HaulEntry,
    way: &[HaulStep],
    behind: f64,
) -> FramePlan {
    let places: Vec<_> = way.iter().map(|s| LiftPlace { load: s.body, tension: s.pull }).collect();
    let frame = model(entry, haul, behind);
    match frame_lift(&frame, HAUL, &places) {
        Ok(lift) => planned(&frame, &lift, way),
        Err(error) => FramePlan {
            load: [Force::from_si(0.0); 3],
            members: vec![],
            margin: None,
            problem: Some(error.to_string()),
        },
    }
}

/// The frame as the model takes it, with `behind` the tension behind the pulley over the pull.
pub(super) fn model(entry: &FrameEntry, haul: &HaulEntry, behind: f64) -> Frame {
    let rigid = |m: &MemberEntry| m.axial_rigidity.unwrap_or(AxialRigidity::from_si(1e7));
    let leg = |m: &MemberEntry| FrameLeg {
        mass: m.mass,
        pole: m.pole.as_ref().map(pole),
        ground_normal: m.ground_normal.map(|n| n.map(Quantity::si)),
        ..FrameLeg::new(&m.name, m.foot, rigid(m))
    };
    let guy = |m: &MemberEntry| FrameGuy {
        pretension: m.pretension,
        ..FrameGuy::new(&m.name, m.foot, rigid(m))
    };
    Frame {
        head: entry.head,
        legs: entry.leg.iter().map(leg).collect(),
        guys: entry.guy.iter().map(guy).collect(),
        ropes: vec![],
        pulleys: vec![HeadPulley {
            name: HAUL.to_owned(),
            load: entry.head,
            haul: haul.anchor,
            tension: Force::from_si(0.0),
            behind: Ratio::from_si(behind),
        }],
        force: [Force::from_si(0.0); 3],
        hobble: entry.hobble.as_ref().map(hobble),
    }
}

fn hobble(entry: &HobbleEntry) -> Hobble {
    Hobble { round: entry.round.clone(), friction: entry.friction }
}

fn pole(entry: &PoleEntry) -> Pole {
    let section = match (entry.wall, entry.thin_end) {
        (Some(wall), _) => PoleSection::Tube { outer: entry.diameter, wall },
        (None, Some(thin)) => PoleSection::Cone { thick: entry.diameter, thin },
        (None, None) => PoleSection::Round { diameter: entry.diameter },
    };
    let material = match entry.material {
        MaterialEntry::Softwood => PoleMaterial::Softwood,
        MaterialEntry::Aluminium => PoleMaterial::Aluminium,
        MaterialEntry::Steel => PoleMaterial::Steel,
    };
    Pole { section, material, effective_length_factor: None }
}

/// Compression at which a leg buckles, if its pole is given.
pub(super) fn buckles_at(frame: &Frame, leg: &FrameLeg) -> Option<Force> {
    let length_m = size(&[0, 1, 2].map(|i| leg.foot[i] - frame.head[i]));
    let capacity = leg.pole.as_ref().map(|p| buckling(p, Quantity::from_si(length_m)));
    // A pole without a figure has been refused by the lift.
    capacity.and_then(Result::ok).map(|found| found.capacity_low)
}

fn planned(frame: &Frame, lift: &FrameLift, way: &[HaulStep]) -> FramePlan {
    let standing = lift.steps.iter().filter(|s| s.forces.is_some());
    let heaviest = standing.max_by(|a, b| size(&a.load).total_cmp(&size(&b.load)));
    let problem = lift.falls_at.and_then(|i| way.get(i)).map(|step| {
        let out = show(step.rope_out, "m", 1);
        format!("with {out} of haul rope out: {}", AnchorError::CannotStand)
    });
    let member = |kind: &str, worst: &MemberWorst, capacity| MemberPlan {
        name: worst.name.clone(),
        kind: kind.to_owned(),
        force: worst.force,
        friction_needed: worst.friction_needed,
        buckles_at: capacity,
    };
    let legs = frame.legs.iter().zip(&lift.legs);
    let legs = legs.map(|(leg, worst)| member("leg", worst, buckles_at(frame, leg)));
    let guys = lift.guys.iter().map(|worst| member("guy", worst, None));
    FramePlan {
        load: heaviest.map_or([Force::from_si(0.0); 3], |s| s.load),
        members: legs.chain(guys).collect(),
        margin: lift.margin,
        problem,
    }
}
