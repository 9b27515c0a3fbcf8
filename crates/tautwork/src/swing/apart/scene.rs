//! Things that move, and what is asked of them.

use serde::{Deserialize, Serialize};

use super::super::{Place, SwingError};
use crate::quantity::check::non_negative;
use crate::quantity::{Invalid, Length, Text, Time};

const MOST_THINGS: usize = 100;
const MOST_POINTS: usize = 1000;
/// Beyond this a square is no number.
const FARTHEST_M: f64 = 1e100;

/// Times must be finite and rise.
pub(in super::super) fn check_times(t_s: &[f64]) -> Result<(), SwingError> {
    if t_s.is_empty() {
        return Err(SwingError::contradiction("t_s", "there are no samples"));
    }
    let rises = t_s.windows(2).all(|t| t[0] < t[1]);
    if !rises || !t_s.iter().all(|t| t.is_finite()) {
        return Err(SwingError::contradiction("t_s", "times must be finite and rise"));
    }
    Ok(())
}

/// A point in time, in metres: one value for each sample, or one for a point that stays.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Track {
    /// Along the span.
    pub x_m: Vec<f64>,
    /// To the left.
    pub y_m: Vec<f64>,
    /// Up.
    pub z_m: Vec<f64>,
}

impl Track {
    /// A point that stays.
    #[must_use]
    pub fn still(place: Place) -> Self {
        let [x, y, z] = place.m().map(|p| vec![p]);
        Self { x_m: x, y_m: y, z_m: z }
    }

    /// Checks it against the number of samples and the farthest place allowed, m.
    pub(in super::super) fn check(
        &self,
        samples: usize,
        key: &str,
        farthest_m: f64,
    ) -> Result<(), SwingError> {
        for values in [&self.x_m, &self.y_m, &self.z_m] {
            if values.len() != 1 && values.len() != samples || values.len() != self.x_m.len() {
                return Err(SwingError::contradiction(
                    key,
                    "needs one value, or one for each time",
                ));
            }
            if !values.iter().all(|v| v.abs() < farthest_m) {
                let problem = format!("has a value that is not finite, or above {farthest_m:e} m");
                return Err(SwingError::contradiction(key, &problem));
            }
        }
        Ok(())
    }

    pub(in super::super) fn push_m(&mut self, [x, y, z]: [f64; 3]) {
        self.x_m.push(x);
        self.y_m.push(y);
        self.z_m.push(z);
    }

    pub(crate) fn at_m(&self, sample: usize) -> [f64; 3] {
        let k = if self.x_m.len() == 1 { 0 } else { sample };
        [self.x_m[k], self.y_m[k], self.z_m[k]]
    }
}

/// A body, a rope or a line: a point, or points joined by straight pieces.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Thing {
    /// Name, for the results.
    pub name: String,
    /// Radius of body or rope.
    #[serde(with = "Text::<Length>")]
    pub radius: Length,
    /// Its points in order.
    pub points: Vec<Track>,
    /// Whether it is a loop of rope that a body could go through.
    #[serde(default)]
    pub is_loop: bool,
}

/// Things and their times.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Scene {
    /// Times of the samples, rising.
    pub t_s: Vec<f64>,
    /// Things.
    pub things: Vec<Thing>,
    /// Pairs that touch by design, by name: no distance is asked between them.
    #[serde(default)]
    pub joined: Vec<[String; 2]>,
}

/// Least distance of a pair.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PairApart {
    /// Name of one.
    pub first: String,
    /// Name of the other.
    pub second: String,
    /// Distance between their surfaces; zero where they touch.
    #[serde(with = "Text::<Length>")]
    pub least: Length,
    /// When.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
    /// Where on the first.
    pub first_place: Place,
    /// Where on the second.
    pub second_place: Place,
}

/// A body goes through a loop.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LoopCrossing {
    /// Name of the body.
    pub body: String,
    /// Name of the loop.
    pub through: String,
    /// When.
    #[serde(with = "Text::<Time>")]
    pub time: Time,
    /// Where.
    pub place: Place,
}

/// What came near what.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Apart {
    /// Each pair that is not joined, nearest first.
    pub pairs: Vec<PairApart>,
    /// Each time that a body went through a loop, in order of time.
    pub crossings: Vec<LoopCrossing>,
}

impl Scene {
    pub(super) fn check(&self) -> Result<(), SwingError> {
        let bad = |parameter: &str, problem: &str| SwingError::contradiction(parameter, problem);
        check_times(&self.t_s)?;
        if self.things.len() > MOST_THINGS {
            let value = self.things.len().to_string();
            return Err(Invalid::new("things", value, format!("at most {MOST_THINGS}")).into());
        }
        for (i, thing) in self.things.iter().enumerate() {
            let key = format!("things[{i}]");
            non_negative("radius", thing.radius).map_err(|e| e.within(&key))?;
            if thing.points.is_empty() || thing.points.len() > MOST_POINTS {
                let allowed = format!("from 1 to {MOST_POINTS}");
                let value = thing.points.len().to_string();
                return Err(Invalid::new(format!("{key}.points"), value, allowed).into());
            }
            for (k, track) in thing.points.iter().enumerate() {
                track.check(self.t_s.len(), &format!("{key}.points[{k}]"), FARTHEST_M)?;
            }
            if self.things[..i].iter().any(|before| before.name == thing.name) {
                return Err(bad(&format!("{key}.name"), "is the name of another thing"));
            }
        }
        for (i, pair) in self.joined.iter().enumerate() {
            if !pair.iter().all(|name| self.things.iter().any(|thing| thing.name == *name)) {
                return Err(bad(&format!("joined[{i}]"), "no thing has this name"));
            }
        }
        Ok(())
    }

    pub(super) fn are_joined(&self, a: &str, b: &str) -> bool {
        self.joined.iter().any(|[c, d]| (a == c && b == d) || (a == d && b == c))
    }
}
