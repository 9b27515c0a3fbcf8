//! Legs to a master point: shares of a pull.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::AnchorError;
use super::rest::{Rest, Spring, rest};
use crate::quantity::check::{finite, positive};
use crate::quantity::{
    Angle, AxialRigidity, Force, Length, MaybeText, Quantity, Ratio, Stiffness, Text, Triple,
};

/// Legs from fixings to one free knot, and the pull on it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Anchor {
    /// Legs.
    pub legs: Vec<Leg>,
    /// Pull on the master point.
    #[serde(with = "Triple::<Force>")]
    pub pull: [Force; 3],
}

/// One leg of an anchor.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Leg {
    /// Name.
    pub name: String,
    /// Position of its fixing.
    #[serde(with = "Triple::<Length>")]
    pub fixing: [Length; 3],
    /// Length without tension, from fixing to knot.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// Stiffness of the whole leg; this or `axial_rigidity`.
    #[serde(with = "MaybeText::<Stiffness>", default, skip_serializing_if = "Option::is_none")]
    pub stiffness: Option<Stiffness>,
    /// Axial rigidity of its cord; this or `stiffness`.
    #[serde(with = "MaybeText::<AxialRigidity>", default, skip_serializing_if = "Option::is_none")]
    pub axial_rigidity: Option<AxialRigidity>,
    /// Strength at its weakest place, knots included.
    #[serde(with = "MaybeText::<Force>", default, skip_serializing_if = "Option::is_none")]
    pub strength: Option<Force>,
}

/// An anchor at rest under its pull.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Equilibrium {
    /// Position of the master point.
    #[serde(with = "Triple::<Length>")]
    pub master_point: [Length; 3],
    /// Legs in the order given.
    pub legs: Vec<LegAtRest>,
    /// Largest angle between two taut legs; none with a single taut leg.
    #[serde(with = "MaybeText::<Angle>", default, skip_serializing_if = "Option::is_none")]
    pub v_angle: Option<Angle>,
    /// Unbalanced force over the pull.
    pub residual: f64,
    /// Newton steps taken.
    pub iterations: usize,
}

/// One leg at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LegAtRest {
    /// Name.
    pub name: String,
    /// Tension.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Part of the pull it carries, Eq. (4); all shares sum to 1.
    #[serde(with = "Text::<Ratio>")]
    pub share: Ratio,
    /// Unit vector from the master point to the fixing.
    pub direction: [f64; 3],
    /// Distance from the master point to the fixing; a slack leg is longer than this.
    #[serde(with = "Text::<Length>")]
    pub length: Length,
    /// Whether it carries nothing.
    pub slack: bool,
    /// Strength over tension, where a strength is given and the leg is taut.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub factor: Option<Ratio>,
}

/// Rest of an anchor under its pull, Eqs. (1) to (4).
///
/// # Errors
/// [`AnchorError::Invalid`] for a value out of range, [`AnchorError::TooFew`] without legs,
/// [`AnchorError::NoPull`], [`AnchorError::OneStiffness`], [`AnchorError::DuplicateName`],
/// [`AnchorError::NotConverged`] with its residual.
///
/// # Example
/// ```
/// use tautwork::anchor::{Anchor, Leg, equilibrium};
/// use tautwork::quantity::{ReadForce, Words};
///
/// let leg = |name: &str, x: f64| Leg {
///     name: name.to_owned(),
///     fixing: [x.meters(), 0.0.meters(), 0.0.meters()],
///     rest_length: 2.0.meters(),
///     stiffness: None,
///     axial_rigidity: Some(1e6.kilonewtons()),
///     strength: None,
/// };
/// // Two stiff legs of 2 m from fixings 2 m apart: 60° between them, 0.577 of the pull each.
/// let mut anchor = Anchor {
///     legs: vec![leg("left", -1.0), leg("right", 1.0)],
///     pull: [0.0.newtons(), 0.0.newtons(), (-1000.0).newtons()],
/// };
/// let rest = equilibrium(&anchor)?;
/// assert!((rest.legs[0].tension.in_newtons() - 577.35).abs() < 0.01);
/// anchor.pull[2] = 0.0.newtons();
/// assert!(equilibrium(&anchor).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
pub fn equilibrium(anchor: &Anchor) -> Result<Equilibrium, AnchorError> {
    let springs = springs(&anchor.legs)?;
    let pull_n = pull(anchor)?;
    let rest = rest(&springs, &pull_n)?;
    described(&anchor.legs, &springs, &pull_n, &rest)
}

/// The pull in N; not zero, and small enough that its square is a number.
pub(super) fn pull(anchor: &Anchor) -> Result<Vector3<f64>, AnchorError> {
    let pull_n = vector("pull", anchor.pull)?;
    let size = pull_n.norm();
    if pull_n.amax() == 0.0 {
        return Err(AnchorError::NoPull);
    }
    if !size.is_normal() {
        return Err(AnchorError::Overflow { result: "the size of the pull" });
    }
    Ok(pull_n)
}

/// The SI values of three finite components.
pub(super) fn vector<Q: Quantity>(
    parameter: &str,
    xyz: [Q; 3],
) -> Result<Vector3<f64>, AnchorError> {
    let mut v = Vector3::zeros();
    for (i, (axis, q)) in ["x", "y", "z"].iter().zip(xyz).enumerate() {
        v[i] = finite(axis, q).map_err(|e| e.within(parameter))?;
    }
    Ok(v)
}

/// Checked legs as springs.
pub(super) fn springs(legs: &[Leg]) -> Result<Vec<Spring>, AnchorError> {
    if legs.is_empty() {
        return Err(AnchorError::TooFew { what: "legs", found: 0, least: 1 });
    }
    unique(legs.iter().map(|l| &l.name))?;
    legs.iter().map(spring).collect()
}

/// Refuses a name that stands twice.
pub(super) fn unique<'a>(names: impl Iterator<Item = &'a String>) -> Result<(), AnchorError> {
    let mut seen = std::collections::BTreeSet::new();
    for name in names {
        if !seen.insert(name) {
            return Err(AnchorError::DuplicateName { name: name.clone() });
        }
    }
    Ok(())
}

fn spring(leg: &Leg) -> Result<Spring, AnchorError> {
    let within = |e: crate::quantity::Invalid| e.within(&leg.name);
    let rest_m = positive("rest_length", leg.rest_length).map_err(within)?;
    let k_n_per_m = match (leg.stiffness, leg.axial_rigidity) {
        (Some(k), None) => positive("stiffness", k).map_err(within)?,
        (None, Some(ea)) => positive("axial_rigidity", ea).map_err(within)? / rest_m,
        _ => return Err(AnchorError::OneStiffness { leg: leg.name.clone() }),
    };
    if let Some(strength) = leg.strength {
        positive("strength", strength).map_err(within)?;
    }
    Ok(Spring { at: vector(&format!("{}.fixing", leg.name), leg.fixing)?, rest_m, k_n_per_m })
}

/// A rest position in words.
pub(super) fn described(
    legs: &[Leg],
    springs: &[Spring],
    pull_n: &Vector3<f64>,
    rest: &Rest,
) -> Result<Equilibrium, AnchorError> {
    let along = pull_n / pull_n.norm();
    let mut described = Vec::new();
    let mut taut = Vec::new();
    for (leg, spring) in legs.iter().zip(springs) {
        let pulled = spring.pulled(&rest.p);
        let tension_n = spring.k_n_per_m * pulled.stretch_m;
        let slack = pulled.stretch_m <= 0.0;
        if !slack {
            taut.push(pulled.toward);
        }
        let share = -tension_n / pull_n.norm() * pulled.toward.dot(&along);
        described.push(LegAtRest {
            name: leg.name.clone(),
            tension: AnchorError::finite("tension", tension_n)?,
            share: AnchorError::finite("share", share)?,
            direction: pulled.toward.into(),
            length: AnchorError::finite("length", pulled.length_m)?,
            slack,
            factor: factor(leg, tension_n),
        });
    }
    Ok(Equilibrium {
        master_point: AnchorError::finite_triple("position", &rest.p)?,
        legs: described,
        v_angle: widest(&taut).map(Angle::from_si),
        residual: rest.residual,
        iterations: rest.iterations,
    })
}

/// Strength over tension, where both say something.
pub(super) fn factor(leg: &Leg, tension_n: f64) -> Option<Ratio> {
    let factor = leg.strength?.si() / tension_n;
    factor.is_finite().then(|| Ratio::from_si(factor))
}

fn widest(directions: &[Vector3<f64>]) -> Option<f64> {
    let mut widest = None::<f64>;
    for (i, a) in directions.iter().enumerate() {
        for b in &directions[i + 1..] {
            let angle_rad = a.cross(b).norm().atan2(a.dot(b));
            widest = Some(widest.map_or(angle_rad, |w| w.max(angle_rad)));
        }
    }
    widest
}
