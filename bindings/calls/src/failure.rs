//! What a call says when it has no answer; each binding turns it into its own exception.

use std::fmt::Display;

use ciborium::Value;
use serde::Serialize;
use tautwork::quantity::{Invalid, QuantityError};

/// The kinds of failure; both languages have one exception class for each, of the same name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// An argument is missing, of the wrong type, or outside its range.
    InvalidInput,
    /// A quantity has no unit, an unknown unit, or one of another kind.
    UnitError,
    /// The model has no answer for these inputs.
    ModelError,
    /// A solver ran out of its budget.
    NoConvergence,
    /// A document holds mistakes.
    DocumentError,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Self; 5] = [
        Self::InvalidInput,
        Self::UnitError,
        Self::ModelError,
        Self::NoConvergence,
        Self::DocumentError,
    ];

    /// Name of the exception class.
    pub fn name(self) -> &'static str {
        match self {
            Self::InvalidInput => "InvalidInput",
            Self::UnitError => "UnitError",
            Self::ModelError => "ModelError",
            Self::NoConvergence => "NoConvergence",
            Self::DocumentError => "DocumentError",
        }
    }
}

/// A failure: its kind, a sentence, and the facts as fields of the exception.
#[derive(Debug, Clone, PartialEq)]
pub struct Failure {
    /// Kind, which is the class of the exception.
    pub kind: Kind,
    /// The sentence a person reads.
    pub message: String,
    /// Facts by name, such as `parameter` and `allowed`.
    pub fields: Vec<(&'static str, Value)>,
}

impl Failure {
    /// A failure of this kind with the message of an error.
    pub fn new(kind: Kind, error: &impl Display) -> Self {
        Self { kind, message: error.to_string(), fields: Vec::new() }
    }

    /// The model has no answer.
    pub fn model(error: &impl Display) -> Self {
        Self::new(Kind::ModelError, error)
    }

    /// An argument outside its range.
    pub fn invalid(parameter: &str, value: &str, allowed: &str) -> Self {
        Invalid {
            parameter: parameter.to_owned(),
            value: value.to_owned(),
            allowed: allowed.to_owned(),
        }
        .into()
    }

    /// Adds a fact.
    #[must_use]
    pub fn with(mut self, field: &'static str, fact: &impl Serialize) -> Self {
        self.fields.push((field, Value::serialized(fact).unwrap_or(Value::Null)));
        self
    }

    /// An argument that serde could not read: `path` leads to it, `given` is what stands there.
    pub(crate) fn unreadable(path: &str, given: Option<String>, why: &str) -> Self {
        // Serde carries the core's errors as text only. Those of units begin with the offending
        // text in quotes; a bare number is refused with the words "with its unit".
        let kind = if why.starts_with('"') || why.contains("with its unit") {
            Kind::UnitError
        } else {
            Kind::InvalidInput
        };
        // Serde stops at the struct that lacks a field or has one too many; the name is in the text.
        let name = why.strip_prefix("missing field `").or(why.strip_prefix("unknown field `"));
        let parameter = match (path, name.and_then(|rest| rest.split('`').next())) {
            ("." | "", Some(name)) => name.to_owned(),
            // On an unknown field some paths already end with its name.
            (path, Some(name)) if path.rsplit('.').next() != Some(name) => format!("{path}.{name}"),
            (path, _) => path.to_owned(),
        };
        if parameter == "." {
            // The whole mapping: what is wrong with it says which part.
            return Self::new(kind, &why);
        }
        let failure = Self::new(kind, &format!("{parameter}: {why}")).with("parameter", &parameter);
        match given {
            Some(given) if name.is_none() => failure.with("value", &given),
            _ => failure,
        }
    }
}

impl From<Invalid> for Failure {
    fn from(error: Invalid) -> Self {
        Self::new(Kind::InvalidInput, &error)
            .with("parameter", &error.parameter)
            .with("value", &error.value)
            .with("allowed", &error.allowed)
    }
}

impl From<QuantityError> for Failure {
    fn from(error: QuantityError) -> Self {
        Self::new(Kind::UnitError, &error)
    }
}
