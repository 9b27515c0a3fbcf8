//! Answers and failures to JavaScript values.

use js_sys::{Array, Float64Array, Object, Reflect};
use tautwork_calls::{Failure, Value, is_series};
use wasm_bindgen::JsValue;

/// A tree of plain objects, arrays, numbers and texts; a quantity is `{ value, unit }`, a list of plain
/// floats a `Float64Array`.
pub(crate) fn js(value: &Value) -> JsValue {
    match value {
        Value::Bool(flag) => (*flag).into(),
        Value::Integer(integer) => (i128::from(*integer) as f64).into(),
        Value::Float(number) => (*number).into(),
        Value::Text(text) => text.into(),
        Value::Array(items) => array(items),
        Value::Map(entries) => {
            let object = Object::new();
            for (key, value) in entries {
                let key = key.as_text().unwrap_or_default();
                let value = match value {
                    // A series stays a typed array when it is empty.
                    Value::Array(items) if items.is_empty() && is_series(key) => {
                        Float64Array::new_with_length(0).into()
                    }
                    value => js(value),
                };
                set(&object, key, &value);
            }
            object.into()
        }
        _ => JsValue::NULL,
    }
}

/// A list of plain floats is a series.
fn array(items: &[Value]) -> JsValue {
    let floats: Option<Vec<f64>> = items.iter().map(Value::as_float).collect();
    match floats {
        Some(floats) if !floats.is_empty() => Float64Array::from(floats.as_slice()).into(),
        _ => items.iter().map(js).collect::<Array>().into(),
    }
}

/// What the JavaScript side makes an error of.
pub(crate) fn failure(failure: &Failure) -> JsValue {
    let facts = Object::new();
    for (name, fact) in &failure.fields {
        set(&facts, name, &js(fact));
    }
    let object = Object::new();
    set(&object, "kind", &failure.kind.name().into());
    set(&object, "message", &failure.message.as_str().into());
    set(&object, "facts", &facts);
    object.into()
}

/// Sets a field of a plain object of our own, which cannot fail.
pub(crate) fn set(object: &Object, key: &str, value: &JsValue) {
    let _ = Reflect::set(object, &key.into(), value);
}
