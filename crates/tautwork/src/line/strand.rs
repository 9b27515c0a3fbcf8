//! One uniform line between two points in space, remembered from call to call.

use nalgebra::{Matrix3, Vector3};

use super::planar::{Chord, Planar, Stop};
use super::segment::{Piece, Uniform};
use crate::material::Law;

/// A uniform line: rest length, load per rest length as a vector, stretch.
#[derive(Debug, Clone)]
pub(crate) struct Strand {
    pub rest_m: f64,
    pub law: Law,
    q_n_per_m: f64,
    /// Direction of the load; straight down for a line without load.
    down: Vector3<f64>,
    state: Option<State>,
}

/// The last state, in the plane of the load and in space.
#[derive(Debug, Clone, Copy)]
struct State {
    planar: Planar,
    /// Direction across the load, in the plane.
    across: Vector3<f64>,
}

/// What more rest length, and another place of its end, do to a line at its end.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Slide {
    /// Derivative of the pull on the point where the line ends, by rest length.
    pub force_by_length: Vector3<f64>,
    /// Derivative of the tension there, by rest length.
    pub tension_by_length: f64,
    /// Derivative of the tension there, by the place of the end.
    pub tension_by_ring: Vector3<f64>,
}

/// Closure at which a remembered line counts as solved, over the larger of rest length and chord:
/// looser than a cold start, since its cost is paid in every step of a simulation.
pub(super) const FOLLOWED: f64 = 1e-12;

impl Strand {
    pub fn new(rest_m: f64, load_n_per_m: Vector3<f64>, law: Law) -> Self {
        let q_n_per_m = load_n_per_m.norm();
        let down = if q_n_per_m > 0.0 { load_n_per_m / q_n_per_m } else { -Vector3::z() };
        Self { rest_m, law, q_n_per_m, down, state: None }
    }

    /// Adds a force per rest length to the one it has.
    pub fn blow(&mut self, wind_n_per_m: &Vector3<f64>) {
        let load_n_per_m = self.down * self.q_n_per_m + wind_n_per_m;
        *self = Self::new(self.rest_m, load_n_per_m, self.law.clone());
    }

    pub fn uniform(&self) -> Uniform<'_> {
        Uniform { q_n_per_m: self.q_n_per_m, rest_m: self.rest_m, law: &self.law }
    }

    /// Solves for the chord from the start of the line to its end. `false` means slack without weight:
    /// the line pulls nothing.
    pub fn solve(&mut self, chord_m: &Vector3<f64>) -> Result<bool, Stop> {
        let (across_m, along_m, across) = split(chord_m, &self.down);
        let chord = Chord { across_m, along_m };
        let solved = match &self.state {
            Some(state) => self.uniform().follow(chord, &state.planar, FOLLOWED),
            None => self.uniform().solve(chord),
        };
        match solved {
            Ok(planar) => {
                self.state = Some(State { planar, across });
                Ok(true)
            }
            Err(Stop::Slack) => {
                self.state = None;
                Ok(false)
            }
            Err(stop) => {
                self.state = None;
                Err(stop)
            }
        }
    }

    /// Whether the last solve left a state.
    pub fn is_solved(&self) -> bool {
        self.state.is_some()
    }

    /// Forgets the last state.
    pub fn forget(&mut self) {
        self.state = None;
    }

    /// Changes the rest length; the last state keeps its pull at the start.
    pub fn set_rest(&mut self, rest_m: f64) {
        self.rest_m = rest_m;
        if self.state.is_some() {
            self.set_start_pull(&self.start_pull_n());
        }
    }

    /// Derivatives at the end of the line in the last state, Eq. (R6).
    pub fn slide(&self) -> Slide {
        let end = -self.end_pull_n();
        let tension_n = end.norm();
        if tension_n == 0.0 {
            return Slide::default();
        }
        let along = end / tension_n;
        let k_along = self.stiffness_n_per_m() * along;
        let stretched = k_along * (1.0 + self.law.strain(tension_n));
        let force_by_length = stretched + self.down * self.q_n_per_m;
        Slide {
            force_by_length,
            tension_by_length: -along.dot(&force_by_length),
            tension_by_ring: k_along,
        }
    }

    /// Takes the state with this pull where the line starts; the line then ends where it will.
    pub fn set_start_pull(&mut self, pull_n: &Vector3<f64>) {
        let (h_n, v0_n, across) = split(pull_n, &self.down);
        let piece = self.uniform().at(h_n, v0_n);
        let planar = Planar { h_n, v0_n, piece, residual_m: 0.0, iterations: 0 };
        self.state = Some(State { planar, across });
    }

    /// From the start of the line to its end in the last state.
    pub fn reach_m(&self) -> Vector3<f64> {
        self.state.map_or_else(Vector3::zeros, |State { planar, across }| {
            across * planar.piece.across_m + self.down * planar.piece.along_m
        })
    }

    /// Pull on the point where the line starts.
    pub fn start_pull_n(&self) -> Vector3<f64> {
        self.state
            .map_or_else(Vector3::zeros, |s| s.across * s.planar.h_n + self.down * s.planar.v0_n)
    }

    /// Pull on the point where the line ends.
    pub fn end_pull_n(&self) -> Vector3<f64> {
        self.state.map_or_else(Vector3::zeros, |s| {
            -(s.across * s.planar.h_n + self.down * s.planar.piece.v1_n)
        })
    }

    /// Tensions where the line starts and ends.
    pub fn tensions_n(&self) -> (f64, f64) {
        self.state.map_or((0.0, 0.0), |s| (s.planar.piece.t0_n, s.planar.piece.t1_n))
    }

    pub fn weight_n(&self) -> f64 {
        self.q_n_per_m * self.rest_m
    }

    /// Place at rest arc length s, from the start of the line, in the last state. A slack line without
    /// weight is drawn straight.
    pub fn place_m(&self, s_m: f64, chord_m: &Vector3<f64>) -> Vector3<f64> {
        let Some(State { planar, across }) = &self.state else {
            return chord_m * (s_m / self.rest_m);
        };
        let (a, b) = self.uniform().place(planar, s_m);
        across * a + self.down * b
    }

    /// Rest arc length, inside the line, at which it runs across `normal`, in the last state.
    pub fn turn_m(&self, normal: &Vector3<f64>) -> Option<f64> {
        let s = self.start_pull_n().dot(normal) / (self.q_n_per_m * self.down.dot(normal));
        (s > 0.0 && s < self.rest_m).then_some(s)
    }

    /// Lowest point along the line, from its start, in the last state.
    pub fn lowest_m(&self, chord_m: &Vector3<f64>) -> Vector3<f64> {
        let ends = [Vector3::zeros(), *chord_m];
        let low = if ends[1].z < 0.0 { ends[1] } else { ends[0] };
        let turn = self.turn_m(&Vector3::z()).map(|s| self.place_m(s, chord_m));
        turn.filter(|place| place.z < low.z).unwrap_or(low)
    }

    /// Derivative of the start pull by the chord: the inverse of the flexibility. Positive
    /// semi-definite; zero for a slack line without weight.
    pub fn stiffness_n_per_m(&self) -> Matrix3<f64> {
        self.state.map_or_else(Matrix3::zeros, |State { planar, across }| {
            stiffness_n_per_m(&planar.piece, &self.down, &across)
        })
    }

    /// Rest length times mean stretch, ∫ e ds, added to the rest length.
    pub fn stretched_m(&self) -> f64 {
        let Some(State { planar, .. }) = self.state else { return self.rest_m };
        self.uniform().stretched_m(planar.h_n, planar.v0_n)
    }
}

/// Inverse of the flexibility of a piece, in space.
pub(super) fn stiffness_n_per_m(
    p: &Piece,
    down: &Vector3<f64>,
    across: &Vector3<f64>,
) -> Matrix3<f64> {
    let out = down.cross(across);
    // Inverse of [[hh, hv], [hv, vv]]; the Schur complement keeps it positive.
    let (aa, ab, bb) = if p.hh >= p.vv {
        let r = p.hv / p.hh;
        let bb = 1.0 / (p.vv - r * p.hv);
        (1.0 / p.hh + r * r * bb, -r * bb, bb)
    } else {
        let r = p.hv / p.vv;
        let aa = 1.0 / (p.hh - r * p.hv);
        (aa, -r * aa, 1.0 / p.vv + r * r * aa)
    };
    let mixed = across * down.transpose();
    across * across.transpose() * aa
        + (mixed + mixed.transpose()) * ab
        + down * down.transpose() * bb
        + out * out.transpose() / p.out
}

/// Splits a vector into its sizes across and along a unit vector, and the direction across.
pub(super) fn split(v: &Vector3<f64>, along: &Vector3<f64>) -> (f64, f64, Vector3<f64>) {
    let size = v.dot(along);
    let flat = v - along * size;
    let rest = flat.norm();
    (rest, size, if rest > 0.0 { flat / rest } else { perpendicular(along) })
}

/// A unit vector across another.
fn perpendicular(unit: &Vector3<f64>) -> Vector3<f64> {
    let axis = if unit.x.abs() < 0.9 { Vector3::x() } else { Vector3::y() };
    (axis - unit * unit.dot(&axis)).normalize()
}
