//! A haul that starts or stops.

use serde::{Deserialize, Serialize};

use super::super::PulleyError;
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{Force, GRAVITY, Mass, Quantity, Ratio, Speed, Stiffness, Text, Time};

/// The jerk in a haul line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HaulJerk {
    /// Greatest tension, Eq. (K1).
    #[serde(with = "Text::<Force>")]
    pub greatest: Force,
    /// The same over the weight.
    #[serde(with = "Text::<Ratio>")]
    pub load_factor: Ratio,
    /// Least tension, Eq. (K2); zero where the line goes slack.
    #[serde(with = "Text::<Force>")]
    pub least: Force,
    /// How long the line is slack.
    #[serde(with = "Text::<Time>")]
    pub slack_for: Time,
    /// Period of the bounce.
    #[serde(with = "Text::<Time>")]
    pub period: Time,
}

/// The jerk of a load on a line when its haul starts, stops or changes by `speed`, Eq. (K1) and (K2).
///
/// # Errors
/// [`PulleyError::Invalid`] for values out of range; [`PulleyError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::pulley::haul_jerk;
/// use tautwork::quantity::{ReadForce, Words};
/// // 100 kg at 0.5 m/s on 20 kN/m: √(20000 · 100) · 0.5 = 707 N beside the weight.
/// let jerk = haul_jerk(100.0.kilograms(), 20.0.kilonewtons_per_meter(), 0.5.meters_per_second())?;
/// assert!((jerk.greatest.in_newtons() - (981.0 + 707.1)).abs() < 0.1);
/// assert!(haul_jerk(0.0.kilograms(), 20.0.kilonewtons_per_meter(), 0.5.meters_per_second()).is_err());
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
pub fn haul_jerk(mass: Mass, stiffness: Stiffness, speed: Speed) -> Result<HaulJerk, PulleyError> {
    let m = positive("mass", mass)?;
    let k = positive("stiffness", stiffness)?;
    let v = non_negative("speed", speed)?;
    let weight_n = m * GRAVITY;
    let swing_n = v * (k * m).sqrt();
    let period_s = 2.0 * core::f64::consts::PI * (m / k).sqrt();
    let free2 = v * v - GRAVITY * GRAVITY * m / k;
    let slack_s = if swing_n > weight_n { 2.0 * free2.max(0.0).sqrt() / GRAVITY } else { 0.0 };
    let factor = 1.0 + swing_n / weight_n;
    if !(swing_n + weight_n + period_s + slack_s + factor).is_finite() {
        return Err(PulleyError::Overflow { result: "haul_jerk" });
    }
    Ok(HaulJerk {
        greatest: Force::from_si(weight_n + swing_n),
        load_factor: Ratio::from_si(factor),
        least: Force::from_si((weight_n - swing_n).max(0.0)),
        slack_for: Time::from_si(slack_s),
        period: Time::from_si(period_s),
    })
}
