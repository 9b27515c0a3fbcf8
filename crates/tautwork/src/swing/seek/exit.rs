//! The highest exit for a wanted peak.

use serde::{Deserialize, Serialize};

use super::super::SwingError;
use super::super::jump::{Jump, Place};
use super::{Flights, border};
use crate::quantity::check::positive;
use crate::quantity::{Force, Length, Quantity, Text};

/// The highest exit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HighestExit {
    /// The exit, straight above or below the given one.
    pub exit: Place,
    /// Peak of the resultant rope force from there.
    #[serde(with = "Text::<Force>")]
    pub peak: Force,
    /// Jumps flown for the answer.
    pub flown: usize,
}

/// The highest exit, straight above or below the given one, from which the peak force on the body stays
/// at or below a force.
///
/// In the run of the jump (stiff ropes pull harder); walls are left out. The height is raised, or lowered
/// if the given exit is too high already, in steps that grow from 1 m, and the first crossing is
/// bisected to 1 cm.
///
/// # Errors
/// [`SwingError`]; also if no exit within 200 m has the peak.
///
/// # Example
/// ```
/// use tautwork::quantity::{ReadLength, Words};
/// use tautwork::swing::{Jump, highest_exit_for_peak};
/// # let jump: Jump = serde_json::from_str(
/// #     r#"{"mass": "80 kg", "drag_area": "0 m²", "exit": {"x": "0 m", "z": "0 m"},
/// #         "exit_speed_x": "0 m/s", "exit_speed_z": "0 m/s", "ring_mass": "0 kg",
/// #         "fixed_ring": {"x": "0 m", "z": "0 m"}, "body_radius": "1 m",
/// #         "ropes": [{"name": "rope", "rest_length": "10 m", "linear_density": "0 g/m",
/// #             "response": {"model": "pair", "stiff": "20 kN", "soft": "10 kN"}}],
/// #         "follow": {"horizon": "4 s"}}"#,
/// # )
/// # .unwrap();
/// // `jump` as in the example of `fly`: F = W + sqrt(W² + 2 W EA f) is 8 kN for f = 1.639, a fall of 16.39 m.
/// let highest = highest_exit_for_peak(&jump, 8.0.kilonewtons())?;
/// assert!((highest.exit.z.in_meters() - 6.39).abs() < 0.02);
/// assert!(highest_exit_for_peak(&jump, 1.0.meganewtons()).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn highest_exit_for_peak(jump: &Jump, peak: Force) -> Result<HighestExit, SwingError> {
    let want_n = positive("peak", peak)?;
    let mut flights = Flights::new(jump)?;
    let with = |up_m: f64| {
        let z = Length::from_si(jump.exit.z.si() + up_m);
        Jump { walls: Vec::new(), exit: Place { z, ..jump.exit }, ..jump.clone() }
    };
    let mut spare_n = |up_m: f64| -> Result<f64, SwingError> {
        Ok(want_n - flights.fly(&with(up_m))?.resultant.value.si())
    };
    let fits = spare_n(0.0)? >= 0.0;
    let sign = if fits { 1.0 } else { -1.0 };
    let (mut last_m, mut next_m, mut step_m) = (0.0, sign, 1.0);
    while (spare_n(next_m)? >= 0.0) == fits {
        step_m *= 1.5;
        last_m = next_m;
        next_m += sign * step_m;
        if next_m.abs() > 200.0 {
            let problem = "no exit within 200 m has this peak";
            return Err(SwingError::contradiction("peak", problem));
        }
    }
    let (yes, no) = if fits { (last_m, next_m) } else { (next_m, last_m) };
    let up_m = border(yes, no, 1e-2, spare_n)?;
    let jump = with(up_m);
    let flight = flights.fly(&jump)?;
    Ok(HighestExit { exit: jump.exit, peak: flight.resultant.value, flown: flights.flown })
}
