//! Where a motion that nothing damps turns, on the straight way from the rest before a loss to the one after it.

use super::AnchorError;

/// A turning point.
pub(super) struct Turn {
    /// Part of the way from rest to rest: above one, or one where nothing is set free.
    pub(super) part: f64,
    /// Energy set free at the new rest, J.
    pub(super) released_j: f64,
    /// What the energy at the turning point misses, as part of the energy released.
    pub(super) residual: f64,
}

/// Newton steps to the turning point; from the far side of a convex function, so each one helps.
const BUDGET: usize = 100;

/// Where the energy is again what it was, past the new rest.
///
/// `gain` is the energy gained since the start of the way, convex in the part of the way, and least at one;
/// `slope` is its derivative, and `rounding_j` what rounding makes of it.
pub(super) fn turning_point(
    gain: impl Fn(f64) -> f64,
    slope: impl Fn(f64) -> f64,
    rounding_j: f64,
) -> Result<Turn, AnchorError> {
    let released_j = -gain(1.0);
    // The loss of what carried nothing sets nothing free but rounding.
    if released_j <= rounding_j {
        return Ok(Turn { part: 1.0, released_j: 0.0, residual: 0.0 });
    }
    let mut s = 2.0;
    // Stored energy grows with the square of the way, so it overtakes the work of the load.
    for _ in 0..BUDGET {
        if gain(s) >= 0.0 {
            break;
        }
        s *= 2.0;
    }
    for _ in 0..BUDGET {
        let next = s - gain(s) / slope(s);
        if !(next < s && next > 1.0) {
            break;
        }
        s = next;
    }
    let residual = gain(s).abs() / released_j;
    // Written so that NaN fails too.
    if residual <= (rounding_j / released_j).max(1e-9) {
        Ok(Turn { part: s, released_j, residual })
    } else {
        let what = "the turning point";
        Err(AnchorError::NotConverged { what, iterations: BUDGET, residual })
    }
}
