//! Off the edge before the run, with and without a tether.

use serde::{Deserialize, Serialize};

use super::super::space::{from, size};
use super::super::{Flight, Jump, Place, Rope, SwingError, fly};
use super::waiting::waiting;
use crate::quantity::{Length, Mass, Quantity, Speed, Text, Time};

/// Longest time for which a fall on a tether is followed, s: some swings.
const TETHERED_S: f64 = 20.0;

/// What holds the jumper at the edge until the jump.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tether {
    /// Where it is anchored.
    pub anchor: Place,
    /// From its anchor to the harness.
    pub rope: Rope,
}

/// Falls from the edge that are not the jump.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct StepOff {
    /// Without the tether: the jump without speed at the exit.
    pub early: Flight,
    /// On the tether; none if none was given.
    pub tethered: Option<Tethered>,
}

/// A fall on the tether.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Tethered {
    /// The fall; its ring is the anchor of the tether.
    pub flight: Flight,
    /// Least slack left in any jump rope: its rest length less the distance from the ring to the body. Below
    /// zero the jump ropes take part, and this fall is not theirs, Eq. (L4).
    #[serde(with = "Text::<Length>")]
    pub least_slack: Length,
}

/// What happens if the jumper leaves the edge without the run: early, and on a tether, Eq. (L3) and (L4).
///
/// The flights tell the force, the lowest point, and each wall with the speed at contact.
///
/// # Errors
/// [`SwingError`]: as [`fly`], for the jump and for the tether.
///
/// # Example
/// ```
/// use tautwork::quantity::{ReadForce, ReadSpeed, Words};
/// use tautwork::swing::*;
/// let at = |x: f64, z: f64| Place { x: x.meters(), y: 0.0.meters(), z: z.meters() };
/// let rope = |name: &str, metres: f64| Rope {
///     name: name.to_owned(),
///     rest_length: metres.meters(),
///     linear_density: 0.0.grams_per_meter(),
///     response: Response::Pair { stiff: 20.0.kilonewtons(), soft: 10.0.kilonewtons(), relaxation: None },
/// };
/// let jump = Jump {
///     mass: 80.0.kilograms(),
///     drag_area: 0.0.square_meters(),
///     exit: at(1.0, 0.0),
///     exit_speed_x: 3.0.meters_per_second(),
///     exit_speed_y: 0.0.meters_per_second(),
///     exit_speed_z: 0.0.meters_per_second(),
///     ropes: vec![rope("jump rope", 40.0)],
///     lines: vec![],
///     stops: vec![],
///     ring_mass: 0.0.kilograms(),
///     fixed_ring: Some(at(30.0, 0.0)),
///     ring_at_exit: None,
///     ring_damping: None,
///     line_mass_share: None,
///     rope_drag_area: None,
///     air_density: None,
///     wind: None,
///     wind_y: None,
///     fold: Fold::Neglected,
///     faults: vec![],
///     walls: vec![],
///     body_radius: 0.5.meters(),
///     body_length: None,
///     launch_zone: None,
///     timed_forces: vec![],
///     run: Run::Stiff,
///     follow: Follow { horizon: 6.0.seconds(), ..Follow::default() },
/// };
/// // A fall of factor one on a tether of 2 m that is anchored beside the jumper: 6.44 kN.
/// let tether = Tether { anchor: at(1.0, 0.0), rope: rope("tether", 2.0) };
/// let off = step_off(&jump, Some(&tether))?;
/// let tethered = off.tethered.unwrap();
/// assert!((tethered.flight.resultant.value.in_kilonewtons() - 6.442).abs() < 1e-2);
/// assert!(tethered.least_slack.is_sign_positive());
/// assert!(off.early.resultant.value.in_kilonewtons() > 1.0);
/// let slack = Tether { rope: rope("tether", 0.0), ..tether };
/// assert!(step_off(&jump, Some(&slack)).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn step_off(jump: &Jump, tether: Option<&Tether>) -> Result<StepOff, SwingError> {
    let still = Speed::from_si(0.0);
    let early =
        Jump { exit_speed_x: still, exit_speed_y: still, exit_speed_z: still, ..jump.clone() };
    let tethered = tether.map(|tether| fall(&early, tether)).transpose()?;
    Ok(StepOff { early: fly(&early)?, tethered })
}

fn fall(early: &Jump, tether: &Tether) -> Result<Tethered, SwingError> {
    let mut jump = Jump {
        ropes: vec![tether.rope.clone()],
        lines: Vec::new(),
        stops: Vec::new(),
        faults: Vec::new(),
        ring_mass: Mass::from_si(0.0),
        fixed_ring: Some(tether.anchor),
        ring_at_exit: None,
        ..early.clone()
    };
    jump.follow.horizon = Time::from_si(jump.follow.horizon.si().min(TETHERED_S));
    let flight = fly(&jump)?;
    let ring = waiting(early)?.ring.m();
    let series = &flight.series;
    let mut farthest_m = 0.0_f64;
    for k in 0..series.t_s.len() {
        let body = [series.x_m[k], series.y_m[k], series.z_m[k]];
        farthest_m = farthest_m.max(size(from(ring, body)));
    }
    let shortest_m = early.ropes.iter().map(|r| r.rest_length.si()).fold(f64::INFINITY, f64::min);
    let least_slack = Length::from_si(shortest_m.min(1e9) - farthest_m);
    Ok(Tethered { flight, least_slack })
}
