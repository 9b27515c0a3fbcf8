//! JavaScript values to JSON.

use js_sys::{Array, Float64Array, Object, Uint8Array};
use serde_json::{Number, Value as Json};
use tautwork_calls::{Failure, bytes_text};
use wasm_bindgen::{JsCast, JsValue};

/// Deeper arguments are refused: no input of the library comes near.
const DEEPEST: usize = 64;
/// Whole numbers up to here are exact in a double.
const EXACT: f64 = 9_007_199_254_740_992.0;

/// Reads an argument: numbers, texts, arrays, Float64Arrays, bytes as Uint8Arrays and plain objects.
pub(crate) fn json(value: &JsValue) -> Result<Json, Failure> {
    read(value, 0)
}

fn read(value: &JsValue, depth: usize) -> Result<Json, Failure> {
    if depth > DEEPEST {
        return Err(Failure::invalid("arguments", "an object in an object ...", "less deep"));
    }
    if value.is_null() || value.is_undefined() {
        Ok(Json::Null)
    } else if let Some(flag) = value.as_bool() {
        Ok(Json::Bool(flag))
    } else if let Some(double) = value.as_f64() {
        Ok(number(double))
    } else if let Some(text) = value.as_string() {
        Ok(Json::String(text))
    } else if let Some(series) = value.dyn_ref::<Float64Array>() {
        Ok(series.to_vec().into_iter().map(number).collect())
    } else if let Some(bytes) = value.dyn_ref::<Uint8Array>() {
        Ok(Json::String(bytes_text(&bytes.to_vec())))
    } else if let Some(list) = value.dyn_ref::<Array>() {
        list.iter().map(|item| read(&item, depth + 1)).collect()
    } else if value.is_object() {
        let mut map = serde_json::Map::new();
        for entry in Object::entries(value.unchecked_ref()).iter() {
            let pair = Array::from(&entry);
            // An argument that is undefined is one that is not given.
            if !pair.get(1).is_undefined() {
                map.insert(
                    pair.get(0).as_string().unwrap_or_default(),
                    read(&pair.get(1), depth + 1)?,
                );
            }
        }
        Ok(Json::Object(map))
    } else {
        let kind = value.js_typeof().as_string().unwrap_or_default();
        Err(Failure::invalid(
            "arguments",
            &format!("a {kind}"),
            "numbers, texts, arrays and objects",
        ))
    }
}

/// JSON has no NaN and no infinity: those go on as text, which every reader of the core refuses.
/// JavaScript does not tell 3 from 3.0, so a whole number is written as an integer.
fn number(double: f64) -> Json {
    if double.fract() == 0.0 && double.abs() < EXACT {
        #[expect(clippy::cast_possible_truncation, reason = "whole and in range")]
        return Json::from(double as i64);
    }
    Number::from_f64(double).map_or_else(|| Json::String(double.to_string()), Json::Number)
}
