//! A pulley, or a ring, that runs on the line.

use serde::{Deserialize, Serialize};

use super::path::{Path, Spot};
use super::stand::crossings;
use super::state::{Walk, WalkPlace, WalkState};
use crate::line::LineError;
use crate::line::inverse::try_root;
use crate::quantity::Ratio;
use crate::quantity::check::non_negative;

/// A pulley held at a place along the span: between these two forces it does not run.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RollRange {
    /// With the least force towards the far anchor (the most towards the near one).
    pub least: WalkState,
    /// With the most force towards the far anchor. Without friction the same as the least.
    pub most: WalkState,
}

/// A range in which a pulley rests with nothing holding it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RollRest {
    /// The end of the range on the near side.
    pub from: WalkState,
    /// The end of the range on the far side. Without friction the same.
    pub to: WalkState,
    /// Whether it comes back when moved a little beyond the range; if not, it runs off.
    pub stable: bool,
}

/// Nearest to an anchor that a pulley is looked for, over the rest length.
const NEAREST: f64 = 1e-3;
/// Steps of rest length at which the balance of a free pulley is looked at.
const LOOKS: u32 = 128;

/// The line with a pulley on it at a place along the span, and the force that holds it there, Eq. (W2).
///
/// # Errors
/// As [`stand`](super::stand()); [`LineError::Invalid`] for a friction below zero.
///
/// # Example
/// ```
/// # use tautwork::line::{ChainPiece, Walk, WalkPlace, roll};
/// # use tautwork::material::Stretch;
/// # use tautwork::quantity::{ReadForce, ReadLength, Words};
/// # let none = 0.0.newtons_per_meter();
/// # let walk = Walk {
/// #     near: [0.0.meters(); 3],
/// #     far: [6.0.meters(), 0.0.meters(), 0.0.meters()],
/// #     pieces: vec![ChainPiece::new(
/// #         10.0.meters(),
/// #         none,
/// #         Stretch::axial_rigidity(1e9.newtons())?,
/// #     )],
/// #     loads: vec![],
/// #     weight: 1.0.kilonewtons(),
/// # };
/// // A loop of 10 m over 6 m: the pulley runs on an ellipse with half axes of 5 m and 4 m.
/// let held = roll(&walk, WalkPlace::Distance(5.0.meters()), 0.0.ratio())?;
/// let depth = 4.0 * (1.0 - (2.0_f64 / 5.0).powi(2)).sqrt();
/// assert!((held.least.below_chord.in_meters() - depth).abs() < 1e-3);
/// // It has to be pushed up the ellipse: F = P · dz/dx.
/// let slope = 4.0 / 5.0 * 2.0 / (25.0_f64 - 4.0).sqrt();
/// assert!((held.least.hold.in_newtons() - 1000.0 * slope).abs() < 1.0);
/// assert!(roll(&walk, WalkPlace::Distance(5.0.meters()), (-0.1).ratio()).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn roll(walk: &Walk, place: WalkPlace, friction: Ratio) -> Result<RollRange, LineError> {
    let mu = non_negative("friction", friction)?;
    let path = Path::new(walk)?;
    let x_m = path.distance_m(place)?;
    let end = |limit: f64| -> Result<Spot, LineError> {
        let found = crossings(&path, x_m, |a_m| path.held(a_m, limit, mu))?;
        // Of two places one above the other, the lower one: a pulley hangs.
        let lowest = found.into_iter().min_by(|a, b| a.z_m().total_cmp(&b.z_m()));
        lowest.ok_or_else(|| LineError::Unreachable {
            wanted: format!("a pulley {x_m} m along the span"),
            reason: "it comes to rest elsewhere".to_owned(),
        })
    };
    let (a, b) = (end(-1.0)?, end(1.0)?);
    let (least, most) = if a.hold_n() <= b.hold_n() { (a, b) } else { (b, a) };
    Ok(RollRange { least: path.state(&least)?, most: path.state(&most)? })
}

/// Where a pulley comes to rest by itself: a range for every place of balance, Eq. (W3).
///
/// Where there is none the pulley runs to an anchor; the list is then empty.
///
/// # Errors
/// As [`roll`].
///
/// # Example
/// ```
/// # use tautwork::line::{ChainPiece, Walk, roll_rests};
/// # use tautwork::material::Stretch;
/// # use tautwork::quantity::{ReadLength, Words};
/// # let none = 0.0.newtons_per_meter();
/// # let walk = Walk {
/// #     near: [0.0.meters(); 3],
/// #     far: [6.0.meters(), 0.0.meters(), 0.0.meters()],
/// #     pieces: vec![ChainPiece::new(
/// #         10.0.meters(),
/// #         none,
/// #         Stretch::axial_rigidity(1e9.newtons())?,
/// #     )],
/// #     loads: vec![],
/// #     weight: 1.0.kilonewtons(),
/// # };
/// let rests = roll_rests(&walk, 0.0.ratio())?;
/// assert_eq!(rests.len(), 1);
/// assert!(rests[0].stable && (rests[0].from.position[0].in_meters() - 3.0).abs() < 1e-6);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn roll_rests(walk: &Walk, friction: Ratio) -> Result<Vec<RollRest>, LineError> {
    let mu = non_negative("friction", friction)?;
    let path = Path::new(walk)?;
    let (low_m, high_m) = (NEAREST * path.length_m, (1.0 - NEAREST) * path.length_m);
    let mut spots = Vec::new();
    for i in 0..=LOOKS {
        let a_m = low_m + (high_m - low_m) * f64::from(i) / f64::from(LOOKS);
        spots.extend(Path::solvable(path.at(a_m, 0.0))?);
    }
    let excess = |spot: &Spot, limit: f64| spot.ln_ratio() - limit * mu * spot.wrap_rad();
    let mut rests = Vec::new();
    for (middle, pair) in spots.windows(2).enumerate() {
        let (first, second) = (pair[0].ln_ratio(), pair[1].ln_ratio());
        if (first > 0.0) == (second > 0.0) {
            continue;
        }
        let stable = first > 0.0;
        // From the balance outwards to both limits of friction, or to the ends looked at. On the near
        // side of a stable balance the near side is too tight.
        let (near_limit, far_limit) = if stable { (1.0, -1.0) } else { (-1.0, 1.0) };
        let from = spots[..=middle]
            .iter()
            .rposition(|s| (excess(s, near_limit) > 0.0) == (near_limit > 0.0));
        let to = spots[middle + 1..]
            .iter()
            .position(|s| (excess(s, far_limit) > 0.0) == (far_limit > 0.0))
            .map(|i| i + middle + 1);
        let end = |cell: Option<(usize, usize)>, limit: f64, edge: &Spot| match cell {
            Some((i, j)) => between(&path, &spots[i], &spots[j], |s| excess(s, limit)),
            None => path.at(edge.a_m(), 0.0),
        };
        let last = spots.len() - 1;
        let from = end(from.map(|i| (i, i + 1)), near_limit, &spots[0])?;
        let to = end(to.map(|i| (i - 1, i)), far_limit, &spots[last])?;
        rests.push(RollRest { from: path.state(&from)?, to: path.state(&to)?, stable });
    }
    Ok(rests)
}

/// The spot between two others at which a function changes sign.
fn between(path: &Path, a: &Spot, b: &Spot, f: impl Fn(&Spot) -> f64) -> Result<Spot, LineError> {
    let width_m = b.a_m() - a.a_m();
    let at = |share: f64| path.at(a.a_m() + share * width_m, 0.0);
    let missed = LineError::NotConverged { residual: width_m, unit: "m", iterations: 200 };
    at(try_root(0.0, 1.0, |share| Ok(f(&at(share)?)))?.ok_or(missed)?)
}
