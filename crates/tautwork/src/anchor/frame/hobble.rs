//! A rope that ties the feet: Eqs. (F8) and (F9).

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::checked::CheckedLeg;
use super::footing::Footing;
use super::input::Frame;
use crate::anchor::AnchorError;
use crate::quantity::check::non_negative;
use crate::quantity::{Force, MaybeText, Quantity, Ratio, Text};

/// A rope that ties feet, at one tension all along, so that they do not spread.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hobble {
    /// Names of the legs whose feet it passes, from end to end; the first again at the end for a loop.
    pub round: Vec<String>,
    /// Coefficient of friction of the feet on the ground, for the tensions with which they hold.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub friction: Option<Ratio>,
}

/// What a hobble does for its feet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HobbleForces {
    /// Greatest friction that a foot of it needs without it.
    #[serde(with = "Text::<Ratio>")]
    pub friction_without: Ratio,
    /// The same with the hobble at its best tension, Eq. (F9).
    #[serde(with = "Text::<Ratio>")]
    pub friction_least: Ratio,
    /// That tension.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Tensions with which every foot of it holds by the friction given, Eq. (F8); none if none does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub holding: Option<HobbleRange>,
}

/// Least and greatest tension of a hobble.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HobbleRange {
    /// Less lets a foot slide out.
    #[serde(with = "Text::<Force>")]
    pub low: Force,
    /// More draws a foot in; none where no tension does.
    #[serde(with = "MaybeText::<Force>", default, skip_serializing_if = "Option::is_none")]
    pub high: Option<Force>,
}

/// A hobble as directions at its feet.
pub(super) struct CheckedHobble {
    /// Leg, and the sum of the unit vectors along the rope from its foot.
    feet: Vec<(usize, Vector3<f64>)>,
    friction: Option<f64>,
}

pub(super) fn checked_hobble(
    hobble: &Hobble,
    frame: &Frame,
    legs: &[CheckedLeg],
) -> Result<CheckedHobble, AnchorError> {
    let friction = hobble
        .friction
        .map(|f| non_negative("friction", f))
        .transpose()
        .map_err(|e| e.within("hobble"))?;
    if hobble.round.len() < 2 {
        let found = hobble.round.len();
        return Err(AnchorError::TooFew { what: "feet of the hobble", found, least: 2 });
    }
    let leg = |name: &String| {
        let found = frame.legs.iter().position(|l| l.name == *name);
        found.ok_or_else(|| AnchorError::UnknownLeg { name: name.clone() })
    };
    let round = hobble.round.iter().map(leg).collect::<Result<Vec<_>, _>>()?;
    let mut along = vec![None; legs.len()];
    for (&a, &b) in round.iter().zip(&round[1..]) {
        let way = legs[b].foot_m - legs[a].foot_m;
        let length_m = way.norm();
        if way.amax() == 0.0 {
            return Err(AnchorError::FeetTogether {
                one: frame.legs[a].name.clone(),
                other: frame.legs[b].name.clone(),
            });
        }
        if !length_m.is_normal() {
            return Err(AnchorError::Overflow { result: "length of the hobble" });
        }
        let unit = way / length_m;
        *along[a].get_or_insert_with(Vector3::zeros) += unit;
        *along[b].get_or_insert_with(Vector3::zeros) -= unit;
    }
    let feet = along.into_iter().enumerate().filter_map(|(i, w)| w.map(|w| (i, w))).collect();
    Ok(CheckedHobble { feet, friction })
}

/// Halvings of the friction; the last place is reached sooner.
const BUDGET: usize = 200;

impl CheckedHobble {
    /// What the hobble does; none if a foot of it does not press the ground.
    pub(super) fn forces(&self, footings: &[Footing]) -> Result<Option<HobbleForces>, AnchorError> {
        let mut without = 0.0_f64;
        for (i, _) in &self.feet {
            let Some(friction) = footings[*i].friction() else { return Ok(None) };
            without = without.max(friction);
        }
        let (mut low, mut high) = (0.0, without);
        for _ in 0..BUDGET {
            let middle = 0.5 * (low + high);
            if !(low < middle && middle < high) || high <= 1e-15 {
                break;
            }
            match self.holding(footings, middle) {
                Some(_) => high = middle,
                None => low = middle,
            }
        }
        let best_n = self
            .holding(footings, high)
            .map_or(0.0, |[low, high]| if high.is_finite() { 0.5 * (low + high) } else { low });
        let holding = self.friction.and_then(|f| self.holding(footings, f));
        let range = |[low, high]: [f64; 2]| HobbleRange {
            low: Force::from_si(low),
            high: high.is_finite().then(|| Force::from_si(high)),
        };
        Ok(Some(HobbleForces {
            friction_without: Ratio::from_si(without),
            friction_least: Ratio::from_si(high),
            tension: AnchorError::finite("tension of the hobble", best_n)?,
            holding: holding.map(range),
        }))
    }

    /// Tensions with which all feet hold.
    fn holding(&self, footings: &[Footing], friction: f64) -> Option<[f64; 2]> {
        let mut all = [0.0_f64, f64::INFINITY];
        for (i, w) in &self.feet {
            let [low, high] = holding(&footings[*i], w, friction)?;
            all = [all[0].max(low), all[1].min(high)];
        }
        (all[0] <= all[1]).then_some(all)
    }
}

/// Tensions T >= 0 with |H + T w'| <= µ (N − T ν), w' along the ground and ν out of it: where a line meets
/// a cone, an interval.
fn holding(foot: &Footing, w: &Vector3<f64>, friction: f64) -> Option<[f64; 2]> {
    let out = w.dot(&foot.normal);
    let along = w - foot.normal * out;
    let squared = friction * friction;
    let a = along.norm_squared() - squared * out * out;
    let b = foot.along_n.dot(&along) + squared * foot.bearing_n * out;
    let c = foot.along_n.norm_squared() - squared * foot.bearing_n * foot.bearing_n;
    // Where the foot presses the ground.
    let mut range = [0.0, if out > 0.0 { foot.bearing_n / out } else { f64::INFINITY }];
    if a == 0.0 {
        // a T² + 2 b T + c is a straight line.
        match b {
            b if b > 0.0 => range[1] = f64::min(range[1], -c / (2.0 * b)),
            b if b < 0.0 => range[0] = f64::max(range[0], -c / (2.0 * b)),
            _ if c > 0.0 => return None,
            _ => {}
        }
    } else {
        // b² − a c without the parts that cancel.
        let turned = (along * foot.bearing_n + foot.along_n * out).norm();
        let across = foot.along_n.cross(&along).norm();
        let square = (friction * turned - across) * (friction * turned + across);
        if square < 0.0 {
            // No crossing: always above for a > 0, always below for a < 0.
            return (a < 0.0).then_some(range);
        }
        let root = square.sqrt();
        let far = -(b + root.copysign(b));
        let (one, other) = if far == 0.0 { (0.0, 0.0) } else { (far / a, c / far) };
        let [first, last] = [one.min(other), one.max(other)];
        if a > 0.0 {
            range = [f64::max(range[0], first), f64::min(range[1], last)];
        } else if out > 0.0 {
            range[1] = f64::min(range[1], first);
        } else {
            range[0] = f64::max(range[0], last);
        }
    }
    (range[0] <= range[1]).then_some(range)
}
