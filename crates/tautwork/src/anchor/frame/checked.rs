//! A frame in SI units, every input checked.

use nalgebra::Vector3;

use super::hobble::{CheckedHobble, checked_hobble};
use super::input::{Frame, FrameLeg};
use super::pole::{Resistance, resistance};
use super::share::{Member, Outcome, share};
use crate::anchor::AnchorError;
use crate::anchor::legs::{unique, vector};
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{Force, GRAVITY, Invalid, Length, Quantity};

/// Most legs and guys together: the window looks at every pair beside every member.
const MOST: usize = 64;

pub(super) struct Checked {
    pub(super) head: Vector3<f64>,
    /// Legs first, then guys, in the order given.
    pub(super) members: Vec<Member>,
    pub(super) legs: Vec<CheckedLeg>,
    /// Strength of each guy, where given.
    pub(super) strength_n: Vec<Option<f64>>,
    pub(super) hobble: Option<CheckedHobble>,
    /// Half the weight of the legs.
    pub(super) weight_n: Vector3<f64>,
    /// Force on the head, Eq. (F3).
    pub(super) load_n: Vector3<f64>,
}

/// What a leg has besides stiffness.
pub(super) struct CheckedLeg {
    pub(super) foot_m: Vector3<f64>,
    /// Out of the ground.
    pub(super) normal: Vector3<f64>,
    /// Half of its weight, which acts at the foot.
    pub(super) half_weight_n: f64,
    pub(super) resistance: Option<Resistance>,
}

impl Checked {
    pub(super) fn of(frame: &Frame) -> Result<Self, AnchorError> {
        let head = vector("head", frame.head)?;
        if frame.legs.is_empty() {
            return Err(AnchorError::TooFew { what: "legs", found: 0, least: 1 });
        }
        let found = frame.legs.len() + frame.guys.len();
        if found > MOST {
            return Err(AnchorError::TooMany { found, most: MOST });
        }
        unique(frame.members())?;
        unique(frame.ropes.iter().map(|r| &r.name).chain(frame.pulleys.iter().map(|p| &p.name)))?;
        let (mut members, mut legs, mut strength_n) = (Vec::with_capacity(found), vec![], vec![]);
        for leg in &frame.legs {
            let within = |e: Invalid| e.within(&leg.name);
            let ea_n = positive("axial_rigidity", leg.axial_rigidity).map_err(within)?;
            let (toward, length_m) = toward(&leg.name, "foot", leg.foot, &head)?;
            let k_n_per_m = ea_n / length_m;
            members.push(Member { toward: -toward, length_m, k_n_per_m, pretension_n: 0.0 });
            legs.push(CheckedLeg::of(leg, length_m)?);
        }
        for guy in &frame.guys {
            let within = |e: Invalid| e.within(&guy.name);
            let ea_n = positive("axial_rigidity", guy.axial_rigidity).map_err(within)?;
            let (toward, length_m) = toward(&guy.name, "foot", guy.foot, &head)?;
            let pretension = guy.pretension.unwrap_or_else(|| Force::from_si(0.0));
            let pretension_n = non_negative("pretension", pretension).map_err(within)?;
            members.push(Member { toward, length_m, k_n_per_m: ea_n / length_m, pretension_n });
            let strength = guy.strength.map(|s| positive("strength", s).map_err(within));
            strength_n.push(strength.transpose()?);
        }
        let weight = legs.iter().map(|l| l.half_weight_n).sum::<f64>();
        let weight_n = Vector3::new(0.0, 0.0, -weight);
        let load_n = weight_n + ropes(frame, &head)?;
        let hobble = frame.hobble.as_ref().map(|h| checked_hobble(h, frame, &legs)).transpose()?;
        Ok(Self { head, members, legs, strength_n, hobble, weight_n, load_n })
    }

    /// Rest under a load on the head.
    pub(super) fn under(&self, load_n: &Vector3<f64>) -> Result<Outcome, AnchorError> {
        pulled(&self.members, load_n)?;
        share(&self.members, load_n)
    }

    pub(super) fn pretensioned(&self) -> bool {
        self.members.iter().any(|m| m.pretension_n > 0.0)
    }
}

impl CheckedLeg {
    fn of(leg: &FrameLeg, length_m: f64) -> Result<Self, AnchorError> {
        let within = |e: Invalid| e.within(&leg.name);
        let mass_kg = match leg.mass {
            Some(mass) => non_negative("mass", mass).map_err(within)?,
            None => 0.0,
        };
        let pole = leg.pole.as_ref();
        let resistance = pole.map(|p| resistance(p, length_m)).transpose();
        Ok(Self {
            foot_m: vector(&leg.name, leg.foot)?,
            normal: normal(leg)?,
            half_weight_n: 0.5 * mass_kg * GRAVITY,
            resistance: resistance.map_err(|e| e.within(&leg.name))?,
        })
    }
}

fn normal(leg: &FrameLeg) -> Result<Vector3<f64>, AnchorError> {
    let Some(given) = leg.ground_normal else { return Ok(Vector3::z()) };
    let normal = Vector3::from(given);
    let size = normal.norm();
    if size.is_normal() {
        Ok(normal / size)
    } else {
        let allowed = "a direction: three finite numbers, not all zero";
        Err(Invalid::new("ground_normal", format!("{given:?}"), allowed).within(&leg.name).into())
    }
}

/// Refuses a load so small or large that its size is no number, and none at all.
pub(super) fn pulled(members: &[Member], load_n: &Vector3<f64>) -> Result<(), AnchorError> {
    if load_n.amax() == 0.0 && members.iter().all(|m| m.pretension_n == 0.0) {
        return Err(AnchorError::NoPull);
    }
    if load_n.amax() != 0.0 && !load_n.norm().is_normal() {
        return Err(AnchorError::Overflow { result: "the load on the head" });
    }
    Ok(())
}

/// Force of all ropes and of the further force.
fn ropes(frame: &Frame, head: &Vector3<f64>) -> Result<Vector3<f64>, AnchorError> {
    let mut load_n = vector("force", frame.force)?;
    for rope in &frame.ropes {
        let tension_n = non_negative("tension", rope.tension).map_err(|e| e.within(&rope.name))?;
        load_n += toward(&rope.name, "towards", rope.towards, head)?.0 * tension_n;
    }
    for p in &frame.pulleys {
        let within = |e: Invalid| e.within(&p.name);
        let tension_n = non_negative("tension", p.tension).map_err(within)?;
        let behind = non_negative("behind", p.behind).map_err(within)?;
        load_n += toward(&p.name, "load", p.load, head)?.0 * tension_n;
        load_n += toward(&p.name, "haul", p.haul, head)?.0 * (tension_n * behind);
    }
    Ok(load_n)
}

/// Unit vector from the head to a point, and the distance.
pub(super) fn toward(
    name: &str,
    field: &str,
    point: [Length; 3],
    head: &Vector3<f64>,
) -> Result<(Vector3<f64>, f64), AnchorError> {
    let way = vector(&format!("{name}.{field}"), point)? - head;
    let length_m = way.norm();
    if way.amax() == 0.0 {
        return Err(AnchorError::NoLength { member: name.to_owned() });
    }
    if !length_m.is_normal() {
        return Err(AnchorError::Overflow { result: "length of a member" });
    }
    Ok((way / length_m, length_m))
}
