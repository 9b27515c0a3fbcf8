//! One line between two anchors under its own weight.

use serde::{Deserialize, Serialize};

use super::LineError;
use super::batch::{Columns, fill};
use super::error::all_finite;
use super::note::LineNote;
use super::planar::{Chord, Planar};
use super::segment::Uniform;
use crate::material::{Law, Stretch};
use crate::quantity::check::{finite, non_negative, positive};
use crate::quantity::{Force, Length, LineLoad, Quantity, Text};

/// A line between two anchors.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ElasticLine {
    /// Horizontal distance of the anchors.
    #[serde(with = "Text::<Length>")]
    pub span: Length,
    /// Height of the far anchor above the near one; negative if it is lower.
    #[serde(with = "Text::<Length>")]
    pub rise: Length,
    /// Length of the line without tension.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// Weight per rest length.
    #[serde(with = "Text::<LineLoad>")]
    pub weight: LineLoad,
    /// Stretch.
    pub stretch: Stretch,
}

/// What [`solve_elastic`] finds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ElasticSolution {
    /// Horizontal part of the tension.
    #[serde(with = "Text::<Force>")]
    pub h: Force,
    /// Upward pull of the near anchor on the line; negative where the line pulls up on the anchor.
    #[serde(with = "Text::<Force>")]
    pub v_near: Force,
    /// Tension at the near anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_near: Force,
    /// Tension at the far anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_far: Force,
    /// Length under tension.
    #[serde(with = "Text::<Length>")]
    pub stretched_length: Length,
    /// Largest vertical distance below the chord.
    #[serde(with = "Text::<Length>")]
    pub sag_below_chord: Length,
    /// Depth of the lowest point below the near anchor, zero if the near anchor is lowest.
    #[serde(with = "Text::<Length>")]
    pub sag_below_near: Length,
    /// Distance by which the computed line misses the far anchor.
    #[serde(with = "Text::<Length>")]
    pub residual: Length,
    /// Newton steps made.
    pub iterations: u32,
    /// Remarks on the inputs.
    pub notes: Vec<LineNote>,
}

/// Tension, length and sag of one line under its own weight, Eq. (3) to (5) and (10).
///
/// Valid for any span, rise and rest length, taut or slack, up to ends on one vertical.
///
/// # Errors
/// [`LineError::Invalid`] unless span and weight are zero or more and rest length is above zero;
/// [`LineError::NotUnique`] for a weightless line that is slack; [`LineError::NotConverged`] and
/// [`LineError::Overflow`] at the edge of the range of numbers.
///
/// # Example
/// ```
/// use tautwork::line::{ElasticLine, solve_elastic};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, Words};
/// // Without weight the line is straight: 1 % of strain at EA 100 kN is 1 kN.
/// let line = ElasticLine {
///     span: 30.3.meters(),
///     rise: 40.4.meters(),
///     rest_length: 50.0.meters(),
///     weight: 0.0.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(100.0.kilonewtons())?,
/// };
/// assert!((solve_elastic(&line)?.tension_near.in_kilonewtons() - 1.0).abs() < 1e-9);
/// let slack = ElasticLine { rest_length: 51.0.meters(), ..line };
/// assert!(solve_elastic(&slack).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
///
/// # Source
/// Irvine (1981), section 1.3; O'Brien and Francis (1964); both from memory, derived again in the
/// module page.
pub fn solve_elastic(line: &ElasticLine) -> Result<ElasticSolution, LineError> {
    let (span_m, rise_m) = (non_negative("span", line.span)?, finite("rise", line.rise)?);
    let law = line.stretch.law();
    let uniform = Uniform {
        q_n_per_m: non_negative("weight", line.weight)?,
        rest_m: positive("rest_length", line.rest_length)?,
        law,
    };
    let k = solve(uniform, span_m, rise_m)?;
    Ok(ElasticSolution {
        h: Force::from_si(k.state.h_n),
        v_near: Force::from_si(k.state.v0_n),
        tension_near: Force::from_si(k.state.piece.t0_n),
        tension_far: Force::from_si(k.state.piece.t1_n),
        stretched_length: Length::from_si(k.stretched_m),
        sag_below_chord: Length::from_si(k.below_chord_m),
        sag_below_near: Length::from_si(k.below_near_m),
        residual: Length::from_si(k.state.residual_m),
        iterations: k.state.iterations,
        notes: LineNote::past_table(law, k.state.piece.t0_n.max(k.state.piece.t1_n))
            .into_iter()
            .collect(),
    })
}

/// A solved line in SI.
pub(crate) struct Solved {
    pub state: Planar,
    pub stretched_m: f64,
    pub below_chord_m: f64,
    pub below_near_m: f64,
}

pub(crate) fn solve(line: Uniform<'_>, span_m: f64, rise_m: f64) -> Result<Solved, LineError> {
    let chord = Chord { across_m: span_m, along_m: -rise_m };
    let state = line.solve(chord)?;
    let sags = line.sags(&state, chord);
    let solved = Solved {
        state,
        stretched_m: line.stretched_m(state.h_n, state.v0_n),
        below_chord_m: sags.below_chord_m,
        below_near_m: sags.below_near_m,
    };
    let all = [
        state.h_n,
        state.v0_n,
        state.piece.t0_n,
        state.piece.t1_n,
        solved.stretched_m,
        solved.below_chord_m,
        solved.below_near_m,
    ];
    all_finite(&all, "elastic line")?;
    Ok(solved)
}

/// Inputs of [`solve_elastic_batch`]: each slice holds one value for each line, or one for all.
#[derive(Debug, Clone, Copy)]
pub struct ElasticBatch<'a> {
    /// Horizontal distances of the anchors, in m.
    pub span_m: &'a [f64],
    /// Heights of the far anchor above the near one, in m.
    pub rise_m: &'a [f64],
    /// Rest lengths, in m.
    pub rest_length_m: &'a [f64],
    /// Weights per rest length, in N/m.
    pub weight_n_per_m: &'a [f64],
    /// Axial rigidities, in N.
    pub axial_rigidity_n: &'a [f64],
}

/// Results of [`solve_elastic_batch`], one value for each line; the fields of [`ElasticSolution`].
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the fields of ElasticSolution with their units")]
pub struct ElasticArrays {
    pub h_n: Vec<f64>,
    pub v_near_n: Vec<f64>,
    pub tension_near_n: Vec<f64>,
    pub tension_far_n: Vec<f64>,
    pub stretched_length_m: Vec<f64>,
    pub sag_below_chord_m: Vec<f64>,
    pub residual_m: Vec<f64>,
}

/// [`solve_elastic`] for many linear lines at once, in SI, on all cores. One value in a slice serves all
/// lines.
///
/// # Errors
/// [`LineError::Invalid`] if the lengths differ; [`LineError::At`] names the index of the first line
/// that has a bad value or no solution.
///
/// # Example
/// ```
/// use tautwork::line::{ElasticBatch, solve_elastic_batch};
/// let batch = ElasticBatch {
///     span_m: &[101.0],
///     rise_m: &[0.0],
///     rest_length_m: &[100.0, 100.5],
///     weight_n_per_m: &[0.0],
///     axial_rigidity_n: &[1e5],
/// };
/// assert!((solve_elastic_batch(&batch)?.h_n[0] - 1000.0).abs() < 1e-9);
/// let wrong = ElasticBatch { span_m: &[101.0, f64::NAN], ..batch };
/// assert!(solve_elastic_batch(&wrong).unwrap_err().to_string().starts_with("at index 1: span_m is NaN"));
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
pub fn solve_elastic_batch(batch: &ElasticBatch<'_>) -> Result<ElasticArrays, LineError> {
    let columns = [
        ("span_m", batch.span_m),
        ("rise_m", batch.rise_m),
        ("rest_length_m", batch.rest_length_m),
        ("weight_n_per_m", batch.weight_n_per_m),
        ("axial_rigidity_n", batch.axial_rigidity_n),
    ];
    let columns = Columns::new(&columns)?;
    let room = || vec![0.0; columns.len()];
    let mut out = ElasticArrays {
        h_n: room(),
        v_near_n: room(),
        tension_near_n: room(),
        tension_far_n: room(),
        stretched_length_m: room(),
        sag_below_chord_m: room(),
        residual_m: room(),
    };
    let results = [
        out.h_n.as_mut_slice(),
        &mut out.v_near_n,
        &mut out.tension_near_n,
        &mut out.tension_far_n,
        &mut out.stretched_length_m,
        &mut out.sag_below_chord_m,
        &mut out.residual_m,
    ];
    fill(results, &|i| {
        let [span, rise, rest_length, weight, axial_rigidity] = columns.row(i);
        let span_m = non_negative(span.0, Length::from_si(span.1))?;
        let rise_m = finite(rise.0, Length::from_si(rise.1))?;
        let rest_m = positive(rest_length.0, Length::from_si(rest_length.1))?;
        let q_n_per_m = non_negative(weight.0, LineLoad::from_si(weight.1))?;
        let ea_n = positive(axial_rigidity.0, Force::from_si(axial_rigidity.1))?;
        let law = Law::Linear { ea_n };
        let solved = solve(Uniform { q_n_per_m, rest_m, law: &law }, span_m, rise_m)?;
        let Planar { h_n, v0_n, piece, residual_m, .. } = solved.state;
        let (stretched_m, below_chord_m) = (solved.stretched_m, solved.below_chord_m);
        Ok([h_n, v0_n, piece.t0_n, piece.t1_n, stretched_m, below_chord_m, residual_m])
    })?;
    Ok(out)
}
