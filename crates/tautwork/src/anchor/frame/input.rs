//! A raised frame as it is given.

use serde::{Deserialize, Serialize};

use super::hobble::Hobble;
use super::pole::Pole;
use crate::quantity::{
    AxialRigidity, Force, Length, Mass, MaybeText, Quantity, Ratio, Text, Triple,
};

/// Legs and guys from the ground to one head, and what pulls on the head.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Frame {
    /// Position of the head.
    #[serde(with = "Triple::<Length>")]
    pub head: [Length; 3],
    /// Legs, compression only: one for a gin pole, two for a bipod, three for a tripod.
    pub legs: Vec<FrameLeg>,
    /// Guys, tension only.
    #[serde(default)]
    pub guys: Vec<FrameGuy>,
    /// Ropes that end at the head.
    #[serde(default)]
    pub ropes: Vec<HeadRope>,
    /// Ropes that turn in a pulley at the head.
    #[serde(default)]
    pub pulleys: Vec<HeadPulley>,
    /// Any further force on the head.
    #[serde(with = "Triple::<Force>", default = "no_force")]
    pub force: [Force; 3],
    /// A rope that ties the feet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hobble: Option<Hobble>,
}

/// One leg.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrameLeg {
    /// Name.
    pub name: String,
    /// Position of its foot.
    #[serde(with = "Triple::<Length>")]
    pub foot: [Length; 3],
    /// Axial rigidity. It decides only how members share that statics alone leaves open.
    #[serde(with = "Text::<AxialRigidity>")]
    pub axial_rigidity: AxialRigidity,
    /// Mass; without weight if left out.
    #[serde(with = "MaybeText::<Mass>", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// What it is made of, for its factor against buckling.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pole: Option<Pole>,
    /// A direction out of the ground under the foot, of any length; straight up if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ground_normal: Option<[f64; 3]>,
}

impl FrameLeg {
    /// A leg without weight on level ground.
    pub fn new(name: impl Into<String>, foot: [Length; 3], axial_rigidity: AxialRigidity) -> Self {
        let name = name.into();
        Self { name, foot, axial_rigidity, mass: None, pole: None, ground_normal: None }
    }
}

/// One guy.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrameGuy {
    /// Name.
    pub name: String,
    /// Position of its anchor.
    #[serde(with = "Triple::<Length>")]
    pub foot: [Length; 3],
    /// Axial rigidity. It decides only how members share that statics alone leaves open.
    #[serde(with = "Text::<AxialRigidity>")]
    pub axial_rigidity: AxialRigidity,
    /// Tension while the head is held at its given position; none if left out.
    #[serde(with = "MaybeText::<Force>", default, skip_serializing_if = "Option::is_none")]
    pub pretension: Option<Force>,
    /// Strength at its weakest place, knots and anchor included.
    #[serde(with = "MaybeText::<Force>", default, skip_serializing_if = "Option::is_none")]
    pub strength: Option<Force>,
}

impl FrameGuy {
    /// A guy without pretension.
    pub fn new(name: impl Into<String>, foot: [Length; 3], axial_rigidity: AxialRigidity) -> Self {
        let name = name.into();
        Self { name, foot, axial_rigidity, pretension: None, strength: None }
    }
}

/// A rope that pulls on the head.
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

/// A rope that turns in a pulley at the head: both parts pull on it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HeadPulley {
    /// Name of the rope.
    pub name: String,
    /// A point that the part with the load leads to.
    #[serde(with = "Triple::<Length>")]
    pub load: [Length; 3],
    /// A point that the other part leads to: hands, a winch, the next pulley.
    #[serde(with = "Triple::<Length>")]
    pub haul: [Length; 3],
    /// Tension of the part with the load.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Tension of the other part over it: 1 without friction, one over the efficiency while raising, the
    /// efficiency while lowering; 1 if left out.
    #[serde(with = "Text::<Ratio>", default = "one")]
    pub behind: Ratio,
}

impl Frame {
    /// Names of legs, then of guys.
    pub(super) fn members(&self) -> impl Iterator<Item = &String> {
        self.legs.iter().map(|leg| &leg.name).chain(self.guys.iter().map(|guy| &guy.name))
    }
}

fn no_force() -> [Force; 3] {
    [Force::from_si(0.0); 3]
}

fn one() -> Ratio {
    Ratio::from_si(1.0)
}
