//! A leg is cut: new rest, extension, and the peak by energy balance.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::legs::{described, factor, pull, springs};
use super::rest::{Spring, rest, unbalanced};
use super::turning::{Turn, turning_point};
use super::{Anchor, AnchorError, Equilibrium};
use crate::quantity::check::positive;
use crate::quantity::{Energy, Force, Length, Mass, MaybeText, Ratio, Speed, Text, Triple};

/// What the loss of a leg does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LegLoss {
    /// At rest with the leg.
    pub before: Equilibrium,
    /// At rest without it.
    pub after: Equilibrium,
    /// Travel of the master point from rest to rest.
    #[serde(with = "Triple::<Length>")]
    pub travel: [Length; 3],
    /// Its part along the pull, Eq. (7).
    #[serde(with = "Text::<Length>")]
    pub extension: Length,
    /// Energy that the pull and the legs set free, Eq. (8).
    #[serde(with = "Text::<Energy>")]
    pub energy_released: Energy,
    /// Greatest speed of the effective mass, Eq. (9).
    #[serde(with = "Text::<Speed>")]
    pub speed: Speed,
    /// Peaks of the legs that are left.
    pub peaks: Vec<LegPeak>,
    /// What the energy at the turning point misses, as part of the energy released.
    pub residual: f64,
}

/// Peak of one leg after the loss of another.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LegPeak {
    /// Name.
    pub name: String,
    /// Greatest tension on the way, Eq. (10).
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Peak over tension at the new rest, where the leg is taut there.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub dynamic_factor: Option<Ratio>,
    /// Strength over peak, where a strength is given and the leg is taut.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub factor: Option<Ratio>,
}

/// Cuts the leg called `leg`, Eqs. (7) to (10).
///
/// `effective_mass` is what moves with the master point, the end of the line, not the person far down
/// it; it sets the speed. The peak does not depend on it, since the pull is kept in full: this is
/// conservative for a line whose pull falls as its end moves, and neglects damping.
///
/// # Errors
/// Those of [`equilibrium`](super::equilibrium), [`AnchorError::UnknownLeg`], and
/// [`AnchorError::TooFew`] when no leg is left.
///
/// # Example
/// ```
/// use tautwork::anchor::{Anchor, Leg, lose_leg};
/// use tautwork::quantity::{ReadForce, Words};
///
/// let leg = |name: &str| Leg {
///     name: name.to_owned(),
///     fixing: [0.0.meters(), 0.0.meters(), 1.0.meters()],
///     rest_length: 1.0.meters(),
///     stiffness: Some(100.0.newtons_per_millimeter()),
///     axial_rigidity: None,
///     strength: None,
/// };
/// let pull = [0.0.newtons(), 0.0.newtons(), (-1000.0).newtons()];
/// let anchor = Anchor { legs: vec![leg("a"), leg("b")], pull };
/// let loss = lose_leg(&anchor, "b", 5.0.kilograms())?;
/// // 500 N each; then 1000 N at rest, and as much above as it came from below: 1500 N.
/// assert!((loss.peaks[0].tension.in_newtons() - 1500.0).abs() < 1e-6);
/// assert!(lose_leg(&anchor, "c", 5.0.kilograms()).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
pub fn lose_leg(anchor: &Anchor, leg: &str, effective_mass: Mass) -> Result<LegLoss, AnchorError> {
    let mass_kg = positive("effective_mass", effective_mass)?;
    let pull_n = pull(anchor)?;
    let all = springs(&anchor.legs)?;
    let Some(lost) = anchor.legs.iter().position(|known| known.name == leg) else {
        return Err(AnchorError::UnknownLeg { name: leg.to_owned() });
    };
    let mut names = anchor.legs.clone();
    names.remove(lost);
    let mut left = all.clone();
    left.remove(lost);
    if left.is_empty() {
        return Err(AnchorError::TooFew { what: "legs", found: 0, least: 1 });
    }
    let old = rest(&all, &pull_n)?;
    let new = rest(&left, &pull_n)?;
    let travel = new.p - old.p;
    let turn = turn(&left, &pull_n, &old.p, &travel)?;
    let turn_p = old.p + travel * turn.part;
    let mut peaks = Vec::new();
    for (leg, spring) in names.iter().zip(&left) {
        let tension = |p: &Vector3<f64>| spring.k_n_per_m * spring.pulled(p).stretch_m;
        // The stretch is convex along the straight way, so its greatest value is at an end.
        let peak_n = tension(&old.p).max(tension(&turn_p));
        let ratio = peak_n / tension(&new.p);
        peaks.push(LegPeak {
            name: leg.name.clone(),
            tension: AnchorError::finite("peak", peak_n)?,
            dynamic_factor: ratio
                .is_finite()
                .then(|| AnchorError::finite("dynamic_factor", ratio))
                .transpose()?,
            factor: factor(leg, peak_n),
        });
    }
    let along = pull_n / pull_n.norm();
    Ok(LegLoss {
        before: described(&anchor.legs, &all, &pull_n, &old)?,
        after: described(&names, &left, &pull_n, &new)?,
        travel: AnchorError::finite_triple("position", &travel)?,
        extension: AnchorError::finite("extension", travel.dot(&along))?,
        energy_released: AnchorError::finite("energy_released", turn.released_j)?,
        speed: AnchorError::finite("speed", (2.0 * turn.released_j / mass_kg).sqrt())?,
        peaks,
        residual: turn.residual,
    })
}

/// Where the energy is again what it was, on the straight way from `from` past the new rest, Eq. (10).
fn turn(
    left: &[Spring],
    pull_n: &Vector3<f64>,
    from: &Vector3<f64>,
    travel: &Vector3<f64>,
) -> Result<Turn, AnchorError> {
    let start: Vec<f64> = left.iter().map(|s| s.pulled(from).stretch_m).collect();
    // Energy gained since the start of the way, so that no common part is lost in rounding.
    let gain = |s: f64| {
        let p = from + travel * s;
        let stored: f64 = left
            .iter()
            .zip(&start)
            .map(|(spring, &x0)| {
                let x = spring.pulled(&p).stretch_m;
                0.5 * spring.k_n_per_m * (x - x0) * (x + x0)
            })
            .sum();
        stored - pull_n.dot(travel) * s
    };
    let slope = |s: f64| -unbalanced(left, pull_n, &(from + travel * s)).dot(travel);
    // A length is known to a few units in its last place, and so is the work of each tension on it.
    let rounding_j: f64 = left
        .iter()
        .map(|s| {
            let pulled = s.pulled(&(from + travel));
            8.0 * f64::EPSILON * s.k_n_per_m * pulled.stretch_m * pulled.length_m
        })
        .sum();
    turning_point(gain, slope, rounding_j)
}
