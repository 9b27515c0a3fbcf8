//! Tension and sag after an anchor gives way, after creep and set, warmer, colder, wet.

use serde::{Deserialize, Serialize};

use crate::line::error::all_finite;
use crate::line::net::vector;
use crate::line::{Chain, ChainSolution, LineError, LineNote, solve_chain};
use crate::material::Condition;
use crate::quantity::check::positive;
use crate::quantity::{
    Force, Length, LineLoad, Quantity, Ratio, Stiffness, TemperatureDifference, Text, Triple,
};

/// What happens to a line that stands. Nothing, where left out.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Changes {
    /// Way of the near anchor: along the span, to the left, up.
    #[serde(with = "Triple::<Length>")]
    pub near_moves: [Length; 3],
    /// Way of the far anchor.
    #[serde(with = "Triple::<Length>")]
    pub far_moves: [Length; 3],
    /// Warmth, water, creep and set of all its pieces.
    pub condition: Condition,
}

impl Default for Changes {
    fn default() -> Self {
        let still = [Length::from_si(0.0); 3];
        Self { near_moves: still, far_moves: still, condition: Condition::default() }
    }
}

/// A line at rest, in short.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct StandingLine {
    /// Tension at the near anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_near: Force,
    /// Tension at the far anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_far: Force,
    /// Largest vertical distance below the chord.
    #[serde(with = "Text::<Length>")]
    pub sag_below_chord: Length,
    /// Lowest point.
    #[serde(with = "Triple::<Length>")]
    pub lowest: [Length; 3],
    /// Rest length.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// Distance by which the computed line misses the far anchor, over the larger of rest length and
    /// chord.
    #[serde(with = "Text::<Ratio>")]
    pub residual: Ratio,
    /// Remarks.
    pub notes: Vec<LineNote>,
}

/// How the tension at the near anchor follows small changes of the line as it stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ChangeRates {
    /// Tension for each length by which the far anchor gives way along the line's pull on it; below
    /// zero.
    #[serde(with = "Text::<Stiffness>")]
    pub by_far_anchor: Stiffness,
    /// Tension for one per cent of rest length more.
    #[serde(with = "Text::<Force>")]
    pub by_percent_longer: Force,
    /// Tension for one kelvin more, at the expansion given.
    #[serde(with = "Text::<Force>")]
    pub by_kelvin: Force,
}

/// A line before and after.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ChangedLine {
    /// As it stood.
    pub before: StandingLine,
    /// As it stands now.
    pub after: StandingLine,
    /// Tension at the near anchor, now less before.
    #[serde(with = "Text::<Force>")]
    pub tension_change: Force,
    /// Sag below the chord, now less before.
    #[serde(with = "Text::<Length>")]
    pub sag_change: Length,
    /// Rest length now over rest length before.
    #[serde(with = "Text::<Ratio>")]
    pub rest_length_factor: Ratio,
    /// Slopes in the state before.
    pub rates: ChangeRates,
}

/// Tension and sag of a line after its anchors have moved and its cordage has become warmer, wet, or
/// longer by creep and set, Eq. (T4) and (T5).
///
/// The line may carry loads, which keep their places on the cordage. Its total weight stays: water that
/// it takes up is to be added to its weight by hand.
///
/// # Errors
/// As [`solve_chain`] and
/// [`Condition::rest_length_factor`](crate::material::Condition::rest_length_factor).
///
/// # Example
/// ```
/// use tautwork::line::{Chain, ChainPiece, Changes, change_line};
/// use tautwork::material::{Condition, Stretch};
/// use tautwork::quantity::{ReadForce, Words};
/// let none = 0.0.newtons_per_meter();
/// let line = Chain {
///     near: [0.0.meters(); 3],
///     far: [101.0.meters(), 0.0.meters(), 0.0.meters()],
///     pieces: vec![ChainPiece::new(100.0.meters(), none, Stretch::axial_rigidity(100.0.kilonewtons())?)],
///     loads: vec![],
///     samples: 2,
/// };
/// // The far anchor gives 0.5 m: EA Δ / L = 500 N less.
/// let gives = [(-0.5).meters(), 0.0.meters(), 0.0.meters()];
/// let changed = change_line(&line, &Changes { far_moves: gives, ..Changes::default() })?;
/// assert!((changed.tension_change.in_newtons() + 500.0).abs() < 1e-6);
/// let crept = Condition { creep: (-1.0).percent(), ..Condition::default() };
/// assert!(change_line(&line, &Changes { condition: crept, ..Changes::default() }).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn change_line(line: &Chain, changes: &Changes) -> Result<ChangedLine, LineError> {
    let factor = changes.condition.rest_length_factor()?;
    let (near, far) =
        (vector("near_moves", &changes.near_moves)?, vector("far_moves", &changes.far_moves)?);
    let solved = solve_chain(line)?;
    let before = standing(line, &solved);
    let changed = changed(line, near.into(), far.into(), factor.si());
    let after = standing(&changed, &solve_chain(&changed)?);
    let rates = rates(line, &solved, &changes.condition)?;
    Ok(ChangedLine {
        tension_change: after.tension_near - before.tension_near,
        sag_change: after.sag_below_chord - before.sag_below_chord,
        before,
        after,
        rest_length_factor: factor,
        rates,
    })
}

pub(in crate::line) fn standing(line: &Chain, solved: &ChainSolution) -> StandingLine {
    let rest_m: f64 = line.pieces.iter().map(|p| p.rest_length.si()).sum();
    StandingLine {
        tension_near: solved.tension_near,
        tension_far: solved.tension_far,
        sag_below_chord: solved.sag_below_chord,
        lowest: solved.lowest,
        rest_length: Length::from_si(rest_m),
        residual: solved.residual,
        notes: solved.notes.clone(),
    }
}

/// Eq. (T4): anchors moved, rest lengths times a factor, the weight and the wind on each piece kept.
fn changed(line: &Chain, near_m: [f64; 3], far_m: [f64; 3], factor: f64) -> Chain {
    let moved = |place: &[Length; 3], way: [f64; 3]| {
        [0, 1, 2].map(|i| Length::from_si(place[i].si() + way[i]))
    };
    let mut changed = line.clone();
    changed.near = moved(&line.near, near_m);
    changed.far = moved(&line.far, far_m);
    let lighter = |q: LineLoad| LineLoad::from_si(q.si() / factor);
    for piece in &mut changed.pieces {
        piece.rest_length = Length::from_si(piece.rest_length.si() * factor);
        piece.weight = lighter(piece.weight);
        piece.wind = piece.wind.map(lighter);
    }
    let total: f64 = changed.pieces.iter().map(|p| p.rest_length.si()).sum();
    for load in &mut changed.loads {
        // Rounding must not put a load beyond the end.
        load.at = Length::from_si((load.at.si() * factor).min(total));
    }
    changed
}

/// Slopes by central differences, Eq. (T5).
fn rates(
    line: &Chain,
    solved: &ChainSolution,
    condition: &Condition,
) -> Result<ChangeRates, LineError> {
    let tension = |far_m: [f64; 3], factor: f64| -> Result<f64, LineError> {
        match solve_chain(&changed(line, [0.0; 3], far_m, factor)) {
            Ok(solved) => Ok(solved.tension_near.si()),
            // Loose by the change itself.
            Err(LineError::NotUnique) => Ok(0.0),
            Err(other) => Err(other),
        }
    };
    let scale_m: f64 = line.pieces.iter().map(|p| p.rest_length.si()).sum();
    positive("rest_length", Length::from_si(scale_m))?;
    let pull = solved.pull_far.map(Quantity::si);
    let pull_n = pull.iter().fold(0.0_f64, |sum, p| sum.hypot(*p));
    let step = STEP;
    let by_far_anchor = if pull_n > 0.0 {
        let way = pull.map(|p| p / pull_n * step * scale_m);
        let back = way.map(|w| -w);
        (tension(way, 1.0)? - tension(back, 1.0)?) / (2.0 * step * scale_m)
    } else {
        0.0
    };
    let still = [0.0; 3];
    let by_length = (tension(still, 1.0 + step)? - tension(still, 1.0 - step)?) / (2.0 * step);
    let one_kelvin = condition.expansion * TemperatureDifference::from_si(1.0);
    let rates = [by_far_anchor, 0.01 * by_length, by_length * one_kelvin.si()];
    all_finite(&rates, "rate of change")?;
    Ok(ChangeRates {
        by_far_anchor: Stiffness::from_si(rates[0]),
        by_percent_longer: Force::from_si(rates[1]),
        by_kelvin: Force::from_si(rates[2]),
    })
}

/// Share of the rest length by which the slopes are taken: the closure of 1e-13 leaves 1e-7 of a slope,
/// the curvature less.
const STEP: f64 = 1e-6;
