//! Distances along a motion that is known, Eq. (T4) and (T7).

use serde::{Deserialize, Serialize};

use super::super::SwingError;
use super::super::apart::{Thing, Track, check_times};
use super::super::jump::{self, Place};
use super::super::space::{from, size};
use super::body::Body;
use super::soup::FARTHEST_M;
use super::sweep::{Sweep, Swept};
use super::wall::{Wall, walls};
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{Invalid, Length, MaybeText, Quantity, Text, Time};

const MOST_ROPES: usize = 100;
const MOST_POINTS: usize = 1000;

/// A body that moves past walls.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClearanceCase {
    /// Walls and ground.
    pub walls: Vec<jump::Wall>,
    /// Times of the samples, rising.
    pub t_s: Vec<f64>,
    /// Where the ropes are tied to the body: its centre, if it is a ball.
    pub body: Track,
    /// Radius of the body, taken off every distance.
    #[serde(with = "Text::<Length>")]
    pub radius: Length,
    /// Length of a capsule that hangs from there, at least twice the radius; none for a ball.
    #[serde(with = "MaybeText::<Length>", default)]
    pub length: Option<Length>,
    /// What the capsule hangs away from, such as the ring; upright if left out.
    #[serde(default)]
    pub towards: Option<Track>,
    /// The capsule is upright while `towards` is nearer than this, since the rope is slack; never if left out.
    #[serde(with = "MaybeText::<Length>", default)]
    pub rope_length: Option<Length>,
}

/// Ropes that move past walls.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RopeClearanceCase {
    /// Walls and ground.
    pub walls: Vec<jump::Wall>,
    /// Times of the samples, rising.
    pub t_s: Vec<f64>,
    /// Ropes: ring and body, or more points on the way, joined by straight pieces.
    pub ropes: Vec<Thing>,
}

/// Distance from one wall.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WallHistory {
    /// Name of the wall.
    pub wall: String,
    /// Distance of the surfaces at each sample; zero where they touch.
    pub clearance_m: Vec<f64>,
    /// Nearest approach, between samples too.
    #[serde(with = "Text::<Length>")]
    pub least: Length,
    /// When.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
    /// Where: on the axis of the body or rope.
    pub place: Place,
    /// The nearest point of the wall.
    pub wall_place: Place,
    /// When it first touched; after that a distance may be one from inside. None if it did not.
    #[serde(with = "MaybeText::<Time>")]
    pub touched: Option<Time>,
}

/// Distances of a body from all walls.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ClearanceHistory {
    /// Each wall.
    pub walls: Vec<WallHistory>,
}

/// Distances of one rope from all walls.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RopeHistory {
    /// Name of the rope.
    pub rope: String,
    /// Each wall.
    pub walls: Vec<WallHistory>,
}

/// Distances of ropes from all walls.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RopeClearanceHistory {
    /// Each rope.
    pub ropes: Vec<RopeHistory>,
}

/// Distance of a body from walls along a path: at each sample, and the nearest approach, Eq. (T4) and (T7).
///
/// The path may be measured, or come from any model; a jump finds its own clearances.
///
/// # Errors
/// [`SwingError`]: no wall or a broken one, times that do not rise, tracks of another length, values that are not finite
/// or beyond 1000 km, a negative radius, a capsule shorter than its caps or without a direction, more looks than allowed.
///
/// # Example
/// ```
/// use tautwork::quantity::{ReadLength, ReadTime, Words};
/// use tautwork::swing::{ClearanceCase, Place, Track, Wall, clearance_history};
/// let at = |x: f64, z: f64| Place { x: x.meters(), y: 0.0.meters(), z: z.meters() };
/// // Past a post that ends at z = −4 m, 3 m to its side.
/// let case = ClearanceCase {
///     walls: vec![Wall::profile("post", vec![at(3.0, -4.0), at(3.0, -9.0)])],
///     t_s: vec![0.0, 2.0],
///     body: Track { x_m: vec![0.0, 0.0], y_m: vec![0.0, 0.0], z_m: vec![0.0, -8.0] },
///     radius: 0.5.meters(),
///     length: None,
///     towards: None,
///     rope_length: None,
/// };
/// let post = &clearance_history(&case)?.walls[0];
/// assert_eq!(post.clearance_m, [4.5, 2.5]);
/// assert!((post.least.in_meters() - 2.5).abs() < 1e-3 && post.touched.is_none());
/// assert!(clearance_history(&ClearanceCase { t_s: vec![0.0], ..case }).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn clearance_history(case: &ClearanceCase) -> Result<ClearanceHistory, SwingError> {
    let walls = some_walls(&case.walls)?;
    check_times(&case.t_s)?;
    let samples = case.t_s.len();
    let body = Body::new(["radius", "length"], case.radius, case.length)?;
    case.body.check(samples, "body", FARTHEST_M)?;
    if let Some(towards) = &case.towards {
        towards.check(samples, "towards", FARTHEST_M)?;
    }
    let wants = |parameter: &str, problem: &str| Err(SwingError::contradiction(parameter, problem));
    let points = match (case.length, &case.towards, case.rope_length) {
        (None, Some(_), _) => return wants("towards", "a ball has no axis: give a length"),
        (_, None, Some(_)) => {
            return wants("rope_length", "says when a rope towards a ring is slack");
        }
        (None, None, None) => vec![case.body.clone()],
        (Some(_), _, _) => axis(case, &body)?.into(),
    };
    let mut sweep = Sweep::new(&case.t_s);
    let each = walls.iter().map(|wall| history(&mut sweep, wall, &points, body.radius_m));
    Ok(ClearanceHistory { walls: each.collect::<Result<_, _>>()? })
}

/// Distance of ropes from walls along a motion: at each sample, and the nearest approach, Eq. (T3) and (T7).
///
/// # Errors
/// As [`clearance_history`]; also more than 100 ropes, or a rope that has not from 2 to 1000 points.
///
/// # Example
/// ```
/// use tautwork::quantity::{ReadLength, ReadTime, Words};
/// use tautwork::swing::{Place, RopeClearanceCase, Thing, Track, Wall, rope_clearance_history};
/// let at = |x: f64, z: f64| Place { x: x.meters(), y: 0.0.meters(), z: z.meters() };
/// // A rope swings out from a nose 3 m in front of it, whose tip it passes 2 m away.
/// let body = Track { x_m: vec![0.0, -6.0], y_m: vec![0.0, 0.0], z_m: vec![-10.0, -8.0] };
/// let rope = Thing {
///     name: "rope".to_owned(),
///     radius: 0.0.meters(),
///     points: vec![Track::still(at(0.0, 0.0)), body],
///     is_loop: false,
/// };
/// let case = RopeClearanceCase {
///     walls: vec![Wall::profile("nose", vec![at(9.0, -5.0), at(2.0, -5.0)])],
///     t_s: vec![0.0, 1.0],
///     ropes: vec![rope],
/// };
/// let nose = &rope_clearance_history(&case)?.ropes[0].walls[0];
/// assert_eq!((nose.clearance_m[0], nose.time.in_seconds()), (2.0, 0.0));
/// assert!((nose.clearance_m[1] - (2.0 * 0.8 + 5.0 * 0.6)).abs() < 1e-12);
/// assert!(rope_clearance_history(&RopeClearanceCase { walls: vec![], ..case }).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn rope_clearance_history(
    case: &RopeClearanceCase,
) -> Result<RopeClearanceHistory, SwingError> {
    let walls = some_walls(&case.walls)?;
    check_times(&case.t_s)?;
    if case.ropes.len() > MOST_ROPES {
        let allowed = format!("at most {MOST_ROPES}");
        return Err(Invalid::new("ropes", case.ropes.len().to_string(), allowed).into());
    }
    let mut sweep = Sweep::new(&case.t_s);
    let each = case.ropes.iter().enumerate().map(|(i, rope)| {
        let key = format!("ropes[{i}]");
        let radius_m = non_negative("radius", rope.radius).map_err(|e| e.within(&key))?;
        if !(2..=MOST_POINTS).contains(&rope.points.len()) {
            let (value, allowed) = (rope.points.len(), format!("from 2 to {MOST_POINTS}"));
            return Err(Invalid::new(format!("{key}.points"), value.to_string(), allowed).into());
        }
        for (k, track) in rope.points.iter().enumerate() {
            track.check(case.t_s.len(), &format!("{key}.points[{k}]"), FARTHEST_M)?;
        }
        let each = walls.iter().map(|wall| history(&mut sweep, wall, &rope.points, radius_m));
        let walls = each.collect::<Result<_, SwingError>>()?;
        Ok(RopeHistory { rope: rope.name.clone(), walls })
    });
    Ok(RopeClearanceHistory { ropes: each.collect::<Result<_, SwingError>>()? })
}

fn some_walls(given: &[jump::Wall]) -> Result<Vec<Wall>, SwingError> {
    if given.is_empty() {
        return Err(SwingError::contradiction("walls", "there is no wall"));
    }
    walls(given)
}

/// Both ends of the axis of a capsule, Eq. (T4).
fn axis(case: &ClearanceCase, body: &Body) -> Result<[Track; 2], SwingError> {
    let Some(towards) = &case.towards else {
        return ends(case, |tie_m, _| Ok(body.axis(tie_m, tie_m, false)));
    };
    let rope_m = case.rope_length.map_or(Ok(0.0), |length| positive("rope_length", length))?;
    ends(case, |tie_m, k| {
        let ring_m = towards.at_m(k);
        let far_m = size(from(tie_m, ring_m));
        let taut = far_m >= rope_m;
        if taut && far_m == 0.0 {
            let problem = format!("is at the body at {} s: no direction", case.t_s[k]);
            return Err(SwingError::contradiction("towards", &problem));
        }
        Ok(body.axis(tie_m, ring_m, taut))
    })
}

fn ends(
    case: &ClearanceCase,
    axis: impl Fn([f64; 3], usize) -> Result<[[f64; 3]; 2], SwingError>,
) -> Result<[Track; 2], SwingError> {
    let mut ends = [Track::default(), Track::default()];
    for k in 0..case.t_s.len() {
        for (end, at_m) in ends.iter_mut().zip(axis(case.body.at_m(k), k)?) {
            end.push_m(at_m);
        }
    }
    Ok(ends)
}

fn history(
    sweep: &mut Sweep<'_>,
    wall: &Wall,
    points: &[Track],
    radius_m: f64,
) -> Result<WallHistory, SwingError> {
    let Swept { at_samples_m, nearest, t_s, touched_s } = sweep.past(wall, points, radius_m)?;
    let clear_m = |away_m: f64| (away_m - radius_m).max(0.0);
    Ok(WallHistory {
        wall: wall.name.clone(),
        clearance_m: at_samples_m.into_iter().map(clear_m).collect(),
        least: Length::from_si(clear_m(nearest.away_m)),
        time: Time::from_si(t_s),
        place: Place::of_m(nearest.on_m),
        wall_place: Place::of_m(nearest.wall_m),
        touched: touched_s.map(Time::from_si),
    })
}
