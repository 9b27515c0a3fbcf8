//! Bolts that share a pull through a rigid plate.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::bolt::{BoltLimits, BoltUse, bolt_use, direction, length, vector};
use super::plate::{Spot, hold};
use crate::anchor::AnchorError;
use crate::quantity::check::{count, non_negative, positive};
use crate::quantity::{
    Force, Invalid, Length, MaybeText, Quantity, Ratio, Stiffness, Text, Texts, Triple,
};

/// Most bolts, and most bearing points, that are taken.
const MOST: usize = 100;

/// Bolts under a rigid plate, and the pull on the plate.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BoltGroup {
    /// Bolts.
    pub bolts: Vec<PlateBolt>,
    /// Direction of every bolt, out of the rock, of any length.
    pub normal: [f64; 3],
    /// Where the plate bears on the rock; at the bolts' own places where left out.
    #[serde(default)]
    pub bearing: Vec<BearingPoint>,
    /// Pull on the plate.
    #[serde(with = "Triple::<Force>")]
    pub pull: [Force; 3],
    /// A point on the line of the pull.
    #[serde(with = "Triple::<Length>")]
    pub pull_at: [Length; 3],
}

/// One bolt of a group.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlateBolt {
    /// Name.
    pub name: String,
    /// Where it holds the plate.
    #[serde(with = "Triple::<Length>")]
    pub position: [Length; 3],
    /// Stiffness along its axis.
    #[serde(with = "Text::<Stiffness>")]
    pub axial_stiffness: Stiffness,
    /// Stiffness across its axis; zero in a slot.
    #[serde(with = "Text::<Stiffness>")]
    pub shear_stiffness: Stiffness,
    /// What it resists; without it there is no utilisation.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limits: Option<BoltLimits>,
}

/// A place where the plate presses on the rock.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BearingPoint {
    /// Where.
    #[serde(with = "Triple::<Length>")]
    pub position: [Length; 3],
    /// Stiffness against pressing.
    #[serde(with = "Text::<Stiffness>")]
    pub stiffness: Stiffness,
}

/// Where the plate bears.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PressedRule {
    /// At the bolts' own places, each as stiff as its bolt.
    AtBolts,
    /// At the points given and nowhere else.
    AtPoints,
}

/// What the bolts of a group carry.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BoltGroupForces {
    /// Bolts in the order given.
    pub bolts: Vec<BoltForces>,
    /// Force of the plate on the rock at each bearing point given.
    #[serde(with = "Texts::<Force>")]
    pub bearing: Vec<Force>,
    /// Where the plate bears.
    pub pressed: PressedRule,
    /// Scale of the pull at which the first bolt reaches its limit, where limits are given.
    #[serde(with = "MaybeText::<Ratio>", skip_serializing_if = "Option::is_none")]
    pub scale: Option<Ratio>,
    /// That bolt.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub first: Option<String>,
    /// Unbalanced force and moment over the pull and its moment about one size of the plate.
    pub residual: f64,
    /// Newton steps taken.
    pub iterations: usize,
}

/// What one bolt of a group carries.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BoltForces {
    /// Name.
    pub name: String,
    /// Tension.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Shear.
    #[serde(with = "Text::<Force>")]
    pub shear: Force,
    /// Force across the axis as a vector.
    #[serde(with = "Triple::<Force>")]
    pub shear_force: [Force; 3],
    /// Force with which the plate presses on the rock at the bolt's place.
    #[serde(with = "Text::<Force>")]
    pub pressed: Force,
    /// How far that uses it up, where limits are given.
    #[serde(rename = "use", skip_serializing_if = "Option::is_none")]
    pub used: Option<BoltUse>,
}

/// How bolts under a rigid plate share a pull that may pass beside them, Eqs. (F7) to (F10): shear and
/// torsion, tension and bending.
///
/// Exact for linear bolts and bearing points. Bolts take no compression; where the plate bears is
/// said in the result.
///
/// # Errors
/// [`AnchorError::Invalid`], [`AnchorError::NoPull`], [`AnchorError::NotHeld`] if nothing holds the
/// plate, such as one bolt under a pull beside it; [`AnchorError::NotConverged`],
/// [`AnchorError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::anchor::{BoltGroup, PlateBolt, bolt_group};
/// use tautwork::quantity::{ReadForce, Words};
///
/// let bolt = |name: &str, x: f64| PlateBolt {
///     name: name.to_owned(),
///     position: [x.meters(), 0.0.meters(), 0.0.meters()],
///     axial_stiffness: 50.0.kilonewtons_per_meter(),
///     shear_stiffness: 50.0.kilonewtons_per_meter(),
///     limits: None,
/// };
/// // Two bolts 2 m apart, 1 kN outward half a metre from the middle: 750 N and 250 N.
/// let mut group = BoltGroup {
///     bolts: vec![bolt("near", 1.0), bolt("far", -1.0)],
///     normal: [0.0, 0.0, 1.0],
///     bearing: vec![],
///     pull: [0.0.newtons(), 0.0.newtons(), 1000.0.newtons()],
///     pull_at: [0.5.meters(), 0.0.meters(), 0.0.meters()],
/// };
/// let held = bolt_group(&group)?;
/// assert!((held.bolts[0].tension.in_newtons() - 750.0).abs() < 1e-6);
/// assert!((held.bolts[1].tension.in_newtons() - 250.0).abs() < 1e-6);
/// // Nothing keeps two bolts from turning about the line through them.
/// group.pull_at[1] = 0.5.meters();
/// assert!(bolt_group(&group).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
///
/// # Source
/// Elastic method for eccentric groups of bolts: Shigley, *Mechanical Engineering Design*, 8-12 (from
/// memory), with one-sided contact.
pub fn bolt_group(group: &BoltGroup) -> Result<BoltGroupForces, AnchorError> {
    let normal = direction("normal", group.normal)?;
    let pull_n = vector("pull", group.pull)?;
    let at = vector("pull_at", group.pull_at)?;
    let spots = group.spots()?;
    if pull_n == Vector3::zeros() {
        return Err(AnchorError::NoPull);
    }
    let held = hold(normal, &spots, &pull_n, &at)?;
    let mut bolts = Vec::new();
    for (bolt, force_n) in group.bolts.iter().zip(&held.force_n) {
        bolts.push(bolt.forces(&normal, force_n)?);
    }
    let points = &held.force_n[group.bolts.len()..];
    let worst = bolts
        .iter()
        .filter_map(|b| b.used.as_ref()?.scale.map(|scale| (scale, b.name.clone())))
        .min_by(|(a, _), (b, _)| a.si().total_cmp(&b.si()));
    let (scale, first) = worst.unzip();
    let bears = |f: &Vector3<f64>| AnchorError::finite("bearing", 0.0 - f.dot(&normal));
    Ok(BoltGroupForces {
        bolts,
        bearing: points.iter().map(bears).collect::<Result<_, _>>()?,
        pressed: group.rule(),
        scale,
        first,
        residual: held.residual,
        iterations: held.iterations,
    })
}

impl BoltGroup {
    fn rule(&self) -> PressedRule {
        if self.bearing.is_empty() { PressedRule::AtBolts } else { PressedRule::AtPoints }
    }

    /// Bolts, then bearing points.
    fn spots(&self) -> Result<Vec<Spot>, AnchorError> {
        count("bolts", self.bolts.len(), 1, MOST)?;
        count("bearing", self.bearing.len(), 0, MOST)?;
        let mut spots = Vec::new();
        for (i, bolt) in self.bolts.iter().enumerate() {
            if self.bolts[..i].iter().any(|other| other.name == bolt.name) {
                let allowed = "different for each bolt";
                return Err(Invalid::new(format!("bolts[{i}].name"), &bolt.name, allowed).into());
            }
            let named = |e: Invalid| e.within(&format!("bolts[{i}]"));
            let axial = positive("axial_stiffness", bolt.axial_stiffness).map_err(named)?;
            spots.push(Spot {
                at: vector("position", bolt.position).map_err(named)?,
                lift: axial,
                press: if self.rule() == PressedRule::AtBolts { axial } else { 0.0 },
                across: non_negative("shear_stiffness", bolt.shear_stiffness).map_err(named)?,
            });
        }
        for (i, point) in self.bearing.iter().enumerate() {
            let named = |e: Invalid| e.within(&format!("bearing[{i}]"));
            spots.push(Spot {
                at: vector("position", point.position).map_err(named)?,
                lift: 0.0,
                press: positive("stiffness", point.stiffness).map_err(named)?,
                across: 0.0,
            });
        }
        Ok(spots)
    }
}

impl PlateBolt {
    fn forces(&self, n: &Vector3<f64>, force_n: &Vector3<f64>) -> Result<BoltForces, AnchorError> {
        let along = force_n.dot(n);
        let across = force_n - n * along;
        let triple = |v: &Vector3<f64>| [v.x, v.y, v.z].map(Force::from_si);
        let limits = self.limits.as_ref();
        let used = limits.map(|l| bolt_use(l, (*n).into(), triple(force_n))).transpose()?;
        Ok(BoltForces {
            name: self.name.clone(),
            tension: AnchorError::finite("tension", 0.0 + along.max(0.0))?,
            shear: AnchorError::finite("shear", length(&across))?,
            shear_force: triple(&across),
            pressed: AnchorError::finite("pressed", 0.0 + (-along).max(0.0))?,
            used,
        })
    }
}
