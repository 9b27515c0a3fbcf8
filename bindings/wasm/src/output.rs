//! Answers and failures to JavaScript values.

use js_sys::{Array, Object, Reflect};
use tautwork_calls::{Failure, Value};
use wasm_bindgen::JsValue;

/// A tree of plain objects, arrays, numbers and texts; a quantity is `{ value, unit }`.
pub(crate) fn js(value: &Value) -> JsValue {
    match value {
        Value::Bool(flag) => (*flag).into(),
        Value::Integer(integer) => (i128::from(*integer) as f64).into(),
        Value::Float(number) => (*number).into(),
        Value::Text(text) => text.into(),
        Value::Array(items) => items.iter().map(js).collect::<Array>().into(),
        Value::Map(entries) => {
            let object = Object::new();
            for (key, value) in entries {
                set(&object, key.as_text().unwrap_or_default(), &js(value));
            }
            object.into()
        }
        _ => JsValue::NULL,
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
