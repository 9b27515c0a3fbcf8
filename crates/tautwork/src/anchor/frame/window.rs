//! In which directions a rope may pull: Eqs. (F10) and (F11).

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::checked::{Checked, toward};
use super::input::Frame;
use super::share::Member;
use super::stand::stands;
use crate::anchor::AnchorError;
use crate::quantity::check::positive;
use crate::quantity::{Angle, Force, Length, MaybeText, Quantity, Text};

/// Directions in which one rope may pull at its tension, all else as given.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrameWindow {
    /// Whether the frame stands with the rope as it is given.
    pub stands: bool,
    /// Angle by which the rope may turn, whichever way, before the frame no longer stands, Eq. (F11). Below
    /// zero for a frame that falls: the rope must turn at least so far. None where no side has a figure.
    #[serde(with = "MaybeText::<Angle>", default, skip_serializing_if = "Option::is_none")]
    pub margin: Option<Angle>,
    /// Sides of the window, the nearest first.
    pub sides: Vec<WindowSide>,
    /// What to know about the result.
    pub notes: Vec<WindowNote>,
}

/// One side of the window: a circle of directions on which the frame just stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WindowSide {
    /// The members that can carry at this side; all others idle. The frame turns over about their feet.
    pub carried_by: Vec<String>,
    /// Angle from the rope to this side; below zero beyond it.
    #[serde(with = "Text::<Angle>")]
    pub margin: Angle,
    /// Unit vector of the rope where it has turned to this side the short way.
    pub rope_there: [f64; 3],
    /// Unit vector into the window.
    pub inward: [f64; 3],
}

/// What to know about a window.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WindowNote {
    /// The frame stands whichever way the rope pulls with its tension; strength is another matter.
    AnyDirection,
    /// The frame stands whichever way the rope pulls with none at all: the rest of the load upsets it.
    NoDirection,
    /// All members lie in one plane: the least pull out of it upsets the frame.
    NoRoom,
}

/// The window of directions of the rope or pulley called `rope`, Eqs. (F10) and (F11).
///
/// For a pulley the part with the load turns and the other part stays. Pretension and stiffness have no say,
/// strength has none either: see `factor` in the forces at `rope_there`.
///
/// # Errors
/// [`AnchorError::Unknown`] for a rope that the frame does not have, and those of
/// [`frame_forces`](super::frame_forces) but [`AnchorError::CannotStand`]. The rope needs a tension above
/// zero.
///
/// # Example
/// ```
/// use tautwork::anchor::{Frame, FrameLeg, HeadRope, frame_window};
/// use tautwork::quantity::{Length, ReadAngle, Words};
///
/// let at = |x: f64, y: f64, z: f64| -> [Length; 3] { [x.meters(), y.meters(), z.meters()] };
/// let leg = |name: &str, foot| FrameLeg::new(name, foot, 10.0.meganewtons());
/// // A tripod with feet at 2 m on the ground, 3 m high: it turns over about a line 1 m from its middle.
/// let half = 3.0_f64.sqrt();
/// let frame = Frame {
///     head: at(0.0, 0.0, 3.0),
///     legs: vec![leg("a", at(2.0, 0.0, 0.0)), leg("b", at(-1.0, half, 0.0)), leg("c", at(-1.0, -half, 0.0))],
///     guys: vec![],
///     ropes: vec![HeadRope { name: "load".to_owned(), towards: at(0.0, 0.0, 0.0), tension: 1.0.kilonewtons() }],
///     pulleys: vec![],
///     force: [0.0.newtons(); 3],
///     hobble: None,
/// };
/// let window = frame_window(&frame, "load")?;
/// assert_eq!(window.sides.len(), 3);
/// // atan(1/3)
/// assert!((window.margin.unwrap().in_degrees() - 18.4349).abs() < 1e-4);
/// assert!(frame_window(&frame, "haul").is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
pub fn frame_window(frame: &Frame, rope: &str) -> Result<FrameWindow, AnchorError> {
    let checked = Checked::of(frame)?;
    window(frame, &checked, rope)
}

/// The same for a frame that has been checked.
pub(super) fn window(
    frame: &Frame,
    checked: &Checked,
    rope: &str,
) -> Result<FrameWindow, AnchorError> {
    let (tension_n, direction) = part(frame, &checked.head, rope)?;
    let others_n = checked.load_n - direction * tension_n;
    if !others_n.norm().is_finite() || !(others_n.norm() / tension_n).is_finite() {
        return Err(AnchorError::Overflow { result: "the load on the head" });
    }
    let towards: Vec<_> = checked.members.iter().map(|m| m.toward).collect();
    let mut found = FrameWindow {
        stands: stands(&towards, &checked.load_n),
        margin: None,
        sides: vec![],
        notes: vec![],
    };
    let Some(sides) = cone(&checked.members) else {
        found.notes.push(WindowNote::NoRoom);
        return Ok(found);
    };
    let names: Vec<&String> = frame.members().collect();
    for side in &sides {
        // Cosine of the angle about the side's normal within which the rope may pull.
        let cosine = -side.normal.dot(&others_n) / tension_n;
        if cosine > 1.0 {
            found.sides.clear();
            found.notes.push(WindowNote::NoDirection);
            return Ok(found);
        }
        if cosine >= -1.0 {
            found.sides.push(described(side, cosine, &direction, &names));
        }
    }
    found.sides.sort_by(|a, b| a.margin.si().total_cmp(&b.margin.si()));
    found.margin = found.sides.first().map(|s| s.margin);
    if found.sides.is_empty() {
        found.notes.push(WindowNote::AnyDirection);
    }
    Ok(found)
}

/// Tension and direction of the rope that turns.
fn part(
    frame: &Frame,
    head: &Vector3<f64>,
    rope: &str,
) -> Result<(f64, Vector3<f64>), AnchorError> {
    let (field, point, tension) = turning(frame, rope)?;
    let tension_n = positive("tension", tension).map_err(|e| e.within(rope))?;
    Ok((tension_n, toward(rope, field, point, head)?.0))
}

/// Where the rope called `rope` or the load's part of the pulley leads, and its tension.
fn turning(frame: &Frame, rope: &str) -> Result<(&'static str, [Length; 3], Force), AnchorError> {
    let ropes = frame.ropes.iter().map(|r| (&r.name, ("towards", r.towards, r.tension)));
    let pulleys = frame.pulleys.iter().map(|p| (&p.name, ("load", p.load, p.tension)));
    ropes
        .chain(pulleys)
        .find(|(name, _)| *name == rope)
        .map(|(_, found)| found)
        .ok_or_else(|| AnchorError::Unknown { what: "rope", name: rope.to_owned() })
}

fn described(side: &Side, cosine: f64, direction: &Vector3<f64>, names: &[&String]) -> WindowSide {
    let radius_rad = cosine.acos();
    // Not by the cosine alone, which loses digits near the axis.
    let across = direction - side.normal * side.normal.dot(direction);
    let from_axis_rad = across.norm().atan2(side.normal.dot(direction));
    let away = if across.norm() > 0.0 { across.normalize() } else { side.aside() };
    WindowSide {
        carried_by: side.members.iter().map(|&i| names[i].clone()).collect(),
        margin: Angle::from_si(radius_rad - from_axis_rad),
        rope_there: (side.normal * radius_rad.cos() + away * radius_rad.sin()).into(),
        inward: side.normal.into(),
    }
}

/// A side of the cone of loads with which the frame stands.
struct Side {
    /// Into the cone of loads.
    normal: Vector3<f64>,
    /// The members whose directions lie in it.
    members: Vec<usize>,
}

impl Side {
    /// Any direction across the normal.
    fn aside(&self) -> Vector3<f64> {
        self.normal.cross(&Vector3::ith(self.normal.iamin(), 1.0)).normalize()
    }
}

/// Directions closer than this count as one, in rad.
const SAME: f64 = 1e-9;

/// Sides of the cone, Eq. (F10): planes through two members with all others on one side. None if all members
/// lie in one plane.
fn cone(members: &[Member]) -> Option<Vec<Side>> {
    let mut sides: Vec<Side> = Vec::new();
    let mut solid = false;
    for (i, one) in members.iter().enumerate() {
        for other in &members[i + 1..] {
            let cross = one.toward.cross(&other.toward);
            if cross.norm() <= SAME {
                continue;
            }
            let normal = cross.normalize();
            let heights = || members.iter().map(|m| m.toward.dot(&normal));
            let highest = heights().fold(0.0, f64::max);
            let lowest = heights().fold(0.0, f64::min);
            let out = match (lowest < -SAME, highest > SAME) {
                (true, true) => {
                    solid = true;
                    continue;
                }
                (true, false) => normal,
                (false, true) => -normal,
                (false, false) => continue,
            };
            solid = true;
            if sides.iter().any(|s| (s.normal - out).norm() <= 2.0 * SAME) {
                continue;
            }
            let on = heights().enumerate().filter(|(_, h)| h.abs() <= SAME);
            sides.push(Side { normal: out, members: on.map(|(i, _)| i).collect() });
        }
    }
    solid.then_some(sides)
}
