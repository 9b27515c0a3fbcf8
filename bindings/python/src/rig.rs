//! Calls of `rig` that a Python function listens to.

use pyo3::prelude::*;
use tautwork_calls::loss_table as table;

use crate::{error, output};

/// The loss table of a document; see `tautwork.rig.loss_table`. The interpreter lock is held only while
/// `progress` runs.
#[pyfunction]
#[pyo3(signature = (text, pairs, progress=None))]
#[expect(clippy::needless_pass_by_value, reason = "arguments come by value from Python")]
pub(crate) fn loss_table(
    py: Python<'_>,
    text: String,
    pairs: bool,
    progress: Option<Py<PyAny>>,
) -> PyResult<Bound<'_, PyAny>> {
    let mut raised: Option<PyErr> = None;
    let answer = py.detach(|| {
        table(&text, pairs, &mut |case| {
            let on = Python::attach(|py| {
                // Ctrl-C stops a long table.
                py.check_signals()?;
                let Some(progress) = &progress else { return Ok(true) };
                let said = progress.call1(py, (case.done, case.total, case.component))?;
                Ok(!said.is(pyo3::types::PyBool::new(py, false)))
            });
            on.unwrap_or_else(|error| {
                raised = Some(error);
                false
            })
        })
    });
    if let Some(error) = raised {
        return Err(error);
    }
    output::object(py, &answer.map_err(|failure| error::raise(py, &failure))?)
}
