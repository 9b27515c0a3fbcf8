//! Energy, speed and reach of a broken line.

use serde::{Deserialize, Serialize};

use crate::line::LineError;
use crate::material::Stretch;
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{
    Energy, Force, GRAVITY, Length, LinearDensity, Mass, MaybeText, Quantity, Speed, Text,
};

/// A line about to break.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BrokenLine {
    /// Tension when it breaks.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Rest length of the part that recoils, from the break to where it stays tied.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// How it stretches.
    pub stretch: Stretch,
    /// Mass per rest length.
    #[serde(with = "Text::<LinearDensity>")]
    pub linear_density: LinearDensity,
    /// Mass of what hangs at the broken end, such as a connector.
    #[serde(with = "MaybeText::<Mass>", default, skip_serializing_if = "Option::is_none")]
    pub end_mass: Option<Mass>,
    /// Height above where things land; level ground if left out.
    #[serde(with = "MaybeText::<Length>", default, skip_serializing_if = "Option::is_none")]
    pub height: Option<Length>,
}

/// What a broken line does.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Recoil {
    /// Energy held, Eq. (O1).
    #[serde(with = "Text::<Energy>")]
    pub energy: Energy,
    /// Length by which it springs back.
    #[serde(with = "Text::<Length>")]
    pub stretched_by: Length,
    /// Speed of the line, Eq. (O2).
    #[serde(with = "Text::<Speed>")]
    pub speed: Speed,
    /// Reach of the part that stays tied, Eq. (O4).
    #[serde(with = "Text::<Length>")]
    pub reach: Length,
    /// Greatest speed of the mass at its end, Eq. (O3); none without one.
    #[serde(with = "MaybeText::<Speed>")]
    pub thrown_speed: Option<Speed>,
    /// How far that mass could fly if it comes off, Eq. (O5): a bound without air.
    #[serde(with = "MaybeText::<Length>")]
    pub thrown_reach: Option<Length>,
    /// Whether the tension is past the last point of the stretch table.
    pub past_table: bool,
}

/// Energy, speed and reach of a line that breaks under tension, Eq. (O1) to (O5).
///
/// # Errors
/// [`LineError::Invalid`] unless tension, length and linear density are above zero, the mass above zero and the
/// height zero or more; [`LineError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::line::{BrokenLine, recoil};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadEnergy, ReadSpeed, Words};
/// let line = BrokenLine {
///     tension: 10.0.kilonewtons(),
///     rest_length: 100.0.meters(),
///     stretch: Stretch::axial_rigidity(250.0.kilonewtons())?,
///     linear_density: 64.0.grams_per_meter(),
///     end_mass: None,
///     height: None,
/// };
/// // T² L / 2 EA = 10² · 100 / 500 kJ; T / √(EA μ) = 10 000 / √16 000.
/// let broken = recoil(&line)?;
/// assert!((broken.energy.in_kilojoules() - 20.0).abs() < 1e-9);
/// assert!((broken.speed.in_meters_per_second() - 79.0569415).abs() < 1e-6);
/// assert!(recoil(&BrokenLine { rest_length: 0.0.meters(), ..line }).is_err());
/// # Ok::<(), tautwork::line::LineError>(())
/// ```
pub fn recoil(line: &BrokenLine) -> Result<Recoil, LineError> {
    let tension_n = positive("tension", line.tension)?;
    let length_m = positive("rest_length", line.rest_length)?;
    let density = positive("linear_density", line.linear_density)?;
    let mass_kg = line.end_mass.map(|m| positive("end_mass", m)).transpose()?;
    let height_m = line.height.map_or(Ok(0.0), |h| non_negative("height", h))?;
    let law = line.stretch.law();
    let per_length_n = law.energy_n(tension_n);
    let energy_j = length_m * per_length_n;
    let speed = (2.0 * per_length_n / density).sqrt();
    let thrown = mass_kg.map(|m| (2.0 * energy_j / m).sqrt());
    Ok(Recoil {
        energy: finite("energy", energy_j)?,
        stretched_by: finite("stretched_by", length_m * law.strain(tension_n))?,
        speed: finite("speed", speed)?,
        reach: line.rest_length,
        thrown_speed: thrown.map(|u| finite("thrown_speed", u)).transpose()?,
        thrown_reach: thrown
            .map(|u| {
                finite("thrown_reach", u / GRAVITY * (u * u + 2.0 * GRAVITY * height_m).sqrt())
            })
            .transpose()?,
        past_table: line.stretch.is_past_table(line.tension),
    })
}

fn finite<Q: Quantity>(result: &'static str, si: f64) -> Result<Q, LineError> {
    if si.is_finite() { Ok(Q::from_si(si)) } else { Err(LineError::Overflow { result }) }
}
