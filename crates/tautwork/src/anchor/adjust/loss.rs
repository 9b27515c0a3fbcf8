//! A point of a self-adjusting anchor is lost.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::super::AnchorError;
use super::super::turning::turning_point;
use super::input::SelfAdjusting;
use super::kernel::Cord;
use super::model::{Model, even};
use crate::quantity::check::positive;
use crate::quantity::{
    Energy, Force, Length, Mass, MaybeText, Quantity, Ratio, Speed, Text, Triple,
};

/// What the loss of a point does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct AdjustedLoss {
    /// With the limiter knots of the anchor, where it has any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub with_knots: Option<AdjustedDrop>,
    /// Without any.
    pub without_knots: AdjustedDrop,
}

/// The way of the master point after a loss.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct AdjustedDrop {
    /// Whether the loop holds; else it runs through the master connector whole, and all below is absent.
    pub held: bool,
    /// What it does, where it holds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drop: Option<HeldDrop>,
}

/// A drop that the loop holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HeldDrop {
    /// Master point at rest before.
    #[serde(with = "Triple::<Length>")]
    pub before: [Length; 3],
    /// And after.
    #[serde(with = "Triple::<Length>")]
    pub after: [Length; 3],
    /// Way along the pull from rest to rest, Eq. (A8).
    #[serde(with = "Text::<Length>")]
    pub extension: Length,
    /// Part of that in which nothing holds, Eq. (A9).
    #[serde(with = "Text::<Length>")]
    pub free_drop: Length,
    /// Energy that the pull and the loop set free up to the new rest, Eq. (A10).
    #[serde(with = "Text::<Energy>")]
    pub energy_released: Energy,
    /// Greatest speed of the mass.
    #[serde(with = "Text::<Speed>")]
    pub speed: Speed,
    /// Tension of a strand at the new rest.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Greatest tension of a strand.
    #[serde(with = "Text::<Force>")]
    pub peak_tension: Force,
    /// Peak over that at the new rest.
    #[serde(with = "Text::<Ratio>")]
    pub dynamic_factor: Ratio,
    /// Strength over the peak, where one is given.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub factor: Option<Ratio>,
    /// Points that are left, in the order given.
    pub points: Vec<PeakOnPoint>,
    /// What the energy at the turning point misses, as part of the energy released.
    pub residual: f64,
}

/// Force on a point that is left.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PeakOnPoint {
    /// Name.
    pub name: String,
    /// At the new rest.
    #[serde(with = "Text::<Force>")]
    pub force: Force,
    /// Greatest.
    #[serde(with = "Text::<Force>")]
    pub peak: Force,
}

/// Takes the point called `point` away, Eqs. (A8) to (A10), with the limiter knots and without.
///
/// `effective_mass` is the end of the line that moves with the master point, not the person far down it; it sets the
/// speed. The pull is kept in full and nothing rubs, so the peak is an upper bound and does not depend on the mass.
///
/// # Errors
/// Those of [`adjusted_rest`](super::adjusted_rest), and [`AnchorError::Unknown`] for a point that is not there.
///
/// # Example
/// ```
/// use tautwork::anchor::{AdjustingPoint, SelfAdjusting, adjusted_loss};
/// use tautwork::quantity::{ReadLength, Words};
///
/// let point = |name: &str, x: f64| AdjustingPoint {
///     name: name.to_owned(),
///     position: [x.meters(), 0.0.meters(), 0.0.meters()],
///     limiter: Some(0.4.meters()),
/// };
/// let anchor = SelfAdjusting {
///     points: vec![point("left", -0.3), point("right", 0.3)],
///     loop_length: 2.0.meters(),
///     axial_rigidity: 1e9.newtons(),
///     strength: None,
///     friction_at_points: None,
///     friction_at_master: None,
///     captive: true,
///     pull: [0.0.newtons(), 0.0.newtons(), (-2000.0).newtons()],
/// };
/// let loss = adjusted_loss(&anchor, "left", 5.0.kilograms())?;
/// // 0.4 m deep at first. The whole loop on one point hangs 1 m deep; the knots keep 0.4 m of that back.
/// let extension = |drop: &tautwork::anchor::AdjustedDrop| drop.drop.as_ref().unwrap().extension.in_meters();
/// assert!((extension(&loss.without_knots) - 0.6).abs() < 1e-4);
/// assert!((extension(loss.with_knots.as_ref().unwrap()) - 0.2).abs() < 1e-4);
/// assert!(adjusted_loss(&anchor, "tree", 5.0.kilograms()).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
pub fn adjusted_loss(
    anchor: &SelfAdjusting,
    point: &str,
    effective_mass: Mass,
) -> Result<AdjustedLoss, AnchorError> {
    let mass_kg = positive("effective_mass", effective_mass)?;
    let model = Model::new(anchor)?;
    let lost = anchor.points.iter().position(|p| p.name == point);
    let lost =
        lost.ok_or_else(|| AnchorError::Unknown { what: "point", name: point.to_owned() })?;
    let mut bare = model.clone();
    bare.cord.knot.fill(0.0);
    let knots = anchor.points.iter().any(|p| p.limiter.is_some());
    let with_knots = knots.then(|| lose(anchor, &model, lost, mass_kg)).transpose()?;
    Ok(AdjustedLoss { with_knots, without_knots: lose(anchor, &bare, lost, mass_kg)? })
}

fn lose(
    anchor: &SelfAdjusting,
    model: &Model,
    lost: usize,
    mass_kg: f64,
) -> Result<AdjustedDrop, AnchorError> {
    let knot = model.cord.knot[lost];
    // Knots in the strands of the lost point keep the connector in the loop too.
    if model.cord.at.len() == 2 && !anchor.captive && knot == 0.0 {
        return Ok(AdjustedDrop { held: false, drop: None });
    }
    let mut left = model.cord.clone();
    left.at.remove(lost);
    left.knot.remove(lost);
    left.length -= 2.0 * knot;
    let before = model.even()?.p;
    let after = even(&left, &model.pull)?.p;
    let travel = after - before;
    let start = left.pulled(&before).energy;
    let work = model.pull.dot(&travel);
    let at = |part: f64| before + travel * part;
    let rest = left.pulled(&after);
    let rounding = 16.0 * f64::EPSILON * (start + rest.energy + rest.tension + work.abs());
    let turn = turning_point(
        |part| left.pulled(&at(part)).energy - start - work * part,
        |part| -(left.force(&at(part)) + model.pull).dot(&travel),
        rounding,
    )?;
    let peak = left.pulled(&at(turn.part));
    let old = model.cord.pulled(&before);
    let force = |f: f64| AnchorError::finite("force", f * model.pull_n);
    let peak_tension = peak.tension.max(old.tension);
    let kept = anchor.points.iter().enumerate().filter(|(i, _)| *i != lost);
    let mut points = Vec::new();
    for (i, (was, point)) in kept.enumerate() {
        points.push(PeakOnPoint {
            name: point.name.clone(),
            force: force(2.0 * rest.strand[i])?,
            peak: force(2.0 * peak.strand[i].max(old.strand[was]))?,
        });
    }
    let energy_j = turn.released_j * model.pull_n * model.size_m;
    let factor = model.strength_n.map(|s| s / (peak_tension * model.pull_n));
    Ok(AdjustedDrop {
        held: true,
        drop: Some(HeldDrop {
            before: AnchorError::finite_triple("position", &model.place_m(&before))?,
            after: AnchorError::finite_triple("position", &model.place_m(&after))?,
            extension: AnchorError::finite("extension", work * model.size_m)?,
            free_drop: AnchorError::finite(
                "free_drop",
                work * free(&left, &before, &travel) * model.size_m,
            )?,
            energy_released: AnchorError::finite("energy_released", energy_j)?,
            speed: AnchorError::finite("speed", (2.0 * energy_j / mass_kg).sqrt())?,
            tension: force(rest.tension)?,
            peak_tension: force(peak_tension)?,
            dynamic_factor: AnchorError::finite("dynamic_factor", peak_tension / rest.tension)?,
            factor: factor.filter(|f| f.is_finite()).map(Ratio::from_si),
            points,
            residual: turn.residual,
        }),
    })
}

/// Part of the way in which the loop is slack: what it lacks is convex along a straight way.
fn free(left: &Cord, before: &Vector3<f64>, travel: &Vector3<f64>) -> f64 {
    if left.missing(before) >= 0.0 {
        return 0.0;
    }
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if left.missing(&(before + travel * middle)) < 0.0 { low = middle } else { high = middle }
    }
    low
}
