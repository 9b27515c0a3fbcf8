//! What is asked: the ends of a rope in time, and an edge.

use serde::{Deserialize, Serialize};

use super::super::apart::{Track, check_times};
use super::super::setup::point;
use super::super::space::{from, size};
use super::super::terrain::FARTHEST_M;
use super::super::{Place, SwingError};
use super::line::EdgeLine;
use crate::quantity::check::{between, positive};
use crate::quantity::{AxialRigidity, MaybeText, Ratio, Text, Words};

/// Shortest edge, m.
const SHORTEST_M: f64 = 1e-3;
/// Greatest tension, N.
const MOST_N: f64 = 1e12;

/// A straight edge of rock.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum RockEdge {
    /// From one point to another, such as two corners of a mesh.
    Segment {
        /// One end.
        from: Place,
        /// The other end.
        to: Place,
    },
    /// A corner of a profile: level along y, without ends.
    Corner {
        /// Where; its y does not matter.
        at: Place,
    },
}

/// A rope that may come to lie over an edge.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RopeEdgeCase {
    /// Times of the samples, rising.
    pub t_s: Vec<f64>,
    /// Where the rope is tied: one value for a fixed anchor, or a path such as that of the ring.
    pub anchor: Track,
    /// The other end, such as the body.
    pub body: Track,
    /// Tension at the body: one value, or one for each time; zero while the rope is slack.
    pub tension_n: Vec<f64>,
    /// The edge.
    pub edge: RockEdge,
    /// The rope lies over the edge at the first sample. Else it starts straight, on one side.
    #[serde(default)]
    pub starts_over: bool,
    /// Friction of rope on rock.
    #[serde(with = "Text::<Ratio>")]
    pub mu: Ratio,
    /// Rigidity of the rope, for the rope that stretches over the edge; none for a rope that does not stretch.
    #[serde(with = "MaybeText::<AxialRigidity>", default)]
    pub axial_rigidity: Option<AxialRigidity>,
}

impl RopeEdgeCase {
    /// Checks it: the line of the edge, friction, and rigidity in N.
    pub(super) fn check(&self) -> Result<(EdgeLine, f64, f64), SwingError> {
        check_times(&self.t_s)?;
        let samples = self.t_s.len();
        self.anchor.check(samples, "anchor", FARTHEST_M)?;
        self.body.check(samples, "body", FARTHEST_M)?;
        let bad = |parameter: &str, problem: &str| SwingError::contradiction(parameter, problem);
        if self.tension_n.len() != 1 && self.tension_n.len() != samples {
            return Err(bad("tension_n", "needs one value, or one for each time"));
        }
        if !self.tension_n.iter().all(|t| (0.0..=MOST_N).contains(t)) {
            return Err(bad("tension_n", "has a value that is not from 0 to 1e12 N"));
        }
        let mu = between("mu", self.mu, 0.0.ratio(), 10.0.ratio())?;
        let ea_n = match self.axial_rigidity {
            Some(ea) => positive("axial_rigidity", ea)?,
            None => f64::INFINITY,
        };
        Ok((self.line()?, mu, ea_n))
    }

    fn line(&self) -> Result<EdgeLine, SwingError> {
        let near = |name: &str, place: Place| {
            let p = point(name, place)?;
            if p.iter().all(|c| c.abs() < FARTHEST_M) {
                return Ok(p);
            }
            Err(SwingError::contradiction(name, "is more than 1000 km from the origin"))
        };
        match self.edge {
            RockEdge::Corner { at } => {
                let [x, _, z] = near("edge.at", at)?;
                let along = [0.0, 1.0, 0.0];
                Ok(EdgeLine { at_m: [x, 0.0, z], along, length_m: None })
            }
            RockEdge::Segment { from: first, to } => {
                let (p, q) = (near("edge.from", first)?, near("edge.to", to)?);
                let r = from(p, q);
                let length_m = size(r);
                if length_m < SHORTEST_M {
                    return Err(SwingError::contradiction("edge", "is shorter than 1 mm"));
                }
                let along = r.map(|c| c / length_m);
                Ok(EdgeLine { at_m: p, along, length_m: Some(length_m) })
            }
        }
    }

    /// Tension at a sample, N.
    pub(super) fn tension_at_n(&self, sample: usize) -> f64 {
        let k = if self.tension_n.len() == 1 { 0 } else { sample };
        self.tension_n[k]
    }
}
