//! Tension from the measured period of a plucked line, Eq. (V14) and (V16).

use core::f64::consts::PI;

use serde::{Deserialize, Serialize};

use super::cable::{SHALLOW, Shallow, symmetric_root};
use super::scan::{roots, slope};
use crate::line::error::all_finite;
use crate::line::{ElasticLine, LineError};
use crate::material::Stretch;
use crate::quantity::check::{finite, non_negative, positive};
use crate::quantity::{Force, Invalid, Length, LineLoad, Quantity, Ratio, Text, Time, print};

/// Direction in which a line is plucked at its middle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PluckPlane {
    /// To the side: sag plays no part.
    Sideways,
    /// Up or down: the first symmetric mode.
    Vertical,
}

/// An empty line that was plucked and timed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PluckedLine {
    /// Horizontal distance of the anchors.
    #[serde(with = "Text::<Length>")]
    pub span: Length,
    /// Height of the far anchor above the near one.
    #[serde(with = "Text::<Length>")]
    pub rise: Length,
    /// Weight per rest length.
    #[serde(with = "Text::<LineLoad>")]
    pub weight: LineLoad,
    /// Stretch.
    pub stretch: Stretch,
    /// Direction of the pluck.
    pub plane: PluckPlane,
    /// Time of all the periods together.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
    /// Number of periods in that time.
    pub periods: u32,
    /// Standard error of the time.
    #[serde(with = "Text::<Time>")]
    pub time_error: Time,
    /// Standard error of the weight per rest length.
    #[serde(with = "Text::<LineLoad>")]
    pub weight_error: LineLoad,
}

/// A tension at which a plucked line has the measured period.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PluckTension {
    /// Tension along the chord.
    #[serde(with = "Text::<Force>")]
    pub chord_tension: Force,
    /// Its standard error, Eq. (V16).
    #[serde(with = "Text::<Force>")]
    pub error: Force,
    /// The part from the time.
    #[serde(with = "Text::<Force>")]
    pub error_from_time: Force,
    /// The part from the weight.
    #[serde(with = "Text::<Force>")]
    pub error_from_weight: Force,
    /// Sag parameter λ².
    #[serde(with = "Text::<Ratio>")]
    pub lambda_squared: Ratio,
    /// Sag square to the chord, over the chord.
    #[serde(with = "Text::<Ratio>")]
    pub sag_ratio: Ratio,
    /// By how much the formula of the taut string reads too high.
    #[serde(with = "Text::<Force>")]
    pub string_bias: Force,
}

/// What a plucked line tells.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PluckReading {
    /// One period.
    #[serde(with = "Text::<Time>")]
    pub period: Time,
    /// Tension by the formula of the taut string, which knows of no sag.
    #[serde(with = "Text::<Force>")]
    pub string_tension: Force,
    /// Every tension that fits, the least first. More than one: the sag tells which.
    pub tensions: Vec<PluckTension>,
}

/// Tension of an empty line from the period of a pluck at its middle, Eq. (V14) and (V16).
///
/// A pluck to the side has one answer. The first symmetric mode in the plane of the sag has up to three:
/// a slack line stiffens against its sag as it gets slacker. All of them with a sag below an eighth of
/// the chord are given.
///
/// # Errors
/// [`LineError::Invalid`] unless span, weight, time and the count of periods are above zero and the
/// errors zero or more; [`LineError::Unreachable`] if no tension with so little sag has the period.
///
/// # Example
/// ```
/// use tautwork::line::{PluckPlane, PluckedLine, tension_from_pluck};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, Words};
/// let pluck = PluckedLine {
///     span: 50.0.meters(),
///     rise: 0.0.meters(),
///     weight: 0.981.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(1e9.newtons())?,
///     plane: PluckPlane::Sideways,
///     time: 10.0.seconds(),
///     periods: 10,
///     time_error: 0.1.seconds(),
///     weight_error: 0.0.newtons_per_meter(),
/// };
/// // 100 m there and back in a second: 0.1 kg/m · (100 m/s)² = 1 kN; 1 % of the time is 2 % of it.
/// let read = tension_from_pluck(&pluck)?;
/// assert!((read.tensions[0].chord_tension.in_newtons() - 1000.0).abs() < 0.01);
/// assert!((read.tensions[0].error.in_newtons() - 20.0).abs() < 0.01);
/// assert!(tension_from_pluck(&PluckedLine { periods: 0, ..pluck }).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
pub fn tension_from_pluck(pluck: &PluckedLine) -> Result<PluckReading, LineError> {
    let line = ElasticLine {
        span: pluck.span,
        rise: pluck.rise,
        rest_length: pluck.span,
        weight: pluck.weight,
        stretch: pluck.stretch.clone(),
    };
    positive("span", pluck.span)?;
    finite("rise", pluck.rise)?;
    let weight = positive("weight", pluck.weight)?;
    let (period_s, time_share) = timed(pluck.time, pluck.periods, pluck.time_error)?;
    let weight_share = non_negative("weight_error", pluck.weight_error)? / weight;
    let cable = Shallow::of(&line);
    let string_n = string_tension(&cable, period_s)?;
    let w_at = |lambda2: f64| match pluck.plane {
        PluckPlane::Sideways => Ok(PI),
        PluckPlane::Vertical => symmetric_root(lambda2, 1),
    };
    // Logarithm of the frequency at ln N and ln w, over the measured one.
    let excess = |ln_n: f64, ln_weight: f64| {
        let state = Shallow { w_n_per_m: weight * ln_weight.exp(), ..cable }.at(ln_n.exp());
        let w = w_at(state.lambda2).unwrap_or(f64::NAN);
        (w * state.pace_per_s * period_s / (2.0 * PI)).ln()
    };
    // The sag is an eighth at N (1 + e) = w c cos: from a third of that, in case it stretches much.
    let least = (weight * cable.chord_m * cable.cos / 3.0).ln();
    let most = string_n.ln() + 1e-9;
    let found = match pluck.plane {
        PluckPlane::Sideways => vec![string_n.ln()],
        PluckPlane::Vertical if least < most => roots(least, most, |x| excess(x, 0.0)),
        PluckPlane::Vertical => Vec::new(),
    };
    let mut tensions = Vec::new();
    for ln_n in found {
        let n_n = ln_n.exp();
        let state = cable.at(n_n);
        if state.sag_ratio > SHALLOW {
            continue;
        }
        let by_tension = slope(ln_n, |x| excess(x, 0.0));
        let by_weight = slope(0.0, |x| excess(ln_n, x));
        let from_time = n_n * (time_share / by_tension).abs();
        let from_weight = n_n * (weight_share * by_weight / by_tension).abs();
        all_finite(&[n_n, from_time, from_weight, state.lambda2], "tension")?;
        tensions.push(PluckTension {
            chord_tension: Force::from_si(n_n),
            error: Force::from_si(from_time.hypot(from_weight)),
            error_from_time: Force::from_si(from_time),
            error_from_weight: Force::from_si(from_weight),
            lambda_squared: Ratio::from_si(state.lambda2),
            sag_ratio: Ratio::from_si(state.sag_ratio),
            string_bias: Force::from_si(string_n - n_n),
        });
    }
    if tensions.is_empty() {
        return Err(no_tension(period_s));
    }
    Ok(PluckReading {
        period: Time::from_si(period_s),
        string_tension: Force::from_si(string_n),
        tensions,
    })
}

pub(super) fn no_tension(period_s: f64) -> LineError {
    LineError::Unreachable {
        wanted: format!("period {}", print(Time::from_si(period_s))),
        reason: "no tension with a sag below an eighth of the chord has it".to_owned(),
    }
}

/// One period and the relative error of it.
pub(super) fn timed(time: Time, periods: u32, error: Time) -> Result<(f64, f64), LineError> {
    let time_s = positive("time", time)?;
    let error_s = non_negative("time_error", error)?;
    if periods == 0 {
        return Err(LineError::Invalid(Invalid::new("periods", "0", "1 or more")));
    }
    Ok((time_s / f64::from(periods), error_s / time_s))
}

/// N (1 + e(N)) = (w / g) (2 c / period)², rising with N.
fn string_tension(cable: &Shallow<'_>, period_s: f64) -> Result<f64, LineError> {
    let wanted = |ln_n: f64| (cable.at(ln_n.exp()).pace_per_s * 0.5 * period_s).ln().max(-1e3);
    let without_stretch =
        cable.w_n_per_m / crate::quantity::GRAVITY * (2.0 * cable.chord_m / period_s).powi(2);
    let top = without_stretch.ln();
    all_finite(&[top], "tension")?;
    // Stretch only lessens N: doubling steps down find the other side.
    let mut low = top;
    for _ in 0..60 {
        low -= 1.0 + (top - low);
        if wanted(low) < 0.0 {
            break;
        }
    }
    let n_n = crate::line::inverse::root(low, top + 1e-9, wanted)
        .ok_or(LineError::Overflow { result: "tension" })?
        .exp();
    all_finite(&[n_n], "tension")?;
    Ok(n_n)
}
