//! Rules of thumb beside the exact solution.

mod chart;
mod rule;

pub use chart::{RuleChart, RuleErrors, rules_chart};
pub use rule::{RuleOfThumb, rules_of_thumb};

#[cfg(test)]
mod tests;
