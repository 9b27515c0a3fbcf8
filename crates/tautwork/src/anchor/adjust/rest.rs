//! A self-adjusting anchor at rest.

use serde::{Deserialize, Serialize};

use super::super::AnchorError;
use super::band::band;
use super::input::SelfAdjusting;
use super::model::Model;
use crate::quantity::{Force, Length, MaybeText, Quantity, Ratio, Text, Triple};

/// How a self-adjusting anchor shares a pull.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AdjustedRest {
    /// Master point without friction.
    #[serde(with = "Triple::<Length>")]
    pub master_point: [Length; 3],
    /// Tension of the cordage without friction.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Its stretch.
    #[serde(with = "Text::<Ratio>")]
    pub stretch: Ratio,
    /// Points in the order given.
    pub points: Vec<AdjustedPoint>,
    /// How far from that place friction may hold the master point.
    #[serde(with = "Text::<Length>")]
    pub master_strays: Length,
    /// Greatest tension of a strand that friction allows.
    #[serde(with = "Text::<Force>")]
    pub greatest_tension: Force,
    /// Strength over that, where one is given.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub factor: Option<Ratio>,
    /// Patterns of slip that friction allows.
    pub patterns: usize,
    /// Unbalanced force over the pull, without friction.
    pub residual: f64,
    /// Newton steps taken, without friction.
    pub iterations: usize,
}

/// What one point of a self-adjusting anchor takes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AdjustedPoint {
    /// Name.
    pub name: String,
    /// Force on it without friction.
    #[serde(with = "Text::<Force>")]
    pub force: Force,
    /// Part of the pull that it takes without friction, Eq. (A4).
    #[serde(with = "Text::<Ratio>")]
    pub share: Ratio,
    /// Least share that friction allows, Eq. (A7).
    #[serde(with = "Text::<Ratio>")]
    pub share_low: Ratio,
    /// Greatest.
    #[serde(with = "Text::<Ratio>")]
    pub share_high: Ratio,
    /// Greatest force that friction allows.
    #[serde(with = "Text::<Force>")]
    pub greatest_force: Force,
    /// Distance to the master point.
    #[serde(with = "Text::<Length>")]
    pub length: Length,
    /// Whether its limiter knots stand at the master connector, without friction.
    pub knot_at_master: bool,
}

/// How a loop through two to four points and the master connector shares a pull: evenly without friction, Eq. (A5), and the
/// band of shares that friction allows, Eq. (A7).
///
/// # Errors
/// [`AnchorError::Invalid`] for a value out of range; [`AnchorError::TooFew`] and [`AnchorError::TooMany`] for other than
/// two to four points; [`AnchorError::DuplicateName`], [`AnchorError::NoPull`]; [`AnchorError::KnotsTooLow`] where
/// limiter knots leave no cordage to run; [`AnchorError::NotConverged`], [`AnchorError::Overflow`].
///
/// # Example
/// ```
/// use tautwork::anchor::{AdjustingPoint, SelfAdjusting, adjusted_rest};
/// use tautwork::pulley::Friction;
/// use tautwork::quantity::{ReadForce, ReadRatio, Words};
///
/// let point = |name: &str, x: f64| AdjustingPoint {
///     name: name.to_owned(),
///     position: [x.meters(), 0.0.meters(), 0.0.meters()],
///     limiter: None,
/// };
/// let mut anchor = SelfAdjusting {
///     points: vec![point("left", -0.25), point("right", 0.25)],
///     loop_length: 2.0.meters(),
///     axial_rigidity: 1e9.newtons(),
///     strength: None,
///     friction_at_points: None,
///     friction_at_master: Some(Friction::Capstan { mu: 0.2.ratio() }),
///     captive: true,
///     pull: [0.0.newtons(), 0.0.newtons(), (-2000.0).newtons()],
/// };
/// // Sides of 0.5 m over 0.5 m: 60° between the legs, P / (2 cos 30°) in each leg of two strands.
/// let rest = adjusted_rest(&anchor)?;
/// assert!((rest.points[0].force.in_newtons() - 1154.7).abs() < 0.1);
/// assert!((rest.points[0].share.in_ratio() - 0.5).abs() < 1e-9);
/// // Friction at the master may leave more to either side.
/// assert!(rest.points[0].share_high.in_ratio() > 0.55);
/// anchor.points.truncate(1);
/// assert!(adjusted_rest(&anchor).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
pub fn adjusted_rest(anchor: &SelfAdjusting) -> Result<AdjustedRest, AnchorError> {
    let model = Model::new(anchor)?;
    let even = model.even()?;
    let pulled = model.cord.pulled(&even.p);
    let strands: Vec<f64> = pulled.strand.iter().flat_map(|t| [*t, *t]).collect();
    let shares = model.shares(&even.p, &strands);
    let band = band(&model, &even.p)?;
    let force = |result, f: f64| AnchorError::finite(result, f * model.pull_n);
    let length = |result, l: f64| AnchorError::finite(result, l * model.size_m);
    let ratio = |r: f64| AnchorError::finite("share", r);
    let mut points = Vec::new();
    for (i, point) in anchor.points.iter().enumerate() {
        points.push(AdjustedPoint {
            name: point.name.clone(),
            force: force("force", 2.0 * pulled.strand[i])?,
            share: ratio(shares[i])?,
            share_low: ratio(band.low[i])?,
            share_high: ratio(band.high[i])?,
            greatest_force: force("force", band.greatest_force[i])?,
            length: length("length", model.cord.distances(&even.p)[i])?,
            knot_at_master: pulled.knot_at_master[i],
        });
    }
    let factor = model.strength_n.map(|s| s / (band.greatest_strand * model.pull_n));
    Ok(AdjustedRest {
        master_point: AnchorError::finite_triple("position", &model.place_m(&even.p))?,
        tension: force("tension", pulled.tension)?,
        stretch: AnchorError::finite("stretch", pulled.tension / model.cord.ea)?,
        points,
        master_strays: length("master_strays", band.strays)?,
        greatest_tension: force("tension", band.greatest_strand)?,
        factor: factor.filter(|f| f.is_finite()).map(Ratio::from_si),
        patterns: band.patterns,
        residual: even.residual,
        iterations: even.iterations,
    })
}
