//! Forces of a raised frame.

use serde::{Deserialize, Serialize};

use super::checked::Checked;
use super::footing::Footing;
use super::hobble::HobbleForces;
use super::input::Frame;
use super::pole::FactorRange;
use super::share::{Outcome, Rest};
use crate::anchor::AnchorError;
use crate::quantity::{Force, Length, MaybeText, Quantity, Ratio, Text, Triple};

/// A frame under its load.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrameForces {
    /// Force on the head: of all ropes, and half the weight of the legs.
    #[serde(with = "Triple::<Force>")]
    pub load: [Force; 3],
    /// Legs, in the order given.
    pub legs: Vec<MemberForce>,
    /// Guys, in the order given.
    pub guys: Vec<MemberForce>,
    /// What the hobble does; none without one, and where a foot of it does not press the ground.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hobble: Option<HobbleForces>,
    /// Displacement of the head.
    #[serde(with = "Triple::<Length>")]
    pub displacement: [Length; 3],
    /// Unbalanced force over the load.
    pub residual: f64,
    /// Sets of acting members tried.
    pub iterations: usize,
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
    /// The same before the ropes pull; none in a frame without pretension, and where the frame would not
    /// stand so.
    #[serde(with = "MaybeText::<Force>", default, skip_serializing_if = "Option::is_none")]
    pub before: Option<Force>,
    /// Whether it carries nothing.
    pub idle: bool,
    /// How far an idle member is from carrying, Eq. (F6): by how much a foot lifts, a guy hangs slack.
    #[serde(with = "MaybeText::<Length>", default, skip_serializing_if = "Option::is_none")]
    pub gap: Option<Length>,
    /// Force on the ground: a leg thrusts into its footing, a guy pulls on its anchor.
    #[serde(with = "Triple::<Force>")]
    pub on_ground: [Force; 3],
    /// Its part along the ground, for a leg.
    #[serde(with = "MaybeText::<Force>", default, skip_serializing_if = "Option::is_none")]
    pub thrust: Option<Force>,
    /// Coefficient of friction that the foot of a leg needs without a hobble, Eq. (F7). None where the
    /// ground is not pressed.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub friction_needed: Option<Ratio>,
    /// Capacity of a leg's pole, strength of a guy, over its force; none where it is idle or not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub factor: Option<FactorRange>,
}

/// What to know about a frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FrameNote {
    /// The acting members leave a direction without stiffness: the load is balanced, not held.
    Balanced,
    /// A leg carries nothing: its foot lifts.
    LegLifts,
    /// A guy with pretension has gone slack.
    GuySlack,
    /// The head moves more than a hundredth of the shortest member: the geometry given no longer
    /// holds.
    LargeDisplacement,
}

/// Forces of a raised frame, Eqs. (F1) to (F9).
///
/// # Errors
/// [`AnchorError::CannotStand`] when no pushing legs and pulling guys balance the load,
/// [`AnchorError::Invalid`], [`AnchorError::NoPull`] with neither load nor pretension,
/// [`AnchorError::NoLength`], [`AnchorError::DuplicateName`], [`AnchorError::TooFew`] without legs,
/// [`AnchorError::TooMany`] above 64 members, [`AnchorError::UnknownLeg`] and
/// [`AnchorError::FeetTogether`] for the hobble.
///
/// # Example
/// ```
/// use tautwork::anchor::{Frame, FrameGuy, FrameLeg, HeadRope, frame_forces};
/// use tautwork::quantity::{Length, ReadForce, Words};
///
/// let at = |x: f64, y: f64, z: f64| -> [Length; 3] { [x.meters(), y.meters(), z.meters()] };
/// let leg = |name: &str, foot| FrameLeg::new(name, foot, 10.0.meganewtons());
/// // A bipod 3-4-5 in its own plane, a level pull forward held by one guy 45° down behind.
/// let mut frame = Frame {
///     head: at(0.0, 0.0, 4.0),
///     legs: vec![leg("left", at(0.0, 3.0, 0.0)), leg("right", at(0.0, -3.0, 0.0))],
///     guys: vec![FrameGuy::new("back", at(-4.0, 0.0, 0.0), 0.3.meganewtons())],
///     ropes: vec![HeadRope { name: "haul".to_owned(), towards: at(9.0, 0.0, 4.0), tension: 1.0.kilonewtons() }],
///     pulleys: vec![],
///     force: [0.0.newtons(); 3],
///     hobble: None,
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
    let checked = Checked::of(frame)?;
    match checked.under(&checked.load_n)? {
        Outcome::Stands(rest) => described(frame, &checked, &rest),
        Outcome::Falls(_) => Err(AnchorError::CannotStand),
    }
}

/// A frame at rest under its own load, in words.
pub(super) fn described(
    frame: &Frame,
    checked: &Checked,
    rest: &Rest,
) -> Result<FrameForces, AnchorError> {
    let before = before(checked)?;
    let footings = checked.footings(&rest.force_n);
    let mut all = Vec::with_capacity(checked.members.len());
    for (i, (name, m)) in frame.members().zip(&checked.members).enumerate() {
        let force_n = rest.force_n[i];
        let footing = footings.get(i);
        let on_ground = footing.map_or(m.toward * -force_n, |foot| foot.on_ground_n);
        let idle = force_n == 0.0;
        all.push(MemberForce {
            name: name.clone(),
            force: AnchorError::finite("force of a member", force_n)?,
            before: before.as_ref().map(|b| Force::from_si(b.force_n[i])),
            idle,
            gap: idle.then(|| AnchorError::finite("gap", m.gap_m(&rest.u_m))).transpose()?,
            on_ground: AnchorError::finite_triple("force", &on_ground)?,
            thrust: footing
                .map(|foot| AnchorError::finite("thrust", foot.along_n.norm()))
                .transpose()?,
            friction_needed: footing.and_then(Footing::friction).map(Ratio::from_si),
            factor: checked.factor(i, force_n),
        });
    }
    let notes = notes(checked, rest);
    let guys = all.split_off(frame.legs.len());
    let hobble = checked.hobble.as_ref().map(|h| h.forces(&footings)).transpose()?.flatten();
    Ok(FrameForces {
        load: AnchorError::finite_triple("force", &checked.load_n)?,
        legs: all,
        guys,
        hobble,
        displacement: AnchorError::finite_triple("position", &rest.u_m)?,
        residual: rest.residual,
        iterations: rest.iterations,
        notes,
    })
}

/// Rest under pretension and weight alone.
fn before(checked: &Checked) -> Result<Option<Rest>, AnchorError> {
    if !checked.pretensioned() {
        return Ok(None);
    }
    Ok(match checked.under(&checked.weight_n)? {
        Outcome::Stands(rest) => Some(rest),
        Outcome::Falls(_) => None,
    })
}

fn notes(checked: &Checked, rest: &Rest) -> Vec<FrameNote> {
    let legs = checked.legs.len();
    let idle = |i: &usize| rest.force_n[*i] == 0.0;
    let mut notes = Vec::new();
    if rest.balanced {
        notes.push(FrameNote::Balanced);
    }
    if (0..legs).any(|i| idle(&i)) {
        notes.push(FrameNote::LegLifts);
    }
    let tight = |i: &usize| checked.members[*i].pretension_n > 0.0;
    if (legs..checked.members.len()).filter(tight).any(|i| idle(&i)) {
        notes.push(FrameNote::GuySlack);
    }
    let shortest_m = checked.members.iter().fold(f64::INFINITY, |m, s| m.min(s.length_m));
    if rest.u_m.norm() > 0.01 * shortest_m {
        notes.push(FrameNote::LargeDisplacement);
    }
    notes
}

impl Checked {
    /// The feet of the legs under forces of all members.
    pub(super) fn footings(&self, force_n: &[f64]) -> Vec<Footing> {
        let members = self.members.iter().zip(force_n);
        self.legs.iter().zip(members).map(|(leg, (m, &f))| Footing::of(leg, &m.toward, f)).collect()
    }

    /// Capacity or strength of a member over its force.
    pub(super) fn factor(&self, i: usize, force_n: f64) -> Option<FactorRange> {
        let capacity_n = match self.legs.get(i) {
            Some(leg) => leg.resistance?.capacity_n,
            None => [self.strength_n[i - self.legs.len()]?; 2],
        };
        FactorRange::of(capacity_n, force_n)
    }
}
