//! How long a rope takes to get its length back.

use serde::{Deserialize, Serialize};

use super::super::Viscoelastic;
use crate::material::MaterialError;
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{Quantity, Ratio, Text, Time};

/// A rope that is let go.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Recovery {
    /// The rope.
    pub solid: Viscoelastic,
    /// Strain of its damper when it is let go; at most the greatest strain of the rope, which gives the
    /// longest wait.
    #[serde(with = "Text::<Ratio>")]
    pub strain: Ratio,
    /// Strain that may be left at the next jump.
    #[serde(with = "Text::<Ratio>")]
    pub left: Ratio,
}

/// A rope without tension.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Recovered {
    /// Time constant of the recovery, Eq. (E5).
    #[serde(with = "Text::<Time>")]
    pub time_constant: Time,
    /// Strain left at once, Eq. (E5).
    #[serde(with = "Text::<Ratio>")]
    pub at_once: Ratio,
    /// Time until no more is left than may be, Eq. (E6).
    #[serde(with = "Text::<Time>")]
    pub time: Time,
}

/// How long a rope must hang without tension before the next jump, Eq. (E4) to (E6).
///
/// # Errors
/// [`MaterialError::Invalid`] unless the figures of the rope and the strain that may be left are above zero and
/// the strain zero or more; [`MaterialError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::material::{Recovery, Viscoelastic, rope_recovery};
/// use tautwork::quantity::{ReadTime, Words};
/// let solid = Viscoelastic {
///     long_term: 10.0.kilonewtons(),
///     arm: 10.0.kilonewtons(),
///     relaxation_time: 1.0.seconds(),
/// };
/// // Half of 10 % is left at once; 1 % after 2 s · ln 5.
/// let rope = rope_recovery(&Recovery { solid, strain: 10.0.percent(), left: 1.0.percent() })?;
/// assert!((rope.time.in_seconds() - 2.0 * 5.0_f64.ln()).abs() < 1e-9);
/// assert!(rope_recovery(&Recovery { solid, strain: 10.0.percent(), left: 0.0.percent() }).is_err());
/// # Ok::<(), tautwork::material::MaterialError>(())
/// ```
pub fn rope_recovery(rope: &Recovery) -> Result<Recovered, MaterialError> {
    rope.solid.check()?;
    let strain = non_negative("strain", rope.strain)?;
    let left = positive("left", rope.left)?;
    let (slow, arm) = (rope.solid.long_term.si(), rope.solid.arm.si());
    let constant_s = rope.solid.relaxation_time.si() * (1.0 + arm / slow);
    let at_once = strain * (arm / (slow + arm));
    let time_s = if at_once > left { constant_s * (at_once / left).ln() } else { 0.0 };
    Ok(Recovered {
        time_constant: MaterialError::finite("time_constant", constant_s)?,
        at_once: MaterialError::finite("at_once", at_once)?,
        time: MaterialError::finite("time", time_s)?,
    })
}
