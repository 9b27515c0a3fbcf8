//! The ring after the loss of one line.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::hold::{RingLine, RingsState};
use super::slip::{Aim, Rings};
use crate::line::LineError;
use crate::line::net::vector;
use crate::quantity::{Force, Length, Quantity, Text};

/// The loss of one line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RingLoss {
    /// The line that is lost.
    pub line: String,
    /// The rest of the others after all motion has died; none if nothing holds the ring.
    pub after: Option<RingsState>,
    /// How far the ring comes to rest below where it was; zero where nothing holds it.
    #[serde(with = "Text::<Length>")]
    pub drop: Length,
    /// How far it comes to rest from where it was.
    #[serde(with = "Text::<Length>")]
    pub shift: Length,
}

/// A bundle, and what the loss of each of its lines does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RingLosses {
    /// With all lines.
    pub whole: RingsState,
    /// One loss for each line, in the order of the input.
    pub losses: Vec<RingLoss>,
}

/// What the loss of each line of a bundle does under a load: the new rest of the ring and of the others.
///
/// The ring starts from where it was and slides on as friction lets it. This is the rest after all motion
/// has died; on the way there the ring swings below it and the tensions overshoot.
///
/// # Errors
/// As [`solve_rings`](super::solve_rings). A loss after which nothing holds the ring is a result.
///
/// # Example
/// ```
/// use tautwork::line::{BundleLine, RingHold, RingLine, ring_losses};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadLength, Words};
/// let line = |name: &str, half: f64| -> Result<_, tautwork::material::MaterialError> {
///     Ok(RingLine {
///         line: BundleLine {
///             name: name.to_owned(),
///             near: [0.0.meters(); 3],
///             far: [8.0.meters(), 0.0.meters(), 0.0.meters()],
///             near_length: half.meters(),
///             far_length: half.meters(),
///             weight: 0.0.newtons_per_meter(),
///             stretch: Stretch::axial_rigidity(1e9.newtons())?,
///         },
///         hold: RingHold::Tied,
///     })
/// };
/// let down = [0.0.newtons(), 0.0.newtons(), (-1e3).newtons()];
/// // The main hangs 3 m deep, the backup 4.49 m: without the main the ring drops by the difference.
/// let found = ring_losses(&[line("main", 5.0)?, line("backup", 6.0128)?], down)?;
/// assert!((found.losses[0].drop.in_meters() - 1.489).abs() < 1e-3);
/// assert!(found.losses[1].drop.in_meters().abs() < 1e-3);
/// assert!(ring_losses(&[line("main", 5.0)?], down)?.losses[0].after.is_none());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn ring_losses(lines: &[RingLine], load: [Force; 3]) -> Result<RingLosses, LineError> {
    let load_n = vector("load", &load)?;
    let mut rings = Rings::new(lines)?;
    let rounds = rings.settle(load_n, Aim::Here)?;
    let whole = rings.state(rounds)?;
    let mut now = lines.to_vec();
    for (line, hold) in now.iter_mut().zip(&whole.holds) {
        let total = line.line.near_length + line.line.far_length;
        line.line.near_length = hold.near_length;
        line.line.far_length = total - hold.near_length;
    }
    let losses = (0..lines.len()).map(|lost| loss(&now, lost, load_n, &whole));
    Ok(RingLosses { losses: losses.collect::<Result<_, _>>()?, whole })
}

fn loss(
    lines: &[RingLine],
    lost: usize,
    load_n: Vector3<f64>,
    whole: &RingsState,
) -> Result<RingLoss, LineError> {
    let line = lines[lost].line.name.clone();
    let mut others = lines.to_vec();
    others.remove(lost);
    let still = Length::from_si(0.0);
    if others.is_empty() {
        return Ok(RingLoss { line, after: None, drop: still, shift: still });
    }
    let mut rings = Rings::new(&others)?;
    let rounds = rings.settle(load_n, Aim::Here)?;
    let after = rings.state(rounds)?;
    let moved = after.ring_m() - whole.ring_m();
    let (drop, shift) = (Length::from_si(-moved.z), Length::from_si(moved.norm()));
    Ok(RingLoss { line, after: Some(after), drop, shift })
}
