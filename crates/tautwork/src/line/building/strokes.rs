//! Stroke after stroke with a tackle: what is pulled, what the line takes, when the hands give up.

use serde::{Deserialize, Serialize};

use crate::line::inverse::root;
use crate::line::tensioning::Span;
use crate::line::{ElasticLine, LineEnd, LineError, LineNote};
use crate::quantity::check::{self, finite, fraction, non_negative, positive};
use crate::quantity::{Force, Invalid, Length, Quantity, Ratio, Text};

/// A line and the tackle that draws it in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Strokes {
    /// The line; its rest length is where the strokes begin.
    pub line: ElasticLine,
    /// The end that is drawn.
    pub end: LineEnd,
    /// Tension wanted at that end once the hands have let go.
    #[serde(with = "Text::<Force>")]
    pub wanted: Force,
    /// Way of the tackle along the line in one stroke.
    #[serde(with = "Text::<Length>")]
    pub throw: Length,
    /// Mechanical advantage without friction.
    #[serde(with = "Text::<Ratio>")]
    pub mechanical_advantage: Ratio,
    /// Efficiency of the whole tackle.
    #[serde(with = "Text::<Ratio>")]
    pub efficiency: Ratio,
    /// People who pull.
    pub people: u32,
    /// Pull that one of them keeps up.
    #[serde(with = "Text::<Force>")]
    pub pull_each: Force,
    /// Length of line that runs back at each reset, until the progress capture holds; none if left out.
    #[serde(with = "Text::<Length>", default = "no_length")]
    pub back_slip: Length,
    /// Strokes at most; 200 if left out.
    #[serde(default = "usual_strokes")]
    pub most_strokes: u32,
}

fn no_length() -> Length {
    Length::from_si(0.0)
}

fn usual_strokes() -> u32 {
    200
}

/// Why the strokes end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StrokesEnd {
    /// The line has the wanted tension.
    Reached,
    /// The pull of the people is reached before it.
    PullReached,
    /// Each stroke loses in the reset all that it has gained.
    NoGain,
    /// The strokes allowed are used up.
    StrokesUsedUp,
}

/// One value for each stroke, in SI, and how it ends.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct StrokeList {
    /// Why the strokes end.
    pub outcome: StrokesEnd,
    /// Rope pulled through the tackle in this stroke.
    pub rope_pulled_m: Vec<f64>,
    /// Rest length drawn in since the start, back-slip taken off.
    pub drawn_in_m: Vec<f64>,
    /// Tension at the drawn end while the hands hold, at the end of the stroke.
    pub peak_tension_n: Vec<f64>,
    /// Tension there once the progress capture holds.
    pub tension_n: Vec<f64>,
    /// Pull of all hands at the end of the stroke.
    pub hand_force_n: Vec<f64>,
    /// Sag below the chord after the stroke.
    pub sag_below_chord_m: Vec<f64>,
    /// Rope pulled through the tackle in all.
    #[serde(with = "Text::<Length>")]
    pub rope_pulled: Length,
    /// Rest length at the end.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// Tension at the end.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Line tension at which the people's pull is reached, Eq. (B1).
    #[serde(with = "Text::<Force>")]
    pub pull_limit: Force,
    /// Remarks.
    pub notes: Vec<LineNote>,
}

/// Tension stroke by stroke with a tackle, Eq. (B1) and (B2).
///
/// The last stroke is as long as it needs to be. It stops where the pull of the people is reached and
/// says so.
///
/// # Errors
/// [`LineError::Invalid`] for values out of range; [`LineError::Unreachable`] if a stroke would draw in
/// the whole line; else as [`solve_elastic`](crate::line::solve_elastic).
///
/// # Example
/// ```
/// use tautwork::line::{ElasticLine, LineEnd, Strokes, StrokesEnd, tension_by_strokes};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, Words};
/// let tackle = Strokes {
///     line: ElasticLine {
///         span: 100.0.meters(),
///         rise: 0.0.meters(),
///         rest_length: 100.0.meters(),
///         weight: 0.0.newtons_per_meter(),
///         stretch: Stretch::axial_rigidity(100.0.kilonewtons())?,
///     },
///     end: LineEnd::Near,
///     wanted: 5.0.kilonewtons(),
///     throw: 1.0.meters(),
///     mechanical_advantage: 5.0.ratio(),
///     efficiency: 0.6.ratio(),
///     people: 2,
///     pull_each: 500.0.newtons(),
///     back_slip: 0.0.meters(),
///     most_strokes: 50,
/// };
/// // Two people hold 2 · 500 N · 5 · 0.6 = 3 kN.
/// let strokes = tension_by_strokes(&tackle)?;
/// assert_eq!(strokes.outcome, StrokesEnd::PullReached);
/// assert!((strokes.tension.in_kilonewtons() - 3.0).abs() < 1e-6);
/// assert!(tension_by_strokes(&Strokes { efficiency: 1.2.ratio(), ..tackle }).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn tension_by_strokes(input: &Strokes) -> Result<StrokeList, LineError> {
    let span = Span::of(&input.line, input.end)?;
    let start_m = positive("rest_length", input.line.rest_length)?;
    let want_n = positive("wanted", input.wanted)?;
    let throw_m = positive("throw", input.throw)?;
    let slip_m = non_negative("back_slip", input.back_slip)?;
    let advantage = positive("mechanical_advantage", input.mechanical_advantage)?;
    let gain = advantage * fraction("efficiency", input.efficiency)?;
    let pull_n = positive("pull_each", input.pull_each)? * f64::from(input.people);
    if input.people == 0 {
        return Err(Invalid::new("people", "0", "at least one").into());
    }
    let most_strokes = check::count("most_strokes", input.most_strokes as usize, 1, 10_000)?;
    let limit_n = finite("pull of the people on the line", Force::from_si(pull_n * gain))?;
    let mut list = StrokeList {
        outcome: StrokesEnd::StrokesUsedUp,
        rope_pulled_m: vec![],
        drawn_in_m: vec![],
        peak_tension_n: vec![],
        tension_n: vec![],
        hand_force_n: vec![],
        sag_below_chord_m: vec![],
        rope_pulled: Length::from_si(0.0),
        rest_length: input.line.rest_length,
        tension: Force::from_si(0.0),
        pull_limit: Force::from_si(limit_n),
        notes: vec![],
    };
    let stretched = |t_n: f64| 1.0 + span.law.strain(t_n);
    let mut rest_m = start_m;
    let mut held_n = span.at(rest_m)?.pulled_n;
    let mut most_n = 0.0_f64;
    for _ in 0..=most_strokes {
        if held_n >= want_n * (1.0 - CLOSE) {
            list.outcome = StrokesEnd::Reached;
            break;
        }
        if held_n >= limit_n * (1.0 - CLOSE) {
            list.outcome = StrokesEnd::PullReached;
            break;
        }
        if list.tension_n.len() == most_strokes {
            break;
        }
        // Eq. (B2): the tackle grips one throw in front of the anchor.
        let full_m = throw_m / stretched(held_n);
        if full_m >= rest_m {
            return Err(LineError::Unreachable {
                wanted: "the stroke".to_owned(),
                reason: "it would draw in the whole line".to_owned(),
            });
        }
        let pulled = |share: f64| span.at(rest_m - share * full_m).map(|held| held.pulled_n);
        let reset = |share: f64| -> Result<f64, LineError> {
            Ok(rest_m - share * full_m + slip_m / stretched(pulled(share)?))
        };
        let after = |share: f64| span.at(reset(share)?).map(|held| held.pulled_n);
        let mut share = 1.0;
        let mut stalls = false;
        if pulled(1.0)? > limit_n {
            share = reaches(&pulled, 1.0, limit_n)?;
            stalls = true;
        }
        if after(share)? > want_n {
            share = reaches(&after, share, want_n)?;
            stalls = false;
        }
        let (peak_n, next_m) = (pulled(share)?, reset(share)?);
        let held = span.at(next_m)?;
        let rope_m = advantage * share * throw_m;
        let gains = next_m < rest_m;
        list.rope_pulled += Length::from_si(rope_m);
        list.rope_pulled_m.push(rope_m);
        list.drawn_in_m.push(start_m - next_m);
        list.peak_tension_n.push(peak_n);
        list.tension_n.push(held.pulled_n);
        list.hand_force_n.push(peak_n / gain);
        list.sag_below_chord_m.push(held.sag_m);
        most_n = most_n.max(peak_n).max(held.near_n).max(held.far_n);
        (rest_m, held_n) = (next_m, held.pulled_n);
        if stalls {
            list.outcome = StrokesEnd::PullReached;
            break;
        }
        if !gains {
            list.outcome = StrokesEnd::NoGain;
            break;
        }
    }
    list.rest_length = Length::from_si(rest_m);
    list.tension = Force::from_si(held_n);
    list.notes.extend(LineNote::past_table(span.law, most_n));
    if list.rope_pulled.si().is_finite() {
        Ok(list)
    } else {
        Err(LineError::Overflow { result: "rope pulled" })
    }
}

/// Tension counts as reached within this share of it: the root of a stroke is found no closer.
const CLOSE: f64 = 1e-9;

/// The share of a stroke, up to `most`, at which a tension comes to a value that it passes there.
fn reaches(
    tension_n: &dyn Fn(f64) -> Result<f64, LineError>,
    most: f64,
    want_n: f64,
) -> Result<f64, LineError> {
    let f = |share: f64| tension_n(share).map_or(f64::NAN, |t| (t / want_n - 1.0).min(1e3));
    root(0.0, most, f).ok_or_else(|| LineError::Unreachable {
        wanted: format!("a line tension of {want_n} N"),
        reason: "no part of the stroke gives it".to_owned(),
    })
}
