//! The standard linear solid: one rope with two stiffnesses.

use serde::{Deserialize, Serialize};

use super::stretch::Stretch;
use super::{Law, MaterialError};
use crate::quantity::check::positive;
use crate::quantity::{AxialRigidity, Force, Quantity, Ratio, Text, Time, print};

/// A spring beside a spring with a damper in series: Eq. (6) and (7).
///
/// Slow loading meets the long-term rigidity; a load faster than the relaxation time meets long-term
/// plus arm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Viscoelastic {
    /// Rigidity under a lasting load.
    #[serde(with = "Text::<Force>")]
    pub long_term: AxialRigidity,
    /// Further rigidity under a sudden load.
    #[serde(with = "Text::<Force>")]
    pub arm: AxialRigidity,
    /// Time in which the arm lets go.
    #[serde(with = "Text::<Time>")]
    pub relaxation_time: Time,
}

impl Viscoelastic {
    /// From the two EN 892 figures: long-term from the static elongation, long-term plus arm from the
    /// impact force.
    ///
    /// The relaxation time is in no standard; between 0.05 and 1 s is common practice, no source.
    ///
    /// # Errors
    /// [`MaterialError::ImpactNotStiffer`] if the impact figure is not the stiffer one, and those of
    /// [`Stretch::new`].
    ///
    /// # Example
    /// ```
    /// use tautwork::material::Viscoelastic;
    /// use tautwork::quantity::{ReadForce, Words};
    /// let v = Viscoelastic::from_en892(8.0.percent(), 8.6.kilonewtons(), 0.1.seconds())?;
    /// assert!((v.long_term.in_kilonewtons() - 0.73575 / 0.08).abs() < 1e-9);
    /// assert!(Viscoelastic::from_en892(8.0.percent(), 4.0.kilonewtons(), 0.1.seconds()).is_err());
    /// # Ok::<(), tautwork::material::MaterialError>(())
    /// ```
    pub fn from_en892(
        static_elongation: Ratio,
        impact_force: Force,
        relaxation_time: Time,
    ) -> Result<Self, MaterialError> {
        positive("relaxation_time", relaxation_time)?;
        let slow = rigidity(&Stretch::en892_static_elongation(static_elongation)?);
        let fast = rigidity(&Stretch::en892_impact_force(impact_force)?);
        if fast <= slow {
            return Err(MaterialError::ImpactNotStiffer {
                impact: print(Force::from_si(fast)),
                long_term: print(Force::from_si(slow)),
            });
        }
        Ok(Self {
            long_term: Force::from_si(slow),
            arm: Force::from_si(fast - slow),
            relaxation_time,
        })
    }

    /// Checks that all three figures are above zero.
    ///
    /// # Errors
    /// [`MaterialError::Invalid`].
    pub fn check(&self) -> Result<(), MaterialError> {
        positive("long_term", self.long_term)?;
        positive("arm", self.arm)?;
        positive("relaxation_time", self.relaxation_time)?;
        Ok(())
    }

    /// Rigidity under a sudden load, long-term plus arm.
    pub fn sudden(&self) -> AxialRigidity {
        self.long_term + self.arm
    }
}

/// Rigidity of a linear stretch.
fn rigidity(stretch: &Stretch) -> f64 {
    match stretch.law() {
        Law::Linear { ea_n } => *ea_n,
        Law::Curve(_) => 1.0 / stretch.law().strain_and_slope(0.0).1,
    }
}
