//! One-line factors of the angle between legs.

use super::AnchorError;
use crate::quantity::check::finite;
use crate::quantity::{Angle, Invalid, Ratio, print};

/// Tension of each of two equal legs over the pull, for the angle between them, Eq. (5).
///
/// # Errors
/// [`AnchorError::Invalid`] unless `0 <= v_angle < 180°`.
///
/// # Example
/// ```
/// use tautwork::{anchor, quantity::{ReadRatio, Words}};
/// // At 120° each leg carries the whole pull.
/// assert!((anchor::v_angle_factor(120.0.degrees())?.in_ratio() - 1.0).abs() < 1e-12);
/// assert!(anchor::v_angle_factor(180.0.degrees()).is_err());
/// # Ok::<(), anchor::AnchorError>(())
/// ```
pub fn v_angle_factor(v_angle: Angle) -> Result<Ratio, AnchorError> {
    let angle_rad = finite("v_angle", v_angle)?;
    if !(0.0..std::f64::consts::PI).contains(&angle_rad) {
        return Err(outside("v_angle", v_angle, "from 0 deg to below 180 deg"));
    }
    AnchorError::finite("v_angle_factor", 0.5 / (angle_rad / 2.0).cos())
}

/// Tension of a sling leg over the vertical load on it, for its angle above the horizontal, Eq. (6).
///
/// # Errors
/// [`AnchorError::Invalid`] unless `0 < angle <= 90°`.
///
/// # Example
/// ```
/// use tautwork::{anchor, quantity::{ReadRatio, Words}};
/// assert!((anchor::sling_factor(30.0.degrees())?.in_ratio() - 2.0).abs() < 1e-12);
/// assert!(anchor::sling_factor(0.0.degrees()).is_err());
/// # Ok::<(), anchor::AnchorError>(())
/// ```
pub fn sling_factor(angle: Angle) -> Result<Ratio, AnchorError> {
    let angle_rad = finite("angle", angle)?;
    if angle_rad <= 0.0 || angle_rad > std::f64::consts::FRAC_PI_2 {
        return Err(outside("angle", angle, "above 0 deg and at most 90 deg"));
    }
    AnchorError::finite("sling_factor", 1.0 / angle_rad.sin())
}

fn outside(parameter: &str, angle: Angle, allowed: &str) -> AnchorError {
    AnchorError::Invalid(Invalid::new(parameter, print(angle), allowed))
}
