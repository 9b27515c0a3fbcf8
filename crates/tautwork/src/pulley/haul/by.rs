//! What a haul is pulled with.

use core::fmt;

use serde::de::{MapAccess, Visitor, value::MapAccessDeserializer, value::StrDeserializer};
use serde::{Deserialize, Deserializer, Serialize};

use super::super::{Friction, Ordinary, PulleyError, System, ordinary, ordinary_systems};
use crate::quantity::Invalid;

/// What hauls: an ordinary system, written as its name, or one of the rigger's own.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum HaulWith {
    /// An ordinary system, whose sheaves all lose what the haul's `friction` says.
    Ordinary(Ordinary),
    /// A system of bodies and ropes, whose sheaves say themselves what they lose.
    Own(OwnSystem),
}

/// A system of the rigger's own under a name.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnSystem {
    /// Name under which its figures are given.
    pub name: String,
    /// Its bodies and ropes.
    pub system: System,
}

impl From<Ordinary> for HaulWith {
    fn from(system: Ordinary) -> Self {
        Self::Ordinary(system)
    }
}

impl HaulWith {
    /// The name of an ordinary system in words such as `three_to_one`, or that of an own one.
    ///
    /// # Example
    /// ```
    /// use tautwork::pulley::{HaulWith, Ordinary};
    /// assert_eq!(HaulWith::from(Ordinary::ThreeToOne).name(), "three_to_one");
    /// ```
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Ordinary(system) => system.name(),
            Self::Own(own) => &own.name,
        }
    }

    /// What an ordinary system is; none for one of one's own.
    #[must_use]
    pub fn about(&self) -> Option<String> {
        let Self::Ordinary(system) = self else { return None };
        ordinary_systems().into_iter().find(|about| about.system == *system).map(|a| a.about)
    }

    /// Bodies and ropes.
    pub(super) fn system(&self, friction: Option<Friction>) -> Result<System, PulleyError> {
        match (self, friction) {
            (Self::Ordinary(system), Some(friction)) => Ok(ordinary(*system, friction)),
            (Self::Own(own), None) => Ok(own.system.clone()),
            (Self::Ordinary(_), None) => {
                Err(Invalid::new("friction", "missing", "given for an ordinary system").into())
            }
            (Self::Own(_), Some(_)) => Err(Invalid::new(
                "friction",
                "given",
                "left out for a system of one's own, whose sheaves each have their own",
            )
            .into()),
        }
    }
}

impl<'de> Deserialize<'de> for HaulWith {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either;
        impl<'de> Visitor<'de> for Either {
            type Value = HaulWith;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("the name of an ordinary system, or a name with bodies and ropes")
            }

            fn visit_str<E: serde::de::Error>(self, name: &str) -> Result<HaulWith, E> {
                Ordinary::deserialize(StrDeserializer::new(name)).map(HaulWith::Ordinary)
            }

            fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<HaulWith, A::Error> {
                OwnSystem::deserialize(MapAccessDeserializer::new(map)).map(HaulWith::Own)
            }
        }
        deserializer.deserialize_any(Either)
    }
}
