//! Python binding: the native module `tautwork._native`.
//!
//! One function, `call`, runs any line of the shared table of calls; the Python modules beside it
//! give each call its signature. Conversions are in `input` and `output`, errors in `error`. Batch
//! calls that go past those, from array to array, are in the file of their model.

mod error;
mod input;
mod line;
mod output;
mod quantity;
mod rig;

use pyo3::prelude::*;
use pyo3::types::PyDict;

/// Runs the call `model.function` on a mapping of arguments, with the interpreter lock released.
#[pyfunction]
fn call<'py>(
    py: Python<'py>,
    name: &str,
    arguments: &Bound<'py, PyAny>,
) -> PyResult<Bound<'py, PyAny>> {
    let arguments = input::json(arguments)?;
    let answer = py.detach(|| tautwork_calls::run(name, arguments));
    output::object(py, &answer.map_err(|failure| error::raise(py, &failure))?)
}

/// Every call with the names of its arguments; `None` if it takes one mapping.
#[pyfunction]
fn calls(py: Python<'_>) -> PyResult<Bound<'_, PyDict>> {
    let table = PyDict::new(py);
    for call in tautwork_calls::all() {
        table.set_item(call.name, call.arguments)?;
    }
    Ok(table)
}

/// The native half of the package.
#[pymodule]
fn _native(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<quantity::Quantity>()?;
    module.add_function(wrap_pyfunction!(call, module)?)?;
    module.add_function(wrap_pyfunction!(line::solve_elastic_batch, module)?)?;
    module.add_function(wrap_pyfunction!(rig::loss_table, module)?)?;
    module.add_function(wrap_pyfunction!(calls, module)?)
}
