//! Quantities in serde: text with a unit in formats for people, a value and a unit elsewhere.

use std::fmt;
use std::marker::PhantomData;

use serde::de::{self, Deserializer, MapAccess, Unexpected, Visitor};
use serde::ser::{SerializeSeq, SerializeStruct, Serializer};
use serde::{Deserialize, Serialize};

use super::{Quantity, everyday, parse, print};

/// For `#[serde(with = "Text::<Force>")]`: the field is written as `"22 kN"`.
///
/// Formats that are not for people, such as those behind the bindings, get `{ value, unit }`.
/// Both forms are read; a bare number is an error except for a ratio.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Text<Q>(pub Q);

impl<Q: Quantity> Text<Q> {
    /// Writes one quantity.
    ///
    /// # Errors
    /// Those of the serializer.
    pub fn serialize<S: Serializer>(q: &Q, serializer: S) -> Result<S::Ok, S::Error> {
        if serializer.is_human_readable() {
            return serializer.serialize_str(&print(*q));
        }
        let (value, unit) = everyday(*q);
        let mut pair = serializer.serialize_struct("Quantity", 2)?;
        pair.serialize_field("value", &value)?;
        pair.serialize_field("unit", unit.symbol)?;
        pair.end()
    }

    /// Reads one quantity.
    ///
    /// # Errors
    /// A message of [`QuantityError`](super::QuantityError).
    pub fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Q, D::Error> {
        deserializer.deserialize_any(Reader(PhantomData))
    }
}

impl<Q: Quantity> Serialize for Text<Q> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Self::serialize(&self.0, serializer)
    }
}

impl<'de, Q: Quantity> Deserialize<'de> for Text<Q> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::deserialize(deserializer).map(Text)
    }
}

/// For `#[serde(with = "Texts::<Force>")]` on a `Vec`.
#[derive(Debug)]
pub struct Texts<Q>(PhantomData<Q>);

impl<Q: Quantity> Texts<Q> {
    /// Writes a list of quantities.
    ///
    /// # Errors
    /// Those of the serializer.
    pub fn serialize<S: Serializer>(list: &[Q], serializer: S) -> Result<S::Ok, S::Error> {
        let mut seq = serializer.serialize_seq(Some(list.len()))?;
        for q in list {
            seq.serialize_element(&Text(*q))?;
        }
        seq.end()
    }

    /// Reads a list of quantities.
    ///
    /// # Errors
    /// A message of [`QuantityError`](super::QuantityError).
    pub fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<Q>, D::Error> {
        Ok(Vec::<Text<Q>>::deserialize(deserializer)?.into_iter().map(|t| t.0).collect())
    }
}

/// For `#[serde(with = "MaybeText::<Force>", default)]` on an `Option`.
#[derive(Debug)]
pub struct MaybeText<Q>(PhantomData<Q>);

impl<Q: Quantity> MaybeText<Q> {
    /// Writes a quantity or nothing.
    ///
    /// # Errors
    /// Those of the serializer.
    pub fn serialize<S: Serializer>(q: &Option<Q>, serializer: S) -> Result<S::Ok, S::Error> {
        q.map(Text).serialize(serializer)
    }

    /// Reads a quantity or nothing.
    ///
    /// # Errors
    /// A message of [`QuantityError`](super::QuantityError).
    pub fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<Q>, D::Error> {
        Ok(Option::<Text<Q>>::deserialize(deserializer)?.map(|t| t.0))
    }
}

/// For `#[serde(with = "Triple::<Length>")]` on a vector `[Q; 3]`: x, y and z.
#[derive(Debug)]
pub struct Triple<Q>(PhantomData<Q>);

impl<Q: Quantity> Triple<Q> {
    /// Writes three components.
    ///
    /// # Errors
    /// Those of the serializer.
    pub fn serialize<S: Serializer>(xyz: &[Q; 3], serializer: S) -> Result<S::Ok, S::Error> {
        xyz.map(Text).serialize(serializer)
    }

    /// Reads three components.
    ///
    /// # Errors
    /// A message of [`QuantityError`](super::QuantityError), or a wrong count.
    pub fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<[Q; 3], D::Error> {
        Ok(<[Text<Q>; 3]>::deserialize(deserializer)?.map(|t| t.0))
    }
}

struct Reader<Q>(PhantomData<Q>);

impl<Q: Quantity> Reader<Q> {
    fn number<E: de::Error>(value: f64, unexpected: Unexpected<'_>) -> Result<Q, E> {
        if Q::UNITS[0].symbol != "1" || !value.is_finite() {
            let wanted = format!("a {} with its unit, such as \"{}\"", Q::NAME, Q::EXAMPLE);
            return Err(E::invalid_type(unexpected, &wanted.as_str()));
        }
        Ok(Q::from_si(value))
    }
}

impl<'de, Q: Quantity> Visitor<'de> for Reader<Q> {
    type Value = Q;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "a {} such as \"{}\"", Q::NAME, Q::EXAMPLE)
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Q, E> {
        parse(text).map_err(E::custom)
    }

    fn visit_f64<E: de::Error>(self, value: f64) -> Result<Q, E> {
        Self::number(value, Unexpected::Float(value))
    }

    fn visit_i64<E: de::Error>(self, value: i64) -> Result<Q, E> {
        Self::number(value as f64, Unexpected::Signed(value))
    }

    fn visit_u64<E: de::Error>(self, value: u64) -> Result<Q, E> {
        Self::number(value as f64, Unexpected::Unsigned(value))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Q, A::Error> {
        let (mut value, mut unit) = (None::<f64>, None::<String>);
        while let Some(key) = map.next_key::<String>()? {
            match key.as_str() {
                "value" => value = Some(map.next_value()?),
                "unit" => unit = Some(map.next_value()?),
                _ => return Err(de::Error::unknown_field(&key, &["value", "unit"])),
            }
        }
        let value = value.ok_or_else(|| de::Error::missing_field("value"))?;
        let unit = unit.ok_or_else(|| de::Error::missing_field("unit"))?;
        let unit = if unit == "1" { String::new() } else { unit };
        parse(&format!("{value} {unit}")).map_err(de::Error::custom)
    }
}
