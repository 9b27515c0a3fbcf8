//! Calls of `line`, one file for each topic.

pub(crate) mod building;
pub(crate) mod chain;
pub(crate) mod derivatives;
pub(crate) mod recoil;
pub(crate) mod rings;
pub(crate) mod rules;
pub(crate) mod solve;
pub(crate) mod tables;
pub(crate) mod tensioning;
pub(crate) mod vibration;
pub(crate) mod walk;

use tautwork::line::LineError;

use crate::{Failure, Kind};

impl From<LineError> for Failure {
    fn from(error: LineError) -> Self {
        let shown = |length_m: f64| format!("{length_m} m");
        match error {
            LineError::Invalid(invalid) => invalid.into(),
            LineError::Material(material) => material.into(),
            LineError::TooShort { rest_length_m, chord_m } => Self::invalid(
                "rest_length",
                &shown(rest_length_m),
                &format!("longer than the chord, {}", shown(chord_m)),
            ),
            LineError::NotConverged { residual, unit, iterations } => {
                Self::new(Kind::NoConvergence, &error)
                    .with("residual", &residual)
                    .with("unit", &unit)
                    .with("iterations", &iterations)
            }
            LineError::At { index, source } => {
                let inner = Self::from(*source);
                let message = format!("at index {index}: {}", inner.message);
                Self { message, ..inner }.with("index", &index)
            }
            other => Self::model(&other),
        }
    }
}
