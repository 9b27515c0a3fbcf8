//! Which length gives a wanted tension or sag: monotone roots around the solvers.

use serde::{Deserialize, Serialize};

use super::chain::{Chain, ChainLoad, solve_chain};
use super::elastic::{Solved, solve};
use super::segment::Uniform;
use super::{ElasticLine, LineError};
use crate::quantity::check::{finite, non_negative, positive};
use crate::quantity::{Force, Length, Quantity, print};

/// An end of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LineEnd {
    /// At the near anchor.
    Near,
    /// At the far anchor.
    Far,
}

/// Rest length at which a line stands with a wanted tension at one end, on the taut side.
///
/// The rest length in `line` is not used. The tension falls as the line gets longer, down to a least
/// value, after which its weight makes it rise again: the root is on the falling side.
///
/// # Errors
/// [`LineError::Unreachable`] for a tension below the least one; else as
/// [`solve_elastic`](super::solve_elastic).
///
/// # Example
/// ```
/// use tautwork::line::{ElasticLine, LineEnd, rest_length_for_tension};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadLength, Words};
/// let line = ElasticLine {
///     span: 101.0.meters(),
///     rise: 0.0.meters(),
///     rest_length: 1.0.meters(),
///     weight: 0.0.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(100.0.kilonewtons())?,
/// };
/// // 1 kN is 1 % of strain.
/// let l = rest_length_for_tension(&line, 1.0.kilonewtons(), LineEnd::Near)?;
/// assert!((l.in_meters() - 100.0).abs() < 1e-9);
/// assert!(rest_length_for_tension(&line, 0.0.kilonewtons(), LineEnd::Near).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn rest_length_for_tension(
    line: &ElasticLine,
    tension: Force,
    end: LineEnd,
) -> Result<Length, LineError> {
    let want_n = positive("tension", tension)?;
    let place = Place::of(line)?;
    let at = |ln_l: f64| {
        let solved = place.solve(line, ln_l.exp())?;
        let piece = solved.state.piece;
        Ok(match end {
            LineEnd::Near => piece.t0_n,
            LineEnd::Far => piece.t1_n,
        })
    };
    // A weightless line is taut below its chord only.
    let f = |ln_l: f64| match at(ln_l) {
        Ok(t) => (t / want_n).ln(),
        Err(LineError::NotUnique) => f64::NEG_INFINITY,
        Err(_) => f64::NAN,
    };
    let (low, high) = bracket(place.chord_m.ln(), f, "tension", &print(tension))?;
    let ln_l =
        root(low, high, |x| f(x).max(-1e3)).ok_or_else(|| missed("tension", &print(tension)))?;
    if (at(ln_l)? / want_n - 1.0).abs() > 1e-8 {
        return Err(missed("tension", &print(tension)));
    }
    Ok(Length::from_si(ln_l.exp()))
}

/// Rest length at which a line hangs with a wanted sag below its chord.
///
/// The rest length in `line` is not used.
///
/// # Errors
/// [`LineError::Unreachable`] where no length gives the sag; else as
/// [`solve_elastic`](super::solve_elastic).
///
/// # Example
/// ```
/// use tautwork::line::{ElasticLine, catenary_from_sag, rest_length_for_sag};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadLength, Words};
/// let line = ElasticLine {
///     span: 20.0.meters(),
///     rise: 0.0.meters(),
///     rest_length: 1.0.meters(),
///     weight: 5.0.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(1e12.newtons())?,
/// };
/// let l = rest_length_for_sag(&line, 6.0.meters())?;
/// let rigid = catenary_from_sag(line.span, line.rise, 6.0.meters(), line.weight)?;
/// assert!((l.in_meters() - rigid.rest_length.in_meters()).abs() < 1e-7);
/// assert!(rest_length_for_sag(&line, 0.0.meters()).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn rest_length_for_sag(
    line: &ElasticLine,
    sag_below_chord: Length,
) -> Result<Length, LineError> {
    let want_m = positive("sag_below_chord", sag_below_chord)?;
    let place = Place::of(line)?;
    let shown = print(sag_below_chord);
    let at = |ln_l: f64| Ok(place.solve(line, ln_l.exp())?.below_chord_m);
    rest_length_for(&place, "sag_below_chord", &shown, want_m, at)
}

/// Rest length at which a load tied to the middle of a line hangs a wanted distance below its chord.
///
/// The rest length in `line` is not used. The load is a weight.
///
/// # Errors
/// [`LineError::Unreachable`] where no length gives the sag; else as [`solve_chain`].
///
/// # Example
/// ```
/// use tautwork::line::{ElasticLine, rest_length_for_mid_load_sag};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadLength, Words};
/// let line = ElasticLine {
///     span: 6.0.meters(),
///     rise: 0.0.meters(),
///     rest_length: 1.0.meters(),
///     weight: 0.0.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(1e12.newtons())?,
/// };
/// // Two halves of 5 m over 6 m hang 4 m down.
/// let l = rest_length_for_mid_load_sag(&line, 1000.0.newtons(), 4.0.meters())?;
/// assert!((l.in_meters() - 10.0).abs() < 1e-6);
/// assert!(rest_length_for_mid_load_sag(&line, 0.0.newtons(), 4.0.meters()).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn rest_length_for_mid_load_sag(
    line: &ElasticLine,
    load: Force,
    sag_below_chord: Length,
) -> Result<Length, LineError> {
    let load_n = positive("load", load)?;
    let want_m = positive("sag_below_chord", sag_below_chord)?;
    let place = Place::of(line)?;
    let shown = print(sag_below_chord);
    let at = |ln_l: f64| {
        let l = ln_l.exp();
        let line = ElasticLine { rest_length: Length::from_si(l), ..line.clone() };
        let chain = Chain::of(&line, vec![ChainLoad::weight(0.5 * l, load_n)]);
        Ok(solve_chain(&chain)?.loads[0].below_chord.si())
    };
    rest_length_for(&place, "sag_below_chord", &shown, want_m, at)
}

/// The part of a line that does not change: where it ends and what it weighs.
#[derive(Debug, Clone, Copy)]
#[expect(clippy::struct_field_names, reason = "the unit is part of each name")]
pub(super) struct Place {
    pub span_m: f64,
    pub rise_m: f64,
    pub chord_m: f64,
    pub q_n_per_m: f64,
}

impl Place {
    pub fn of(line: &ElasticLine) -> Result<Self, LineError> {
        let (span_m, rise_m) = (non_negative("span", line.span)?, finite("rise", line.rise)?);
        let q_n_per_m = non_negative("weight", line.weight)?;
        let chord_m = span_m.hypot(rise_m);
        positive("chord", Length::from_si(chord_m))?;
        Ok(Self { span_m, rise_m, chord_m, q_n_per_m })
    }

    fn solve(&self, line: &ElasticLine, rest_m: f64) -> Result<Solved, LineError> {
        let law = line.stretch.law();
        solve(Uniform { q_n_per_m: self.q_n_per_m, rest_m, law }, self.span_m, self.rise_m)
    }
}

/// Root for a figure that rises with the length.
fn rest_length_for(
    place: &Place,
    wanted: &str,
    shown: &str,
    want_m: f64,
    at: impl Fn(f64) -> Result<f64, LineError>,
) -> Result<Length, LineError> {
    let f = |ln_l: f64| match at(ln_l) {
        Ok(sag_m) if sag_m > 0.0 => (want_m / sag_m).ln(),
        Ok(_) => f64::INFINITY,
        Err(_) => f64::NAN,
    };
    let (low, high) = bracket(place.chord_m.ln(), f, wanted, shown)?;
    let clamped = |x: f64| f(x).min(1e3);
    let ln_l = root(low, high, clamped).ok_or_else(|| missed(wanted, shown))?;
    if (at(ln_l)? / want_m - 1.0).abs() > 1e-8 {
        return Err(missed(wanted, shown));
    }
    Ok(Length::from_si(ln_l.exp()))
}

/// Goes from the chord towards the change of sign of a function that falls with the length, in steps
/// that double. Stops where it rises again (a slack line gets heavier) or has no value.
pub(super) fn bracket(
    start: f64,
    f: impl Fn(f64) -> f64,
    wanted: &str,
    shown: &str,
) -> Result<(f64, f64), LineError> {
    let first = f(start);
    let direction = if first > 0.0 { 1.0 } else { -1.0 };
    let (mut at, mut value, mut step) = (start, first, 1e-4);
    let mut before = start;
    for _ in 0..40 {
        let next = at + direction * step;
        let next_value = f(next);
        if next_value.is_nan() || value.is_nan() {
            break;
        }
        if (next_value > 0.0) != (first > 0.0) {
            return Ok((at.min(next), at.max(next)));
        }
        if next_value * direction > value * direction {
            // The step may have gone over a valley that is narrower than it.
            if direction > 0.0
                && let Some(low) = valley(before, next, &f)
            {
                return Ok((before, low));
            }
            let least = "the tension rises again beyond, since a longer line is heavier";
            let reason =
                if direction > 0.0 { least } else { "it does not rise with a shorter line" };
            return Err(LineError::Unreachable {
                wanted: format!("{wanted} {shown}"),
                reason: reason.to_owned(),
            });
        }
        (before, at, value) = (at, next, next_value);
        step = (2.0 * step).min(0.5);
    }
    Err(missed(wanted, shown))
}

/// Where a function with one valley between two points is below zero, if anywhere: golden section.
fn valley(mut low: f64, mut high: f64, f: &impl Fn(f64) -> f64) -> Option<f64> {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    for _ in 0..60 {
        let (a, b) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
        let (at_a, at_b) = (f(a), f(b));
        if at_a < 0.0 {
            return Some(a);
        }
        if at_b < 0.0 {
            return Some(b);
        }
        if at_a < at_b { high = b } else { low = a }
    }
    None
}

pub(super) fn missed(wanted: &str, shown: &str) -> LineError {
    LineError::Unreachable {
        wanted: format!("{wanted} {shown}"),
        reason: "no rest length within the range of the model gives it".to_owned(),
    }
}

/// [`root`] of a function that may fail: its first error ends the search.
pub(crate) fn try_root(
    low: f64,
    high: f64,
    mut f: impl FnMut(f64) -> Result<f64, LineError>,
) -> Result<Option<f64>, LineError> {
    let mut failed = None;
    let found = root(low, high, |x| {
        f(x).unwrap_or_else(|error| {
            failed.get_or_insert(error);
            f64::NAN
        })
    });
    match failed {
        Some(error) => Err(error),
        None => Ok(found),
    }
}

/// Root of an increasing or decreasing function by Brent's method, or `None` without a change of sign.
///
/// The method's tolerances are absolute, so `f` should be dimensionless and of order one.
pub(crate) fn root(low: f64, high: f64, f: impl FnMut(f64) -> f64) -> Option<f64> {
    let mut stop = roots::SimpleConvergency { eps: 1e-14, max_iter: 200 };
    roots::find_root_brent(low, high, f, &mut stop).ok().filter(|x| x.is_finite())
}
