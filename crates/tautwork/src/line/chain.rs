//! One line of several pieces with loads on it, in space.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::LineError;
use super::links::{Links, LinksState};
use super::net::{triple, vector};
use super::note::LineNote;
use crate::material::Stretch;
use crate::quantity::{Force, Length, LineLoad, Quantity, Ratio, Text, Triple};

/// A piece of a chain.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChainPiece {
    /// Length without tension.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// Weight per rest length.
    #[serde(with = "Text::<LineLoad>")]
    pub weight: LineLoad,
    /// Wind force per rest length: along the span, to the left, up. None if left out.
    #[serde(with = "Triple::<LineLoad>", default = "calm")]
    pub wind: [LineLoad; 3],
    /// Stretch.
    pub stretch: Stretch,
}

fn calm() -> [LineLoad; 3] {
    [LineLoad::from_si(0.0); 3]
}

/// A load tied to a point of a chain. A load of zero marks a point whose place and tension are wanted.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChainLoad {
    /// Rest length from the near end to the load.
    #[serde(with = "Text::<Length>")]
    pub at: Length,
    /// Force: along the span, to the left, up. A weight is negative in the third.
    #[serde(with = "Triple::<Force>")]
    pub force: [Force; 3],
}

/// A line of several pieces between two points.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Chain {
    /// Near end.
    #[serde(with = "Triple::<Length>")]
    pub near: [Length; 3],
    /// Far end.
    #[serde(with = "Triple::<Length>")]
    pub far: [Length; 3],
    /// Pieces from the near end to the far end.
    pub pieces: Vec<ChainPiece>,
    /// Loads tied to the line, in any order.
    #[serde(default)]
    pub loads: Vec<ChainLoad>,
    /// Points of the profile, at equal spacing of rest length; 101 if left out.
    #[serde(default = "usual_samples")]
    pub samples: usize,
}

fn usual_samples() -> usize {
    101
}

/// Points along a chain, in SI.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct ChainProfile {
    /// Rest length from the near end.
    pub s_m: Vec<f64>,
    /// Along the span.
    pub x_m: Vec<f64>,
    /// To the left.
    pub y_m: Vec<f64>,
    /// Up.
    pub z_m: Vec<f64>,
    /// Tension; at a load, the one before it.
    pub tension_n: Vec<f64>,
    /// Strain on the rest length.
    pub strain: Vec<f64>,
}

/// A point load, where it comes to rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ChainLoadState {
    /// Rest length from the near end.
    #[serde(with = "Text::<Length>")]
    pub at: Length,
    /// Where it is.
    #[serde(with = "Triple::<Length>")]
    pub position: [Length; 3],
    /// Vertical distance below the chord.
    #[serde(with = "Text::<Length>")]
    pub below_chord: Length,
    /// Tension just before it, on the side of the near end.
    #[serde(with = "Text::<Force>")]
    pub tension_before: Force,
    /// Tension just after it.
    #[serde(with = "Text::<Force>")]
    pub tension_after: Force,
}

/// A chain at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ChainSolution {
    /// Pull of the chain on its near anchor.
    #[serde(with = "Triple::<Force>")]
    pub pull_near: [Force; 3],
    /// Pull of the chain on its far anchor.
    #[serde(with = "Triple::<Force>")]
    pub pull_far: [Force; 3],
    /// Tension at the near anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_near: Force,
    /// Tension at the far anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_far: Force,
    /// Length under tension.
    #[serde(with = "Text::<Length>")]
    pub stretched_length: Length,
    /// Lowest point.
    #[serde(with = "Triple::<Length>")]
    pub lowest: [Length; 3],
    /// Largest vertical distance below the chord.
    #[serde(with = "Text::<Length>")]
    pub sag_below_chord: Length,
    /// Loads in the order of the input.
    pub loads: Vec<ChainLoadState>,
    /// Points along the chain; loads and joints are among them.
    pub profile: ChainProfile,
    /// Distance by which the computed line misses the far anchor, over the larger of rest length and
    /// chord.
    #[serde(with = "Text::<Ratio>")]
    pub residual: Ratio,
    /// Newton steps made.
    pub iterations: u32,
    /// Remarks.
    pub notes: Vec<LineNote>,
}

/// A line of any number of pieces with any number of loads tied to it, in space, Eq. (3) to (10).
///
/// Linear or curved stretch, wind as a force per rest length, slack or taut, up to ends on one vertical.
///
/// # Errors
/// [`LineError::Invalid`] for no pieces, values out of range and loads off the line;
/// [`LineError::NotUnique`] for a chain that is slack without load; [`LineError::NotConverged`] and
/// [`LineError::Overflow`] at the edge of the range of numbers.
///
/// # Example
/// ```
/// use tautwork::line::{Chain, ChainLoad, ChainPiece, solve_chain};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, ReadLength, Words};
/// let none = 0.0.newtons_per_meter();
/// let chain = Chain {
///     near: [0.0.meters(); 3],
///     far: [6.0.meters(), 0.0.meters(), 0.0.meters()],
///     pieces: vec![ChainPiece {
///         rest_length: 10.0.meters(),
///         weight: none,
///         wind: [none; 3],
///         stretch: Stretch::axial_rigidity(1e9.newtons())?,
///     }],
///     loads: vec![ChainLoad {
///         at: 5.0.meters(),
///         force: [0.0.newtons(), 0.0.newtons(), (-1000.0).newtons()],
///     }],
///     samples: 11,
/// };
/// // Two halves of 5 m over 6 m: 4 m of sag, 625 N.
/// let solved = solve_chain(&chain)?;
/// assert!((solved.loads[0].below_chord.in_meters() - 4.0).abs() < 1e-5);
/// assert!((solved.tension_near.in_newtons() - 625.0).abs() < 1e-2);
/// let off = Chain { loads: vec![ChainLoad { at: 11.0.meters(), ..chain.loads[0].clone() }], ..chain };
/// assert!(solve_chain(&off).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn solve_chain(chain: &Chain) -> Result<ChainSolution, LineError> {
    let links = Links::new(chain)?;
    let near = vector("near", &chain.near)?;
    let chord = vector("far", &chain.far)? - near;
    let solved = links.solve(&chord)?;
    links.report(chain, near, chord, &solved)
}

impl Links {
    fn report(
        &self,
        chain: &Chain,
        near: Vector3<f64>,
        chord: Vector3<f64>,
        solved: &LinksState,
    ) -> Result<ChainSolution, LineError> {
        let end = self.run(solved.pull_n);
        let total = self.length_m();
        // Samples at equal spacing, with joints and loads among them.
        let step = total / (chain.samples - 1) as f64;
        let mut places: Vec<f64> =
            (0..chain.samples).map(|i| (i as f64 * step).min(total)).collect();
        let mut joint = 0.0;
        for link in &self.0 {
            joint += link.rest_m;
            places.push(joint.min(total));
        }
        places.sort_by(f64::total_cmp);
        places.dedup();
        let level2 = chord.x * chord.x + chord.y * chord.y;
        let below = |p: &Vector3<f64>| {
            let share = if level2 > 0.0 { (p.x * chord.x + p.y * chord.y) / level2 } else { 0.5 };
            share * chord.z - p.z
        };
        let mut profile = ChainProfile::default();
        let (mut lowest, mut sag) = (Vector3::zeros(), 0.0_f64);
        let (mut stretched, mut greatest) = (0.0, 0.0_f64);
        for &s in &places {
            let mark = self.at(solved.pull_n, s);
            let (place, tension) = (mark.place_m, mark.pull_n.norm());
            if place.z < lowest.z {
                lowest = place;
            }
            sag = sag.max(below(&place));
            greatest = greatest.max(tension);
            profile.s_m.push(s);
            profile.x_m.push(near.x + place.x);
            profile.y_m.push(near.y + place.y);
            profile.z_m.push(near.z + place.z);
            profile.tension_n.push(tension);
            profile.strain.push(mark.strain);
        }
        // Between joints the line is lowest, or farthest below its chord, where it runs level, or
        // parallel to the chord.
        let up = Vector3::z();
        let from_chord = if level2 > 0.0 {
            Vector3::new(chord.x, chord.y, 0.0) * (chord.z / level2) - up
        } else {
            -up
        };
        for s in [up, from_chord].iter().flat_map(|n| self.turns_m(solved.pull_n, n)) {
            let place = self.at(solved.pull_n, s).place_m;
            if place.z < lowest.z {
                lowest = place;
            }
            sag = sag.max(below(&place));
        }
        let mut pull = solved.pull_n;
        let mut notes = Vec::new();
        for link in &self.0 {
            let before = pull.norm();
            stretched += link.stretched_m(&pull);
            pull -= link.down * (link.q_n_per_m * link.rest_m);
            // |T| is convex along a link: greatest at an end.
            notes.extend(LineNote::past_table(&link.law, before.max(pull.norm())));
            pull -= link.load_n;
        }
        notes.dedup();
        let loads = chain.loads.iter().map(|load| {
            let at = self.at(solved.pull_n, load.at.si());
            // Loads at the same point act together.
            let here = chain.loads.iter().filter(|other| other.at == load.at);
            let force: Vector3<f64> =
                here.map(|other| Vector3::from(other.force.map(Quantity::si))).sum();
            ChainLoadState {
                at: load.at,
                position: triple(&(near + at.place_m)),
                below_chord: Length::from_si(below(&at.place_m)),
                tension_before: Force::from_si(at.pull_n.norm()),
                tension_after: Force::from_si((at.pull_n - force).norm()),
            }
        });
        let forces = [greatest, solved.pull_n.norm(), end.pull_n.norm()];
        let residual = solved.residual_m / solved.scale_m;
        let numbers = [forces[0], forces[1], forces[2], stretched, sag, lowest.z, residual];
        if !numbers.iter().all(|x| x.is_finite()) {
            return Err(LineError::Overflow { result: "chain" });
        }
        Ok(ChainSolution {
            pull_near: triple(&solved.pull_n),
            pull_far: triple(&-end.pull_n),
            tension_near: Force::from_si(solved.pull_n.norm()),
            tension_far: Force::from_si(end.pull_n.norm()),
            stretched_length: Length::from_si(stretched),
            lowest: triple(&(near + lowest)),
            sag_below_chord: Length::from_si(sag),
            loads: loads.collect(),
            profile,
            residual: Ratio::from_si(residual),
            iterations: solved.iterations,
            notes,
        })
    }
}
