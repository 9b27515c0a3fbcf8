//! Answers to Python objects.

use numpy::PyArray1;
use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyList};
use tautwork_calls::{Amount, Value, is_series};

use crate::quantity::Quantity;

/// A quantity becomes a `Quantity`, a struct a `Result`, a list of plain floats a NumPy array.
///
/// Quantities in lists are `Quantity` objects, so a list of plain floats is always a series whose
/// name holds the unit, such as `tension_n`.
pub(crate) fn object<'py>(py: Python<'py>, value: &Value) -> PyResult<Bound<'py, PyAny>> {
    match value {
        Value::Null => Ok(py.None().into_bound(py)),
        Value::Bool(flag) => Ok(flag.into_pyobject(py)?.to_owned().into_any()),
        Value::Integer(integer) => Ok(i128::from(*integer).into_pyobject(py)?.into_any()),
        Value::Float(number) => Ok(number.into_pyobject(py)?.into_any()),
        Value::Text(text) => Ok(text.into_pyobject(py)?.into_any()),
        Value::Array(items) => array(py, items),
        Value::Map(entries) => map(py, entries),
        other => Err(PyValueError::new_err(format!("{other:?} has no form in Python"))),
    }
}

fn array<'py>(py: Python<'py>, items: &[Value]) -> PyResult<Bound<'py, PyAny>> {
    let floats: Option<Vec<f64>> = items.iter().map(Value::as_float).collect();
    match floats {
        Some(floats) if !floats.is_empty() => Ok(PyArray1::from_vec(py, floats).into_any()),
        _ => {
            let objects =
                items.iter().map(|item| object(py, item)).collect::<PyResult<Vec<_>>>()?;
            Ok(PyList::new(py, objects)?.into_any())
        }
    }
}

fn map<'py>(py: Python<'py>, entries: &[(Value, Value)]) -> PyResult<Bound<'py, PyAny>> {
    if let [(value, Value::Float(number)), (unit, Value::Text(symbol))] = entries
        && value.as_text() == Some("value")
        && unit.as_text() == Some("unit")
        && let Ok(amount) = Amount::new(*number, symbol)
    {
        return Ok(Bound::new(py, Quantity::from(amount))?.into_any());
    }
    let fields = PyDict::new(py);
    for (key, value) in entries {
        let key = key.as_text().ok_or_else(|| PyValueError::new_err("a key that is not text"))?;
        let value = match value {
            // A series stays an array when it is empty.
            Value::Array(items) if items.is_empty() && is_series(key) => {
                PyArray1::from_vec(py, Vec::<f64>::new()).into_any()
            }
            value => object(py, value)?,
        };
        fields.set_item(key, value)?;
    }
    py.import("tautwork.result")?.getattr("Result")?.call1((fields,))
}
