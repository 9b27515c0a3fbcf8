//! WebAssembly binding: `call` runs any line of the shared table of calls.
//!
//! The JavaScript beside it groups the calls by model and turns failures into error classes.

mod input;
mod output;

use js_sys::{Array, Function, Object};
use tautwork_calls::{Amount, Failure};
use wasm_bindgen::prelude::*;

/// Runs the call `model.function` on an object of arguments.
///
/// # Errors
/// An object with the kind, the message and the facts of the failure.
#[wasm_bindgen]
pub fn call(name: &str, arguments: &JsValue) -> Result<JsValue, JsValue> {
    let answer = input::json(arguments).and_then(|given| tautwork_calls::run(name, given));
    answer.map(|value| output::js(&value)).map_err(|failure| output::failure(&failure))
}

/// The loss table of a document. `progress` is called with the number of cases done, of all cases, and the
/// component; `false` stops the table, and what it throws is thrown.
///
/// # Errors
/// As [`call`].
#[wasm_bindgen]
#[expect(clippy::needless_pass_by_value, reason = "arguments come by value from JavaScript")]
pub fn loss_table(text: &str, pairs: bool, progress: Option<Function>) -> Result<JsValue, JsValue> {
    let mut thrown = None;
    let answer = tautwork_calls::loss_table(text, pairs, &mut |case| {
        let Some(progress) = &progress else { return true };
        let [done, total] = [case.done, case.total].map(|n| JsValue::from(n as f64));
        match progress.call3(&JsValue::NULL, &done, &total, &case.component.into()) {
            Ok(said) => said != JsValue::FALSE,
            Err(error) => {
                thrown = Some(error);
                false
            }
        }
    });
    if let Some(error) = thrown {
        return Err(error);
    }
    answer.map(|value| output::js(&value)).map_err(|failure| output::failure(&failure))
}

/// Every call with the names of its arguments; `null` if it takes one struct.
#[wasm_bindgen]
pub fn calls() -> Object {
    let table = Object::new();
    for call in tautwork_calls::all() {
        let names = call.arguments.map_or(JsValue::NULL, |names| {
            names.iter().copied().map(JsValue::from_str).collect::<Array>().into()
        });
        output::set(&table, call.name, &names);
    }
    table
}

/// The number of a quantity in another unit of its kind.
///
/// # Errors
/// As [`call`].
#[wasm_bindgen]
pub fn convert(quantity: &JsValue, unit: &str) -> Result<f64, JsValue> {
    amount(quantity).and_then(|q| q.to(unit)).map_err(|failure| output::failure(&failure))
}

/// The text of a quantity: exact as it stands, or in a unit with a number of decimals.
///
/// # Errors
/// As [`call`].
#[wasm_bindgen]
pub fn format(
    quantity: &JsValue,
    unit: Option<String>,
    decimals: Option<u32>,
) -> Result<String, JsValue> {
    let text = amount(quantity).and_then(|q| match unit {
        Some(unit) => q.show(&unit, decimals.unwrap_or(2) as usize),
        None => Ok(q.to_string()),
    });
    text.map_err(|failure| output::failure(&failure))
}

/// A quantity of any kind, as text or as `{ value, unit }`.
fn amount(quantity: &JsValue) -> Result<Amount, Failure> {
    let given = input::json(quantity)?;
    let parts = (given["value"].as_f64(), given["unit"].as_str());
    match (given.as_str(), given.as_f64(), parts) {
        (Some(text), ..) => Ok(Amount::read(text)?),
        (_, Some(ratio), _) => Ok(Amount::new(ratio, "1")?),
        (_, _, (Some(value), Some(unit))) => Ok(Amount::new(value, unit)?),
        _ => Err(Failure::invalid(
            "quantity",
            &given.to_string(),
            "text such as \"22 kN\", or { value, unit }",
        )),
    }
}
