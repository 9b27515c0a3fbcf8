//! The `Quantity` class.

use std::collections::hash_map::DefaultHasher;
use std::hash::{Hash, Hasher};

use pyo3::basic::CompareOp;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use tautwork_calls::{Amount, Failure};

use crate::error;

/// A number with its unit: `Quantity("22 kN")` or `Quantity(22, "kN")`.
#[pyclass(frozen, module = "tautwork", name = "Quantity")]
#[derive(Debug)]
pub(crate) struct Quantity(Amount);

impl From<Amount> for Quantity {
    fn from(amount: Amount) -> Self {
        Self(amount)
    }
}

impl Quantity {
    pub(crate) fn amount(&self) -> &Amount {
        &self.0
    }
}

#[pymethods]
impl Quantity {
    /// Reads a text such as "22 kN", a quantity of another package, or a number and its unit.
    #[new]
    #[pyo3(signature = (value, unit = None))]
    fn new(value: &Bound<'_, PyAny>, unit: Option<&str>) -> PyResult<Self> {
        let py = value.py();
        let amount = match unit {
            Some(unit) => Amount::new(value.extract()?, unit),
            None => Amount::read(&text(value)?),
        };
        amount.map(Self).map_err(|wrong| error::raise(py, &Failure::from(wrong)))
    }

    /// The number, in its own unit.
    #[getter]
    fn value(&self) -> f64 {
        self.0.value()
    }

    /// The symbol of the unit; "1" for a plain ratio.
    #[getter]
    fn unit(&self) -> &'static str {
        self.0.unit()
    }

    /// The kind of quantity, such as "force".
    #[getter]
    fn kind(&self) -> &'static str {
        self.0.kind()
    }

    /// The number in another unit of the same kind.
    fn to(&self, py: Python<'_>, unit: &str) -> PyResult<f64> {
        self.0.to(unit).map_err(|failure| error::raise(py, &failure))
    }

    /// Text in a unit with a number of decimals, for people to read.
    #[pyo3(signature = (unit, decimals = 2))]
    fn show(&self, py: Python<'_>, unit: &str, decimals: usize) -> PyResult<String> {
        self.0.show(unit, decimals).map_err(|failure| error::raise(py, &failure))
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("Quantity(\"{}\")", self.0)
    }

    fn __hash__(&self) -> u64 {
        let mut hasher = DefaultHasher::new();
        (self.0.kind(), self.0.si().to_bits()).hash(&mut hasher);
        hasher.finish()
    }

    fn __richcmp__(&self, other: &Self, op: CompareOp) -> PyResult<bool> {
        match (op, self.0.partial_cmp(&other.0)) {
            (CompareOp::Eq, order) => Ok(order.is_some_and(|order| op.matches(order))),
            (CompareOp::Ne, order) => Ok(order.is_none_or(|order| op.matches(order))),
            (_, Some(order)) => Ok(op.matches(order)),
            (_, None) => Err(PyTypeError::new_err(format!(
                "a {} and a {} have no order",
                self.0.kind(),
                other.0.kind()
            ))),
        }
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> (Bound<'py, PyAny>, (f64, &'static str)) {
        let amount = slf.get().0;
        (slf.get_type().into_any(), (amount.value(), amount.unit()))
    }
}

fn text(value: &Bound<'_, PyAny>) -> PyResult<String> {
    if let Ok(quantity) = value.cast::<Quantity>() {
        return Ok(quantity.get().0.to_string());
    }
    match foreign(value)? {
        Some(text) => Ok(text),
        None => value.extract(),
    }
}

/// The text of a quantity of another package: one with `magnitude` and `units`, as pint's have.
pub(crate) fn foreign(object: &Bound<'_, PyAny>) -> PyResult<Option<String>> {
    let (Ok(magnitude), Ok(units)) = (object.getattr("magnitude"), object.getattr("units")) else {
        return Ok(None);
    };
    let magnitude: f64 = magnitude.extract()?;
    let units = units.call_method1("__format__", ("~",))?.extract::<String>()?;
    Ok(Some(format!("{magnitude} {units}")))
}
