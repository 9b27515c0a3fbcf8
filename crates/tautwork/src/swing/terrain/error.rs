//! Errors of terrain files.

use crate::quantity::Invalid;

/// Why a file is not a terrain.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum TerrainError {
    /// A parameter is outside its range.
    #[error(transparent)]
    Invalid(#[from] Invalid),
    /// The file holds no triangle.
    #[error("the file holds no triangle")]
    Empty,
    /// The file is too large.
    #[error("the file has {size}; at most {most} are read")]
    TooLarge {
        /// Its size in words.
        size: String,
        /// The bound in words.
        most: String,
    },
    /// A line of a text file cannot be read.
    #[error("line {line}: {problem}")]
    Line {
        /// Line, from 1.
        line: usize,
        /// What is wrong.
        problem: String,
    },
    /// A triangle cannot be read or used.
    #[error("triangle {triangle}: {problem}")]
    Triangle {
        /// Triangle in order of the file, from 1.
        triangle: usize,
        /// What is wrong.
        problem: String,
    },
    /// The file as a whole is not what it is said to be.
    #[error("the file is not {format}: {problem}")]
    NotOf {
        /// Its format.
        format: &'static str,
        /// What is wrong.
        problem: String,
    },
}
