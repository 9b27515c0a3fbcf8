//! Where a sliding ring rests, and the range in which it may.

use serde::{Deserialize, Serialize};

use super::hold::{RingLine, RingsState};
use super::slip::{Aim, Rings};
use crate::line::LineError;
use crate::line::net::vector;
use crate::quantity::{Force, Length, Quantity, Text};

/// Where a ring may rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RingsSolution {
    /// Where it comes to rest from the place given.
    pub here: RingsState,
    /// The end of the range on the side of the near anchors: where it stays when it was drawn there.
    pub toward_near: RingsState,
    /// The end of the range on the side of the far anchors.
    pub toward_far: RingsState,
    /// Distance between the two ends.
    #[serde(with = "Text::<Length>")]
    pub range: Length,
}

/// Where the ring of a bundle rests that slides on some of its lines: the place it slides to from the
/// one given, and both ends of the range that friction leaves, Eq. (R2) to (R5).
///
/// # Errors
/// As [`solve_bundle`](crate::line::solve_bundle); [`LineError::Invalid`] for a friction below zero and
/// for stops that do not have the ring between them.
///
/// # Example
/// ```
/// use tautwork::line::{BundleLine, RingHold, RingLine, solve_rings};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{Quantity, ReadLength, Words};
/// // A loop of 10 m over a gap of 6 m with 1 kN on a ring that runs freely: it rests in the middle, 4 m
/// // down, wherever it was before.
/// let line = BundleLine {
///     name: "loop".to_owned(),
///     near: [0.0.meters(); 3],
///     far: [6.0.meters(), 0.0.meters(), 0.0.meters()],
///     near_length: 4.5.meters(),
///     far_length: 5.5.meters(),
///     weight: 0.0.newtons_per_meter(),
///     stretch: Stretch::axial_rigidity(1e9.newtons())?,
/// };
/// let free = RingHold::Slides { friction: 0.0.ratio(), from: None, to: None };
/// let down = [0.0.newtons(), 0.0.newtons(), (-1e3).newtons()];
/// let solved = solve_rings(&[RingLine { line: line.clone(), hold: free }], down)?;
/// assert!((solved.here.bundle.ring[0].in_meters() - 3.0).abs() < 1e-4);
/// assert!((solved.here.bundle.ring[2].in_meters() + 4.0).abs() < 1e-4);
/// assert!(solved.range.in_meters() < 1e-4);
/// // With friction it stays anywhere within a range.
/// let rough = RingHold::Slides { friction: 0.1.ratio(), from: None, to: None };
/// assert!(solve_rings(&[RingLine { line, hold: rough }], down)?.range.in_meters() > 0.2);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn solve_rings(lines: &[RingLine], load: [Force; 3]) -> Result<RingsSolution, LineError> {
    let load_n = vector("load", &load)?;
    let rest = |aim: Aim| -> Result<RingsState, LineError> {
        let mut rings = Rings::new(lines)?;
        let rounds = rings.settle(load_n, aim)?;
        rings.state(rounds)
    };
    let (here, toward_near, toward_far) = (rest(Aim::Here)?, rest(Aim::Near)?, rest(Aim::Far)?);
    let range = (toward_far.ring_m() - toward_near.ring_m()).norm();
    Ok(RingsSolution { here, toward_near, toward_far, range: Length::from_si(range) })
}

/// [`solve_rings`] for one load after the other: the ring slides from where the last load left it.
///
/// # Errors
/// As [`solve_rings`]; [`LineError::At`] names the index of a load that has no solution.
///
/// # Example
/// ```
/// # use tautwork::line::{BundleLine, RingHold, RingLine, sweep_rings};
/// # use tautwork::material::Stretch;
/// # use tautwork::quantity::{Quantity, ReadLength, Words};
/// # let line = BundleLine {
/// #     name: "loop".to_owned(),
/// #     near: [0.0.meters(); 3],
/// #     far: [6.0.meters(), 0.0.meters(), 0.0.meters()],
/// #     near_length: 5.0.meters(),
/// #     far_length: 5.0.meters(),
/// #     weight: 0.0.newtons_per_meter(),
/// #     stretch: Stretch::axial_rigidity(1e6.newtons())?,
/// # };
/// // Drawn aside and let go, a ring with friction does not come back all the way.
/// let rough = RingHold::Slides { friction: 0.1.ratio(), from: None, to: None };
/// let load = |x: f64| [x.newtons(), 0.0.newtons(), (-1e3).newtons()];
/// let steps = sweep_rings(&[RingLine { line, hold: rough }], &[load(0.0), load(500.0), load(0.0)])?;
/// let x = |i: usize| steps[i].bundle.ring[0].in_meters();
/// assert!(x(1) > x(2) && x(2) > x(0) + 0.1);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn sweep_rings(lines: &[RingLine], loads: &[[Force; 3]]) -> Result<Vec<RingsState>, LineError> {
    let mut rings = Rings::new(lines)?;
    let mut one = |load: &[Force; 3]| {
        let rounds = rings.settle(vector("load", load)?, Aim::Here)?;
        rings.state(rounds)
    };
    loads.iter().enumerate().map(|(i, load)| one(load).map_err(|e| e.at(i))).collect()
}
