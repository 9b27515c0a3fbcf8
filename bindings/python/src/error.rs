//! Failures as Python exceptions: the class of that name in `tautwork.errors`.

use pyo3::prelude::*;
use pyo3::types::PyDict;
use tautwork_calls::Failure;

use crate::output;

/// The exception of a failure, with its facts as attributes.
pub(crate) fn raise(py: Python<'_>, failure: &Failure) -> PyErr {
    exception(py, failure).unwrap_or_else(|error| error)
}

fn exception(py: Python<'_>, failure: &Failure) -> PyResult<PyErr> {
    let class = py.import("tautwork.errors")?.getattr(failure.kind.name())?;
    let facts = PyDict::new(py);
    for (name, fact) in &failure.fields {
        facts.set_item(*name, output::object(py, fact)?)?;
    }
    Ok(PyErr::from_value(class.call((&failure.message,), Some(&facts))?))
}
