//! Python arguments to JSON.

use numpy::PyReadonlyArray1;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyBool, PyBytes, PyDict, PyFloat, PyInt, PyString};
use serde_json::{Map, Number, Value as Json};
use tautwork_calls::bytes_text;

use crate::quantity::{self, Quantity};

/// Deeper arguments are refused: no input of the library comes near.
const DEEPEST: usize = 64;

/// Reads an argument: numbers, texts, bytes, quantities of this package or of one like pint, mappings,
/// results of other calls, lists and arrays.
pub(crate) fn json(object: &Bound<'_, PyAny>) -> PyResult<Json> {
    read(object, 0)
}

fn read(object: &Bound<'_, PyAny>, depth: usize) -> PyResult<Json> {
    if depth > DEEPEST {
        return Err(PyTypeError::new_err("the argument is nested too deeply"));
    }
    if object.is_none() {
        return Ok(Json::Null);
    }
    if let Ok(flag) = object.cast::<PyBool>() {
        return Ok(Json::Bool(flag.is_true()));
    }
    if let Ok(text) = object.cast::<PyString>() {
        return Ok(Json::String(text.to_str()?.to_owned()));
    }
    if let Ok(bytes) = object.cast::<PyBytes>() {
        return Ok(Json::String(bytes_text(bytes.as_bytes())));
    }
    if object.is_instance_of::<PyInt>()
        && let Ok(integer) = object.extract::<i64>()
    {
        return Ok(integer.into());
    }
    if object.is_instance_of::<PyFloat>() || object.is_instance_of::<PyInt>() {
        return Ok(number(object.extract()?));
    }
    if let Ok(quantity) = object.cast::<Quantity>() {
        return Ok(Json::String(quantity.get().amount().to_string()));
    }
    if let Ok(array) = object.extract::<PyReadonlyArray1<'_, f64>>() {
        return Ok(array.as_array().iter().copied().map(number).collect());
    }
    if let Some(text) = quantity::foreign(object)? {
        return Ok(Json::String(text));
    }
    // Results of this package, and anything else that lists its fields.
    if let Ok(fields) = object.getattr("_fields")
        && let Ok(fields) = fields.cast::<PyDict>()
    {
        return mapping(fields, depth);
    }
    if let Ok(fields) = object.cast::<PyDict>() {
        return mapping(fields, depth);
    }
    // Arrays and scalars of NumPy and its kin.
    if let Ok(plain) = object.call_method0("tolist") {
        return read(&plain, depth + 1);
    }
    if object.hasattr("keys")? && object.hasattr("__getitem__")? {
        let fields = object.py().get_type::<PyDict>().call1((object,))?;
        return mapping(fields.cast::<PyDict>()?, depth);
    }
    if let Ok(items) = object.try_iter() {
        return items.map(|item| read(&item?, depth + 1)).collect();
    }
    let kind = object.get_type().name()?;
    Err(PyTypeError::new_err(format!("a {kind} cannot be an argument")))
}

fn mapping(fields: &Bound<'_, PyDict>, depth: usize) -> PyResult<Json> {
    let entry = |(key, value): (Bound<'_, PyAny>, Bound<'_, PyAny>)| {
        Ok((key.extract::<String>()?, read(&value, depth + 1)?))
    };
    fields.iter().map(entry).collect::<PyResult<Map<_, _>>>().map(Json::Object)
}

/// JSON has no NaN and no infinity: those go on as text, which every reader of the core refuses.
fn number(value: f64) -> Json {
    Number::from_f64(value).map_or_else(|| Json::String(value.to_string()), Json::Number)
}
