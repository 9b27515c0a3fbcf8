//! Letting a line go softly: rope to pay out, energy let off, force in the hand.

use serde::{Deserialize, Serialize};

use crate::line::chain::usual_samples;
use crate::line::tensioning::{Span, check_samples};
use crate::line::{ElasticLine, LineEnd, LineError, LineNote, rest_length_for_tension};
use crate::quantity::check::{finite, positive};
use crate::quantity::{Energy, Force, Invalid, Length, MaybeText, Quantity, Ratio, Text, print};

/// A line that stands, and how it is let go.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SoftRelease {
    /// The line as it stands.
    pub line: ElasticLine,
    /// The end that is let go.
    pub end: LineEnd,
    /// Tension at that end down to which it is let go. Left out: until the rest length is as long as the
    /// straight way between the anchors, where a line without weight has no tension.
    #[serde(with = "MaybeText::<Force>", default, skip_serializing_if = "Option::is_none")]
    pub to: Option<Force>,
    /// Tension on the line over tension in the hand of the friction device.
    #[serde(with = "Text::<Ratio>")]
    pub capstan_ratio: Ratio,
    /// Points of the curve; 101 if left out.
    #[serde(default = "usual_samples")]
    pub samples: usize,
}

/// The way down, in SI, and its sums.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SoftReleaseCurve {
    /// Rest length paid out.
    pub paid_out_m: Vec<f64>,
    /// Length of cordage that has gone past the anchor, under the tension it had there.
    pub through_m: Vec<f64>,
    /// Tension at the end that is let go.
    pub tension_n: Vec<f64>,
    /// Force in the hand of the friction device.
    pub hand_force_n: Vec<f64>,
    /// Largest vertical distance below the chord.
    pub sag_below_chord_m: Vec<f64>,
    /// Elastic energy stored.
    pub stored_j: Vec<f64>,
    /// Elastic energy stored in the beginning: the integral along the line.
    #[serde(with = "Text::<Energy>")]
    pub stored: Energy,
    /// The same as if the tension at the end that is let go stood everywhere: T² L / 2 EA of a linear
    /// line.
    #[serde(with = "Text::<Energy>")]
    pub stored_if_even: Energy,
    /// Elastic energy let off.
    #[serde(with = "Text::<Energy>")]
    pub released: Energy,
    /// Weight times height that the line comes down.
    #[serde(with = "Text::<Energy>")]
    pub let_down: Energy,
    /// Work done on the friction device and the hand: their sum, by quadrature.
    #[serde(with = "Text::<Energy>")]
    pub work: Energy,
    /// Rest length to pay out.
    #[serde(with = "Text::<Length>")]
    pub paid_out: Length,
    /// Largest force in the hand.
    #[serde(with = "Text::<Force>")]
    pub hand_force: Force,
    /// Rest length at the end.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// Work less energy let off and let down, over the larger of both.
    #[serde(with = "Text::<Ratio>")]
    pub imbalance: Ratio,
    /// Remarks.
    pub notes: Vec<LineNote>,
}

/// Stored energy of a line and its soft release over a friction device, Eq. (B3) and (B4).
///
/// # Errors
/// [`LineError::Invalid`] for a capstan ratio below one, a tension that is not below the present one and
/// a line that is already loose; [`LineError::Unreachable`] for a tension below the least the line's
/// weight leaves; else as [`solve_elastic`](crate::line::solve_elastic).
///
/// # Example
/// ```
/// use tautwork::line::{ElasticLine, LineEnd, SoftRelease, soft_release};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadEnergy, ReadForce, ReadLength, Words};
/// let standing = SoftRelease {
///     line: ElasticLine {
///         span: 101.0.meters(),
///         rise: 0.0.meters(),
///         rest_length: 100.0.meters(),
///         weight: 0.0.newtons_per_meter(),
///         stretch: Stretch::axial_rigidity(100.0.kilonewtons())?,
///     },
///     end: LineEnd::Near,
///     to: None,
///     capstan_ratio: 10.0.ratio(),
///     samples: 11,
/// };
/// // 1 kN: one metre to pay out, T² L / 2 EA = 500 J, 100 N in the hand.
/// let curve = soft_release(&standing)?;
/// assert!((curve.paid_out.in_meters() - 1.0).abs() < 1e-12);
/// assert!((curve.released.in_joules() - 500.0).abs() < 1e-6);
/// assert!((curve.hand_force.in_newtons() - 100.0).abs() < 1e-6);
/// assert!(soft_release(&SoftRelease { capstan_ratio: 0.5.ratio(), ..standing }).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn soft_release(input: &SoftRelease) -> Result<SoftReleaseCurve, LineError> {
    let span = Span::of(&input.line, input.end)?;
    let from_m = positive("rest_length", input.line.rest_length)?;
    let ratio = finite("capstan_ratio", input.capstan_ratio)?;
    if ratio < 1.0 {
        return Err(Invalid::new("capstan_ratio", print(input.capstan_ratio), "one or more").into());
    }
    let start = span.at(from_m)?;
    let to_m = match input.to {
        Some(to) if positive("to", to)? < start.pulled_n => {
            rest_length_for_tension(&input.line, to, input.end)?.si()
        }
        Some(to) => {
            let below =
                format!("below the present tension, {}", print(Force::from_si(start.pulled_n)));
            return Err(Invalid::new("to", print(to), below).into());
        }
        None => span.chord_m(),
    };
    if to_m <= from_m {
        let shorter = format!("below {to_m} m, at which nothing is left to let go");
        return Err(Invalid::new("rest_length", print(input.line.rest_length), shorter).into());
    }
    let drawn = span.draw(from_m, to_m, check_samples(input.samples)?)?;
    let last = drawn.rest_m.len() - 1;
    let most_n = drawn.near_n.iter().chain(&drawn.far_n).copied().fold(0.0, f64::max);
    let hands: Vec<f64> = drawn.pulled_n.iter().map(|t| t / ratio).collect();
    let even_j = span.law.energy_n(start.pulled_n) * from_m;
    Ok(SoftReleaseCurve {
        paid_out_m: drawn.rest_m.iter().map(|l| l - from_m).collect(),
        through_m: drawn.through_m.iter().map(|l| 0.0 - l).collect(),
        tension_n: drawn.pulled_n,
        hand_force: Force::from_si(hands.iter().copied().fold(0.0, f64::max)),
        hand_force_n: hands,
        sag_below_chord_m: drawn.sag_m,
        stored: Energy::from_si(drawn.stored_j[0]),
        stored_if_even: Energy::from_si(even_j),
        released: Energy::from_si(drawn.stored_j[0] - drawn.stored_j[last]),
        let_down: Energy::from_si(drawn.height_j[0] - drawn.height_j[last]),
        stored_j: drawn.stored_j,
        work: Energy::from_si(-drawn.work_j[last]),
        paid_out: Length::from_si(to_m - from_m),
        rest_length: Length::from_si(to_m),
        imbalance: Ratio::from_si(drawn.imbalance),
        notes: LineNote::past_table(span.law, most_n).into_iter().collect(),
    })
}
