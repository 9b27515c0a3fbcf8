//! Where along an edge an exit may stand.

use serde::{Deserialize, Serialize};

use super::super::SwingError;
use super::super::jump::{Jump, Place};
use super::super::space::{from, size};
use super::{Flights, border, clearance_m};
use crate::quantity::check::{self, finite};
use crate::quantity::{Length, Quantity};

/// Where one may jump from, along a straight edge.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ExitPlaces {
    /// Places looked at.
    pub x_m: Vec<f64>,
    /// To the left.
    pub y_m: Vec<f64>,
    /// Up.
    pub z_m: Vec<f64>,
    /// Least clearance in flight from each; zero at contact, or where the jump cannot start.
    pub clearance_m: Vec<f64>,
    /// Peak of the resultant rope force from each; zero where the jump cannot start.
    pub peak_n: Vec<f64>,
    /// Stretches from which the required clearance holds, their ends found to 1 cm.
    pub holds: Vec<EdgeStretch>,
}

/// A stretch of the edge.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct EdgeStretch {
    /// One end.
    pub from: Place,
    /// The other.
    pub to: Place,
}

/// Where along a straight edge, from the given exit to another place, the clearance to every wall holds.
///
/// The jump is flown from `count` equal places, and each change is bisected: a stretch shorter than
/// their spacing may be missed. In the run of the jump (soft ropes come nearer).
///
/// # Errors
/// [`SwingError`]; also a jump without walls, or a count that is not from 2 to 50.
///
/// # Example
/// ```
/// use tautwork::quantity::{ReadLength, Words};
/// use tautwork::swing::{Jump, Wall, exits_that_clear};
/// # let at = |x: f64, z: f64| tautwork::swing::Place { x: x.meters(), y: 0.0.meters(), z: z.meters() };
/// # let jump: Jump = serde_json::from_str(
/// #     r#"{"mass": "80 kg", "drag_area": "0 m²", "exit": {"x": "0 m", "z": "0 m"},
/// #         "exit_speed_x": "0 m/s", "exit_speed_z": "0 m/s", "ring_mass": "0 kg",
/// #         "fixed_ring": {"x": "0 m", "z": "0 m"}, "body_radius": "1 m",
/// #         "ropes": [{"name": "rope", "rest_length": "10 m", "linear_density": "0 g/m",
/// #             "response": {"model": "pair", "stiff": "20 kN", "soft": "10 kN"}}],
/// #         "follow": {"horizon": "4 s"}}"#,
/// # )
/// # .unwrap();
/// // `jump` as in the example of `fly`, beside a wall at x = 4 m: the body has a radius of 1 m, and falls
/// // straight down on the way.
/// let wall = Wall::profile("wall", vec![at(4.0, 20.0), at(4.0, -40.0)]);
/// let mut jump = Jump { walls: vec![wall], ..jump };
/// jump.follow.horizon = 1.0.seconds();
/// let found = exits_that_clear(&jump, at(3.0, 0.0), 1.5.meters(), 4)?;
/// assert!((found.holds[0].to.x.in_meters() - 1.5).abs() < 0.011);
/// assert!(exits_that_clear(&jump, at(3.0, 0.0), 1.5.meters(), 1).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn exits_that_clear(
    jump: &Jump,
    to: Place,
    required: Length,
    count: usize,
) -> Result<ExitPlaces, SwingError> {
    let required_m = finite("required", required)?;
    check::count("count", count, 2, 50)?;
    if jump.walls.is_empty() {
        return Err(SwingError::contradiction("walls", "there is no wall to clear"));
    }
    let ends = [
        [
            finite("exit.x", jump.exit.x)?,
            finite("exit.y", jump.exit.y)?,
            finite("exit.z", jump.exit.z)?,
        ],
        [finite("to.x", to.x)?, finite("to.y", to.y)?, finite("to.z", to.z)?],
    ];
    let at_m = |s: f64| [0, 1, 2].map(|i: usize| ends[0][i] + s * (ends[1][i] - ends[0][i]));
    let place = |s: f64| {
        let [x, y, z] = at_m(s).map(Length::from_si);
        Place { x, y, z }
    };
    let long_m = size(from(ends[0], ends[1]));
    let mut flights = Flights::new(jump)?;
    // Clearance, peak and whether the jump can start.
    let mut look = |s: f64| -> Result<(f64, f64, bool), SwingError> {
        match flights.fly(&Jump { exit: place(s), ..jump.clone() }) {
            Ok(flight) => {
                Ok((clearance_m(&flight).unwrap_or(0.0), flight.resultant.value.si(), true))
            }
            Err(SwingError::StartsInContact { .. }) => Ok((0.0, 0.0, false)),
            Err(error) => Err(error),
        }
    };
    let mut out = ExitPlaces {
        x_m: Vec::new(),
        y_m: Vec::new(),
        z_m: Vec::new(),
        clearance_m: Vec::new(),
        peak_n: Vec::new(),
        holds: Vec::new(),
    };
    let mut open: Option<f64> = None;
    let mut before = (0.0, false);
    for k in 0..count {
        let s = k as f64 / (count - 1) as f64;
        let (clear_m, peak_n, starts) = look(s)?;
        let holds = starts && clear_m >= required_m;
        if k > 0 && holds != before.1 {
            let (yes, no) = if holds { (s, before.0) } else { (before.0, s) };
            let close = (1e-2 / long_m.max(1e-2)).min(1.0);
            let edge = border(yes, no, close, |s| {
                let (clear_m, _, starts) = look(s)?;
                Ok(if starts && clear_m >= required_m { 1.0 } else { -1.0 })
            })?;
            if holds {
                open = Some(edge);
            } else if let Some(from) = open.take() {
                out.holds.push(EdgeStretch { from: place(from), to: place(edge) });
            }
        } else if k == 0 && holds {
            open = Some(0.0);
        }
        before = (s, holds);
        let [x, y, z] = at_m(s);
        out.x_m.push(x);
        out.y_m.push(y);
        out.z_m.push(z);
        out.clearance_m.push(clear_m);
        out.peak_n.push(peak_n);
    }
    if let Some(from) = open {
        out.holds.push(EdgeStretch { from: place(from), to: place(1.0) });
    }
    Ok(out)
}
