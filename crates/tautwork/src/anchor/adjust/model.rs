//! A checked self-adjusting anchor, scaled.

use std::f64::consts::PI;

use nalgebra::Vector3;

use super::super::AnchorError;
use super::super::legs::{unique, vector};
use super::input::SelfAdjusting;
use super::kernel::Cord;
use crate::pulley::{Friction, PulleyError, sheave_loss};
use crate::quantity::check::positive;
use crate::quantity::{Angle, Quantity};

/// Most points: patterns of slip grow as 4 to the number of points.
const MOST_POINTS: usize = 4;
/// What the unbalanced force may be over the pull.
const ACCEPT: f64 = 1e-9;

/// The anchor, lengths over the loop from the middle of the points, forces over the pull.
#[derive(Debug, Clone)]
pub(super) struct Model {
    pub(super) cord: Cord,
    pub(super) pull: Vector3<f64>,
    pub(super) pull_n: f64,
    pub(super) size_m: f64,
    pub(super) strength_n: Option<f64>,
    middle: Vector3<f64>,
    at_points: Option<Friction>,
    at_master: Option<Friction>,
}

/// A rest without friction.
pub(super) struct Even {
    pub(super) p: Vector3<f64>,
    pub(super) residual: f64,
    pub(super) iterations: usize,
}

impl Model {
    pub(super) fn new(anchor: &SelfAdjusting) -> Result<Self, AnchorError> {
        let found = anchor.points.len();
        if found < 2 {
            return Err(AnchorError::TooFew { what: "points", found, least: 2 });
        }
        if found > MOST_POINTS {
            return Err(AnchorError::TooMany { found, most: MOST_POINTS });
        }
        unique(anchor.points.iter().map(|p| &p.name))?;
        let size_m = positive("loop_length", anchor.loop_length)?;
        let ea_n = positive("axial_rigidity", anchor.axial_rigidity)?;
        let strength_n = anchor.strength.map(|s| positive("strength", s)).transpose()?;
        let pull = vector("pull", anchor.pull)?;
        let pull_n = pull.norm();
        if pull.amax() == 0.0 {
            return Err(AnchorError::NoPull);
        }
        let (mut at, mut knot) = (Vec::new(), Vec::new());
        for point in &anchor.points {
            at.push(vector(&format!("{}.position", point.name), point.position)?);
            let limiter = point.limiter.map(|b| positive("limiter", b)).transpose();
            knot.push(limiter.map_err(|e| e.within(&point.name))?.unwrap_or(0.0) / size_m);
        }
        // Two strands to each point.
        if 2.0 * knot.iter().sum::<f64>() >= 1.0 {
            return Err(AnchorError::KnotsTooLow);
        }
        let middle = at.iter().sum::<Vector3<f64>>() / found as f64;
        let at: Vec<_> = at.iter().map(|a| (a - middle) / size_m).collect();
        let ea = ea_n / pull_n;
        let numbers = at.iter().flat_map(|a| a.iter()).chain([&ea]).all(|v| v.is_finite());
        if !(pull_n.is_normal() && numbers && ea > 0.0) {
            return Err(AnchorError::Overflow { result: "the scale of the anchor" });
        }
        let model = Self {
            cord: Cord { at, knot, length: 1.0, ea },
            pull: pull / pull_n,
            pull_n,
            size_m,
            strength_n,
            middle,
            at_points: anchor.friction_at_points,
            at_master: anchor.friction_at_master,
        };
        // Says what is wrong with a law before anything is solved.
        model.limits(&Vector3::zeros())?;
        Ok(model)
    }

    pub(super) fn rubs(&self) -> bool {
        self.at_points.is_some() || self.at_master.is_some()
    }

    /// Logarithm of what each turn may take, Eq. (A6).
    pub(super) fn limits(&self, p: &Vector3<f64>) -> Result<Vec<f64>, AnchorError> {
        let mut limits = Vec::new();
        for [point, master] in wraps(&self.cord, p) {
            limits.push(limit("friction_at_points", self.at_points, point)?);
            limits.push(limit("friction_at_master", self.at_master, master)?);
        }
        Ok(limits)
    }

    /// Rest without friction, Eq. (A5).
    pub(super) fn even(&self) -> Result<Even, AnchorError> {
        even(&self.cord, &self.pull)
    }

    pub(super) fn place_m(&self, p: &Vector3<f64>) -> Vector3<f64> {
        p * self.size_m + self.middle
    }

    /// Shares of the points, Eq. (A4), of tensions strand by strand.
    pub(super) fn shares(&self, p: &Vector3<f64>, strand: &[f64]) -> Vec<f64> {
        let u = self.cord.toward(p);
        let share = |(i, u): (usize, &Vector3<f64>)| {
            -(strand[2 * i] + strand[2 * i + 1]) * u.dot(&self.pull)
        };
        u.iter().enumerate().map(share).collect()
    }
}

pub(super) fn even(cord: &Cord, pull: &Vector3<f64>) -> Result<Even, AnchorError> {
    let (p, residual, iterations) = cord.rest(pull);
    // A stretch is known to a few units in the last place of the lengths.
    let rounding = 16.0 * f64::EPSILON * cord.ea * (1.0 + p.norm());
    // Written so that NaN fails too.
    if residual <= rounding.clamp(ACCEPT, 1e-6) {
        Ok(Even { p, residual, iterations })
    } else {
        Err(AnchorError::NotConverged { what: "the master point", iterations, residual })
    }
}

fn limit(name: &str, friction: Option<Friction>, wrap_rad: f64) -> Result<f64, AnchorError> {
    let Some(friction) = friction else { return Ok(0.0) };
    match sheave_loss(friction, Angle::from_si(wrap_rad)) {
        Ok(turn) => Ok(-turn.efficiency.si().ln()),
        Err(PulleyError::Invalid(invalid)) => Err(invalid.within(name).into()),
        Err(_) => Err(AnchorError::Overflow { result: "the friction of a turn" }),
    }
}

/// Wraps of the loop, turn by turn: at the point of each leg, then at the master on the way to the next.
fn wraps(cord: &Cord, p: &Vector3<f64>) -> Vec<[f64; 2]> {
    let u = cord.toward(p);
    let next = |i: usize| u[(i + 1) % u.len()];
    let angle = |i: usize| u[i].cross(&next(i)).norm().atan2(u[i].dot(&next(i)));
    (0..u.len()).map(|i| [PI, PI - angle(i)]).collect()
}
