//! Stress at the foot of a tree or post from a sling at a height.

use std::f64::consts::{FRAC_PI_2, PI};

use serde::Serialize;

use crate::anchor::AnchorError;
use crate::quantity::check::{between, non_negative, positive};
use crate::quantity::{Angle, Force, Length, Pressure, Quantity, Ratio, Text};

/// A tree under a pull: geometry and the strength that the user gives its wood.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Trunk {
    /// Diameter at the foot, of sound wood.
    #[serde(with = "Text::<Length>")]
    pub diameter: Length,
    /// Height of the sling above the foot.
    #[serde(with = "Text::<Length>")]
    pub sling_height: Length,
    /// Pull.
    #[serde(with = "Text::<Force>")]
    pub pull: Force,
    /// Angle of the pull above the horizontal; negative where it pulls down.
    #[serde(with = "Text::<Angle>")]
    pub pull_angle: Angle,
    /// Strength of the wood in bending.
    #[serde(with = "Text::<Pressure>")]
    pub strength: Pressure,
}

/// Stress at the foot of a trunk.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct TreeStress {
    /// Stress of bending.
    #[serde(with = "Text::<Pressure>")]
    pub bending: Pressure,
    /// Stress along the trunk; negative where the pull presses it down.
    #[serde(with = "Text::<Pressure>")]
    pub axial: Pressure,
    /// Greatest stress, of either sign.
    #[serde(with = "Text::<Pressure>")]
    pub greatest: Pressure,
    /// Strength over the greatest stress.
    #[serde(with = "Text::<Ratio>")]
    pub factor: Ratio,
}

/// Stress at the foot of a round trunk from the pull of a sling, Eq. (F13).
///
/// The strength is the user's. Not covered: roots and soil, which mostly fail first, the tree's own
/// weight, wind and lean, rot.
///
/// # Errors
/// [`AnchorError::Invalid`] for diameter, pull or strength that is not above zero, a negative height, an
/// angle outside ±90°; [`AnchorError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::anchor::{Trunk, tree_stress};
/// use tautwork::quantity::{ReadPressure, ReadRatio, Words};
///
/// // 10 kN level at 1 m on 0.2 m of wood: 32 · 10 kN · 1 m / (π · 0.008 m³) = 12.7 MPa.
/// let mut trunk = Trunk {
///     diameter: 0.2.meters(),
///     sling_height: 1.0.meters(),
///     pull: 10.0.kilonewtons(),
///     pull_angle: 0.0.degrees(),
///     strength: 25.46.megapascals(),
/// };
/// let stress = tree_stress(&trunk)?;
/// assert!((stress.bending.in_megapascals() - 12.732).abs() < 1e-3);
/// assert!((stress.factor.in_ratio() - 2.0).abs() < 1e-3);
/// trunk.diameter = 0.0.meters();
/// assert!(tree_stress(&trunk).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
///
/// # Source
/// Any textbook of the strength of materials.
pub fn tree_stress(trunk: &Trunk) -> Result<TreeStress, AnchorError> {
    let d = positive("diameter", trunk.diameter)?;
    let h = non_negative("sling_height", trunk.sling_height)?;
    let pull_n = positive("pull", trunk.pull)?;
    let strength_pa = positive("strength", trunk.strength)?;
    let right = Angle::from_si(FRAC_PI_2);
    let angle = between("pull_angle", trunk.pull_angle, -right, right)?;
    let per_area_pa = pull_n / d / d / PI;
    // The cosine of 90° is not quite zero in doubles.
    let bending_pa = 32.0 * per_area_pa * (h / d) * angle.cos().max(0.0);
    let axial_pa = 4.0 * per_area_pa * angle.sin();
    let greatest_pa = bending_pa + axial_pa.abs();
    Ok(TreeStress {
        bending: AnchorError::finite("bending", bending_pa)?,
        axial: AnchorError::finite("axial", axial_pa)?,
        greatest: AnchorError::finite("greatest", greatest_pa)?,
        factor: AnchorError::finite("factor", strength_pa / greatest_pa)?,
    })
}
