//! The zone under a place from which things may fall.

use serde::{Deserialize, Serialize};

use super::path::{Landing, Thing};
use crate::fall::FallError;
use crate::quantity::check::{between, non_negative, positive};
use crate::quantity::{
    Angle, Area, Density, Energy, GRAVITY, Invalid, Length, Mass, MaybeText, Quantity, Speed, Text,
    Time, Words,
};

/// A thing that may be dropped.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DroppedThing {
    /// Height above where it lands.
    #[serde(with = "Text::<Length>")]
    pub height: Length,
    /// Speed with which it leaves, in any direction; it is let go if left out.
    #[serde(with = "MaybeText::<Speed>", default, skip_serializing_if = "Option::is_none")]
    pub speed: Option<Speed>,
    /// Wind; still air if left out.
    #[serde(with = "MaybeText::<Speed>", default, skip_serializing_if = "Option::is_none")]
    pub wind: Option<Speed>,
    /// Its mass.
    #[serde(with = "MaybeText::<Mass>", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// Its drag area; no drag if left out.
    #[serde(with = "MaybeText::<Area>", default, skip_serializing_if = "Option::is_none")]
    pub drag_area: Option<Area>,
    /// Density of the air; 1.2 kg/m³ if left out.
    #[serde(with = "MaybeText::<Density>", default, skip_serializing_if = "Option::is_none")]
    pub air_density: Option<Density>,
}

/// Where it may land.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct DropZone {
    /// Radius within which it lands, Eq. (Z3).
    #[serde(with = "Text::<Length>")]
    pub radius: Length,
    /// The same without air, Eq. (Z1).
    #[serde(with = "Text::<Length>")]
    pub radius_without_air: Length,
    /// Elevation at which it flies farthest.
    #[serde(with = "Text::<Angle>")]
    pub elevation: Angle,
    /// Time until it lands there.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
    /// Speed with which it lands there.
    #[serde(with = "Text::<Speed>")]
    pub impact_speed: Speed,
    /// Energy of that; none without a mass.
    #[serde(with = "MaybeText::<Energy>")]
    pub impact_energy: Option<Energy>,
}

/// Elevations that are looked at before the best one is refined.
const ELEVATIONS: u32 = 48;

/// Within what radius a dropped or thrown thing lands, and how hard, Eq. (Z1) to (Z4).
///
/// # Errors
/// [`FallError::Invalid`] unless height is from 0 to 10 km, speeds from 0 to 1 km/s, mass above zero, drag area and
/// density zero or more, and with wind or drag area there is a mass, with wind a drag area;
/// [`FallError::Unfinished`] for things so light that they hardly fall.
///
/// # Example
/// ```
/// use tautwork::fall::{DroppedThing, dropped};
/// use tautwork::quantity::{ReadLength, Words};
/// let thing = DroppedThing {
///     height: 90.0.meters(),
///     speed: Some(3.0.meters_per_second()),
///     wind: None,
///     mass: None,
///     drag_area: None,
///     air_density: None,
/// };
/// // 3 / 9.81 · √(9 + 2 · 9.81 · 90).
/// assert!((dropped(&thing)?.radius.in_meters() - 12.88330).abs() < 1e-4);
/// assert!(dropped(&DroppedThing { wind: Some(5.0.meters_per_second()), ..thing }).is_err());
/// # Ok::<(), tautwork::fall::FallError>(())
/// ```
pub fn dropped(thing: &DroppedThing) -> Result<DropZone, FallError> {
    let si = checked(thing)?;
    let (height_m, v) = (si.height_m, si.speed);
    let squared = v * v + 2.0 * GRAVITY * height_m;
    let (elevation_rad, far) = farthest(si)?;
    let mass_kg = thing.mass.map(Quantity::si);
    Ok(DropZone {
        radius: Length::from_si(far.x_m.max(0.0)),
        radius_without_air: Length::from_si(v / GRAVITY * squared.sqrt()),
        elevation: Angle::from_si(elevation_rad),
        time: Time::from_si(far.time_s),
        impact_speed: Speed::from_si(far.speed),
        impact_energy: mass_kg
            .map(|m| FallError::finite("impact_energy", 0.5 * m * far.speed * far.speed))
            .transpose()?,
    })
}

fn checked(thing: &DroppedThing) -> Result<Thing, FallError> {
    let most = 1000.0.meters_per_second();
    let none = Speed::from_si(0.0);
    let height_m = between("height", thing.height, 0.0.meters(), 10_000.0.meters())?;
    let speed = between("speed", thing.speed.unwrap_or(none), none, most)?;
    let wind = between("wind", thing.wind.unwrap_or(none), none, most)?;
    let area_m2 = thing.drag_area.map_or(Ok(0.0), |area| non_negative("drag_area", area))?;
    let density = thing.air_density.map_or(Ok(1.2), |rho| non_negative("air_density", rho))?;
    let mass_kg = thing.mass.map(|m| positive("mass", m)).transpose()?;
    if wind > 0.0 && thing.drag_area.is_none() {
        return Err(Invalid::new("drag_area", "missing".to_owned(), "given with wind").into());
    }
    let drag_per_m = match (thing.drag_area, mass_kg) {
        (None, _) => 0.0,
        (Some(_), Some(m)) => density * area_m2 / (2.0 * m),
        (Some(_), None) => {
            return Err(Invalid::new("mass", "missing".to_owned(), "given with drag_area").into());
        }
    };
    if !drag_per_m.is_finite() {
        return Err(FallError::Overflow { result: "drag" });
    }
    Ok(Thing { height_m, speed, drag_per_m, wind })
}

/// Elevation and landing of the farthest throw: a scan, then a golden section around its best.
fn farthest(thing: Thing) -> Result<(f64, Landing), FallError> {
    let half = std::f64::consts::FRAC_PI_2;
    if thing.speed == 0.0 {
        return Ok((0.0, thing.land(0.0)?));
    }
    let step = 2.0 * half / f64::from(ELEVATIONS);
    let mut best = (-half, thing.land(-half)?);
    for i in 1..=ELEVATIONS {
        let at = f64::from(i) * step - half;
        let landing = thing.land(at)?;
        if landing.x_m > best.1.x_m {
            best = (at, landing);
        }
    }
    let golden = 0.5 * (5.0_f64.sqrt() - 1.0);
    let (mut low, mut high) = ((best.0 - step).max(-half), (best.0 + step).min(half));
    // To 1e-4 of the first bracket.
    for _ in 0..20 {
        let (a, b) = (high - golden * (high - low), low + golden * (high - low));
        let (at_a, at_b) = (thing.land(a)?, thing.land(b)?);
        for (at, landing) in [(a, at_a), (b, at_b)] {
            if landing.x_m > best.1.x_m {
                best = (at, landing);
            }
        }
        if at_a.x_m > at_b.x_m { high = b } else { low = a }
    }
    Ok(best)
}
