//! How warmth, water, creep and set change the rest length of cordage.

use serde::{Deserialize, Serialize};

use super::MaterialError;
use crate::quantity::check::{finite, non_negative};
use crate::quantity::{
    Invalid, Quantity, Ratio, TemperatureDifference, Text, ThermalExpansion, print,
};

/// What has happened to cordage since its rest length was measured. Nothing, where left out.
///
/// Lengths only: what water, warmth and age do to the stretch and the strength is not in it.
///
/// # Example
/// ```
/// use tautwork::material::Condition;
/// use tautwork::quantity::{ReadRatio, Words};
/// // 100 ppm/K over 20 K more, and a shrinkage of 1 % in the wet: 1.002 · 0.99.
/// let warm = Condition {
///     temperature_change: 20.0.kelvins(),
///     expansion: 100.0.ppm_per_kelvin(),
///     ..Condition::default()
/// };
/// let warm_and_wet = Condition { wet_change: (-1.0).percent(), ..warm };
/// assert!((warm_and_wet.rest_length_factor()?.in_ratio() - 1.002 * 0.99).abs() < 1e-15);
/// // Creep lengthens.
/// assert!(Condition { creep: (-1.0).percent(), ..warm }.rest_length_factor().is_err());
/// # Ok::<(), tautwork::material::MaterialError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Condition {
    /// Temperature now less temperature then; positive if it is warmer.
    #[serde(with = "Text::<TemperatureDifference>")]
    pub temperature_change: TemperatureDifference,
    /// Coefficient of thermal expansion along the cordage; negative if it shortens when warm.
    #[serde(with = "Text::<ThermalExpansion>")]
    pub expansion: ThermalExpansion,
    /// Change of the rest length by water, as a fraction of it; negative if it shrinks.
    #[serde(with = "Text::<Ratio>")]
    pub wet_change: Ratio,
    /// Creep under the standing tension so far, as a fraction of the rest length; zero or more.
    #[serde(with = "Text::<Ratio>")]
    pub creep: Ratio,
    /// Set that stays after unloading, bedding-in included, as a fraction of the rest length; zero or
    /// more.
    #[serde(with = "Text::<Ratio>")]
    pub permanent_set: Ratio,
}

impl Default for Condition {
    fn default() -> Self {
        let none = Ratio::from_si(0.0);
        Self {
            temperature_change: TemperatureDifference::from_si(0.0),
            expansion: ThermalExpansion::from_si(0.0),
            wet_change: none,
            creep: none,
            permanent_set: none,
        }
    }
}

impl Condition {
    /// Rest length now over the rest length before, Eq. (9).
    ///
    /// # Errors
    /// [`MaterialError::Invalid`] for numbers that are not finite, creep or set below zero, and a factor
    /// of warmth or water that leaves nothing.
    pub fn rest_length_factor(&self) -> Result<Ratio, MaterialError> {
        let kelvins = finite("temperature_change", self.temperature_change)?;
        let thermal = 1.0 + finite("expansion", self.expansion)? * kelvins;
        let wet = 1.0 + finite("wet_change", self.wet_change)?;
        let creep = 1.0 + non_negative("creep", self.creep)?;
        let set = 1.0 + non_negative("permanent_set", self.permanent_set)?;
        let vanishes = |parameter: &str, value: String, factor: f64| {
            Invalid::new(
                parameter,
                value,
                format!("such that some length is left; it gives a factor of {factor}"),
            )
        };
        if thermal <= 0.0 {
            let value = print(self.expansion);
            return Err(vanishes("expansion", value, thermal).into());
        }
        if wet <= 0.0 {
            return Err(vanishes("wet_change", print(self.wet_change), wet).into());
        }
        MaterialError::finite("rest length factor", thermal * wet * creep * set)
    }
}
