//! A raised frame: legs that push, guys that pull, pinned at one head.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::AnchorError;
use super::legs::{metres, unique, vector};
use super::members::{Acting, Member, acting};
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{AxialRigidity, Force, Length, MaybeText, Quantity, Ratio, Text, Triple};

/// Legs and guys from the ground to one head, and what pulls on the head.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Frame {
    /// Position of the head.
    #[serde(with = "Triple::<Length>")]
    pub head: [Length; 3],
    /// Legs, compression only: one for a gin pole, two for a bipod, three for a tripod.
    pub legs: Vec<FrameMember>,
    /// Guys, tension only.
    #[serde(default)]
    pub guys: Vec<FrameMember>,
    /// Rope parts that leave the head, such as both sides of a pulley there.
    #[serde(default)]
    pub ropes: Vec<HeadRope>,
    /// Any further force on the head.
    #[serde(with = "Triple::<Force>", default = "no_force")]
    pub force: [Force; 3],
}

/// One leg or guy.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrameMember {
    /// Name.
    pub name: String,
    /// Position of the foot of a leg, of the anchor of a guy.
    #[serde(with = "Triple::<Length>")]
    pub foot: [Length; 3],
    /// Axial rigidity. It decides only how members share that statics alone leaves open.
    #[serde(with = "Text::<AxialRigidity>")]
    pub axial_rigidity: AxialRigidity,
}

/// A rope part that pulls on the head.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HeadRope {
    /// Name.
    pub name: String,
    /// A point that it leads to.
    #[serde(with = "Triple::<Length>")]
    pub towards: [Length; 3],
    /// Its tension.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
}

/// A frame under its load.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrameForces {
    /// Force of all ropes on the head.
    #[serde(with = "Triple::<Force>")]
    pub load: [Force; 3],
    /// Legs, in the order given.
    pub legs: Vec<MemberForce>,
    /// Guys, in the order given.
    pub guys: Vec<MemberForce>,
    /// Displacement of the head.
    #[serde(with = "Triple::<Length>")]
    pub displacement: [Length; 3],
    /// Unbalanced force over the load.
    pub residual: f64,
    /// What to know about the result.
    pub notes: Vec<FrameNote>,
}

/// Force of one leg or guy.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MemberForce {
    /// Name.
    pub name: String,
    /// Compression of a leg, tension of a guy.
    #[serde(with = "Text::<Force>")]
    pub force: Force,
    /// Whether it carries nothing.
    pub idle: bool,
    /// Force on the ground: a leg thrusts into its footing, a guy pulls on its anchor.
    #[serde(with = "Triple::<Force>")]
    pub on_ground: [Force; 3],
    /// Horizontal over downward part of it: the friction a bare footing needs. None where the
    /// ground is not pressed.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub friction_needed: Option<Ratio>,
}

/// What to know about a frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FrameNote {
    /// The acting members leave a direction without stiffness: the load is balanced, not held.
    Balanced,
    /// The head moves more than a hundredth of the shortest member: the geometry given no longer
    /// holds.
    LargeDisplacement,
}

fn no_force() -> [Force; 3] {
    [Force::from_si(0.0); 3]
}

/// Members of a frame are tried in all sets, 2^n of them.
const MOST: usize = 12;

/// Forces of a raised frame, Eqs. (11) and (12).
///
/// # Errors
/// [`AnchorError::CannotStand`] when no pushing legs and pulling guys balance the load,
/// [`AnchorError::Invalid`], [`AnchorError::NoPull`], [`AnchorError::NoLength`],
/// [`AnchorError::TooFew`] without legs, [`AnchorError::TooMany`] above 12 members.
///
/// # Example
/// ```
/// use tautwork::anchor::{Frame, FrameMember, HeadRope, frame_forces};
/// use tautwork::quantity::{Length, ReadForce, Words};
///
/// let at = |x: f64, y: f64, z: f64| -> [Length; 3] { [x.meters(), y.meters(), z.meters()] };
/// let member = |name: &str, foot| FrameMember {
///     name: name.to_owned(),
///     foot,
///     axial_rigidity: 10.0.meganewtons(),
/// };
/// // A bipod 3-4-5 in its own plane, a level pull forward held by one guy 45° down behind.
/// let mut frame = Frame {
///     head: at(0.0, 0.0, 4.0),
///     legs: vec![member("left", at(0.0, 3.0, 0.0)), member("right", at(0.0, -3.0, 0.0))],
///     guys: vec![member("back", at(-4.0, 0.0, 0.0))],
///     ropes: vec![HeadRope { name: "haul".to_owned(), towards: at(9.0, 0.0, 4.0), tension: 1.0.kilonewtons() }],
///     force: [0.0.newtons(); 3],
/// };
/// let forces = frame_forces(&frame)?;
/// // The guy carries √2 kN, so the legs together press 1 kN down: 1 / (2 · 4/5) each.
/// assert!((forces.guys[0].force.in_newtons() - 1414.2136).abs() < 1e-3);
/// assert!((forces.legs[0].force.in_newtons() - 625.0).abs() < 1e-6);
/// frame.guys.clear();
/// assert!(frame_forces(&frame).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
pub fn frame_forces(frame: &Frame) -> Result<FrameForces, AnchorError> {
    let head = vector("head", frame.head)?;
    if frame.legs.is_empty() {
        return Err(AnchorError::TooFew { what: "legs", found: 0, least: 1 });
    }
    let found = frame.legs.len() + frame.guys.len();
    if found > MOST {
        return Err(AnchorError::TooMany { found, most: MOST });
    }
    unique(frame.legs.iter().chain(&frame.guys).map(|m| &m.name))?;
    let legs = frame.legs.iter().map(|m| member(m, &head, -1.0));
    let guys = frame.guys.iter().map(|m| member(m, &head, 1.0));
    let members = legs.chain(guys).collect::<Result<Vec<_>, _>>()?;
    let load_n = load(frame, &head)?;
    let Acting { force_n, displacement_m, residual, balanced } = acting(&members, &load_n)?;
    let mut notes = Vec::new();
    if balanced {
        notes.push(FrameNote::Balanced);
    }
    let shortest_m = members.iter().fold(f64::INFINITY, |m, s| m.min(s.length_m));
    if displacement_m.norm() > 0.01 * shortest_m {
        notes.push(FrameNote::LargeDisplacement);
    }
    let inputs = frame.legs.iter().chain(&frame.guys);
    let mut all = Vec::new();
    for ((input, member), f_n) in inputs.zip(&members).zip(force_n) {
        all.push(described(input, member, f_n)?);
    }
    let guys = all.split_off(frame.legs.len());
    Ok(FrameForces {
        load: newtons(&load_n)?,
        legs: all,
        guys,
        displacement: metres(&displacement_m)?,
        residual,
        notes,
    })
}

/// `side` is +1 for a guy, which pulls the head towards its anchor, −1 for a leg.
fn member(m: &FrameMember, head: &Vector3<f64>, side: f64) -> Result<Member, AnchorError> {
    let ea_n = positive("axial_rigidity", m.axial_rigidity).map_err(|e| e.within(&m.name))?;
    let (toward, length_m) = toward(&m.name, m.foot, head)?;
    Ok(Member { force_on_head: toward * side, length_m, k_n_per_m: ea_n / length_m })
}

fn toward(
    name: &str,
    point: [Length; 3],
    head: &Vector3<f64>,
) -> Result<(Vector3<f64>, f64), AnchorError> {
    let way = vector(name, point)? - head;
    let length_m = way.norm();
    if way.amax() == 0.0 {
        return Err(AnchorError::NoLength { member: name.to_owned() });
    }
    if !length_m.is_normal() {
        return Err(AnchorError::Overflow { result: "length of a member" });
    }
    Ok((way / length_m, length_m))
}

fn load(frame: &Frame, head: &Vector3<f64>) -> Result<Vector3<f64>, AnchorError> {
    let mut load_n = vector("force", frame.force)?;
    for rope in &frame.ropes {
        let tension_n = non_negative("tension", rope.tension).map_err(|e| e.within(&rope.name))?;
        load_n += toward(&rope.name, rope.towards, head)?.0 * tension_n;
    }
    if load_n.amax() == 0.0 {
        return Err(AnchorError::NoPull);
    }
    if !load_n.norm().is_normal() {
        return Err(AnchorError::Overflow { result: "the load on the head" });
    }
    Ok(load_n)
}

fn described(input: &FrameMember, m: &Member, f_n: f64) -> Result<MemberForce, AnchorError> {
    // The ground feels the opposite of the head.
    let on_ground = -m.force_on_head * f_n;
    let down_n = -on_ground.z;
    let friction = on_ground.x.hypot(on_ground.y) / down_n;
    let presses = down_n > 0.0 && friction.is_finite();
    Ok(MemberForce {
        name: input.name.clone(),
        force: AnchorError::finite("force of a member", f_n)?,
        idle: f_n == 0.0,
        on_ground: newtons(&on_ground)?,
        friction_needed: presses.then(|| Ratio::from_si(friction)),
    })
}

fn newtons(v: &Vector3<f64>) -> Result<[Force; 3], AnchorError> {
    let component = |i: usize| AnchorError::finite("force", v[i]);
    Ok([component(0)?, component(1)?, component(2)?])
}
