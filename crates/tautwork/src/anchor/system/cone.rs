//! A pull that may come from a cone of directions.

use serde::{Deserialize, Serialize};

use super::super::AnchorError;
use super::super::cone::Directions;
use super::input::AnchorSystem;
use super::model::Model;
use crate::quantity::{Angle, MaybeText, Quantity, Ratio, Text};

/// Directions about that of the pull.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PullCone {
    /// The system, with the pull in the middle of the cone.
    pub system: AnchorSystem,
    /// From its axis to its side, to 180 degrees.
    #[serde(with = "Text::<Angle>")]
    pub half_angle: Angle,
    /// Rings of directions between axis and side, the side included.
    pub rings: usize,
    /// Directions on each ring, three or more.
    pub around: usize,
}

/// What each direction does; the arrays go together, the axis first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ConeMap {
    /// Angle from the axis.
    pub off_rad: Vec<f64>,
    /// Angle about the axis, from the level direction to the left of the pull.
    pub around_rad: Vec<f64>,
    /// Direction of the pull, unit vectors.
    pub direction: Vec<[f64; 3]>,
    /// What each leg does, in the order given.
    pub legs: Vec<ConeLeg>,
    /// Greatest tension of a leg.
    pub worst_tension_n: Vec<f64>,
    /// That leg.
    pub worst_leg: Vec<String>,
    /// Load over strength of what governs; zero where no strengths are given.
    pub use_of_strength: Vec<f64>,
    /// Leg or fixed point that governs; empty where no strengths are given.
    pub governed_by: Vec<String>,
    /// Least factor of all directions, where strengths are given.
    #[serde(with = "MaybeText::<Ratio>", default, skip_serializing_if = "Option::is_none")]
    pub least_factor: Option<Ratio>,
    /// Where in the arrays it is.
    pub worst_at: usize,
}

/// One leg over all directions.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ConeLeg {
    /// Name.
    pub name: String,
    /// Tension.
    pub tension_n: Vec<f64>,
    /// Part of the pull that it hands to its fixed point, Eq. (S3); none for a leg between junctions.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub share: Option<Vec<f64>>,
}

/// A pull of the same size from every direction of a cone.
///
/// # Errors
/// Those of [`system_rest`](super::system_rest), and [`AnchorError::Invalid`] for a cone out of range.
///
/// # Example
/// ```
/// use tautwork::anchor::{AnchorSystem, FixedPoint, Junction, LegPart, PullCone, SystemLeg, pull_cone};
/// use tautwork::quantity::Words;
///
/// let point = |x: f64, z: f64| [x.meters(), 0.0.meters(), z.meters()];
/// let mut cone = PullCone {
///     system: AnchorSystem {
///         fixed: vec![FixedPoint { name: "bolt".to_owned(), position: point(0.0, 1.0), strength: None }],
///         junctions: vec![Junction { name: "master".to_owned(), near: point(0.0, 0.0) }],
///         legs: vec![SystemLeg {
///             name: "leg".to_owned(),
///             from: "bolt".to_owned(),
///             to: "master".to_owned(),
///             rest_length: 1.0.meters(),
///             parts: vec![LegPart {
///                 name: "sling".to_owned(),
///                 stiffness: Some(100.0.kilonewtons_per_meter()),
///                 strength: Some(22.0.kilonewtons()),
///             }],
///         }],
///         pull_at: "master".to_owned(),
///         pull: [0.0.newtons(), 0.0.newtons(), (-1000.0).newtons()],
///         line: None,
///     },
///     half_angle: 30.0.degrees(),
///     rings: 2,
///     around: 8,
/// };
/// // A single leg turns into every direction.
/// let map = pull_cone(&cone)?;
/// assert_eq!(map.off_rad.len(), 17);
/// assert!(map.legs[0].share.as_ref().unwrap().iter().all(|s| (s - 1.0).abs() < 1e-9));
/// assert!(map.worst_tension_n.iter().all(|t| (t - 1000.0).abs() < 1e-6));
/// cone.around = 2;
/// assert!(pull_cone(&cone).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
pub fn pull_cone(cone: &PullCone) -> Result<ConeMap, AnchorError> {
    let directions = Directions::new(cone.half_angle, cone.rings, cone.around)?;
    let system = &cone.system;
    let mut model = Model::new(system)?;
    let left = model.whole();
    let (size_n, axis) = (model.pull_n.norm(), model.pull_n.normalize());
    let mut map = ConeMap {
        off_rad: Vec::new(),
        around_rad: Vec::new(),
        direction: Vec::new(),
        legs: system
            .legs
            .iter()
            .map(|l| ConeLeg { name: l.name.clone(), tension_n: Vec::new(), share: None })
            .collect(),
        worst_tension_n: Vec::new(),
        worst_leg: Vec::new(),
        use_of_strength: Vec::new(),
        governed_by: Vec::new(),
        least_factor: None,
        worst_at: 0,
    };
    for (off, turn, way) in directions.about(&axis) {
        model.pull_n = way * size_n;
        let rest = model.rest(&left)?;
        let tensions = model.tensions_n(&left, &rest.x);
        let (legs, fixed) = model.uses(&left, &rest.x);
        let (leg, tension_n) = greatest(tensions.iter().copied());
        let (part, used) = greatest(legs.into_iter().chain(fixed));
        for ((kept, leg), t) in map.legs.iter_mut().zip(&model.legs).zip(&tensions) {
            kept.tension_n.push(*t);
            if let Some(share) = leg.share(*t, &model.pull_n, &rest.x) {
                kept.share.get_or_insert_default().push(share);
            }
        }
        map.off_rad.push(off);
        map.around_rad.push(turn);
        map.direction.push(way.into());
        map.worst_tension_n.push(tension_n);
        map.worst_leg.push(system.legs[leg].name.clone());
        map.use_of_strength.push(used);
        let named = if used > 0.0 { super::cascade::name(system, part) } else { String::new() };
        map.governed_by.push(named);
    }
    let (worst_at, used) = greatest(map.use_of_strength.iter().copied());
    map.worst_at = worst_at;
    let factor = 1.0 / used;
    map.least_factor = (used > 0.0 && factor.is_finite()).then(|| Ratio::from_si(factor));
    if !map.worst_tension_n.iter().chain(&map.use_of_strength).all(|v| v.is_finite()) {
        return Err(AnchorError::Overflow { result: "pull_cone" });
    }
    Ok(map)
}

/// Index of the first greatest, and its value.
fn greatest(values: impl Iterator<Item = f64>) -> (usize, f64) {
    values.enumerate().fold((0, 0.0), |best, (i, v)| if v > best.1 { (i, v) } else { best })
}
