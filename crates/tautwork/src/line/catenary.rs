//! A line that does not stretch: the catenary.

use serde::{Deserialize, Serialize};

use super::LineError;
use super::error::all_finite;
use super::planar::{Chord, Planar};
use super::segment::Uniform;
use crate::material::Law;
use crate::quantity::check::{finite, positive};
use crate::quantity::{Force, Length, LineLoad, Quantity, Text, print};

/// A hanging line that does not stretch.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Catenary {
    /// Horizontal part of the tension.
    #[serde(with = "Text::<Force>")]
    pub h: Force,
    /// Parameter a = H / w: radius of curvature at the lowest point.
    #[serde(with = "Text::<Length>")]
    pub parameter: Length,
    /// Length of the line.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// Upward pull of the near anchor on the line.
    #[serde(with = "Text::<Force>")]
    pub v_near: Force,
    /// Tension at the near anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_near: Force,
    /// Tension at the far anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_far: Force,
    /// Largest vertical distance below the chord.
    #[serde(with = "Text::<Length>")]
    pub sag_below_chord: Length,
    /// Depth of the lowest point below the near anchor, zero if the near anchor is lowest.
    #[serde(with = "Text::<Length>")]
    pub sag_below_near: Length,
    /// Distance by which the computed line misses the far anchor.
    #[serde(with = "Text::<Length>")]
    pub residual: Length,
}

const RIGID: Law = Law::Linear { ea_n: f64::INFINITY };

/// The catenary of a given length, Eq. (13).
///
/// # Errors
/// [`LineError::TooShort`] unless the length is above the distance of the ends; [`LineError::Invalid`]
/// unless span, length and weight are above zero.
///
/// # Example
/// ```
/// use tautwork::line::catenary;
/// use tautwork::quantity::{ReadLength, Words};
/// let (span, rise) = (20.0.meters(), 0.0.meters());
/// let w = 5.0.newtons_per_meter();
/// // A level line: (L/2)² = sag² + 2 a sag. With a = 10 m, L/2 = 10 sinh(1).
/// let c = catenary(span, rise, (20.0 * 1.0_f64.sinh()).meters(), w)?;
/// assert!((c.parameter.in_meters() - 10.0).abs() < 1e-9);
/// assert!(catenary(span, rise, 20.0.meters(), w).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
pub fn catenary(
    span: Length,
    rise: Length,
    rest_length: Length,
    weight: LineLoad,
) -> Result<Catenary, LineError> {
    let (span_m, rise_m) = (positive("span", span)?, finite("rise", rise)?);
    let l = positive("rest_length", rest_length)?;
    let w = positive("weight", weight)?;
    let c = span_m.hypot(rise_m);
    if l <= c {
        return Err(LineError::TooShort { rest_length_m: l, chord_m: c });
    }
    // (sinh k / k)² - 1, free of cancellation for a line hardly longer than its chord.
    let excess = ((l - c) / span_m) * ((l + c) / span_m);
    build(span_m, rise_m, w, half_angle(excess)?, l)
}

/// The catenary with a given largest vertical distance below its chord, Eq. (13).
///
/// # Errors
/// [`LineError::Invalid`] unless span, sag and weight are above zero; [`LineError::Unreachable`] if the
/// sag is beyond what a double can tell from a straight or a vertical line.
///
/// # Example
/// ```
/// use tautwork::line::catenary_from_sag;
/// use tautwork::quantity::{ReadForce, Words};
/// // Hibbeler, Statics, example 7.13 (from memory): 5 N/m over 20 m with 6 m of sag.
/// let c = catenary_from_sag(20.0.meters(), 0.0.meters(), 6.0.meters(), 5.0.newtons_per_meter())?;
/// assert!((c.h.in_newtons() - 45.9).abs() < 0.05);
/// assert!(catenary_from_sag(20.0.meters(), 0.0.meters(), 0.0.meters(), 5.0.newtons_per_meter()).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
pub fn catenary_from_sag(
    span: Length,
    rise: Length,
    sag_below_chord: Length,
    weight: LineLoad,
) -> Result<Catenary, LineError> {
    let (span_m, rise_m) = (positive("span", span)?, finite("rise", rise)?);
    let sag_m = positive("sag_below_chord", sag_below_chord)?;
    let w = positive("weight", weight)?;
    let unreachable = || LineError::Unreachable {
        wanted: format!("sag_below_chord {}", print(sag_below_chord)),
        reason: "no length of line gives it to the accuracy of a double".to_owned(),
    };
    let of = |ln_k: f64| {
        let k = ln_k.exp();
        build(span_m, rise_m, w, k, length(span_m, rise_m, k)).map(|c| c.sag_below_chord.si())
    };
    // The sag rises with k: from nothing to the depth of a line some hundred times the span.
    let f = |ln_k: f64| of(ln_k).map_or(f64::NAN, |s| (s / sag_m).ln());
    let ln_k = super::inverse::root(-14.0, 5.5, f).ok_or_else(unreachable)?;
    let k = ln_k.exp();
    let found = build(span_m, rise_m, w, k, length(span_m, rise_m, k))?;
    if (found.sag_below_chord.si() / sag_m - 1.0).abs() < 1e-9 {
        Ok(found)
    } else {
        Err(unreachable())
    }
}

fn length(span_m: f64, rise_m: f64, k: f64) -> f64 {
    (span_m * (k.sinh() / k)).hypot(rise_m)
}

/// The positive k with (sinh k / k)² = 1 + excess.
fn half_angle(excess: f64) -> Result<f64, LineError> {
    let target = 0.5 * excess.ln_1p();
    // ln(sinh k / k) is about k²/6 below 2 and k - ln(2k) above.
    let mut k =
        if target < 0.6 { (6.0 * target).sqrt() } else { target + (2.0 * target + 2.0).ln() };
    for _ in 0..30 {
        let (value, slope) = ln_sinh_over(k);
        let next = k - (value - target) / slope;
        let next = if next > 0.0 { next } else { 0.5 * k };
        if (next - k).abs() <= 4.0 * f64::EPSILON * k {
            return Ok(next);
        }
        k = next;
    }
    let (value, _) = ln_sinh_over(k);
    if (value - target).abs() <= 1e-12 * target {
        Ok(k)
    } else {
        Err(LineError::Overflow { result: "catenary parameter" })
    }
}

/// ln(sinh k / k) and its derivative.
fn ln_sinh_over(k: f64) -> (f64, f64) {
    if k < 0.3 {
        let k2 = k * k;
        let series = |c: [f64; 6]| c.iter().rev().fold(0.0, |sum, c| sum * k2 + c);
        let c = [
            1.0 / 6.0,
            -1.0 / 180.0,
            1.0 / 2835.0,
            -1.0 / 37_800.0,
            1.0 / 467_775.0,
            -691.0 / 3_831_077_250.0,
        ];
        let d = [2.0 * c[0], 4.0 * c[1], 6.0 * c[2], 8.0 * c[3], 10.0 * c[4], 12.0 * c[5]];
        return (k2 * series(c), k * series(d));
    }
    (k + (-(-2.0 * k).exp()).ln_1p() - (2.0 * k).ln(), 1.0 / k.tanh() - 1.0 / k)
}

/// All figures from the half angle k = span / (2 a).
fn build(span_m: f64, rise_m: f64, w: f64, k: f64, l: f64) -> Result<Catenary, LineError> {
    let a = span_m / (2.0 * k);
    let (h_n, v0_n) = (w * a, 0.5 * w * (l - rise_m / k.tanh()));
    let line = Uniform { q_n_per_m: w, rest_m: l, law: &RIGID };
    let piece = line.at(h_n, v0_n);
    let chord = Chord { across_m: span_m, along_m: -rise_m };
    let residual_m = (piece.across_m - span_m).hypot(piece.along_m + rise_m);
    let sags = line.sags(&Planar { h_n, v0_n, piece, residual_m, iterations: 0 }, chord);
    let all =
        [h_n, a, l, piece.t0_n, piece.t1_n, residual_m, sags.below_chord_m, sags.below_near_m];
    all_finite(&all, "catenary")?;
    Ok(Catenary {
        h: Force::from_si(h_n),
        parameter: Length::from_si(a),
        rest_length: Length::from_si(l),
        v_near: Force::from_si(v0_n),
        tension_near: Force::from_si(piece.t0_n),
        tension_far: Force::from_si(piece.t1_n),
        sag_below_chord: Length::from_si(sags.below_chord_m),
        sag_below_near: Length::from_si(sags.below_near_m),
        residual: Length::from_si(residual_m),
    })
}
