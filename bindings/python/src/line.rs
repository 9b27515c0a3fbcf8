//! Batch calls of `line`: arrays in, arrays out, with the interpreter lock released.

use numpy::{PyArray1, PyReadonlyArray1};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tautwork::line::{ElasticBatch, solve_elastic_batch as solve};
use tautwork_calls::Failure;

use crate::error;

/// Many linear lines at once; see `tautwork.line.solve_elastic_batch`.
#[pyfunction]
#[expect(clippy::needless_pass_by_value, reason = "arguments come by value from Python")]
pub(crate) fn solve_elastic_batch<'py>(
    py: Python<'py>,
    span_m: PyReadonlyArray1<'py, f64>,
    rise_m: PyReadonlyArray1<'py, f64>,
    rest_length_m: PyReadonlyArray1<'py, f64>,
    weight_n_per_m: PyReadonlyArray1<'py, f64>,
    axial_rigidity_n: PyReadonlyArray1<'py, f64>,
) -> PyResult<Bound<'py, PyAny>> {
    let batch = ElasticBatch {
        span_m: span_m.as_slice()?,
        rise_m: rise_m.as_slice()?,
        rest_length_m: rest_length_m.as_slice()?,
        weight_n_per_m: weight_n_per_m.as_slice()?,
        axial_rigidity_n: axial_rigidity_n.as_slice()?,
    };
    let solved =
        py.detach(|| solve(&batch)).map_err(|wrong| error::raise(py, &Failure::from(wrong)))?;
    let fields = PyDict::new(py);
    for (name, column) in [
        ("h_n", solved.h_n),
        ("v_near_n", solved.v_near_n),
        ("tension_near_n", solved.tension_near_n),
        ("tension_far_n", solved.tension_far_n),
        ("stretched_length_m", solved.stretched_length_m),
        ("sag_below_chord_m", solved.sag_below_chord_m),
        ("residual_m", solved.residual_m),
    ] {
        fields.set_item(name, PyArray1::from_vec(py, column))?;
    }
    py.import("tautwork.result")?.getattr("Result")?.call1((fields,))
}
