//! The haul rope fails on the way: a second fall.

use serde::{Deserialize, Serialize};

use super::super::PulleyError;
use super::back::WayPlaces;
use crate::quantity::{Invalid, Length, Quantity, Speed, Text};
use crate::swing::{Jump, Outlook, Place, SwingError, outlook};

/// What a haul rope that fails at a place of the way does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HaulFailure {
    /// Haul rope out when it fails.
    #[serde(with = "Text::<Length>")]
    pub rope_out: Length,
    /// Stiff and soft run of the swing that follows.
    pub outlook: Outlook,
}

/// The haul rope fails at the place `at` of the way, the first being 0: the jumper swings out again from rest,
/// Eq. (Y5). `jump` is the jump that brought them there: its exit, exit speeds and ring are replaced.
///
/// # Errors
/// [`PulleyError::Invalid`] for a place that is not on the way; [`PulleyError::Swing`] as `swing::outlook`.
///
/// # Example
/// ```
/// use tautwork::pulley::{WayPlaces, haul_fails};
/// use tautwork::quantity::{ReadForce, ReadLength, Words};
/// use tautwork::swing::*;
/// let at = |x: f64, z: f64| Place { x: x.meters(), y: 0.0.meters(), z: z.meters() };
/// let jump = Jump {
///     mass: 80.0.kilograms(),
///     drag_area: 0.0.square_meters(),
///     exit: at(2.0, 0.0),
///     exit_speed_x: 1.0.meters_per_second(),
///     exit_speed_y: 0.0.meters_per_second(),
///     exit_speed_z: 0.0.meters_per_second(),
///     ropes: vec![Rope {
///         name: "rope".to_owned(),
///         rest_length: 40.0.meters(),
///         linear_density: 0.0.grams_per_meter(),
///         response: Response::Pair {
///             stiff: 2e3.kilonewtons(),
///             soft: 2e3.kilonewtons(),
///             relaxation: None,
///         },
///     }],
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
///     follow: Follow { horizon: 10.0.seconds(), ..Follow::default() },
/// };
/// // Drawn 60 degrees aside on a rope that carries its part of the weight, then let go: 3 − 2 cos 60° = 2 times
/// // the weight at the bottom.
/// let (sin, cos) = 60.0_f64.to_radians().sin_cos();
/// let taut = 40.0 * (1.0 + 784.8 * cos / 2e6);
/// let way = WayPlaces {
///     rope_out_m: vec![20.0],
///     x_m: vec![30.0 - taut * sin],
///     y_m: vec![0.0],
///     z_m: vec![-taut * cos],
///     ring_x_m: vec![30.0],
///     ring_y_m: vec![0.0],
///     ring_z_m: vec![0.0],
///     ..WayPlaces::default()
/// };
/// let failed = haul_fails(&jump, &way, 0)?;
/// let peak = failed.outlook.body_force.extreme.value.in_newtons();
/// assert!((peak / (2.0 * 784.8) - 1.0).abs() < 0.01);
/// assert!(haul_fails(&jump, &way, 1).is_err());
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
pub fn haul_fails(jump: &Jump, way: &WayPlaces, at: usize) -> Result<HaulFailure, PulleyError> {
    let of = |column: &[f64]| column.get(at).copied();
    let place = |x: &[f64], y: &[f64], z: &[f64]| -> Option<Place> {
        let [x, y, z] = [of(x)?, of(y)?, of(z)?].map(Length::from_si);
        Some(Place { x, y, z })
    };
    let missing = || {
        let allowed = format!("a place of the way, below {}", way.rope_out_m.len());
        PulleyError::Invalid(Invalid::new("at", at.to_string(), allowed))
    };
    let out_m = of(&way.rope_out_m).ok_or_else(missing)?;
    let body = place(&way.x_m, &way.y_m, &way.z_m).ok_or_else(missing)?;
    let ring = place(&way.ring_x_m, &way.ring_y_m, &way.ring_z_m).ok_or_else(missing)?;
    let still = Speed::from_si(0.0);
    let jump = Jump {
        exit: body,
        exit_speed_x: still,
        exit_speed_y: still,
        exit_speed_z: still,
        ring_at_exit: jump.fixed_ring.is_none().then_some(ring),
        ..jump.clone()
    };
    let outlook = outlook(&jump).map_err(|e: SwingError| PulleyError::Swing(Box::new(e)))?;
    Ok(HaulFailure { rope_out: Length::from_si(out_m), outlook })
}
