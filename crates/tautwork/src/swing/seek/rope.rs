//! The rope length for a wanted lowest point.

use serde::{Deserialize, Serialize};

use super::super::SwingError;
use super::super::jump::Jump;
use super::{Flights, border};
use crate::quantity::check::finite;
use crate::quantity::{Length, Quantity, Text, Texts};

/// Ropes of another length.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RopeLengths {
    /// Rest length of each rope, in the order of the input.
    #[serde(with = "Texts::<Length>")]
    pub rest_lengths: Vec<Length>,
    /// What was added to each; negative for shorter ropes.
    #[serde(with = "Text::<Length>")]
    pub longer: Length,
    /// Lowest point with them.
    #[serde(with = "Text::<Length>")]
    pub lowest: Length,
    /// Jumps flown for the answer.
    pub flown: usize,
}

/// The ropes with which the lowest point of the whole history is at a height: the same length is added
/// to each.
///
/// In the run of the jump (soft ropes go lower: ask with [`Run::Soft`](crate::swing::Run::Soft)); walls
/// are left out, since a contact would end the jump. Found by bisection to 1 mm: where the lowest point is
/// not a monotone function of the length, one of the answers.
///
/// # Errors
/// [`SwingError`]; also if no length from a fifth of the shortest rope to twice it gives the height.
///
/// # Example
/// ```
/// use tautwork::quantity::{ReadLength, Words};
/// use tautwork::swing::{Jump, rope_length_for_lowest};
/// # let jump: Jump = serde_json::from_str(
/// #     r#"{"mass": "80 kg", "drag_area": "0 m²", "exit": {"x": "0 m", "z": "0 m"},
/// #         "exit_speed_x": "0 m/s", "exit_speed_z": "0 m/s", "ring_mass": "0 kg",
/// #         "fixed_ring": {"x": "0 m", "z": "0 m"}, "body_radius": "1 m",
/// #         "ropes": [{"name": "rope", "rest_length": "10 m", "linear_density": "0 g/m",
/// #             "response": {"model": "pair", "stiff": "20 kN", "soft": "10 kN"}}],
/// #         "follow": {"horizon": "4 s"}}"#,
/// # )
/// # .unwrap();
/// // `jump` as in the example of `fly`: a fall of factor one stretches a rope to 1.322 of its length,
/// // so 10 m are reached with 7.564 m.
/// let ropes = rope_length_for_lowest(&jump, (-10.0).meters())?;
/// assert!((ropes.rest_lengths[0].in_meters() - 10.0 / 1.322_117_6).abs() < 2e-3);
/// assert!(rope_length_for_lowest(&jump, 10.0.meters()).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn rope_length_for_lowest(jump: &Jump, lowest: Length) -> Result<RopeLengths, SwingError> {
    let want_m = finite("lowest", lowest)?;
    let mut flights = Flights::new(jump)?;
    let rest_m = |i: usize| jump.ropes[i].rest_length.si();
    let Some(least_m) = (0..jump.ropes.len()).map(rest_m).min_by(f64::total_cmp) else {
        return Err(SwingError::contradiction("ropes", "there is no rope whose length to seek"));
    };
    let with = |longer_m: f64| {
        let mut jump = Jump { walls: Vec::new(), ..jump.clone() };
        for rope in &mut jump.ropes {
            rope.rest_length = Length::from_si(rope.rest_length.si() + longer_m);
        }
        jump
    };
    // Above zero while the body stays above the height.
    let mut over_m = |longer_m: f64| -> Result<f64, SwingError> {
        Ok(flights.fly(&with(longer_m))?.lowest.value.si() - want_m)
    };
    let (mut short_m, mut long_m) = (0.0, 0.0);
    let mut step_m = 0.05 * least_m;
    let fits = over_m(0.0)? > 0.0;
    loop {
        let next_m = if fits { long_m + step_m } else { short_m - step_m };
        if !(-0.8 * least_m..=least_m).contains(&next_m) {
            let problem = "no rope from a fifth of the given length to twice it gives this height";
            return Err(SwingError::contradiction("lowest", problem));
        }
        let above = over_m(next_m)? > 0.0;
        if fits {
            (short_m, long_m) = (long_m, next_m);
        } else {
            (long_m, short_m) = (short_m, next_m);
        }
        if above != fits {
            break;
        }
        step_m *= 1.5;
    }
    let longer_m = border(short_m, long_m, 1e-3, over_m)?;
    let jump = with(longer_m);
    let flight = flights.fly(&jump)?;
    Ok(RopeLengths {
        rest_lengths: jump.ropes.iter().map(|r| r.rest_length).collect(),
        longer: Length::from_si(longer_m),
        lowest: flight.lowest.value,
        flown: flights.flown,
    })
}
