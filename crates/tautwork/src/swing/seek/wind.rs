//! What winds do, and the largest for each clearance.

use serde::{Deserialize, Serialize};

use super::super::SwingError;
use super::super::flight::{Ending, Flight};
use super::super::jump::Jump;
use super::{Flights, border};
use crate::quantity::check::{self, between, finite};
use crate::quantity::{Length, MaybeText, Quantity, Ratio, Speed, Text, Words};

/// The winds of a sweep.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Winds {
    /// The greatest wind, up to 100 m/s.
    #[serde(with = "Text::<Speed>")]
    pub most: Speed,
    /// Winds from still air to the greatest, 2 to 50.
    pub count: usize,
    /// Component of the direction along x.
    #[serde(with = "Text::<Ratio>")]
    pub along: Ratio,
    /// Component of the direction to the left.
    #[serde(with = "Text::<Ratio>")]
    pub left: Ratio,
    /// Clearance that each wall needs.
    #[serde(with = "Text::<Length>")]
    pub required: Length,
}

/// A jump in winds of one direction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WindSweep {
    /// Wind speeds flown.
    pub wind_m_per_s: Vec<f64>,
    /// Farthest to the left in each.
    pub leftmost_m: Vec<f64>,
    /// Farthest to the right: least y.
    pub rightmost_m: Vec<f64>,
    /// Lowest point.
    pub lowest_m: Vec<f64>,
    /// Peak of the resultant rope force.
    pub peak_n: Vec<f64>,
    /// For each wall, the largest wind at which its clearance holds.
    pub walls: Vec<WallWind>,
}

/// The largest wind at which the clearance of a wall holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WallWind {
    /// Name of the wall.
    pub wall: String,
    /// Clearance in each wind of the sweep; zero at contact with any wall.
    pub clearance_m: Vec<f64>,
    /// The largest wind, to 1 cm/s; none if it falls short in still air already. The greatest wind of
    /// the sweep if it holds in all of them.
    #[serde(with = "MaybeText::<Speed>")]
    pub largest: Option<Speed>,
}

/// What winds of one direction do to a jump: drift, lowest point, peak, and for each wall the largest wind
/// at which its clearance holds.
///
/// Winds of equal spacing from still air to `most`; `along` and `left` give the direction by its
/// components (only their ratio counts). The largest wind is the first crossing of the sweep, bisected.
/// The wind blows on the body and its ropes, not on the lines.
///
/// # Errors
/// [`SwingError`]; also a count that is not from 2 to 50 or no direction.
///
/// # Example
/// ```
/// use tautwork::quantity::Words;
/// use tautwork::swing::{Jump, Winds, wind_sweep};
/// # let jump: Jump = serde_json::from_str(
/// #     r#"{"mass": "80 kg", "drag_area": "0 m²", "exit": {"x": "0 m", "z": "0 m"},
/// #         "exit_speed_x": "0 m/s", "exit_speed_z": "0 m/s", "ring_mass": "0 kg",
/// #         "fixed_ring": {"x": "0 m", "z": "0 m"}, "body_radius": "1 m",
/// #         "ropes": [{"name": "rope", "rest_length": "10 m", "linear_density": "0 g/m",
/// #             "response": {"model": "pair", "stiff": "20 kN", "soft": "10 kN"}}],
/// #         "follow": {"horizon": "4 s"}}"#,
/// # )
/// # .unwrap();
/// // `jump` as in the example of `fly`, with a drag area of 0.8 m²: the wind drives the body off.
/// let jump = Jump { drag_area: 0.8.square_meters(), ..jump };
/// let winds = Winds {
///     most: 10.0.meters_per_second(),
///     count: 3,
///     along: 0.0.ratio(),
///     left: 1.0.ratio(),
///     required: 2.0.meters(),
/// };
/// let sweep = wind_sweep(&jump, &winds)?;
/// assert_eq!(sweep.wind_m_per_s, [0.0, 5.0, 10.0]);
/// assert!(sweep.leftmost_m[0] < 1e-9 && sweep.leftmost_m[2] > sweep.leftmost_m[1]);
/// assert!(wind_sweep(&jump, &Winds { count: 1, ..winds }).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn wind_sweep(jump: &Jump, winds: &Winds) -> Result<WindSweep, SwingError> {
    let mut flights = Flights::new(jump)?;
    wind_sweep_by(jump, winds, |_| winds.required, |jump| flights.fly(jump))
}

/// [`wind_sweep`] with a clearance of its own for each wall, and a way to fly.
pub(crate) fn wind_sweep_by(
    jump: &Jump,
    winds: &Winds,
    required: impl Fn(&str) -> Length,
    mut fly: impl FnMut(&Jump) -> Result<Flight, SwingError>,
) -> Result<WindSweep, SwingError> {
    let most = between("most", winds.most, 1e-3.meters_per_second(), 100.0.meters_per_second())?;
    finite("required", winds.required)?;
    let direction = [finite("along", winds.along)?, finite("left", winds.left)?];
    let size = direction[0].hypot(direction[1]);
    if !(size > 0.0 && size.is_finite()) {
        return Err(SwingError::contradiction("along", "the wind has no direction"));
    }
    let count = check::count("count", winds.count, 2, 50)?;
    let mut look = |speed: f64| {
        let part = |i: usize| Some(Speed::from_si(speed * direction[i] / size));
        fly(&Jump { wind: part(0), wind_y: part(1), ..jump.clone() })
    };
    let clear_m = |flight: &Flight, wall: &str| {
        let found = flight.clearances.iter().find(|c| c.wall == wall);
        // Nothing is known of the other walls after a contact.
        let whole = flight.ending != Ending::Contact;
        found.filter(|_| whole).map_or(0.0, |c| c.least.value.si())
    };
    let mut sweep = WindSweep {
        wind_m_per_s: Vec::new(),
        leftmost_m: Vec::new(),
        rightmost_m: Vec::new(),
        lowest_m: Vec::new(),
        peak_n: Vec::new(),
        walls: jump
            .walls
            .iter()
            .map(|w| WallWind { wall: w.name.clone(), clearance_m: Vec::new(), largest: None })
            .collect(),
    };
    for k in 0..count {
        let speed = most * (k as f64 / (count - 1) as f64);
        let flight = look(speed)?;
        sweep.wind_m_per_s.push(speed);
        sweep.leftmost_m.push(flight.leftmost.value.si());
        sweep.rightmost_m.push(flight.rightmost.value.si());
        sweep.lowest_m.push(flight.lowest.value.si());
        sweep.peak_n.push(flight.resultant.value.si());
        for wall in &mut sweep.walls {
            wall.clearance_m.push(clear_m(&flight, &wall.wall));
        }
    }
    for wall in &mut sweep.walls {
        let required_m = required(&wall.wall).si();
        let short = wall.clearance_m.iter().position(|m| *m < required_m);
        wall.largest = match short {
            Some(0) => None,
            None => Some(Speed::from_si(most)),
            Some(k) => {
                let (yes, no) = (sweep.wind_m_per_s[k - 1], sweep.wind_m_per_s[k]);
                let holds = |speed: f64| {
                    let spare_m = clear_m(&look(speed)?, &wall.wall) - required_m;
                    Ok(if spare_m >= 0.0 { 1.0 } else { -1.0 })
                };
                Some(Speed::from_si(border(yes, no, 1e-2, holds)?))
            }
        };
    }
    Ok(sweep)
}
