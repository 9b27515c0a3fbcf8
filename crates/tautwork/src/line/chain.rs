//! One line of several pieces with loads on it, in space: Newton on the convex complementary energy,
//! Eq. (10).

use nalgebra::{Matrix3, Vector3};
use serde::{Deserialize, Serialize};

use super::LineError;
use super::net::{triple, vector};
use super::note::LineNote;
use super::planar::{CLOSED, Damping, Stop, line_search};
use super::segment::Uniform;
use super::strand::{Strand, perpendicular};
use crate::material::{Law, Stretch};
use crate::quantity::check::{between, non_negative, positive};
use crate::quantity::{Force, Invalid, Length, LineLoad, Quantity, Ratio, Text, Triple};

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

/// A load tied to a point of a chain.
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
    /// Tension.
    pub tension_n: Vec<f64>,
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

/// A uniform stretch between two joints, and the load at its end.
#[derive(Debug, Clone)]
struct Link {
    q_n_per_m: f64,
    /// Direction of the load along the link.
    down: Vector3<f64>,
    rest_m: f64,
    law: Law,
    load_n: Vector3<f64>,
}

#[derive(Debug, Clone)]
struct Links(Vec<Link>);

struct LinksState {
    pull_n: Vector3<f64>,
    residual_m: f64,
    scale_m: f64,
    iterations: u32,
}

/// End of the chain, its derivative by the pull at the start, and the pull at the end.
struct Run {
    end_m: Vector3<f64>,
    flexibility: Matrix3<f64>,
    pull_n: Vector3<f64>,
}

const BUDGET: u32 = 200;

impl Links {
    pub fn new(chain: &Chain) -> Result<Self, LineError> {
        let within = |i: usize| move |e: Invalid| e.within(&format!("pieces[{i}]"));
        let mut lengths = Vec::new();
        for (i, piece) in chain.pieces.iter().enumerate() {
            lengths.push(positive("rest_length", piece.rest_length).map_err(within(i))?);
        }
        let total: f64 = lengths.iter().sum();
        if lengths.is_empty() {
            return Err(refused("pieces", "empty", "at least one piece"));
        }
        if !(2..=100_000).contains(&chain.samples) {
            return Err(refused("samples", &chain.samples.to_string(), "from 2 to 100000"));
        }
        let mut loads = Vec::new();
        for (i, load) in chain.loads.iter().enumerate() {
            let inside = |e: Invalid| e.within(&format!("loads[{i}]"));
            let zero = Length::from_si(0.0);
            let at = between("at", load.at, zero, Length::from_si(total)).map_err(inside)?;
            loads.push((at, vector("force", &load.force).map_err(inside)?));
        }
        loads.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut links = Vec::new();
        let mut from = 0.0;
        for (i, (piece, length)) in chain.pieces.iter().zip(&lengths).enumerate() {
            let weight = non_negative("weight", piece.weight).map_err(within(i))?;
            let wind = vector("wind", &piece.wind).map_err(within(i))?;
            let q = wind - Vector3::z() * weight;
            let q_n_per_m = q.norm();
            let down = if q_n_per_m > 0.0 { q / q_n_per_m } else { -Vector3::z() };
            let law = piece.stretch.law().clone();
            let last = i + 1 == lengths.len();
            let to = if last { total } else { from + length };
            let mut at = from;
            // A load at a joint belongs to the piece before it; one at the very end changes no shape.
            while let Some(&(s, force)) = loads.first()
                && (s <= to || last)
            {
                loads.remove(0);
                links.push(Link {
                    q_n_per_m,
                    down,
                    rest_m: s - at,
                    law: law.clone(),
                    load_n: force,
                });
                at = s;
            }
            links.push(Link { q_n_per_m, down, rest_m: to - at, law, load_n: Vector3::zeros() });
            from = to;
        }
        Ok(Self(links))
    }

    fn length_m(&self) -> f64 {
        self.0.iter().map(|l| l.rest_m).sum()
    }

    fn run(&self, pull_n: Vector3<f64>) -> Run {
        let mut run = Run { end_m: Vector3::zeros(), flexibility: Matrix3::zeros(), pull_n };
        for link in &self.0 {
            if link.rest_m > 0.0 {
                link.extend(&mut run);
            }
            run.pull_n -= link.load_n;
        }
        run
    }

    /// The pull at the start that closes the chain on its chord.
    pub fn solve(&self, chord_m: &Vector3<f64>) -> Result<LinksState, Stop> {
        let scale_m = chord_m.norm().max(self.length_m());
        let mut pull = self.guess(chord_m)?;
        let mut run = self.run(pull);
        let mut damping = Damping::default();
        let mut polished = false;
        for iterations in 0..BUDGET {
            let g = run.end_m - chord_m;
            let residual_m = g.norm();
            let closed = residual_m <= CLOSED * scale_m;
            if closed && polished {
                return Ok(LinksState { pull_n: pull, residual_m, scale_m, iterations });
            }
            polished = closed;
            let share = if closed { 0.0 } else { damping.share() };
            let trace = run.flexibility.trace();
            let damped = run.flexibility + Matrix3::identity() * (share * trace);
            let step = damped.cholesky().map(|c| -c.solve(&g));
            let Some(step) = step.filter(|s| s.iter().all(|x| x.is_finite())) else {
                return Err(Stop::Stalled { residual_m, iterations });
            };
            let slope = g.dot(&step);
            if slope >= 0.0 {
                // Rounding only: there is nothing left to gain.
                return if residual_m <= 100.0 * CLOSED * scale_m {
                    Ok(LinksState { pull_n: pull, residual_m, scale_m, iterations })
                } else {
                    Err(Stop::Stalled { residual_m, iterations })
                };
            }
            let start = pull;
            let taken = line_search(slope, |share| {
                pull = start + step * share;
                run = self.run(pull);
                (run.end_m - chord_m).dot(&step)
            });
            pull = start + step * taken;
            run = self.run(pull);
            damping.learn(taken);
        }
        let residual_m = (run.end_m - chord_m).norm();
        if residual_m <= 1e3 * CLOSED * scale_m {
            return Ok(LinksState { pull_n: pull, residual_m, scale_m, iterations: BUDGET });
        }
        Err(Stop::Stalled { residual_m, iterations: BUDGET })
    }

    /// The pull of a uniform line with the same total load and mean flexibility.
    fn guess(&self, chord_m: &Vector3<f64>) -> Result<Vector3<f64>, Stop> {
        let length_m = self.length_m();
        let weight = self.0.iter().map(|l| l.down * (l.q_n_per_m * l.rest_m));
        let total: Vector3<f64> =
            weight.sum::<Vector3<f64>>() + self.0.iter().map(|l| l.load_n).sum::<Vector3<f64>>();
        let slope: f64 = self.0.iter().map(|l| l.rest_m * l.law.strain_and_slope(0.0).1).sum();
        let law = Law::Linear { ea_n: length_m / slope };
        let mut strand = Strand::new(length_m, total / length_m, law);
        if strand.solve(chord_m)? {
            return Ok(strand.start_pull_n());
        }
        // Slack as a whole without a net load: loads that cancel may still hold it open.
        let largest = self.0.iter().map(|l| l.load_n.norm()).fold(0.0, f64::max);
        if largest > 0.0 {
            let along = chord_m.try_normalize(0.0).unwrap_or_else(Vector3::x);
            return Ok(along * largest);
        }
        Err(Stop::Slack)
    }

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
            let (place, tension) = self.at(solved.pull_n, s);
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
            let (place, _) = self.at(solved.pull_n, s);
            if place.z < lowest.z {
                lowest = place;
            }
            sag = sag.max(below(&place));
        }
        let mut pull = solved.pull_n;
        for link in &self.0 {
            stretched += link.stretched_m(&pull);
            pull += link.down * (-link.q_n_per_m * link.rest_m) - link.load_n;
        }
        let loads = chain.loads.iter().map(|load| {
            let (place, _) = self.at(solved.pull_n, load.at.si());
            ChainLoadState {
                at: load.at,
                position: triple(&(near + place)),
                below_chord: Length::from_si(below(&place)),
            }
        });
        let forces = [greatest, solved.pull_n.norm(), end.pull_n.norm()];
        let residual = solved.residual_m / solved.scale_m;
        let numbers = [forces[0], forces[1], forces[2], stretched, sag, lowest.z, residual];
        if !numbers.iter().all(|x| x.is_finite()) {
            return Err(LineError::Overflow { result: "chain" });
        }
        let notes = self.0.iter().find_map(|l| LineNote::past_table(&l.law, greatest));
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
            notes: notes.into_iter().collect(),
        })
    }

    /// Rest arc lengths inside links at which the line runs across `normal`: T(s) is linear in s.
    fn turns_m(&self, mut pull_n: Vector3<f64>, normal: &Vector3<f64>) -> Vec<f64> {
        let mut turns = Vec::new();
        let mut from = 0.0;
        for link in &self.0 {
            let q = link.down * link.q_n_per_m;
            let s = pull_n.dot(normal) / q.dot(normal);
            if s > 0.0 && s < link.rest_m {
                turns.push(from + s);
            }
            pull_n -= q * link.rest_m + link.load_n;
            from += link.rest_m;
        }
        turns
    }

    /// Place and tension at rest arc length s; just before a load there.
    fn at(&self, pull_n: Vector3<f64>, s_m: f64) -> (Vector3<f64>, f64) {
        let mut run = Run { end_m: Vector3::zeros(), flexibility: Matrix3::zeros(), pull_n };
        let mut left = s_m;
        for link in &self.0 {
            if left <= link.rest_m {
                if left > 0.0 {
                    Link { rest_m: left, ..link.clone() }.extend(&mut run);
                }
                return (run.end_m, run.pull_n.norm());
            }
            left -= link.rest_m;
            if link.rest_m > 0.0 {
                link.extend(&mut run);
            }
            run.pull_n -= link.load_n;
        }
        (run.end_m, run.pull_n.norm())
    }
}

impl Link {
    /// Splits a pull into its parts along and across the load.
    fn split(&self, pull: &Vector3<f64>) -> (f64, f64, Vector3<f64>) {
        let v = pull.dot(&self.down);
        let flat = pull - self.down * v;
        let h = flat.norm();
        let across = if h > 0.0 { flat / h } else { perpendicular(&self.down) };
        (h, v, across)
    }

    fn uniform(&self) -> Uniform<'_> {
        Uniform { q_n_per_m: self.q_n_per_m, rest_m: self.rest_m, law: &self.law }
    }

    /// Adds this link to a run that has come to its start.
    fn extend(&self, run: &mut Run) {
        let (h, v, across) = self.split(&run.pull_n);
        let p = self.uniform().at(h, v);
        let down = self.down;
        run.end_m += across * p.across_m + down * p.along_m;
        let out = down.cross(&across);
        let mixed = across * down.transpose();
        run.flexibility += across * across.transpose() * p.hh
            + (mixed + mixed.transpose()) * p.hv
            + down * down.transpose() * p.vv
            + out * out.transpose() * p.out;
        run.pull_n -= down * (self.q_n_per_m * self.rest_m);
    }

    fn stretched_m(&self, pull: &Vector3<f64>) -> f64 {
        if self.rest_m == 0.0 {
            return 0.0;
        }
        let (h, v, _) = self.split(pull);
        self.uniform().stretched_m(h, v)
    }
}

fn refused(parameter: &str, value: &str, allowed: &str) -> LineError {
    LineError::Invalid(Invalid {
        parameter: parameter.to_owned(),
        value: value.to_owned(),
        allowed: allowed.to_owned(),
    })
}
