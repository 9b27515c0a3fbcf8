//! From slack to the wanted state: how much to draw in, against what tension, with what energy.

use serde::{Deserialize, Serialize};

use super::Span;
use crate::line::chain::usual_samples;
use crate::line::{ElasticLine, LineEnd, LineError, LineNote};
use crate::quantity::check::{self, positive};
use crate::quantity::{Energy, Invalid, Length, Quantity, Ratio, Text, print};

/// A line and how it is drawn in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PullIn {
    /// The line in the wanted state.
    pub line: ElasticLine,
    /// Rest length between the anchors where drawing in begins; above the line's own.
    #[serde(with = "Text::<Length>")]
    pub from_length: Length,
    /// The end that is drawn.
    pub end: LineEnd,
    /// Points of the curve, at equal spacing of rest length; 101 if left out.
    #[serde(default = "usual_samples")]
    pub samples: usize,
}

pub(crate) fn check_samples(samples: usize) -> Result<usize, LineError> {
    Ok(check::count("samples", samples, 2, 10_000)?)
}

/// The way from slack to the wanted state.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct PullInCurve {
    /// Rest length left between the anchors.
    pub rest_length_m: Vec<f64>,
    /// Rest length drawn in.
    pub drawn_in_m: Vec<f64>,
    /// Length of cordage that has come past the anchor, under the tension it had there.
    pub through_m: Vec<f64>,
    /// Tension at the near anchor.
    pub tension_near_n: Vec<f64>,
    /// Tension at the far anchor.
    pub tension_far_n: Vec<f64>,
    /// Largest vertical distance below the chord; zero for a slack line without weight, which has no
    /// particular shape.
    pub sag_below_chord_m: Vec<f64>,
    /// Elastic energy stored between the anchors.
    pub stored_j: Vec<f64>,
    /// Weight times height gained since the start, measured from the end that is drawn.
    pub lifted_j: Vec<f64>,
    /// Work done on the line between the anchors, Eq. (T2), by quadrature.
    pub work_j: Vec<f64>,
    /// The whole of that work.
    #[serde(with = "Text::<Energy>")]
    pub work: Energy,
    /// Work less energy stored and weight lifted, over the larger of both.
    #[serde(with = "Text::<Ratio>")]
    pub imbalance: Ratio,
    /// Largest distance by which a computed line misses its far anchor.
    #[serde(with = "Text::<Length>")]
    pub residual: Length,
    /// Remarks.
    pub notes: Vec<LineNote>,
}

/// Tension, sag and energy of a line while it is drawn in, Eq. (T1) to (T3).
///
/// Valid where [`solve_elastic`](crate::line::solve_elastic) is. Friction at the anchor is not in it.
///
/// # Errors
/// [`LineError::Invalid`] for values out of range, a start that is not longer than the line, and samples
/// other than 2 to 10000; else as [`solve_elastic`](crate::line::solve_elastic).
///
/// # Example
/// ```
/// use tautwork::line::{ElasticLine, LineEnd, PullIn, pull_in};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadEnergy, Words};
/// let wanted = PullIn {
///     line: ElasticLine {
///         span: 101.0.meters(),
///         rise: 0.0.meters(),
///         rest_length: 100.0.meters(),
///         weight: 0.0.newtons_per_meter(),
///         stretch: Stretch::axial_rigidity(100.0.kilonewtons())?,
///     },
///     from_length: 103.0.meters(),
///     end: LineEnd::Near,
///     samples: 31,
/// };
/// // 1 kN stores T² L / 2 EA = 500 J.
/// let curve = pull_in(&wanted)?;
/// assert!((curve.work.in_joules() - 500.0).abs() < 1e-6);
/// assert!(pull_in(&PullIn { from_length: 99.0.meters(), ..wanted }).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn pull_in(input: &PullIn) -> Result<PullInCurve, LineError> {
    let span = Span::of(&input.line, input.end)?;
    let to_m = positive("rest_length", input.line.rest_length)?;
    let from_m = positive("from_length", input.from_length)?;
    if from_m <= to_m {
        let than = format!("longer than the line, {}", print(input.line.rest_length));
        return Err(Invalid::new("from_length", print(input.from_length), than).into());
    }
    let drawn = span.draw(from_m, to_m, check_samples(input.samples)?)?;
    let most_n = drawn.near_n.iter().chain(&drawn.far_n).copied().fold(0.0, f64::max);
    let first_j = drawn.height_j[0];
    Ok(PullInCurve {
        drawn_in_m: drawn.rest_m.iter().map(|l| from_m - l).collect(),
        rest_length_m: drawn.rest_m,
        through_m: drawn.through_m,
        tension_near_n: drawn.near_n,
        tension_far_n: drawn.far_n,
        sag_below_chord_m: drawn.sag_m,
        stored_j: drawn.stored_j,
        lifted_j: drawn.height_j.iter().map(|j| j - first_j).collect(),
        work: Energy::from_si(drawn.work_j.last().copied().unwrap_or_default()),
        work_j: drawn.work_j,
        imbalance: Ratio::from_si(drawn.imbalance),
        residual: Length::from_si(drawn.residual_m),
        notes: LineNote::past_table(span.law, most_n).into_iter().collect(),
    })
}
