//! The errors of the rules over standing tensions and loads.

use serde::{Deserialize, Serialize};

use super::rule::rules_of_thumb;
use crate::line::{ElasticLine, LineEnd, LineError, rest_length_for_tension};
use crate::quantity::{Force, Quantity};

/// Errors of each rule over a grid.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RuleChart {
    /// Tensions of the empty line at the near anchor.
    pub standing_n: Vec<f64>,
    /// Loads.
    pub load_n: Vec<f64>,
    /// Rest length for each standing tension.
    pub rest_length_m: Vec<f64>,
    /// One entry for each rule.
    pub rules: Vec<RuleErrors>,
}

/// Errors of one rule.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RuleErrors {
    /// Name of the rule.
    pub name: String,
    /// (rule − exact) / exact: a row for each standing tension, a column for each load.
    pub error: Vec<Vec<f64>>,
}

/// [`rules_of_thumb`] over standing tensions and loads. The rest length of the line is not used.
///
/// # Errors
/// [`LineError::At`] names the standing tension that cannot be reached; else as [`rules_of_thumb`].
///
/// # Example
/// ```
/// use tautwork::line::{ElasticLine, rules_chart};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::Words;
/// let line = ElasticLine {
///     span: 130.0.meters(),
///     rise: 0.0.meters(),
///     rest_length: 1.0.meters(),
///     weight: 0.667.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(250.0.kilonewtons())?,
/// };
/// let chart = rules_chart(&line, &[2e3, 8e3], &[100.0, 800.0])?;
/// let sag = chart.rules.iter().find(|r| r.name == "sag_from_standing_tension").unwrap();
/// // The tighter the line and the lighter the load, the less the tension changes.
/// assert!(sag.error[1][0].abs() < sag.error[0][1].abs());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn rules_chart(
    line: &ElasticLine,
    standing_n: &[f64],
    load_n: &[f64],
) -> Result<RuleChart, LineError> {
    let mut chart = RuleChart {
        standing_n: standing_n.to_vec(),
        load_n: load_n.to_vec(),
        rest_length_m: Vec::new(),
        rules: Vec::new(),
    };
    for (i, standing) in standing_n.iter().enumerate() {
        let length = rest_length_for_tension(line, Force::from_si(*standing), LineEnd::Near)
            .map_err(|e| e.at(i))?;
        let line = ElasticLine { rest_length: length, ..line.clone() };
        chart.rest_length_m.push(length.si());
        for (j, load) in load_n.iter().enumerate() {
            for (k, rule) in rules_of_thumb(&line, Force::from_si(*load))?.into_iter().enumerate() {
                if chart.rules.len() == k {
                    chart.rules.push(RuleErrors { name: rule.name, error: Vec::new() });
                }
                let rows = &mut chart.rules[k].error;
                if j == 0 {
                    rows.push(Vec::with_capacity(load_n.len()));
                }
                rows[i].push(rule.error.si());
            }
        }
    }
    Ok(chart)
}
