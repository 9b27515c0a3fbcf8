//! One line between fixed anchors while its rest length changes: tension, sag, energy and work.

use super::integral::integral;
use crate::line::elastic::solve;
use crate::line::error::all_finite;
use crate::line::inverse::Place;
use crate::line::segment::Uniform;
use crate::line::{ElasticLine, LineEnd, LineError};
use crate::material::Law;

/// Where a line ends, what it weighs and how it stretches: everything but its rest length.
#[derive(Debug, Clone, Copy)]
pub(in crate::line) struct Span<'a> {
    place: Place,
    pub law: &'a Law,
    end: LineEnd,
}

/// The line at one rest length.
#[derive(Debug, Clone, Copy)]
pub(in crate::line) struct Held {
    pub near_n: f64,
    pub far_n: f64,
    /// Tension at the end that is drawn.
    pub pulled_n: f64,
    pub sag_m: f64,
    pub stored_j: f64,
    /// Weight times height above the end that is drawn.
    pub height_j: f64,
    pub residual_m: f64,
}

/// A sweep of rest lengths.
#[derive(Debug, Clone, Default)]
pub(in crate::line) struct Drawn {
    pub rest_m: Vec<f64>,
    pub through_m: Vec<f64>,
    pub near_n: Vec<f64>,
    pub far_n: Vec<f64>,
    pub pulled_n: Vec<f64>,
    pub sag_m: Vec<f64>,
    pub stored_j: Vec<f64>,
    pub height_j: Vec<f64>,
    pub work_j: Vec<f64>,
    pub residual_m: f64,
    pub imbalance: f64,
}

impl<'a> Span<'a> {
    pub fn of(line: &'a ElasticLine, end: LineEnd) -> Result<Self, LineError> {
        Ok(Self { place: Place::of(line)?, law: line.stretch.law(), end })
    }

    pub fn chord_m(&self) -> f64 {
        self.place.chord_m
    }

    pub fn at(&self, rest_m: f64) -> Result<Held, LineError> {
        let Place { span_m, rise_m, q_n_per_m, .. } = self.place;
        let line = Uniform { q_n_per_m, rest_m, law: self.law };
        let solved = match solve(line, span_m, rise_m) {
            Ok(solved) => solved,
            // It pulls nothing, whatever its shape.
            Err(LineError::NotUnique) => return Ok(Held::loose()),
            Err(other) => return Err(other),
        };
        let (h, v0, piece) = (solved.state.h_n, solved.state.v0_n, solved.state.piece);
        let (mut stored_j, mut stretch_j) = (0.0, 0.0);
        line.quadrature(h, v0, |s, weight| {
            let t = h.hypot(v0 - q_n_per_m * s);
            stored_j += weight * self.law.energy_n(t);
            stretch_j += weight * t * self.law.strain(t);
        });
        // Eq. (T3); heights from the near end, then from the end that is drawn.
        let pulled_j = h * span_m - piece.v1_n * rise_m;
        let from_near_j = pulled_j - line.tension_integral(h, v0) - stretch_j;
        let weightless = q_n_per_m == 0.0;
        let (pulled_n, height_j) = match self.end {
            LineEnd::Near => (piece.t0_n, from_near_j),
            LineEnd::Far => (piece.t1_n, from_near_j - q_n_per_m * rest_m * rise_m),
        };
        let held = Held {
            near_n: piece.t0_n,
            far_n: piece.t1_n,
            pulled_n,
            sag_m: solved.below_chord_m,
            stored_j,
            height_j: if weightless { 0.0 } else { height_j },
            residual_m: solved.state.residual_m,
        };
        all_finite(&[held.stored_j, held.height_j], "energy")?;
        Ok(held)
    }

    /// Length of cordage under tension, and work, for each rest length drawn past the anchor, Eq. (T2).
    fn rates(&self, rest_m: f64) -> Result<[f64; 2], LineError> {
        let t = self.at(rest_m)?.pulled_n;
        let through = 1.0 + self.law.strain(t);
        Ok([through, t * through - self.law.energy_n(t)])
    }

    /// Integrals of the rates over rest lengths from `low` to `high`.
    pub fn passed(&self, low_m: f64, high_m: f64) -> Result<[f64; 2], LineError> {
        let chord = self.chord_m();
        // Where the line becomes straight the rates bend.
        if low_m < chord && chord < high_m {
            let below = integral(&|l| self.rates(l), low_m, chord)?;
            let above = integral(&|l| self.rates(l), chord, high_m)?;
            return Ok([below[0] + above[0], below[1] + above[1]]);
        }
        integral(&|l| self.rates(l), low_m, high_m)
    }

    /// The states between two rest lengths, at equal spacing; `through` and `work` count as positive
    /// for cordage that leaves the span.
    pub fn draw(&self, from_m: f64, to_m: f64, samples: usize) -> Result<Drawn, LineError> {
        let mut drawn = Drawn::default();
        let (mut through, mut work) = (0.0, 0.0);
        let mut before = from_m;
        for i in 0..samples {
            let share = i as f64 / (samples - 1) as f64;
            let rest = if i + 1 == samples { to_m } else { from_m + share * (to_m - from_m) };
            let held = self.at(rest)?;
            if i > 0 {
                let [more, done] = self.passed(before.min(rest), before.max(rest))?;
                let sign = if rest < before { 1.0 } else { -1.0 };
                through += sign * more;
                work += sign * done;
            }
            before = rest;
            drawn.rest_m.push(rest);
            drawn.through_m.push(through);
            drawn.near_n.push(held.near_n);
            drawn.far_n.push(held.far_n);
            drawn.pulled_n.push(held.pulled_n);
            drawn.sag_m.push(held.sag_m);
            drawn.stored_j.push(held.stored_j);
            drawn.height_j.push(held.height_j);
            drawn.work_j.push(work);
            drawn.residual_m = drawn.residual_m.max(held.residual_m);
        }
        let last = samples - 1;
        let gained =
            drawn.stored_j[last] - drawn.stored_j[0] + drawn.height_j[last] - drawn.height_j[0];
        let scale = work.abs().max(gained.abs());
        drawn.imbalance = if scale > 0.0 { (work - gained).abs() / scale } else { 0.0 };
        all_finite(&[work, through, drawn.imbalance], "work")?;
        Ok(drawn)
    }
}

impl Held {
    fn loose() -> Self {
        Self {
            near_n: 0.0,
            far_n: 0.0,
            pulled_n: 0.0,
            sag_m: 0.0,
            stored_j: 0.0,
            height_j: 0.0,
            residual_m: 0.0,
        }
    }
}
