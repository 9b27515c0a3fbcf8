//! A system at rest under its pull.

use serde::{Deserialize, Serialize};

use super::super::AnchorError;
use super::super::knots::{End, Link, Rest, place};
use super::input::AnchorSystem;
use super::model::{Left, Model};
use crate::quantity::{Force, Length, MaybeText, Quantity, Ratio, Text, Triple};

/// A system at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SystemRest {
    /// Legs in the order given.
    pub legs: Vec<LegState>,
    /// Fixed points in the order given.
    pub fixed: Vec<FixedState>,
    /// Junctions in the order given.
    pub junctions: Vec<JunctionState>,
    /// The pull: that given, or after a loss what a line that pulls is left with, Eq. (S9).
    #[serde(with = "Triple::<Force>")]
    pub pull: [Force; 3],
    /// Least factor of all, where strengths are given.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub least_factor: Option<Ratio>,
    /// Leg or fixed point that has it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weakest: Option<String>,
    /// Unbalanced force over the pull.
    pub residual: f64,
    /// Newton steps taken.
    pub iterations: usize,
}

/// One leg at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LegState {
    /// Name.
    pub name: String,
    /// Tension.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Part of the pull that it hands to its fixed point, Eq. (S3); none for a leg between junctions.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub share: Option<Ratio>,
    /// Distance between its ends; a slack leg is longer than this.
    #[serde(with = "Text::<Length>")]
    pub length: Length,
    /// Whether it carries nothing.
    pub slack: bool,
    /// Strength of the part that governs over tension, where one is given and the leg is taut.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub factor: Option<Ratio>,
    /// That part.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub governed_by: Option<String>,
}

/// One fixed point.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FixedState {
    /// Name.
    pub name: String,
    /// Force of its legs on it.
    #[serde(with = "Triple::<Force>")]
    pub force: [Force; 3],
    /// Its size.
    #[serde(with = "Text::<Force>")]
    pub size: Force,
    /// Strength over size, where one is given and anything pulls.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub factor: Option<Ratio>,
}

/// One junction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct JunctionState {
    /// Name.
    pub name: String,
    /// Position.
    #[serde(with = "Triple::<Length>")]
    pub position: [Length; 3],
    /// Whether all its legs are slack: then it carries nothing, and this is one of many places where it may be.
    pub loose: bool,
}

/// Rest of an anchor system under its pull, Eqs. (S1) to (S4).
///
/// # Errors
/// [`AnchorError::Invalid`] for a value out of range; [`AnchorError::UnknownPoint`], [`AnchorError::NoWay`] and
/// [`AnchorError::NoStiffness`] for a leg that cannot be one; [`AnchorError::NoPath`] where no path of legs leads from
/// the pull to a fixed point; those of [`equilibrium`](crate::anchor::equilibrium).
///
/// # Example
/// ```
/// use tautwork::anchor::{AnchorSystem, FixedPoint, Junction, LegPart, SystemLeg, system_rest};
/// use tautwork::quantity::{ReadForce, ReadRatio, Words};
///
/// let point = |x: f64, z: f64| [x.meters(), 0.0.meters(), z.meters()];
/// let leg = |name: &str, from: &str, to: &str, k: f64| SystemLeg {
///     name: name.to_owned(),
///     from: from.to_owned(),
///     to: to.to_owned(),
///     rest_length: 1.0.meters(),
///     parts: vec![LegPart {
///         name: "sling".to_owned(),
///         stiffness: Some(k.kilonewtons_per_meter()),
///         strength: Some(22.0.kilonewtons()),
///     }],
/// };
/// // Two bolts at one place to a knot, and from it one leg to the master point.
/// let mut system = AnchorSystem {
///     fixed: ["left", "right"]
///         .map(|name| FixedPoint { name: name.to_owned(), position: point(0.0, 2.0), strength: None })
///         .to_vec(),
///     junctions: ["knot", "master"]
///         .map(|name| Junction { name: name.to_owned(), near: point(0.0, 0.0) })
///         .to_vec(),
///     legs: vec![leg("a", "left", "knot", 100.0), leg("b", "right", "knot", 300.0), leg("c", "knot", "master", 200.0)],
///     pull_at: "master".to_owned(),
///     pull: [0.0.newtons(), 0.0.newtons(), (-1000.0).newtons()],
///     line: None,
/// };
/// let rest = system_rest(&system)?;
/// // Side by side they share as their stiffness, 1 to 3; the leg below carries all.
/// assert!((rest.legs[1].tension.in_newtons() - 750.0).abs() < 1e-6);
/// assert!((rest.legs[2].tension.in_newtons() - 1000.0).abs() < 1e-6);
/// assert!((rest.least_factor.unwrap().in_ratio() - 22.0).abs() < 1e-6);
/// system.legs.remove(2);
/// assert!(system_rest(&system).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
pub fn system_rest(system: &AnchorSystem) -> Result<SystemRest, AnchorError> {
    let model = Model::new(system)?;
    let left = model.whole();
    described(system, &model, &left, &model.rest(&left)?)
}

/// A rest in words.
pub(super) fn described(
    system: &AnchorSystem,
    model: &Model,
    left: &Left,
    rest: &Rest,
) -> Result<SystemRest, AnchorError> {
    let x = &rest.x;
    let tensions = model.tensions_n(left, x);
    let on_fixed = model.on_fixed_n(&tensions, x);
    let pull_n = model.pull_at_n(x);
    let mut least = None::<(f64, &String)>;
    let mut weigh = |factor: f64, name| {
        let factor = Some(factor).filter(|f| f.is_finite());
        if let Some(f) = factor
            && least.is_none_or(|(l, _)| f < l)
        {
            least = Some((f, name));
        }
        factor.map(Ratio::from_si)
    };
    let mut legs = Vec::new();
    for ((entry, leg), &tension_n) in system.legs.iter().zip(&model.legs).zip(&tensions) {
        let pulled = leg.link.pulled(x);
        let share = leg.share(tension_n, &pull_n, x);
        let share = share.map(|s| AnchorError::finite("share", s)).transpose()?;
        let strength = leg.strength;
        legs.push(LegState {
            name: entry.name.clone(),
            tension: AnchorError::finite("tension", tension_n)?,
            share,
            length: AnchorError::finite("length", pulled.length_m)?,
            slack: tension_n <= 0.0,
            factor: strength.and_then(|(s, _)| weigh(s / tension_n, &entry.name)),
            governed_by: strength.map(|(_, part)| entry.parts[part].name.clone()),
        });
    }
    let mut fixed = Vec::new();
    for ((entry, force), strength) in system.fixed.iter().zip(&on_fixed).zip(&model.fixed_n) {
        fixed.push(FixedState {
            name: entry.name.clone(),
            force: AnchorError::finite_triple("force", force)?,
            size: AnchorError::finite("force", force.norm())?,
            factor: strength.and_then(|s| weigh(s / force.norm(), &entry.name)),
        });
    }
    // Rounding leaves a little in a leg that just drags a loose junction along.
    let loose_n = 1e-9 * model.pull_n.norm();
    let (_, links) = model.links(left);
    let mut junctions = Vec::new();
    for (i, entry) in system.junctions.iter().enumerate() {
        let taut = |l: &Link| [l.from, l.to].contains(&End::Knot(i)) && l.tension_n(x) > loose_n;
        junctions.push(JunctionState {
            name: entry.name.clone(),
            position: AnchorError::finite_triple("position", &place(x, i))?,
            loose: !links.iter().any(taut),
        });
    }
    Ok(SystemRest {
        legs,
        fixed,
        junctions,
        pull: AnchorError::finite_triple("pull", &pull_n)?,
        least_factor: least.map(|(f, _)| Ratio::from_si(f)),
        weakest: least.map(|(_, name)| name.clone()),
        residual: rest.residual,
        iterations: rest.iterations,
    })
}
