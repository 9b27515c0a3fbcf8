//! A rope of any stretch stops a fall, on a rigid anchor or hung from a span.

use std::cmp::Ordering;

use serde::{Deserialize, Serialize};

use super::FallError;
use crate::line::root;
use crate::material::{Law, Stretch};
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{
    Energy, Force, GRAVITY, Length, Mass, MaybeText, Quantity, Ratio, Stiffness, Text,
};

/// A fall that a rope stops.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fall {
    /// Mass that falls.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
    /// Height fallen before the rope takes load.
    #[serde(with = "Text::<Length>")]
    pub height: Length,
    /// Rest length of rope between the mass and the anchor, or the edge.
    #[serde(with = "Text::<Length>")]
    pub rope: Length,
    /// Its stretch.
    pub stretch: Stretch,
    /// Vertical stiffness of the span that the rope hangs from; a rigid anchor if left out.
    #[serde(with = "MaybeText::<Stiffness>", default, skip_serializing_if = "Option::is_none")]
    pub span_stiffness: Option<Stiffness>,
}

/// How a fall ends.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Arrest {
    /// Peak tension at the falling mass.
    #[serde(with = "Text::<Force>")]
    pub impact_force: Force,
    /// Strain of the rope at the mass at that moment.
    #[serde(with = "Text::<Ratio>")]
    pub strain: Ratio,
    /// How far the rope has stretched, what came over an edge included.
    #[serde(with = "Text::<Length>")]
    pub extension: Length,
    /// How far the span has given way; zero on a rigid anchor.
    #[serde(with = "Text::<Length>")]
    pub span_deflection: Length,
    /// Whole drop of the mass: height, extension and deflection.
    #[serde(with = "Text::<Length>")]
    pub drop: Length,
    /// Energy that the rope, the span and the edge take up: weight times drop.
    #[serde(with = "Text::<Energy>")]
    pub energy: Energy,
    /// What is missing in the energy balance, as part of the energy.
    pub residual: f64,
    /// What to know about the result.
    pub notes: Vec<FallNote>,
}

/// What to know about a fall.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FallNote {
    /// The tension is past the last point of the stretch table, where the curve goes on without
    /// evidence.
    PastTable,
    /// The fall factor is above 2, more than a fall past a fixed anchor can have.
    FactorAboveTwo,
    /// The time to follow ends while the mass is still on its way down.
    StillFalling,
    /// The line that the fall ends on answers later than the leash catches: more force, less travel.
    LineAnswersLate,
}

/// Stops a fall by energy balance, Eqs. (4) and (5).
///
/// # Errors
/// [`FallError::Invalid`] unless mass and rope are above zero, the height zero or more, and a span
/// stiffness above zero; [`FallError::Overflow`]; [`FallError::NotConverged`] with its residual.
///
/// # Example
/// ```
/// use tautwork::fall::{Fall, arrest};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, Words};
///
/// let mut fall = Fall {
///     mass: 80.0.kilograms(),
///     height: 0.0.meters(),
///     rope: 10.0.meters(),
///     stretch: Stretch::axial_rigidity(20.0.kilonewtons())?,
///     span_stiffness: None,
/// };
/// // With no fall at all the rope still sees twice the weight.
/// assert!((arrest(&fall)?.impact_force.in_newtons() - 1569.6).abs() < 1e-6);
/// fall.rope = 0.0.meters();
/// assert!(arrest(&fall).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn arrest(fall: &Fall) -> Result<Arrest, FallError> {
    let stop = Stop::new(fall)?;
    stop.arrest()
}

/// A fall in SI units: rope parts, each with the tension at the mass over its own.
pub(super) struct Stop<'a> {
    w_n: f64,
    height_m: f64,
    law: &'a Law,
    parts: Vec<(f64, f64)>,
    compliance_m_per_n: f64,
    /// Length that devices have let through, and the energy they took.
    slipped_m: f64,
    slipped_j: f64,
}

impl<'a> Stop<'a> {
    pub(super) fn new(fall: &'a Fall) -> Result<Self, FallError> {
        let compliance_m_per_n = match fall.span_stiffness {
            Some(k) => 1.0 / positive("span_stiffness", k)?,
            None => 0.0,
        };
        Ok(Self {
            w_n: positive("mass", fall.mass)? * GRAVITY,
            height_m: non_negative("height", fall.height)?,
            law: fall.stretch.law(),
            parts: vec![(positive("rope", fall.rope)?, 1.0)],
            compliance_m_per_n,
            slipped_m: 0.0,
            slipped_j: 0.0,
        })
    }

    /// Lets a device slip at a tension, Eq. (S2): how far, and whether to its end. Devices come in the
    /// order of their force.
    pub(super) fn slip(&mut self, force_n: f64, travel_m: f64) -> (f64, bool) {
        let excess_j = self.w_n * self.drop_m(force_n) - self.taken_j(force_n);
        if excess_j <= 0.0 && force_n > self.w_n {
            return (0.0, false);
        }
        // No more than the weight: nothing stops it before its end.
        let wanted_m =
            if force_n > self.w_n { excess_j / (force_n - self.w_n) } else { f64::INFINITY };
        let slipped_m = wanted_m.min(travel_m);
        self.slipped_m += slipped_m;
        self.slipped_j += force_n * slipped_m;
        (slipped_m, wanted_m > travel_m)
    }

    /// Adds a part beyond an edge that holds `ratio` times less, Eq. (6).
    pub(super) fn beyond(mut self, length_m: f64, ratio: f64) -> Self {
        self.parts.push((length_m, ratio));
        self
    }

    fn extension_m(&self, t_n: f64) -> f64 {
        self.parts.iter().map(|(l, r)| l * self.law.strain(t_n / r)).sum()
    }

    fn drop_m(&self, t_n: f64) -> f64 {
        self.height_m + self.slipped_m + self.extension_m(t_n) + t_n * self.compliance_m_per_n
    }

    /// Energy taken up by rope, edge, span and devices.
    fn taken_j(&self, t_n: f64) -> f64 {
        let rope: f64 = self.parts.iter().map(|(l, r)| l * r * self.law.energy_n(t_n / r)).sum();
        rope + 0.5 * t_n * t_n * self.compliance_m_per_n + self.slipped_j
    }

    /// Energy taken up over energy released, less 1: below zero up to the peak, above after it.
    fn balance(&self, t_n: f64) -> f64 {
        self.taken_j(t_n) / (self.w_n * self.drop_m(t_n)) - 1.0
    }

    /// Peak tension: Eq. (4) has one root above the weight, since the derivative by T of energy taken
    /// up less energy released has the sign of T − W.
    fn peak(&self) -> Result<f64, FallError> {
        let overflow = FallError::Overflow { result: "impact_force" };
        let mut high = self.w_n;
        let mut at_high = self.balance(high);
        // A double holds 2100 doublings.
        for _ in 0..2100 {
            if !at_high.is_finite() {
                return Err(overflow);
            }
            if at_high >= 0.0 {
                break;
            }
            high *= 2.0;
            at_high = self.balance(high);
        }
        if high <= self.w_n {
            return Err(overflow);
        }
        let share = root(0.5, 1.0, |v| self.balance(v * high));
        Ok(share.map_or(high, |v| v * high))
    }

    pub(super) fn arrest(&self) -> Result<Arrest, FallError> {
        self.report(self.peak()?)
    }

    /// The fall stopped at a tension, which must meet the energy balance.
    pub(super) fn report(&self, t_n: f64) -> Result<Arrest, FallError> {
        let residual = self.balance(t_n).abs();
        // Written so that NaN fails too.
        if !matches!(residual.partial_cmp(&1e-9), Some(Ordering::Less | Ordering::Equal)) {
            return Err(FallError::NotConverged { residual });
        }
        let rope_m: f64 = self.parts.iter().map(|(l, _)| l).sum();
        let mut notes = Vec::new();
        if t_n > self.law.last_n() {
            notes.push(FallNote::PastTable);
        }
        if self.height_m / rope_m > 2.0 {
            notes.push(FallNote::FactorAboveTwo);
        }
        Ok(Arrest {
            impact_force: FallError::finite("impact_force", t_n)?,
            strain: FallError::finite("strain", self.law.strain(t_n))?,
            extension: FallError::finite("extension", self.extension_m(t_n))?,
            span_deflection: FallError::finite("span_deflection", t_n * self.compliance_m_per_n)?,
            drop: FallError::finite("drop", self.drop_m(t_n))?,
            energy: FallError::finite("energy", self.w_n * self.drop_m(t_n))?,
            residual,
            notes,
        })
    }
}

/// Stiffness of two springs in series, such as a rope and the span it hangs from, Eq. (5).
///
/// # Errors
/// [`FallError::Invalid`] unless both are above zero; [`FallError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::{fall, quantity::{ReadLineLoad, Words}};
/// let k = fall::series_stiffness(2.0.kilonewtons_per_meter(), 2.0.kilonewtons_per_meter())?;
/// assert!((k.in_kilonewtons_per_meter() - 1.0).abs() < 1e-12);
/// assert!(fall::series_stiffness(2.0.kilonewtons_per_meter(), 0.0.newtons_per_meter()).is_err());
/// # Ok::<(), fall::FallError>(())
/// ```
pub fn series_stiffness(rope: Stiffness, span: Stiffness) -> Result<Stiffness, FallError> {
    let (a, b) = (positive("rope", rope)?, positive("span", span)?);
    let (soft, stiff) = (a.min(b), a.max(b));
    Ok(Quantity::from_si(soft / (1.0 + soft / stiff)))
}
