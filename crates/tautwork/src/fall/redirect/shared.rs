//! Ropes side by side that share a fall.

use serde::{Deserialize, Serialize};

use super::super::{FallError, FallNote};
use crate::line::root;
use crate::material::{Law, Stretch};
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{Energy, Force, GRAVITY, Invalid, Length, Mass, Quantity, Ratio, Text};

/// One of the ropes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SharedRope {
    /// Rest length.
    #[serde(with = "Text::<Length>")]
    pub rope: Length,
    /// Stretch.
    pub stretch: Stretch,
    /// How much further than the height the mass falls before this rope takes load; zero if left out.
    #[serde(with = "Text::<Length>", default = "none")]
    pub slack: Length,
}

fn none() -> Length {
    Length::from_si(0.0)
}

/// A fall that several ropes stop.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SharedFall {
    /// Mass that falls.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
    /// Height fallen before a rope without slack takes load.
    #[serde(with = "Text::<Length>")]
    pub height: Length,
    /// The ropes, at least one.
    pub ropes: Vec<SharedRope>,
}

/// How a shared fall ends.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SharedArrest {
    /// Sum of the tensions at the lowest point.
    #[serde(with = "Text::<Force>")]
    pub impact_force: Force,
    /// Whole drop of the mass.
    #[serde(with = "Text::<Length>")]
    pub drop: Length,
    /// Weight times drop, which the ropes store.
    #[serde(with = "Text::<Energy>")]
    pub energy: Energy,
    /// The ropes in the order of the input.
    pub ropes: Vec<SharedState>,
    /// What is missing in the energy balance, as part of the energy.
    pub residual: f64,
    /// What to know about the result.
    pub notes: Vec<FallNote>,
}

/// What a rope carries at the lowest point.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SharedState {
    /// Tension.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Strain.
    #[serde(with = "Text::<Ratio>")]
    pub strain: Ratio,
    /// Tension over the sum of all.
    #[serde(with = "Text::<Ratio>")]
    pub share: Ratio,
}

/// Stops a fall on several ropes side by side, Eq. (E5).
///
/// # Errors
/// [`FallError::Invalid`] unless there is a rope, mass and rest lengths are above zero, height and slack
/// zero or more; [`FallError::Overflow`]; [`FallError::NotConverged`] with its residual.
///
/// # Example
/// ```
/// use tautwork::fall::{SharedFall, SharedRope, arrest_shared};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, ReadRatio, Words};
///
/// let rope = |ea: f64| -> Result<_, tautwork::material::MaterialError> {
///     let stretch = Stretch::axial_rigidity(ea.kilonewtons())?;
///     Ok(SharedRope { rope: 10.0.meters(), stretch, slack: 0.0.meters() })
/// };
/// let mut fall = SharedFall {
///     mass: 80.0.kilograms(),
///     height: 0.0.meters(),
///     ropes: vec![rope(10.0)?, rope(30.0)?],
/// };
/// // No fall: twice the weight, shared as 1 to 3.
/// let stopped = arrest_shared(&fall)?;
/// assert!((stopped.impact_force.in_newtons() - 1569.6).abs() < 1e-6);
/// assert!((stopped.ropes[1].share.in_percent() - 75.0).abs() < 1e-9);
/// fall.ropes.clear();
/// assert!(arrest_shared(&fall).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn arrest_shared(fall: &SharedFall) -> Result<SharedArrest, FallError> {
    let w_n = positive("mass", fall.mass)? * GRAVITY;
    let height_m = non_negative("height", fall.height)?;
    if fall.ropes.is_empty() {
        return Err(Invalid::new("ropes", "none", "at least one").into());
    }
    let mut ropes = Vec::with_capacity(fall.ropes.len());
    for (i, rope) in fall.ropes.iter().enumerate() {
        let within = |invalid: Invalid| invalid.within(&format!("ropes[{i}]"));
        let rest_m = positive("rope", rope.rope).map_err(within)?;
        let slack_m = non_negative("slack", rope.slack).map_err(within)?;
        ropes.push(One { rest_m, slack_m, law: rope.stretch.law() });
    }
    let together = Together { w_n, height_m, ropes };
    let (x_m, residual) = together.lowest()?;
    let force_n = together.force_n(x_m);
    let mut notes = Vec::new();
    let states = together.ropes.iter().map(|rope| {
        let (strain, t_n) = rope.state(x_m);
        if t_n > rope.law.last_n() && !notes.contains(&FallNote::PastTable) {
            notes.push(FallNote::PastTable);
        }
        Ok(SharedState {
            tension: FallError::finite("tension", t_n)?,
            strain: FallError::finite("strain", strain)?,
            share: FallError::finite("share", t_n / force_n)?,
        })
    });
    let states = states.collect::<Result<_, FallError>>()?;
    // The fall of the mass is free until the first rope takes load.
    let free = |rope: &One<'_>| (height_m + rope.slack_m) / (rope.rest_m + rope.slack_m);
    if together.ropes.iter().all(|rope| free(rope) > 2.0) {
        notes.push(FallNote::FactorAboveTwo);
    }
    Ok(SharedArrest {
        impact_force: FallError::finite("impact_force", force_n)?,
        drop: FallError::finite("drop", height_m + x_m)?,
        energy: FallError::finite("energy", w_n * (height_m + x_m))?,
        ropes: states,
        residual,
        notes,
    })
}

struct One<'a> {
    rest_m: f64,
    slack_m: f64,
    law: &'a Law,
}

impl One<'_> {
    /// Strain and tension when the mass is this far below the height.
    fn state(&self, x_m: f64) -> (f64, f64) {
        let strain = ((x_m - self.slack_m) / self.rest_m).max(0.0);
        (strain, self.law.tension(strain))
    }
}

struct Together<'a> {
    w_n: f64,
    height_m: f64,
    ropes: Vec<One<'a>>,
}

impl Together<'_> {
    fn force_n(&self, x_m: f64) -> f64 {
        self.ropes.iter().map(|rope| rope.state(x_m).1).sum()
    }

    /// Energy stored over energy released, less 1.
    fn balance(&self, x_m: f64) -> f64 {
        let stored: f64 =
            self.ropes.iter().map(|r| r.rest_m * r.law.energy_n(r.state(x_m).1)).sum();
        stored / (self.w_n * (self.height_m + x_m)) - 1.0
    }

    /// The root of Eq. (E5) below the place of rest, and what is left of the balance there.
    fn lowest(&self) -> Result<(f64, f64), FallError> {
        let overflow = FallError::Overflow { result: "drop" };
        let mut x_m = f64::MIN_POSITIVE;
        // A double holds 2100 doublings; at rest the balance is below zero.
        let mut budget = 2100;
        while self.force_n(x_m) < self.w_n || self.balance(x_m) < 0.0 {
            x_m *= 2.0;
            budget -= 1;
            if budget == 0 || !x_m.is_finite() {
                return Err(overflow);
            }
        }
        // Below half of it either a rope is not yet loaded to the weight or the balance is below zero.
        let scaled = |v: f64| {
            if self.force_n(v * x_m) < self.w_n { -1.0 } else { self.balance(v * x_m) }
        };
        let found = root(0.5, 1.0, scaled);
        let found_m = found.map_or(x_m, |v| v * x_m);
        let residual = self.balance(found_m).abs();
        // Written so that NaN fails too.
        if residual <= 1e-9 {
            Ok((found_m, residual))
        } else {
            Err(FallError::NotConverged { residual })
        }
    }
}
