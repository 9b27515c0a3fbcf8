//! Reads named arguments and writes answers.

use ciborium::Value;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value as Json};
use tautwork::quantity::{Quantity, Text};

use crate::Failure;

/// Characters of a value that an error message shows.
const LONGEST_SHOWN: usize = 200;

/// The arguments of one call, read one by one.
#[derive(Debug)]
pub struct Args(Map<String, Json>);

impl Args {
    /// Takes the arguments; a name that the call does not have is an error.
    pub(crate) fn new(given: Json, names: Option<&[&str]>) -> Result<Self, Failure> {
        // A call without arguments may be made with nothing at all.
        let given = if given.is_null() { Json::Object(Map::new()) } else { given };
        let Json::Object(map) = given else {
            return Err(Failure::invalid(
                "arguments",
                &given.to_string(),
                "a mapping of named arguments",
            ));
        };
        if let Some(names) = names
            && let Some((key, value)) = map.iter().find(|(key, _)| !names.contains(&key.as_str()))
        {
            let allowed = format!("one of the arguments {}", names.join(", "));
            return Err(Failure::invalid(key, &shown(value), &allowed));
        }
        Ok(Self(map))
    }

    /// The quantity of this name.
    ///
    /// # Errors
    /// [`Failure`] names the argument at fault.
    pub fn quantity<Q: Quantity>(&mut self, name: &str) -> Result<Q, Failure> {
        let value = self.0.remove(name).ok_or_else(|| {
            Failure::invalid(name, "missing", &format!("a {} such as \"{}\"", Q::NAME, Q::EXAMPLE))
        })?;
        read::<Text<Q>>(&value, name).map(|text| text.0)
    }

    /// The quantity of this name, if it is given.
    ///
    /// # Errors
    /// As [`Args::quantity`].
    pub fn maybe<Q: Quantity>(&mut self, name: &str) -> Result<Option<Q>, Failure> {
        match self.0.get(name) {
            None | Some(Json::Null) => Ok(None),
            Some(_) => self.quantity(name).map(Some),
        }
    }

    /// The vector of quantities of this name.
    ///
    /// # Errors
    /// As [`Args::quantity`]; also for a wrong count.
    pub fn vector<Q: Quantity, const N: usize>(&mut self, name: &str) -> Result<[Q; N], Failure> {
        let list: Vec<Text<Q>> = self.plain(name)?;
        let count = list.len();
        <[Text<Q>; N]>::try_from(list).map(|vector| vector.map(|text| text.0)).map_err(|_| {
            Failure::invalid(name, &format!("a list of {count}"), &format!("a list of {N}"))
        })
    }

    /// Plain numbers, one or many.
    ///
    /// # Errors
    /// [`Failure`] names the argument at fault.
    pub fn series(&mut self, name: &str) -> Result<Vec<f64>, Failure> {
        self.plain::<Series>(name).map(Series::into_vec)
    }

    /// Any other argument; one that may be absent is an `Option`.
    ///
    /// # Errors
    /// [`Failure`] names the argument at fault.
    pub fn plain<T: DeserializeOwned>(&mut self, name: &str) -> Result<T, Failure> {
        match self.0.remove(name) {
            Some(value) => read(&value, name),
            None => {
                T::deserialize(Json::Null).map_err(|_| Failure::invalid(name, "missing", "given"))
            }
        }
    }

    /// The whole mapping as one input struct.
    ///
    /// # Errors
    /// [`Failure`] names the argument at fault.
    pub fn whole<T: DeserializeOwned>(&mut self) -> Result<T, Failure> {
        read(&Json::Object(std::mem::take(&mut self.0)), "")
    }
}

fn read<T: DeserializeOwned>(value: &Json, name: &str) -> Result<T, Failure> {
    serde_path_to_error::deserialize::<_, T>(value).map_err(|error| {
        let inner = error.path().to_string();
        let path = match (name, inner.as_str()) {
            ("", _) => inner.clone(),
            (_, ".") => name.to_owned(),
            (_, inner) if inner.starts_with('[') => format!("{name}{inner}"),
            (_, inner) => format!("{name}.{inner}"),
        };
        let given = error.path().iter().try_fold(value, step).map(shown);
        Failure::unreadable(&path, given, &error.into_inner().to_string())
    })
}

fn step<'a>(value: &'a Json, segment: &serde_path_to_error::Segment) -> Option<&'a Json> {
    use serde_path_to_error::Segment;
    match segment {
        Segment::Seq { index } => value.get(index),
        Segment::Map { key } => value.get(key),
        Segment::Enum { .. } | Segment::Unknown => Some(value),
    }
}

/// A value as an error message shows it: a text without its quotes, cut where it would be a whole file.
fn shown(value: &Json) -> String {
    let text = value.as_str().map_or_else(|| value.to_string(), str::to_owned);
    match text.char_indices().nth(LONGEST_SHOWN) {
        Some((end, _)) => format!("{} ...", &text[..end]),
        None => text,
    }
}

/// The answer of a call as a tree in which quantities are `{ value, unit }`.
pub(crate) fn answer<T: Serialize>(result: &T) -> Result<Value, Failure> {
    Value::serialized(result).map_err(|ciborium::value::Error::Custom(why)| Failure::model(&why))
}

#[cfg(test)]
mod tests {
    use serde::Deserialize;
    use serde_json::json;
    use tautwork::quantity::{Force, Length, Mass};

    use super::*;
    use crate::Kind;

    #[derive(Debug, Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Rope {
        #[serde(with = "Text::<Length>")]
        length: Length,
    }

    #[derive(Debug, Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Jump {
        ropes: Vec<Rope>,
    }

    fn args(given: Json) -> Args {
        Args::new(given, None).unwrap()
    }

    fn parameter(failure: &Failure) -> &str {
        let fact = failure.fields.iter().find(|(name, _)| *name == "parameter");
        fact.and_then(|(_, value)| value.as_text()).unwrap()
    }

    #[test]
    fn each_way_to_get_a_quantity_wrong_is_told_apart() {
        for wrong in [json!("22"), json!("22 m"), json!("22 bananas"), json!("NaN kN"), json!("x")]
        {
            let failure = args(json!({ "f": wrong })).quantity::<Force>("f").unwrap_err();
            assert_eq!((failure.kind, parameter(&failure)), (Kind::UnitError, "f"), "{failure:?}");
        }
        let bare = args(json!({ "m": 80 })).quantity::<Mass>("m").unwrap_err();
        assert_eq!(bare.kind, Kind::UnitError, "{bare:?}");
        for wrong in [json!(true), json!(null), json!([])] {
            let failure = args(json!({ "f": wrong })).quantity::<Force>("f").unwrap_err();
            assert_eq!(
                (failure.kind, parameter(&failure)),
                (Kind::InvalidInput, "f"),
                "{failure:?}"
            );
        }
        let no_unit = args(json!({ "f": { "value": 1 } })).quantity::<Force>("f").unwrap_err();
        assert_eq!(parameter(&no_unit), "f.unit");
        let missing = args(json!({})).quantity::<Force>("f").unwrap_err();
        assert_eq!(missing.message, "f is missing; it must be a force such as \"22 kN\"");
        let unknown = Args::new(json!({ "g": 1 }), Some(&["f"])).unwrap_err();
        assert_eq!(parameter(&unknown), "g");
    }

    #[test]
    fn the_path_leads_to_the_field_at_fault() {
        let good =
            json!({ "ropes": [{ "length": "72 m" }, { "length": { "value": 1, "unit": "ft" } }] });
        let jump = args(good).whole::<Jump>().unwrap();
        assert_eq!(jump.ropes[1].length.value, 0.3048);
        for (wrong, path) in [
            (json!({ "ropes": [{ "length": "72 kN" }] }), "ropes[0].length"),
            (json!({ "ropes": [{}] }), "ropes[0].length"),
            (json!({ "ropes": [{ "length": "1 m", "mass": "1 kg" }] }), "ropes[0].mass"),
            (json!({ "ropes": 3 }), "ropes"),
            (json!({}), "ropes"),
            (json!({ "ropes": [], "masses": 1 }), "masses"),
        ] {
            let failure = args(wrong.clone()).whole::<Jump>().unwrap_err();
            assert_eq!(parameter(&failure), path, "{failure:?}");
            let failure = args(json!({ "jump": wrong })).plain::<Jump>("jump").unwrap_err();
            assert_eq!(parameter(&failure), format!("jump.{path}"), "{failure:?}");
        }
    }

    #[test]
    fn a_vector_has_its_count() {
        let given = json!({ "load": ["0 N", "1 kN", { "value": -2, "unit": "kN" }] });
        let load: [Force; 3] = args(given.clone()).vector("load").unwrap();
        assert_eq!(load.map(|force| force.value), [0.0, 1000.0, -2000.0]);
        assert_eq!(parameter(&args(given).vector::<Force, 2>("load").unwrap_err()), "load");
        let wrong = args(json!({ "load": ["0 N", "1 m"] })).vector::<Force, 2>("load").unwrap_err();
        assert_eq!((wrong.kind, parameter(&wrong)), (Kind::UnitError, "load[1]"));
    }

    #[test]
    fn an_absent_argument_is_none_only_if_it_may_be() {
        assert_eq!(args(json!({})).plain::<Option<u32>>("legs").unwrap(), None);
        assert_eq!(args(json!({ "legs": 2 })).plain::<Option<u32>>("legs").unwrap(), Some(2));
        assert_eq!(parameter(&args(json!({})).plain::<u32>("legs").unwrap_err()), "legs");
        assert_eq!(args(json!({ "l": null })).maybe::<Length>("l").unwrap(), None);
        assert!(args(json!({ "l": "1 m" })).maybe::<Length>("l").unwrap().is_some());
        assert!(args(json!({ "l": "1 N" })).maybe::<Length>("l").is_err());
        assert_eq!(args(json!({ "x": [1, 2.5] })).plain::<Vec<f64>>("x").unwrap(), [1.0, 2.5]);
    }
}

/// One number, or many.
#[derive(serde::Deserialize)]
#[serde(untagged)]
enum Series {
    One(Number),
    Each(Vec<Number>),
}

/// A number; the bindings hand on as text what is none, and the core refuses it with its index.
#[derive(serde::Deserialize)]
#[serde(untagged)]
enum Number {
    Finite(f64),
    Other(Other),
}

#[derive(serde::Deserialize)]
enum Other {
    #[serde(rename = "NaN")]
    Nan,
    #[serde(rename = "inf")]
    Infinity,
    #[serde(rename = "-inf")]
    MinusInfinity,
}

impl Number {
    fn value(&self) -> f64 {
        match self {
            Self::Finite(value) => *value,
            Self::Other(Other::Nan) => f64::NAN,
            Self::Other(Other::Infinity) => f64::INFINITY,
            Self::Other(Other::MinusInfinity) => f64::NEG_INFINITY,
        }
    }
}

impl Series {
    fn into_vec(self) -> Vec<f64> {
        match self {
            Self::One(number) => vec![number.value()],
            Self::Each(numbers) => numbers.iter().map(Number::value).collect(),
        }
    }
}
