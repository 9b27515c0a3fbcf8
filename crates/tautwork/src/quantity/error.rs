//! Errors of reading a quantity and of checking a number against its range.

/// Why a text is not a quantity of the wanted kind.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum QuantityError {
    /// The text does not start with a number.
    #[error("\"{text}\" does not start with a number; write a {kind} such as \"{example}\"")]
    NotANumber {
        /// The offending text.
        text: String,
        /// Wanted kind.
        kind: &'static str,
        /// A well-formed value.
        example: &'static str,
    },
    /// A number stands without a unit.
    #[error("\"{text}\" has no unit; write a {kind} such as \"{example}\"")]
    NoUnit {
        /// The offending text.
        text: String,
        /// Wanted kind.
        kind: &'static str,
        /// A well-formed value.
        example: &'static str,
    },
    /// The number is NaN, infinite, or too large for a double.
    #[error("\"{text}\" is not a finite number; write a {kind} such as \"{example}\"")]
    NotFinite {
        /// The offending text.
        text: String,
        /// Wanted kind.
        kind: &'static str,
        /// A well-formed value.
        example: &'static str,
    },
    /// The unit belongs to another kind.
    #[error("\"{text}\" is a {found}, not a {kind}; write a {kind} such as \"{example}\"")]
    WrongKind {
        /// The offending text.
        text: String,
        /// Kind the unit belongs to.
        found: &'static str,
        /// Wanted kind.
        kind: &'static str,
        /// A well-formed value.
        example: &'static str,
    },
    /// The unit is not known.
    #[error("\"{unit}\" is not a unit of {kind}{hint}; use one of {known}")]
    UnknownUnit {
        /// The unit as written.
        unit: String,
        /// Wanted kind.
        kind: &'static str,
        /// Empty, or a guess at what was meant.
        hint: String,
        /// Units of the wanted kind.
        known: String,
    },
}

/// A parameter outside its allowed range.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{parameter} is {value}; it must be {allowed}")]
pub struct Invalid {
    /// Name of the parameter, as in the call or the document.
    pub parameter: String,
    /// The value given, with its unit.
    pub value: String,
    /// The allowed range in words, with units where they help.
    pub allowed: String,
}

impl Invalid {
    /// Says what a parameter is and what it must be.
    #[must_use]
    pub fn new(
        parameter: impl Into<String>,
        value: impl Into<String>,
        allowed: impl Into<String>,
    ) -> Self {
        Self { parameter: parameter.into(), value: value.into(), allowed: allowed.into() }
    }

    /// Puts `prefix.` before the parameter name: which part of a larger input is meant.
    #[must_use]
    pub fn within(mut self, prefix: &str) -> Self {
        self.parameter = format!("{prefix}.{}", self.parameter);
        self
    }
}
