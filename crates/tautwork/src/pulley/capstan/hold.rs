//! A rope around a surface that does not turn.

use serde::{Deserialize, Serialize};

use super::super::PulleyError;
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{Angle, Force, Invalid, Quantity, Ratio, Text, print};

/// The least and the greatest force of a range of equilibria.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Interval {
    /// Least force that holds.
    #[serde(with = "Text::<Force>")]
    pub low: Force,
    /// Greatest force that holds.
    #[serde(with = "Text::<Force>")]
    pub high: Force,
}

/// Ratio of the tensions on both sides of a surface when the rope is about to slide, Eq. (12).
///
/// # Errors
/// [`PulleyError::Invalid`] unless `mu >= 0` and `wrap >= 0`; [`PulleyError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::{pulley, quantity::{ReadRatio, Words}};
/// // One turn, friction 0.5: 23 times.
/// let ratio = pulley::capstan_ratio(0.5.ratio(), 1.0.turns())?;
/// assert!((ratio.in_ratio() - 23.1407).abs() < 1e-4);
/// assert!(pulley::capstan_ratio((-0.5).ratio(), 1.0.turns()).is_err());
/// # Ok::<(), pulley::PulleyError>(())
/// ```
///
/// # Source
/// Euler–Eytelwein; Beer & Johnston, *Statics*, from memory.
pub fn capstan_ratio(mu: Ratio, wrap: Angle) -> Result<Ratio, PulleyError> {
    let ratio = (non_negative("mu", mu)? * non_negative("wrap", wrap)?).exp();
    if !ratio.is_finite() {
        return Err(PulleyError::Overflow { result: "capstan_ratio" });
    }
    Ok(Ratio::from_si(ratio))
}

/// Forces on the free side that hold a load over a surface: from load / ratio, where the load is
/// about to run, to load × ratio, where it is about to rise. Eq. (12).
///
/// # Errors
/// [`PulleyError::Invalid`] unless `load > 0`, `mu >= 0`, `wrap >= 0`; [`PulleyError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::{pulley, quantity::{ReadForce, Words}};
/// // 100 kg over a bar with a quarter turn, friction 0.3: from 612 N to 1572 N.
/// let hold = pulley::capstan_hold(981.0.newtons(), 0.3.ratio(), 0.25.turns())?;
/// assert!((hold.low.in_newtons() - 612.4).abs() < 0.1);
/// assert!((hold.high.in_newtons() - 1571.5).abs() < 0.1);
/// assert!(pulley::capstan_hold(0.0.newtons(), 0.3.ratio(), 0.25.turns()).is_err());
/// # Ok::<(), pulley::PulleyError>(())
/// ```
pub fn capstan_hold(load: Force, mu: Ratio, wrap: Angle) -> Result<Interval, PulleyError> {
    let load_n = positive("load", load)?;
    let ratio = capstan_ratio(mu, wrap)?.si();
    let (low, high) = (load_n / ratio, load_n * ratio);
    if !high.is_finite() {
        return Err(PulleyError::Overflow { result: "capstan_hold" });
    }
    Ok(Interval { low: Force::from_si(low), high: Force::from_si(high) })
}

/// Friction that a measured tension ratio implies, the inverse of [`capstan_ratio`].
///
/// # Errors
/// [`PulleyError::Invalid`] unless `ratio >= 1` and `wrap > 0`; [`PulleyError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::{pulley, quantity::{ReadRatio, Words}};
/// // Two turns hold 7500 N with 150 N.
/// let mu = pulley::implied_mu(50.0.ratio(), 2.0.turns())?;
/// assert!((mu.in_ratio() - 0.311).abs() < 1e-3);
/// assert!(pulley::implied_mu(0.5.ratio(), 2.0.turns()).is_err());
/// # Ok::<(), pulley::PulleyError>(())
/// ```
pub fn implied_mu(ratio: Ratio, wrap: Angle) -> Result<Ratio, PulleyError> {
    let value = positive("ratio", ratio)?;
    if value < 1.0 {
        let (parameter, allowed) = ("ratio".to_owned(), "1 or more".to_owned());
        return Err(Invalid::new(parameter, print(ratio), allowed).into());
    }
    let mu = value.ln() / positive("wrap", wrap)?;
    if !mu.is_finite() {
        return Err(PulleyError::Overflow { result: "implied_mu" });
    }
    Ok(Ratio::from_si(mu))
}
