//! A guy is cut: new rest and peaks by energy, or the way in which the frame falls: Eq. (F12).

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::checked::Checked;
use super::forces::{FrameForces, described};
use super::input::Frame;
use super::pole::FactorRange;
use super::share::{Member, Outcome, Rest};
use crate::anchor::AnchorError;
use crate::anchor::turning::{Turn, turning_point};
use crate::quantity::{Energy, Force, Length, MaybeText, Quantity, Ratio, Text, Triple};

/// What the loss of a guy does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GuyLoss {
    /// At rest with the guy.
    pub before: FrameForces,
    /// What comes after.
    pub after: AfterLoss,
}

/// A frame without the guy.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AfterLoss {
    /// It stands.
    Stands(Box<StandsAfter>),
    /// It falls: the force that starts to move the head, Eq. (F5).
    Falls(#[serde(with = "Triple::<Force>")] [Force; 3]),
}

/// A frame that stands without the guy.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StandsAfter {
    /// At rest without the guy.
    pub rest: FrameForces,
    /// Travel of the head from rest to rest.
    #[serde(with = "Triple::<Length>")]
    pub travel: [Length; 3],
    /// Energy that load, guys and legs set free.
    #[serde(with = "Text::<Energy>")]
    pub energy_released: Energy,
    /// Greatest forces of the members that are left, legs first.
    pub peaks: Vec<MemberPeak>,
    /// What the energy at the turning point misses, as part of the energy released.
    pub residual: f64,
}

/// Peak of a leg or guy after the loss of a guy.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MemberPeak {
    /// Name.
    pub name: String,
    /// Greatest force on the way, Eq. (F12).
    #[serde(with = "Text::<Force>")]
    pub force: Force,
    /// Peak over force at the new rest; none where it is idle there.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub dynamic_factor: Option<Ratio>,
    /// Capacity of a leg's pole, strength of a guy, over the peak; none where not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub factor: Option<FactorRange>,
}

/// Cuts the guy called `guy`, Eqs. (F1) to (F5) and (F12).
///
/// The ropes keep their pull and their direction and nothing damps the motion, so the peaks are high for a
/// load that gives way. They are exact for small displacements in a straight line; `large_displacement`
/// among the notes of the new rest says that the head travels too far for this.
///
/// # Errors
/// Those of [`frame_forces`](super::frame_forces) for the frame with the guy, [`AnchorError::Unknown`] for a
/// guy that it does not have, [`AnchorError::NoPull`] when nothing pulls without it.
///
/// # Example
/// ```
/// use tautwork::anchor::{AfterLoss, Frame, FrameGuy, FrameLeg, lose_guy};
/// use tautwork::quantity::{Length, ReadForce, Words};
///
/// let at = |x: f64, y: f64, z: f64| -> [Length; 3] { [x.meters(), y.meters(), z.meters()] };
/// let leg = |name: &str, foot| FrameLeg::new(name, foot, 10.0.meganewtons());
/// let guy = |name: &str| FrameGuy::new(name, at(-4.0, 0.0, 0.0), 0.3.meganewtons());
/// // Two equal guys side by side hold a level kilonewton: √2/2 kN each.
/// let mut frame = Frame {
///     head: at(0.0, 0.0, 4.0),
///     legs: vec![leg("left", at(0.0, 3.0, 0.0)), leg("right", at(0.0, -3.0, 0.0))],
///     guys: vec![guy("back"), guy("spare")],
///     ropes: vec![],
///     pulleys: vec![],
///     force: [1.0.kilonewtons(), 0.0.newtons(), 0.0.newtons()],
///     hobble: None,
/// };
/// let AfterLoss::Stands(after) = lose_guy(&frame, "spare")?.after else { panic!() };
/// // From √2/2 kN past √2 kN at rest, by as much again: 3 √2/2 kN.
/// assert!((after.peaks[2].force.in_newtons() - 2121.3203).abs() < 1e-3);
/// frame.guys.pop();
/// assert!(matches!(lose_guy(&frame, "back")?.after, AfterLoss::Falls(_)));
/// assert!(lose_guy(&frame, "spare").is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
pub fn lose_guy(frame: &Frame, guy: &str) -> Result<GuyLoss, AnchorError> {
    if frame.guys.iter().all(|g| g.name != guy) {
        // An error of the frame itself comes first.
        Checked::of(frame)?;
        return Err(AnchorError::Unknown { what: "guy", name: guy.to_owned() });
    }
    lose_members(frame, &[guy])
}

/// [`lose_guy`] with legs or guys that go at one instant. The weight of a leg goes with it; a frame without legs
/// falls.
pub(crate) fn lose_members(frame: &Frame, lost: &[&str]) -> Result<GuyLoss, AnchorError> {
    let checked = Checked::of(frame)?;
    let Outcome::Stands(old) = checked.under(&checked.load_n)? else {
        return Err(AnchorError::CannotStand);
    };
    let before = described(frame, &checked, &old)?;
    let stays: Vec<bool> = frame.members().map(|name| !lost.contains(&name.as_str())).collect();
    let frame = frame_without(frame, lost);
    if frame.legs.is_empty() {
        let after = AfterLoss::Falls(AnchorError::finite_triple("force", &checked.load_n)?);
        return Ok(GuyLoss { before, after });
    }
    let left = Checked::of(&frame)?;
    let after = match left.under(&left.load_n)? {
        Outcome::Falls(force) => AfterLoss::Falls(AnchorError::finite_triple("force", &force)?),
        Outcome::Stands(new) => {
            let mut old = old;
            let mut stay = stays.iter();
            old.force_n.retain(|_| stay.next() == Some(&true));
            AfterLoss::Stands(Box::new(stands_after(&frame, &left, &old, &new)?))
        }
    };
    Ok(GuyLoss { before, after })
}

/// A frame without some members. A hobble goes with a leg that it ties.
pub(crate) fn frame_without(frame: &Frame, lost: &[&str]) -> Frame {
    let stays = |name: &String| !lost.contains(&name.as_str());
    let mut left = frame.clone();
    left.legs.retain(|leg| stays(&leg.name));
    left.guys.retain(|guy| stays(&guy.name));
    left.hobble = left.hobble.filter(|hobble| hobble.round.iter().all(stays));
    left
}

/// From the rest with the guy to the one without; `old` holds the forces of the members that are left.
fn stands_after(
    frame: &Frame,
    left: &Checked,
    old: &Rest,
    new: &Rest,
) -> Result<StandsAfter, AnchorError> {
    let travel_m = new.u_m - old.u_m;
    let turn = turn(&left.members, &left.load_n, &old.u_m, &travel_m)?;
    let turn_m = old.u_m + travel_m * turn.part;
    let mut peaks = Vec::with_capacity(left.members.len());
    for (i, (name, m)) in frame.members().zip(&left.members).enumerate() {
        // The force is convex along the straight way, so its greatest value is at an end.
        let beyond_n = if turn.released_j > 0.0 { m.force_at(&turn_m) } else { new.force_n[i] };
        let peak_n = beyond_n.max(old.force_n[i]);
        let ratio = peak_n / new.force_n[i];
        peaks.push(MemberPeak {
            name: name.clone(),
            force: AnchorError::finite("peak", peak_n)?,
            dynamic_factor: ratio.is_finite().then(|| Ratio::from_si(ratio)),
            factor: left.factor(i, peak_n),
        });
    }
    Ok(StandsAfter {
        rest: described(frame, left, new)?,
        travel: AnchorError::finite_triple("position", &travel_m)?,
        energy_released: AnchorError::finite("energy_released", turn.released_j)?,
        peaks,
        residual: turn.residual,
    })
}

/// Where the energy without the guy is again what it was, Eq. (F12).
fn turn(
    left: &[Member],
    load_n: &Vector3<f64>,
    from_m: &Vector3<f64>,
    travel_m: &Vector3<f64>,
) -> Result<Turn, AnchorError> {
    let start: Vec<f64> = left.iter().map(|m| m.force_at(from_m)).collect();
    // Energy gained since the start of the way, so that no common part is lost in rounding.
    let gain = |s: f64| {
        let u_m = from_m + travel_m * s;
        let stored = left.iter().zip(&start).map(|(m, f0)| {
            let f = m.force_at(&u_m);
            0.5 * (f - f0) * ((f + f0) / m.k_n_per_m)
        });
        stored.sum::<f64>() - load_n.dot(travel_m) * s
    };
    let slope = |s: f64| {
        let u_m = from_m + travel_m * s;
        let rise = |m: &Member| -m.force_at(&u_m) * m.toward.dot(travel_m);
        left.iter().map(rise).sum::<f64>() - load_n.dot(travel_m)
    };
    // Each force is known to a few units in the last place of what it is the difference of.
    let far_m = from_m.norm().max((from_m + travel_m).norm());
    let rounding_j = left
        .iter()
        .map(|m| 8.0 * f64::EPSILON * (m.pretension_n + m.k_n_per_m * far_m) * travel_m.norm())
        .sum::<f64>();
    turning_point(gain, slope, rounding_j)
}
