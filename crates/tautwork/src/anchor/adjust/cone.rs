//! How the master point of a self-adjusting anchor moves when the pull swings.

use serde::{Deserialize, Serialize};

use super::super::AnchorError;
use super::super::cone::Directions;
use super::band::band;
use super::input::SelfAdjusting;
use super::model::Model;
use crate::quantity::{Angle, Invalid, Length, Quantity, Text};

/// Most patterns of slip over all directions.
const MOST_PATTERNS: usize = 50_000;

/// Directions about that of the pull.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AdjustingCone {
    /// The anchor, with the pull in the middle of the cone.
    pub anchor: SelfAdjusting,
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
pub struct AdjustedCone {
    /// Angle from the axis.
    pub off_rad: Vec<f64>,
    /// Angle about the axis, from the level direction to the left of the pull.
    pub around_rad: Vec<f64>,
    /// Master point without friction.
    pub x_m: Vec<f64>,
    /// Its y.
    pub y_m: Vec<f64>,
    /// Its z.
    pub z_m: Vec<f64>,
    /// Tension of the cordage without friction.
    pub tension_n: Vec<f64>,
    /// Greatest tension of a strand that friction allows.
    pub greatest_tension_n: Vec<f64>,
    /// Shares of each point, in the order given.
    pub points: Vec<ConePoint>,
    /// Greatest way of the master point from where it is for the pull along the axis, without friction.
    #[serde(with = "Text::<Length>")]
    pub farthest: Length,
    /// Greatest share of a point that friction allows in any direction.
    pub worst_share: f64,
    /// That point.
    pub worst_point: String,
    /// Where in the arrays it is.
    pub worst_at: usize,
}

/// Shares of one point over all directions.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ConePoint {
    /// Name.
    pub name: String,
    /// Without friction.
    pub share: Vec<f64>,
    /// Least that friction allows.
    pub share_low: Vec<f64>,
    /// Greatest that friction allows.
    pub share_high: Vec<f64>,
}

/// A pull of the same size from every direction of a cone on a self-adjusting anchor, Eqs. (A5) and (A7).
///
/// # Errors
/// Those of [`adjusted_rest`](super::adjusted_rest), and [`AnchorError::Invalid`] for a cone out of range, or, with
/// friction, of more than 1562 directions for two points, 260 for three, 48 for four.
///
/// # Example
/// ```
/// use tautwork::anchor::{AdjustingCone, AdjustingPoint, SelfAdjusting, adjusted_cone};
/// use tautwork::quantity::Words;
///
/// let point = |name: &str, x: f64| AdjustingPoint {
///     name: name.to_owned(),
///     position: [x.meters(), 0.0.meters(), 0.0.meters()],
///     limiter: None,
/// };
/// let mut cone = AdjustingCone {
///     anchor: SelfAdjusting {
///         points: vec![point("left", -0.25), point("right", 0.25)],
///         loop_length: 2.0.meters(),
///         axial_rigidity: 1e9.newtons(),
///         strength: None,
///         friction_at_points: None,
///         friction_at_master: None,
///         captive: true,
///         pull: [0.0.newtons(), 0.0.newtons(), (-2000.0).newtons()],
///     },
///     half_angle: 30.0.degrees(),
///     rings: 1,
///     around: 4,
/// };
/// // The master stays on an ellipsoid about the points: as far from both together as the loop is half long.
/// let map = adjusted_cone(&cone)?;
/// for i in 0..5 {
///     let to = |x: f64| (map.x_m[i] - x).hypot(map.y_m[i]).hypot(map.z_m[i]);
///     assert!((to(-0.25) + to(0.25) - 1.0).abs() < 1e-5);
/// }
/// cone.rings = 0;
/// assert!(adjusted_cone(&cone).is_err());
/// # Ok::<(), tautwork::anchor::AnchorError>(())
/// ```
pub fn adjusted_cone(cone: &AdjustingCone) -> Result<AdjustedCone, AnchorError> {
    let mut model = Model::new(&cone.anchor)?;
    let directions = Directions::new(cone.half_angle, cone.rings, cone.around)?.about(&model.pull);
    let turns = 2 * cone.anchor.points.len();
    let patterns = (turns << (turns - 1)).saturating_mul(directions.len());
    if model.rubs() && patterns > MOST_PATTERNS {
        let allowed = format!("{MOST_PATTERNS} patterns of slip over all directions at most");
        return Err(Invalid::new("rings times around", patterns.to_string(), allowed).into());
    }
    let points = cone.anchor.points.iter().map(|p| ConePoint {
        name: p.name.clone(),
        share: Vec::new(),
        share_low: Vec::new(),
        share_high: Vec::new(),
    });
    let mut map = AdjustedCone {
        off_rad: Vec::new(),
        around_rad: Vec::new(),
        x_m: Vec::new(),
        y_m: Vec::new(),
        z_m: Vec::new(),
        tension_n: Vec::new(),
        greatest_tension_n: Vec::new(),
        points: points.collect(),
        farthest: Length::from_si(0.0),
        worst_share: f64::NEG_INFINITY,
        worst_point: String::new(),
        worst_at: 0,
    };
    let (mut first, mut farthest_m) = (None, 0.0_f64);
    for (at, (off_rad, around_rad, way)) in directions.into_iter().enumerate() {
        model.pull = way;
        let even = model.even()?;
        let pulled = model.cord.pulled(&even.p);
        let strands: Vec<f64> = pulled.strand.iter().flat_map(|t| [*t, *t]).collect();
        let band = band(&model, &even.p)?;
        let place = model.place_m(&even.p);
        farthest_m = farthest_m.max((place - *first.get_or_insert(place)).norm());
        map.off_rad.push(off_rad);
        map.around_rad.push(around_rad);
        map.x_m.push(place.x);
        map.y_m.push(place.y);
        map.z_m.push(place.z);
        map.tension_n.push(pulled.tension * model.pull_n);
        map.greatest_tension_n.push(band.greatest_strand * model.pull_n);
        for (i, share) in model.shares(&even.p, &strands).into_iter().enumerate() {
            let point = &mut map.points[i];
            point.share.push(share);
            point.share_low.push(band.low[i]);
            point.share_high.push(band.high[i]);
            if band.high[i] > map.worst_share {
                map.worst_share = band.high[i];
                map.worst_point.clone_from(&point.name);
                map.worst_at = at;
            }
        }
    }
    let numbers = map.x_m.iter().chain(&map.y_m).chain(&map.z_m).chain(&map.greatest_tension_n);
    if !numbers.chain([&map.worst_share]).all(|v| v.is_finite()) {
        return Err(AnchorError::Overflow { result: "adjusted_cone" });
    }
    map.farthest = AnchorError::finite("farthest", farthest_m)?;
    Ok(map)
}
