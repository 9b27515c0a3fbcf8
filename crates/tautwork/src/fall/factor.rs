//! Fall factor, impact force and its inverse, for a linear rope.

use super::FallError;
use crate::material::standards::ea_from_impact_force;
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{AxialRigidity, Force, GRAVITY, Length, Mass, Quantity, Ratio};

/// Fall factor: height fallen over rest length of rope, Eq. (1).
///
/// # Errors
/// [`FallError::Invalid`] unless `height >= 0` and `rope > 0`.
///
/// # Example
/// ```
/// use tautwork::{fall, quantity::{ReadRatio, Words}};
/// // EN 892 drop: 4.8 m on 2.7 m (values from memory).
/// let f = fall::fall_factor(4.8.meters(), 2.7.meters())?;
/// assert!((f.in_ratio() - 1.778).abs() < 1e-3);
/// assert!(fall::fall_factor(4.8.meters(), 0.0.meters()).is_err());
/// # Ok::<(), fall::FallError>(())
/// ```
pub fn fall_factor(height: Length, rope: Length) -> Result<Ratio, FallError> {
    Ok(Ratio::from_si(non_negative("height", height)? / positive("rope", rope)?))
}

/// Impact force of a rigid mass on a linear rope, Eq. (2).
///
/// Valid for a fall straight below a rigid anchor; see the module page.
///
/// # Errors
/// [`FallError::Invalid`] unless `mass > 0`, `fall_factor >= 0`, `axial_rigidity > 0`.
///
/// # Example
/// ```
/// use tautwork::{fall, quantity::{ReadForce, Words}};
/// // With no fall at all the rope still sees twice the weight.
/// let f = fall::impact_force(80.0.kilograms(), 0.0.ratio(), 20.0.kilonewtons())?;
/// assert!((f.in_newtons() - 2.0 * 80.0 * 9.81).abs() < 1e-9);
/// assert!(fall::impact_force(80.0.kilograms(), (-1.0).ratio(), 20.0.kilonewtons()).is_err());
/// # Ok::<(), fall::FallError>(())
/// ```
///
/// # Source
/// Wexler (1950), from memory; recomputed by integration in the tests.
pub fn impact_force(
    mass: Mass,
    fall_factor: Ratio,
    axial_rigidity: AxialRigidity,
) -> Result<Force, FallError> {
    let w_n = positive("mass", mass)? * GRAVITY;
    let f = non_negative("fall_factor", fall_factor)?;
    let ea_n = positive("axial_rigidity", axial_rigidity)?;
    FallError::finite("impact_force", w_n + (w_n * (w_n + 2.0 * ea_n * f)).sqrt())
}

/// Axial rigidity that a rated impact force implies, Eq. (3), the inverse of [`impact_force`].
///
/// For an EN 892 figure this is an effective stiff value for that test, edge friction included.
///
/// # Errors
/// [`FallError::Invalid`] unless `impact_force > 2 m g`, `mass > 0` and `fall_factor > 0`.
///
/// # Example
/// ```
/// use tautwork::{fall, quantity::{ReadForce, Words}};
/// let ea = fall::implied_axial_rigidity(80.0.kilograms(), 1.77.ratio(), 9.0.kilonewtons())?;
/// assert!((ea.in_kilonewtons() - 24.07).abs() < 0.01);
/// assert!(fall::implied_axial_rigidity(80.0.kilograms(), 1.77.ratio(), 1.0.kilonewtons()).is_err());
/// # Ok::<(), fall::FallError>(())
/// ```
pub fn implied_axial_rigidity(
    mass: Mass,
    fall_factor: Ratio,
    impact_force: Force,
) -> Result<AxialRigidity, FallError> {
    let w_n = positive("mass", mass)? * GRAVITY;
    let f = positive("fall_factor", fall_factor)?;
    let force_n = positive("impact_force", impact_force)?;
    if force_n <= 2.0 * w_n {
        return Err(FallError::BelowTwiceWeight {
            force: crate::quantity::print(impact_force),
            twice_weight: crate::quantity::print(Force::from_si(2.0 * w_n)),
        });
    }
    FallError::finite("axial_rigidity", ea_from_impact_force(w_n, f, force_n))
}
