//! A person who climbs the rope.

use serde::{Deserialize, Serialize};

use super::super::PulleyError;
use crate::quantity::check::{between, non_negative, positive};
use crate::quantity::{Force, GRAVITY, Mass, Quantity, Ratio, Stiffness, Text, Time, Words};

/// A steady climb.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Climb {
    /// Mass of the climber and of what hangs with them.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
    /// Stiffness of the rope above.
    #[serde(with = "Text::<Stiffness>")]
    pub stiffness: Stiffness,
    /// Damping over the critical one, from 0 to below 1.
    #[serde(with = "Text::<Ratio>")]
    pub damping_ratio: Ratio,
    /// Time between two pulls.
    #[serde(with = "Text::<Time>")]
    pub period: Time,
    /// By how much the pull goes up and down about the weight.
    #[serde(with = "Text::<Force>")]
    pub amplitude: Force,
}

/// What the rope feels of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ClimbBounce {
    /// Period at which the climber bounces on the rope by themselves.
    #[serde(with = "Text::<Time>")]
    pub own_period: Time,
    /// Own period over that of the pulls; near one the rhythm is that of the bounce.
    #[serde(with = "Text::<Ratio>")]
    pub tuning: Ratio,
    /// Amplification of the way, Eq. (K8).
    #[serde(with = "Text::<Ratio>")]
    pub amplification: Ratio,
    /// Greatest tension.
    #[serde(with = "Text::<Force>")]
    pub greatest: Force,
    /// Least tension; zero where the rope goes slack, beyond which the answer does not hold.
    #[serde(with = "Text::<Force>")]
    pub least: Force,
}

/// How much a person who climbs in a rhythm bounces on the rope, Eq. (K8).
///
/// # Errors
/// [`PulleyError::Invalid`] for values out of range; [`PulleyError::Overflow`] in tune without damping.
///
/// # Example
/// ```
/// use tautwork::pulley::{Climb, climb_bounce};
/// use tautwork::quantity::{ReadForce, ReadRatio, Words};
/// // In tune with 10 % of damping: 1 / (2 · 0.1) = 5 times the way.
/// let own = 2.0 * std::f64::consts::PI * (80.0_f64 / 1000.0).sqrt();
/// let climb = Climb {
///     mass: 80.0.kilograms(),
///     stiffness: 1.0.kilonewtons_per_meter(),
///     damping_ratio: 0.1.ratio(),
///     period: own.seconds(),
///     amplitude: 100.0.newtons(),
/// };
/// assert!((climb_bounce(&climb)?.amplification.in_ratio() - 5.0).abs() < 1e-9);
/// assert!(climb_bounce(&Climb { damping_ratio: 1.5.ratio(), ..climb }).is_err());
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
pub fn climb_bounce(climb: &Climb) -> Result<ClimbBounce, PulleyError> {
    let m = positive("mass", climb.mass)?;
    let k = positive("stiffness", climb.stiffness)?;
    let period_s = positive("period", climb.period)?;
    let zeta = between("damping_ratio", climb.damping_ratio, 0.0.ratio(), 0.99.ratio())?;
    let amplitude_n = non_negative("amplitude", climb.amplitude)?;
    let own_s = 2.0 * core::f64::consts::PI * (m / k).sqrt();
    let r = own_s / period_s;
    let damping = 2.0 * zeta * r;
    let amplification = 1.0 / (1.0 - r * r).hypot(damping);
    let swing_n = amplitude_n * amplification * 1.0_f64.hypot(damping);
    let weight_n = m * GRAVITY;
    if !(swing_n + weight_n + own_s + r + amplification).is_finite() {
        return Err(PulleyError::Overflow { result: "climb_bounce" });
    }
    Ok(ClimbBounce {
        own_period: Time::from_si(own_s),
        tuning: Ratio::from_si(r),
        amplification: Ratio::from_si(amplification),
        greatest: Force::from_si(weight_n + swing_n),
        least: Force::from_si((weight_n - swing_n).max(0.0)),
    })
}
