//! Lines side by side over a gap, all tied to one ring.

use nalgebra::{Matrix3, Vector3};
use serde::{Deserialize, Serialize};

use super::LineError;
use super::net::{strand, triple, vector};
use super::note::LineNote;
use super::shape::BelowChord;
use super::strand::{Slide, Strand};
use super::tangle::{Balance, Tangle};
use super::together::Together;
use crate::material::Stretch;
use crate::quantity::{Force, Invalid, Length, LineLoad, Quantity, Ratio, Stiffness, Text, Triple};

/// A line from its near anchor over the ring, where it is tied, to its far anchor.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BundleLine {
    /// Name.
    pub name: String,
    /// Near anchor.
    #[serde(with = "Triple::<Length>")]
    pub near: [Length; 3],
    /// Far anchor.
    #[serde(with = "Triple::<Length>")]
    pub far: [Length; 3],
    /// Rest length from the near anchor to the ring.
    #[serde(with = "Text::<Length>")]
    pub near_length: Length,
    /// Rest length from the ring to the far anchor.
    #[serde(with = "Text::<Length>")]
    pub far_length: Length,
    /// Weight per rest length.
    #[serde(with = "Text::<LineLoad>")]
    pub weight: LineLoad,
    /// Stretch.
    pub stretch: Stretch,
}

/// One line of a bundle at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BundleLineState {
    /// Name.
    pub name: String,
    /// Tension at the near anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_near: Force,
    /// Tension on the near side of the ring.
    #[serde(with = "Text::<Force>")]
    pub tension_ring_near: Force,
    /// Tension on the far side of the ring.
    #[serde(with = "Text::<Force>")]
    pub tension_ring_far: Force,
    /// Tension at the far anchor.
    #[serde(with = "Text::<Force>")]
    pub tension_far: Force,
    /// Pull of the line on its near anchor.
    #[serde(with = "Triple::<Force>")]
    pub pull_near: [Force; 3],
    /// Pull of the line on its far anchor.
    #[serde(with = "Triple::<Force>")]
    pub pull_far: [Force; 3],
    /// Force of the line on the ring.
    #[serde(with = "Triple::<Force>")]
    pub pull_ring: [Force; 3],
    /// Part of the upward force of all lines on the ring, Eq. (15); below zero for a line that hangs from it.
    #[serde(with = "Text::<Ratio>")]
    pub share: Ratio,
    /// Largest vertical distance below the chord from anchor to anchor.
    #[serde(with = "Text::<Length>")]
    pub sag_below_chord: Length,
    /// Depth of its lowest point below the near anchor; zero if the near anchor is lowest.
    #[serde(with = "Text::<Length>")]
    pub sag_below_near: Length,
    /// Length under tension, anchor to anchor.
    #[serde(with = "Text::<Length>")]
    pub stretched_length: Length,
    /// Remarks.
    pub notes: Vec<LineNote>,
}

/// A bundle at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BundleSolution {
    /// Load on the ring.
    #[serde(with = "Triple::<Force>")]
    pub load: [Force; 3],
    /// Where the ring is.
    #[serde(with = "Triple::<Length>")]
    pub ring: [Length; 3],
    /// Lines in the order of the input.
    pub lines: Vec<BundleLineState>,
    /// Tangent stiffness of the ring, rows of a symmetric matrix: force by displacement.
    pub stiffness: [StiffnessRow; 3],
    /// Force left at the ring over the largest force about.
    #[serde(with = "Text::<Ratio>")]
    pub residual: Ratio,
    /// Newton steps made.
    pub iterations: u32,
}

/// A row of the stiffness matrix.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct StiffnessRow(#[serde(with = "Triple::<Stiffness>")] pub [Stiffness; 3]);

/// A stiffness as rows.
pub(super) fn rows(k_n_per_m: &Matrix3<f64>) -> [StiffnessRow; 3] {
    [0, 1, 2].map(|i| StiffnessRow([0, 1, 2].map(|j| Stiffness::from_si(k_n_per_m[(i, j)]))))
}

/// Where the ring of a bundle rests under a load, and what each line carries, Eq. (14).
///
/// The load is a force on the ring: along the span, to the left, up. A weight is negative in z.
///
/// # Errors
/// [`LineError::Invalid`] for no lines or values out of range, [`LineError::NotConverged`] if nothing
/// holds the ring.
///
/// # Example
/// ```
/// use tautwork::line::{BundleLine, solve_bundle};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, ReadRatio, Words};
/// let line = |name: &str, ea: f64| -> Result<_, tautwork::material::MaterialError> {
///     Ok(BundleLine {
///         name: name.to_owned(),
///         near: [0.0.meters(); 3],
///         far: [100.0.meters(), 0.0.meters(), 0.0.meters()],
///         near_length: 50.0.meters(),
///         far_length: 50.0.meters(),
///         weight: 0.0.newtons_per_meter(),
///         stretch: Stretch::axial_rigidity(ea.newtons())?,
///     })
/// };
/// let down = [0.0.newtons(), 0.0.newtons(), (-2000.0).newtons()];
/// // Equal lengths: the load is shared as the rigidities.
/// let solved = solve_bundle(&[line("main", 3e5)?, line("backup", 1e5)?], down)?;
/// assert!((solved.lines[0].share.in_ratio() - 0.75).abs() < 1e-9);
/// assert!(solve_bundle(&[], down).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn solve_bundle(lines: &[BundleLine], load: [Force; 3]) -> Result<BundleSolution, LineError> {
    let mut bundle = Bundle::new(lines)?;
    bundle.solve(load)
}

/// [`solve_bundle`] with a force per rest length on each line besides its weight, such as that of
/// [`wind_load`](super::wind_load).
pub(crate) fn bundle_in_wind(
    lines: &[BundleLine],
    winds: &[[LineLoad; 3]],
    load: [Force; 3],
) -> Result<BundleSolution, LineError> {
    let mut bundle = Bundle::new(lines)?;
    for (strands, wind) in bundle.tangle.strands.chunks_mut(2).zip(winds) {
        let wind = vector("wind", wind)?;
        for strand in strands {
            strand.blow(&wind);
        }
    }
    bundle.solve(load)
}

/// Points of each line with the ring held at a place, for drawings: `count` on each half.
pub(crate) fn bundle_profiles(
    lines: &[BundleLine],
    ring_m: [f64; 3],
    count: usize,
) -> Result<Vec<Vec<[f64; 3]>>, LineError> {
    let mut bundle = Bundle::new(lines)?;
    bundle.tangle.position_m[0] = Vector3::from(ring_m);
    bundle.tangle.pull()?;
    let points = |line| bundle.profile_m(line, count).into_iter().map(Into::into).collect();
    Ok((0..lines.len()).map(points).collect())
}

/// A bundle that keeps its state from load to load. The ring is node 0; line i has its anchors at
/// nodes 1 + 2 i and 2 + 2 i, and its halves at strands 2 i and 2 i + 1, both starting at the anchor.
pub(crate) struct Bundle {
    tangle: Tangle,
    together: Together,
    names: Vec<String>,
}

impl Bundle {
    pub fn new(lines: &[BundleLine]) -> Result<Self, LineError> {
        if lines.is_empty() {
            return Err(LineError::Invalid(Invalid::new("lines", "empty", "at least one line")));
        }
        let mut tangle = Tangle {
            position_m: vec![Vector3::zeros()],
            load_n: vec![Vector3::zeros()],
            free: vec![Some(0)],
            ends: Vec::new(),
            strands: Vec::new(),
        };
        for (i, line) in lines.iter().enumerate() {
            let within = |e: Invalid| e.within(&format!("lines[{i}]"));
            let halves = [
                ("near", &line.near, "near_length", line.near_length),
                ("far", &line.far, "far_length", line.far_length),
            ];
            for (key, anchor, length_key, length) in halves {
                let renamed = |mut e: Invalid| {
                    if e.parameter == "rest_length" {
                        length_key.clone_into(&mut e.parameter);
                    }
                    within(e)
                };
                let anchor = vector(key, anchor).map_err(within)?;
                let strand = strand(length, line.weight, &line.stretch).map_err(renamed)?;
                tangle.ends.push((tangle.position_m.len(), 0));
                tangle.position_m.push(anchor);
                tangle.load_n.push(Vector3::zeros());
                tangle.free.push(None);
                tangle.strands.push(strand);
            }
        }
        tangle.position_m[0] = start(&tangle);
        Ok(Self {
            tangle,
            together: Together::default(),
            names: lines.iter().map(|l| l.name.clone()).collect(),
        })
    }

    /// Moves the ring to its rest under a load.
    pub fn settle(&mut self, load_n: Vector3<f64>) -> Result<Balance, LineError> {
        self.tangle.load_n[0] = load_n;
        if let Some(balance) = self.together.settle(&mut self.tangle) {
            return Ok(balance);
        }
        let from = self.tangle.position_m[0];
        self.tangle.settle().or_else(|_| {
            // A far jump of the load may lead nowhere from the last state: start afresh.
            self.tangle.position_m[0] = start(&self.tangle);
            self.tangle.settle().map_err(|stop| {
                self.tangle.position_m[0] = from;
                self.tangle.strands.iter_mut().for_each(Strand::forget);
                LineError::from(stop)
            })
        })
    }

    /// The larger of straight distance less rest length, over the halves of a line.
    pub fn slack_taken_up(&self, line: usize) -> f64 {
        let half = |side: usize| {
            let i = 2 * line + side;
            let (anchor, ring) = self.tangle.ends[i];
            let rest_m = self.tangle.strands[i].rest_m;
            (self.tangle.position_m[ring] - self.tangle.position_m[anchor]).norm() / rest_m - 1.0
        };
        half(0).max(half(1))
    }

    pub fn solve(&mut self, load: [Force; 3]) -> Result<BundleSolution, LineError> {
        let balance = self.settle(vector("load", &load)?)?;
        let ring = self.tangle.position_m[0];
        let up: f64 = self.tangle.strands.iter().map(|s| s.end_pull_n().z).sum();
        let lines = (0..self.names.len()).map(|i| self.line_state(i, up)).collect();
        let k = self.stiffness_n_per_m();
        if !(ring.iter().all(|x| x.is_finite()) && k.iter().all(|x| x.is_finite())) {
            return Err(LineError::Overflow { result: "bundle" });
        }
        Ok(BundleSolution {
            load,
            ring: triple(&ring),
            lines,
            stiffness: rows(&k),
            residual: Ratio::from_si(balance.residual),
            iterations: balance.iterations,
        })
    }

    pub fn ring_m(&self) -> Vector3<f64> {
        self.tangle.position_m[0]
    }

    /// Upward force of each line on the ring.
    pub fn lifts_n(&self) -> impl Iterator<Item = f64> + '_ {
        self.tangle.strands.chunks(2).map(|half| half.iter().map(|s| s.end_pull_n().z).sum())
    }

    /// Rest length of a line on the near side of the ring.
    pub fn near_rest_m(&self, line: usize) -> f64 {
        self.tangle.strands[2 * line].rest_m
    }

    /// Moves the ring along a line: so much on the near side, the rest of the total on the far side.
    pub fn split_at(&mut self, line: usize, near_m: f64, total_m: f64) {
        self.tangle.strands[2 * line].set_rest(near_m);
        self.tangle.strands[2 * line + 1].set_rest(total_m - near_m);
    }

    /// Tension of a line at the ring, on the near and on the far side.
    pub fn ring_tensions_n(&self, line: usize) -> (f64, f64) {
        let at = |side: usize| self.tangle.strands[2 * line + side].tensions_n().1;
        (at(0), at(1))
    }

    /// Angle by which the ring turns a line; zero for one without tension.
    pub fn wrap_rad(&self, line: usize) -> f64 {
        let [near, far] = [0, 1].map(|side| self.tangle.strands[2 * line + side].end_pull_n());
        near.cross(&far).norm().atan2(-near.dot(&far))
    }

    pub fn stiffness_n_per_m(&self) -> Matrix3<f64> {
        self.tangle.strands.iter().map(Strand::stiffness_n_per_m).sum()
    }

    /// How the two halves of a line answer when cordage passes the ring.
    pub fn slides(&self, line: usize) -> [Slide; 2] {
        [0, 1].map(|side| self.tangle.strands[2 * line + side].slide())
    }

    /// Tension of a line at its near and at its far anchor.
    pub fn anchor_tensions_n(&self, line: usize) -> (f64, f64) {
        let at = |side: usize| self.tangle.strands[2 * line + side].tensions_n().0;
        (at(0), at(1))
    }

    fn line_state(&self, line: usize, up_n: f64) -> BundleLineState {
        let [near, far] = [0, 1].map(|side| &self.tangle.strands[2 * line + side]);
        let pull = near.end_pull_n() + far.end_pull_n();
        let (t_near, t_ring_near) = near.tensions_n();
        let (t_far, t_ring_far) = far.tensions_n();
        let most = t_near.max(t_ring_near).max(t_far).max(t_ring_far);
        let (below_chord, below_near) = self.sags_m(line);
        BundleLineState {
            name: self.names[line].clone(),
            tension_near: Force::from_si(t_near),
            tension_ring_near: Force::from_si(t_ring_near),
            tension_ring_far: Force::from_si(t_ring_far),
            tension_far: Force::from_si(t_far),
            pull_near: triple(&near.start_pull_n()),
            pull_far: triple(&far.start_pull_n()),
            pull_ring: triple(&pull),
            share: Ratio::from_si(if up_n == 0.0 { 0.0 } else { pull.z / up_n }),
            sag_below_chord: Length::from_si(below_chord),
            sag_below_near: Length::from_si(below_near),
            stretched_length: Length::from_si(near.stretched_m() + far.stretched_m()),
            notes: LineNote::past_table(&near.law, most).into_iter().collect(),
        }
    }

    #[allow(dead_code, reason = "the plan draws the lines of a bundle")]
    /// Points of a line from anchor to anchor, `count` on each half.
    pub fn profile_m(&self, line: usize, count: usize) -> Vec<Vector3<f64>> {
        let half = |side: usize| -> Vec<Vector3<f64>> {
            let i = 2 * line + side;
            let (anchor, ring) = self.tangle.ends[i];
            let from = self.tangle.position_m[anchor];
            let chord = self.tangle.position_m[ring] - from;
            let strand = &self.tangle.strands[i];
            let step = strand.rest_m / (count.max(2) - 1) as f64;
            let inner =
                (0..count.max(2) - 1).map(|k| from + strand.place_m(k as f64 * step, &chord));
            inner.collect()
        };
        let mut points = half(0);
        points.push(self.tangle.position_m[0]);
        points.extend(half(1).into_iter().rev());
        points
    }

    /// Largest vertical distance below the chord, and depth of the lowest point below the near anchor.
    fn sags_m(&self, line: usize) -> (f64, f64) {
        let ends = [0, 1].map(|side| self.tangle.position_m[self.tangle.ends[2 * line + side].0]);
        let chord = BelowChord::new(ends[1] - ends[0]);
        let below = |p: Vector3<f64>| chord.depth_m(&(p - ends[0]));
        let normal = chord.normal();
        let mut sag = below(self.tangle.position_m[0]).max(0.0);
        let mut lowest = ends[0].z.min(ends[1].z).min(self.tangle.position_m[0].z);
        for (side, end) in ends.iter().enumerate() {
            let strand = &self.tangle.strands[2 * line + side];
            let chord = self.tangle.position_m[0] - end;
            lowest = lowest.min(end.z + strand.lowest_m(&chord).z);
            if let Some(s) = strand.turn_m(&normal) {
                sag = sag.max(below(end + strand.place_m(s, &chord)));
            }
        }
        (sag, ends[0].z - lowest)
    }
}

/// A ring at the mean of the anchors, below them by the slack of the tightest line.
fn start(tangle: &Tangle) -> Vector3<f64> {
    let anchors = &tangle.position_m[1..];
    let mean = anchors.iter().sum::<Vector3<f64>>() / anchors.len() as f64;
    let drop = tangle
        .ends
        .iter()
        .zip(&tangle.strands)
        .map(|(&(anchor, _), strand)| {
            let flat = (tangle.position_m[anchor] - mean).norm();
            (strand.rest_m * strand.rest_m - flat * flat).max(0.0).sqrt()
        })
        .fold(f64::INFINITY, f64::min);
    let reach = tangle.strands.iter().map(|s| s.rest_m).fold(f64::INFINITY, f64::min);
    mean - Vector3::z() * drop.max(1e-3 * reach)
}
