//! A rope, webbing or cord.

use serde::{Deserialize, Serialize};

use super::{BreakingStrength, MaterialError, Stretch, Viscoelastic};
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{GRAVITY, Length, LineLoad, LinearDensity, MaybeText, Text};

/// A rope, webbing or cord, per rest length.
///
/// # Example
/// ```
/// use tautwork::material::{BreakingStrength, Cordage, Stretch};
/// use tautwork::quantity::{ReadLineLoad, Words};
/// let rope = Cordage {
///     name: "11 mm low stretch".to_owned(),
///     linear_density: 72.0.grams_per_meter(),
///     stretch: Stretch::en1891_elongation(3.3.percent())?,
///     viscoelastic: None,
///     breaking_strength: BreakingStrength(27.0.kilonewtons()),
///     diameter: Some(11.0.millimeters()),
/// };
/// assert!((rope.weight()?.in_newtons_per_meter() - 0.072 * 9.81).abs() < 1e-12);
/// let weightless = Cordage { linear_density: (-1.0).grams_per_meter(), ..rope };
/// assert!(weightless.weight().is_err());
/// # Ok::<(), tautwork::material::MaterialError>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cordage {
    /// A plain name, such as "11 mm dynamic".
    pub name: String,
    /// Mass per rest length.
    #[serde(with = "Text::<LinearDensity>")]
    pub linear_density: LinearDensity,
    /// Stretch under slow loading.
    pub stretch: Stretch,
    /// Its two stiffnesses, where they are known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub viscoelastic: Option<Viscoelastic>,
    /// Minimum breaking strength without knots.
    pub breaking_strength: BreakingStrength,
    /// Diameter or width across the wind, for drag.
    #[serde(with = "MaybeText::<Length>", default, skip_serializing_if = "Option::is_none")]
    pub diameter: Option<Length>,
}

impl Cordage {
    /// Checks that every figure is in its range.
    ///
    /// # Errors
    /// [`MaterialError`] names the figure.
    pub fn check(&self) -> Result<(), MaterialError> {
        self.weight()?;
        positive("breaking_strength", self.breaking_strength.0)?;
        if let Some(diameter) = self.diameter {
            positive("diameter", diameter)?;
        }
        self.viscoelastic.map_or(Ok(()), |v| v.check())
    }

    /// Weight per rest length.
    ///
    /// # Errors
    /// [`MaterialError`] unless the linear density is zero or more.
    pub fn weight(&self) -> Result<LineLoad, MaterialError> {
        let density = non_negative("linear_density", self.linear_density)?;
        MaterialError::finite("weight", density * GRAVITY)
    }
}
