//! Points and segments of all chains, one array for each figure.
//!
//! Segment i joins points i and i + 1. The points of a chain lie in a row with its two ends, so the index
//! after its last segment is a gap: a segment without stiffness. Ends carry no mass here: they are
//! anchors, or copies of the ring and the body.

use std::ops::Range;

use super::super::space::{from, size};
use super::plan::{End, Strand};
use super::table::Table;
use crate::material::Law;
use crate::quantity::GRAVITY;

/// Where a chain lies in the arrays.
#[derive(Debug, Clone)]
pub(super) struct Chain {
    /// Its first point and first segment.
    pub first: usize,
    pub segments: usize,
    /// Most segments it may come to have.
    pub room: usize,
    pub from: End,
    pub to: End,
    /// Drag of its masses, 1/m.
    pub drag_per_m: f64,
}

impl Chain {
    pub fn last_segment(&self) -> usize {
        self.first + self.segments - 1
    }

    pub fn last_point(&self) -> usize {
        self.first + self.segments
    }

    pub fn points(&self) -> Range<usize> {
        self.first..self.last_point() + 1
    }

    /// Points that move on their own.
    pub fn inner(&self) -> Range<usize> {
        self.first + 1..self.last_point()
    }
}

/// A chain with a curve.
#[derive(Debug, Clone)]
pub(super) struct Curved {
    pub segments: Range<usize>,
    pub table: Table,
}

/// State and constants of every point and segment.
#[derive(Debug, Clone, Default)]
pub(super) struct Grid {
    pub x_m: Vec<f64>,
    pub y_m: Vec<f64>,
    pub z_m: Vec<f64>,
    pub vx_m_per_s: Vec<f64>,
    pub vy_m_per_s: Vec<f64>,
    pub vz_m_per_s: Vec<f64>,
    pub mass_kg: Vec<f64>,
    /// One over the mass; zero at ends.
    pub per_kg: Vec<f64>,
    /// Acceleration of free fall; zero at ends.
    pub g_m_per_s2: Vec<f64>,
    /// Half the air density times drag width and length, over the mass, 1/m.
    pub drag_per_m: Vec<f64>,
    pub rest_m: Vec<f64>,
    pub per_rest: Vec<f64>,
    /// Long-term rigidity; zero in gaps and in curves.
    pub long_n: Vec<f64>,
    pub arm_n: Vec<f64>,
    /// arm / (long + arm), Eq. (F3).
    pub rest_share: Vec<f64>,
    /// What half a step leaves of the arm's stretch, taut and slack, Eq. (F9).
    pub taut_left: Vec<f64>,
    pub slack_left: Vec<f64>,
    pub viscous: Vec<f64>,
    pub tension_n: Vec<f64>,
    /// Pull on the first point of each segment.
    pub fx_n: Vec<f64>,
    pub fy_n: Vec<f64>,
    pub fz_n: Vec<f64>,
    /// Lost in each segment so far.
    pub lost_j: Vec<f64>,
    /// Chains in the order of the plan.
    pub chains: Vec<Chain>,
    /// Segments that are linear and lossless; then curves; then those with an arm.
    pub linear: Range<usize>,
    pub curved: Vec<Curved>,
    pub lossy: Range<usize>,
}

/// Kind of the inner loop that a strand needs.
fn kind(strand: &Strand) -> u8 {
    match strand.spring.law {
        Law::Curve(_) => 1,
        Law::Linear { .. } if strand.spring.arm_n > 0.0 => 2,
        Law::Linear { .. } => 0,
    }
}

impl Grid {
    /// Lays out the strands, with their points along the given paths.
    pub fn new(strands: &[Strand], paths_m: &[Vec<[f64; 3]>], air_kg_per_m3: f64) -> Self {
        let mut grid = Self::default();
        let mut placed: Vec<Option<Chain>> = vec![None; strands.len()];
        for wanted in 0..3 {
            let start = grid.x_m.len();
            for (i, strand) in strands.iter().enumerate().filter(|(_, s)| kind(s) == wanted) {
                let chain = grid.lay(strand, &paths_m[i], air_kg_per_m3);
                let segments = chain.first..chain.first + chain.room;
                grid.curved
                    .extend(Table::new(&strand.spring.law).map(|table| Curved { segments, table }));
                placed[i] = Some(chain);
            }
            match wanted {
                0 => grid.linear = start..grid.x_m.len().saturating_sub(1).max(start),
                2 => grid.lossy = start..grid.x_m.len().saturating_sub(1).max(start),
                _ => {}
            }
        }
        grid.chains = placed.into_iter().flatten().collect();
        grid
    }

    fn lay(&mut self, strand: &Strand, path_m: &[[f64; 3]], air_kg_per_m3: f64) -> Chain {
        let first = self.x_m.len();
        let last = strand.segments;
        let room = strand.room;
        let long_n = match strand.spring.law {
            Law::Linear { ea_n } => ea_n,
            Law::Curve(_) => 0.0,
        };
        let arm_n = strand.spring.arm_n;
        let drag_per_m = if strand.mass_kg > 0.0 {
            0.5 * air_kg_per_m3 * strand.drag_m * strand.rest_m / strand.mass_kg
        } else {
            0.0
        };
        for k in 0..=room {
            let place = &path_m[k.min(last)];
            let inner = k > 0 && k < last;
            let gap = k >= last;
            let or_zero = |yes: bool, value: f64| if yes { value } else { 0.0 };
            self.x_m.push(place[0]);
            self.y_m.push(place[1]);
            self.z_m.push(place[2]);
            self.vx_m_per_s.push(0.0);
            self.vy_m_per_s.push(0.0);
            self.vz_m_per_s.push(0.0);
            self.mass_kg.push(or_zero(inner, strand.mass_kg));
            self.per_kg.push(or_zero(inner, 1.0 / strand.mass_kg));
            self.g_m_per_s2.push(or_zero(inner, GRAVITY));
            self.drag_per_m.push(or_zero(inner, drag_per_m));
            let rest_m = if k + 1 == last { strand.last_m } else { strand.rest_m };
            self.rest_m.push(rest_m);
            self.per_rest.push(or_zero(!gap, 1.0 / rest_m));
            self.long_n.push(or_zero(!gap, long_n));
            self.arm_n.push(or_zero(!gap, arm_n));
            self.rest_share.push(or_zero(arm_n > 0.0, arm_n / (long_n + arm_n)));
            self.taut_left.push(1.0);
            self.slack_left.push(1.0);
            self.viscous.push(0.0);
            self.tension_n.push(0.0);
            self.fx_n.push(0.0);
            self.fy_n.push(0.0);
            self.fz_n.push(0.0);
            self.lost_j.push(0.0);
            // What was loaded has had time to relax.
            if k < last {
                let d = size(from(*place, path_m[k + 1]));
                self.viscous[first + k] = or_zero(arm_n > 0.0, d / rest_m - 1.0).max(0.0);
            }
        }
        Chain { first, segments: last, room, from: strand.from, to: strand.to, drag_per_m }
    }

    /// Shares of relaxation for a step.
    pub fn set_step(&mut self, strands: &[Strand], dt_s: f64) {
        for (strand, chain) in strands.iter().zip(&self.chains) {
            let half = 0.5 * dt_s / strand.spring.relaxation_s;
            for i in chain.first..=chain.first + chain.room {
                self.taut_left[i] = (-half).exp();
                self.slack_left[i] = (-half * (1.0 - self.rest_share[i])).exp();
            }
        }
    }

    /// Place of a point, m.
    #[inline]
    pub fn at_m(&self, i: usize) -> [f64; 3] {
        [self.x_m[i], self.y_m[i], self.z_m[i]]
    }

    /// Pull on the first point of a segment, N.
    #[inline]
    pub fn pull_n(&self, i: usize) -> [f64; 3] {
        [self.fx_n[i], self.fy_n[i], self.fz_n[i]]
    }

    fn strain(&self, i: usize) -> f64 {
        size(from(self.at_m(i), self.at_m(i + 1))) * self.per_rest[i] - 1.0
    }

    /// Sum of the pulls of the first segments of some chains, N.
    pub fn pull_on_n(&self, chains: &[usize]) -> [f64; 3] {
        let mut sum = [0.0; 3];
        for chain in chains {
            for (sum, pull) in sum.iter_mut().zip(self.pull_n(self.chains[*chain].first)) {
                *sum += pull;
            }
        }
        sum
    }

    /// Velocity of a point, m/s.
    #[inline]
    pub fn v_m_per_s(&self, i: usize) -> [f64; 3] {
        [self.vx_m_per_s[i], self.vy_m_per_s[i], self.vz_m_per_s[i]]
    }

    /// Energy stored in one segment, Eq. (F4).
    pub fn segment_j(&self, i: usize, curve: Option<&Table>) -> f64 {
        let e = self.strain(i);
        if let Some(curve) = curve {
            return self.rest_m[i] * curve.energy_n(e);
        }
        let own = e.max(self.rest_share[i] * self.viscous[i]).max(0.0);
        let across = own - self.viscous[i];
        0.5 * self.rest_m[i] * (self.long_n[i] * own * own + self.arm_n[i] * across * across)
    }

    /// Puts a point somewhere, with its mass; without mass it is an end.
    pub fn place(&mut self, i: usize, at_m: [f64; 3], v: [f64; 3], mass_kg: f64, drag_per_m: f64) {
        [self.x_m[i], self.y_m[i], self.z_m[i]] = at_m;
        [self.vx_m_per_s[i], self.vy_m_per_s[i], self.vz_m_per_s[i]] = v;
        let moves = mass_kg > 0.0;
        self.mass_kg[i] = mass_kg;
        self.per_kg[i] = if moves { 1.0 / mass_kg } else { 0.0 };
        self.g_m_per_s2[i] = if moves { GRAVITY } else { 0.0 };
        self.drag_per_m[i] = drag_per_m;
    }

    /// Takes the spring out of a segment: without a strain it never pulls.
    pub fn unload(&mut self, i: usize) {
        (self.per_rest[i], self.long_n[i], self.arm_n[i], self.viscous[i]) = (0.0, 0.0, 0.0, 0.0);
        (self.tension_n[i], self.fx_n[i], self.fy_n[i], self.fz_n[i]) = (0.0, 0.0, 0.0, 0.0);
    }

    /// The curve of a chain, if it has one.
    pub fn curve(&self, chain: &Chain) -> Option<&Table> {
        self.curved.iter().find(|c| c.segments.start == chain.first).map(|c| &c.table)
    }

    /// Energy stored in all segments of a chain.
    pub fn chain_stored_j(&self, chain: &Chain) -> f64 {
        let segments = chain.first..chain.last_point();
        let curve = self.curve(chain);
        segments.map(|i| self.segment_j(i, curve)).sum()
    }
}
