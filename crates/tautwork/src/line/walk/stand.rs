//! Feet that hold the line.

use super::path::{Path, Spot};
use super::state::{Walk, WalkPlace, WalkState};
use crate::line::LineError;
use crate::line::inverse::root;

/// Steps of rest length at which x(a) is looked at for changes of sign.
const LOOKS: u32 = 64;

/// The line with someone standing on it at a place along the span: the feet hold the line, Eq. (W1).
///
/// There is one answer for each equilibrium; more than one is rare.
///
/// # Errors
/// [`LineError::Invalid`] for a place that is not between the anchors, and as
/// [`solve_chain`](crate::line::solve_chain); [`LineError::Unreachable`] if the load comes to rest at no
/// such place.
///
/// # Example
/// ```
/// use tautwork::line::{ChainPiece, Walk, WalkPlace, stand};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, ReadLength, Words};
/// let none = 0.0.newtons_per_meter();
/// let walk = Walk {
///     near: [0.0.meters(); 3],
///     far: [6.0.meters(), 0.0.meters(), 0.0.meters()],
///     pieces: vec![ChainPiece::new(
///         10.0.meters(),
///         none,
///         Stretch::axial_rigidity(1e9.newtons())?,
///     )],
///     loads: vec![],
///     weight: 1.0.kilonewtons(),
/// };
/// // Two sides of 5 m over 6 m: 4 m deep, 625 N.
/// let found = stand(&walk, WalkPlace::Fraction(0.5.ratio()))?;
/// assert!((found[0].below_chord.in_meters() - 4.0).abs() < 1e-4);
/// assert!((found[0].tension_before.in_newtons() - 625.0).abs() < 1e-2);
/// assert!(stand(&walk, WalkPlace::Distance(7.0.meters())).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn stand(walk: &Walk, place: WalkPlace) -> Result<Vec<WalkState>, LineError> {
    let path = Path::new(walk)?;
    let x_m = path.distance_m(place)?;
    let found = crossings(&path, x_m, |a_m| path.at(a_m, 0.0))?;
    found.iter().map(|spot| path.state(spot)).collect()
}

/// Every spot at which the load is x along the span.
pub(super) fn crossings(
    path: &Path,
    x_m: f64,
    at: impl Fn(f64) -> Result<Spot, LineError>,
) -> Result<Vec<Spot>, LineError> {
    let off = |spot: &Spot| (path.x_m(spot) - x_m) / path.span_m;
    let mut found = Vec::new();
    // At both anchors the load is where they are.
    let mut last = (0.0, -x_m / path.span_m);
    for i in 1..=LOOKS {
        let a_m = path.length_m * f64::from(i) / f64::from(LOOKS);
        let value = if i == LOOKS {
            1.0 - x_m / path.span_m
        } else {
            let Some(spot) = Path::solvable(at(a_m))? else { continue };
            off(&spot)
        };
        if (value > 0.0) != (last.1 > 0.0) {
            let width_m = a_m - last.0;
            let share = root(0.0, 1.0, |share| match share {
                0.0 => last.1,
                1.0 => value,
                share => at(last.0 + share * width_m).map_or(f64::NAN, |spot| off(&spot)),
            });
            if let Some(share) = share {
                found.extend(Path::solvable(at(last.0 + share * width_m))?);
            }
        }
        last = (a_m, value);
    }
    let near = |spot: &Spot| (path.x_m(spot) - x_m).abs() <= 1e-9 * path.length_m.max(path.span_m);
    found.retain(near);
    if found.is_empty() {
        return Err(LineError::Unreachable {
            wanted: format!("a load {x_m} m along the span"),
            reason: "with the load anywhere on the line it comes to rest elsewhere".to_owned(),
        });
    }
    Ok(found)
}
