//! The line with the load at every place along it.

use serde::{Deserialize, Serialize};

use super::path::Path;
use super::state::Walk;
use crate::line::LineError;
use crate::quantity::{Quantity, check};

/// How the load sits on the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WalkMode {
    /// Feet hold the line.
    Stands,
    /// A pulley runs freely and is held in place along the span.
    Rolls,
}

/// The line with the load at many places: one value for each, from the near to the far anchor.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct WalkEnvelope {
    /// Rest length from the near anchor to the load.
    pub at_m: Vec<f64>,
    /// Horizontal distance from the near anchor.
    pub x_m: Vec<f64>,
    /// Height of the load.
    pub z_m: Vec<f64>,
    /// Its depth below the chord.
    pub below_chord_m: Vec<f64>,
    /// Tension at the near anchor.
    pub tension_near_n: Vec<f64>,
    /// Tension at the far anchor.
    pub tension_far_n: Vec<f64>,
    /// Angle below the horizontal at which the line leaves the near anchor.
    pub slope_near_rad: Vec<f64>,
    /// The same at the far anchor.
    pub slope_far_rad: Vec<f64>,
    /// Angle at which the line rises from the load towards the near anchor.
    pub rise_before_rad: Vec<f64>,
    /// The same towards the far anchor.
    pub rise_after_rad: Vec<f64>,
    /// Force along the span that holds the load there.
    pub hold_n: Vec<f64>,
}

/// The line with the load at `count` places at equal steps of rest length: the curve that the load moves
/// on, what the anchors take, and how steep the line is where one wants to stand up.
///
/// Places at which the load would not be between the anchors, or the line has no unique shape (slack
/// without weight), are left out.
///
/// # Errors
/// As [`stand`](super::stand()) and [`roll`](super::roll()); [`LineError::Invalid`] unless there are 1 to
/// 10 000 places.
///
/// # Example
/// ```
/// # use tautwork::line::{ChainPiece, Walk, WalkMode, walk_envelope};
/// # use tautwork::material::Stretch;
/// # use tautwork::quantity::Words;
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
/// // On a loop without weight a pulley runs on an ellipse: (x - 3)² / 5² + z² / 4² = 1.
/// let path = walk_envelope(&walk, WalkMode::Rolls, 19)?;
/// assert!(path.x_m.len() >= 7);
/// for (x, z) in path.x_m.iter().zip(&path.z_m) {
///     assert!((((x - 3.0) / 5.0).powi(2) + (z / 4.0).powi(2) - 1.0).abs() < 1e-4);
/// }
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn walk_envelope(walk: &Walk, mode: WalkMode, count: usize) -> Result<WalkEnvelope, LineError> {
    check::count("count", count, 1, 10_000)?;
    let path = Path::new(walk)?;
    let mut out = WalkEnvelope::default();
    for i in 1..=count {
        let a_m = path.length_m * i as f64 / (count + 1) as f64;
        let spot = match mode {
            WalkMode::Stands => path.at(a_m, 0.0),
            WalkMode::Rolls => path.held(a_m, 0.0, 0.0),
        };
        let Some(spot) = Path::solvable(spot)? else { continue };
        let x_m = path.x_m(&spot);
        if !(x_m > 0.0 && x_m < path.span_m) {
            continue;
        }
        let state = path.state(&spot)?;
        out.at_m.push(a_m);
        out.x_m.push(x_m);
        out.z_m.push(state.position[2].si());
        out.below_chord_m.push(state.below_chord.si());
        out.tension_near_n.push(state.tension_near.si());
        out.tension_far_n.push(state.tension_far.si());
        out.slope_near_rad.push(state.slope_near.si());
        out.slope_far_rad.push(state.slope_far.si());
        out.rise_before_rad.push(state.rise_before.si());
        out.rise_after_rad.push(state.rise_after.si());
        out.hold_n.push(state.hold.si());
    }
    Ok(out)
}
