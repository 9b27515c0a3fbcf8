//! A frame through a lift: where its load leads, and the worst of each member.

use serde::{Deserialize, Serialize};

use super::checked::Checked;
use super::forces::{FrameForces, MemberForce, described};
use super::input::Frame;
use super::pole::FactorRange;
use super::share::Outcome;
use super::window::window;
use crate::anchor::AnchorError;
use crate::quantity::{Angle, Force, Length, MaybeText, Quantity, Ratio, Text, Triple};

/// One place on the way of a load.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LiftPlace {
    /// Where the load is: the rope, or the load's part of the pulley, leads there.
    #[serde(with = "Triple::<Length>")]
    pub load: [Length; 3],
    /// Tension of the rope there.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
}

/// A frame through a lift.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrameLift {
    /// Each place in the order given.
    pub steps: Vec<LiftStep>,
    /// The worst of each leg over the places where the frame stands.
    pub legs: Vec<MemberWorst>,
    /// The same of each guy.
    pub guys: Vec<MemberWorst>,
    /// Number of the first place, from 0, at which the frame falls; none if it stands at all.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub falls_at: Option<usize>,
    /// The least margin of the window of directions.
    #[serde(with = "MaybeText::<Angle>", default, skip_serializing_if = "Option::is_none")]
    pub margin: Option<Angle>,
}

/// A frame at one place of the lift.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LiftStep {
    /// Resultant of everything on the head.
    #[serde(with = "Triple::<Force>")]
    pub load: [Force; 3],
    /// Its angle from straight down.
    #[serde(with = "Text::<Angle>")]
    pub tilt: Angle,
    /// Its way over the ground: 0 along x, a right angle along y. None where it points straight down or up.
    #[serde(with = "MaybeText::<Angle>", default, skip_serializing_if = "Option::is_none")]
    pub bearing: Option<Angle>,
    /// Margin of the window of directions of the rope, Eq. (F11); none for a rope without tension.
    #[serde(with = "MaybeText::<Angle>", default, skip_serializing_if = "Option::is_none")]
    pub margin: Option<Angle>,
    /// Forces, where the frame stands.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub forces: Option<FrameForces>,
}

/// The worst of one leg or guy over a lift.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MemberWorst {
    /// Name.
    pub name: String,
    /// Greatest force.
    #[serde(with = "Text::<Force>")]
    pub force: Force,
    /// Number of the place of it, from 0.
    pub at: usize,
    /// Greatest coefficient of friction that the foot of a leg needs.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub friction_needed: Option<Ratio>,
    /// Least factor of capacity or strength.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub factor: Option<FactorRange>,
    /// Numbers of the places at which it carries nothing: a foot lifts, a guy hangs slack.
    pub idle_at: Vec<usize>,
}

/// The frame at each place of the load on the rope or pulley called `rope`, Eqs. (F1) to (F11).
///
/// A frame that falls at a place is a result, not an error: `forces` lacks there.
///
/// # Errors
/// [`AnchorError::TooFew`] without places, [`AnchorError::Unknown`] for a rope that the frame does not have,
/// and those of [`frame_forces`](super::frame_forces) but [`AnchorError::CannotStand`].
///
/// # Example
/// ```
/// use tautwork::anchor::{Frame, FrameGuy, FrameLeg, HeadPulley, LiftPlace, frame_lift};
/// use tautwork::quantity::{Length, ReadAngle, ReadForce, Words};
///
/// let at = |x: f64, y: f64, z: f64| -> [Length; 3] { [x.meters(), y.meters(), z.meters()] };
/// let leg = |name: &str, foot| FrameLeg::new(name, foot, 10.0.meganewtons());
/// let frame = Frame {
///     head: at(0.0, 0.0, 3.0),
///     legs: vec![leg("left", at(0.0, 1.0, 0.0)), leg("right", at(0.0, -1.0, 0.0))],
///     guys: vec![FrameGuy::new("back", at(-3.0, 0.0, 0.0), 0.3.meganewtons())],
///     ropes: vec![],
///     pulleys: vec![HeadPulley {
///         name: "haul".to_owned(),
///         load: at(5.0, 0.0, -9.0),
///         haul: at(0.0, 0.0, 0.0),
///         tension: 0.0.newtons(),
///         behind: 1.0.ratio(),
///     }],
///     force: [0.0.newtons(); 3],
///     hobble: None,
/// };
/// let place = |x: f64, z: f64| LiftPlace { load: at(x, 0.0, z), tension: 1.0.kilonewtons() };
/// // 3-4-5: 600 N out and 800 + 1000 N down, so tan tilt = 1/3; then straight down, 2 kN.
/// let lift = frame_lift(&frame, "haul", &[place(9.0, -9.0), place(0.0, -1.0)])?;
/// assert!((lift.steps[0].tilt.in_degrees() - 18.4349).abs() < 1e-4);
/// assert!((lift.guys[0].force.in_newtons() - 848.528).abs() < 1e-3);
/// assert_eq!(lift.guys[0].idle_at, [1]);
/// assert!(frame_lift(&frame, "rope", &[place(9.0, -9.0)]).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
pub fn frame_lift(
    frame: &Frame,
    rope: &str,
    places: &[LiftPlace],
) -> Result<FrameLift, AnchorError> {
    if places.is_empty() {
        return Err(AnchorError::TooFew { what: "places", found: 0, least: 1 });
    }
    let mut frame = frame.clone();
    let steps = places
        .iter()
        .map(|place| {
            put(&mut frame, rope, place)?;
            step(&frame, rope, place.tension)
        })
        .collect::<Result<Vec<_>, _>>()?;
    let margins = steps.iter().filter_map(|s| s.margin);
    Ok(FrameLift {
        legs: worst(&steps, frame.legs.iter().map(|l| &l.name), |f| &f.legs),
        guys: worst(&steps, frame.guys.iter().map(|g| &g.name), |f| &f.guys),
        falls_at: steps.iter().position(|s| s.forces.is_none()),
        margin: margins.reduce(|a, b| if b < a { b } else { a }),
        steps,
    })
}

/// Leads the rope to a place.
fn put(frame: &mut Frame, rope: &str, place: &LiftPlace) -> Result<(), AnchorError> {
    if let Some(found) = frame.ropes.iter_mut().find(|r| r.name == rope) {
        (found.towards, found.tension) = (place.load, place.tension);
    } else if let Some(found) = frame.pulleys.iter_mut().find(|p| p.name == rope) {
        (found.load, found.tension) = (place.load, place.tension);
    } else {
        return Err(AnchorError::Unknown { what: "rope", name: rope.to_owned() });
    }
    Ok(())
}

fn step(frame: &Frame, rope: &str, tension: Force) -> Result<LiftStep, AnchorError> {
    let checked = Checked::of(frame)?;
    let forces = match checked.under(&checked.load_n)? {
        Outcome::Stands(rest) => Some(described(frame, &checked, &rest)?),
        Outcome::Falls(_) => None,
    };
    // A rope without tension has no say.
    let margin = if tension.si() > 0.0 { window(frame, &checked, rope)?.margin } else { None };
    let load = checked.load_n;
    let level_n = load.x.hypot(load.y);
    Ok(LiftStep {
        load: AnchorError::finite_triple("force", &load)?,
        tilt: Angle::from_si(level_n.atan2(-load.z)),
        bearing: (level_n > 0.0).then(|| Angle::from_si(load.y.atan2(load.x))),
        margin,
        forces,
    })
}

fn worst<'a>(
    steps: &[LiftStep],
    names: impl Iterator<Item = &'a String>,
    members: impl Fn(&FrameForces) -> &[MemberForce],
) -> Vec<MemberWorst> {
    let mut worst: Vec<_> = names
        .map(|name| MemberWorst {
            name: name.clone(),
            force: Force::from_si(0.0),
            at: 0,
            friction_needed: None,
            factor: None,
            idle_at: vec![],
        })
        .collect();
    for (at, step) in steps.iter().enumerate() {
        let Some(forces) = &step.forces else { continue };
        for (w, m) in worst.iter_mut().zip(members(forces)) {
            if m.idle {
                w.idle_at.push(at);
            }
            if m.force > w.force {
                (w.force, w.at, w.factor) = (m.force, at, m.factor);
            }
            if m.friction_needed.is_some_and(|f| w.friction_needed.is_none_or(|g| f > g)) {
                w.friction_needed = m.friction_needed;
            }
        }
    }
    worst
}
