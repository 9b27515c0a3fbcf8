//! A loop at rest with a pattern of slip.

use nalgebra::{Matrix4, Vector3, Vector4};

use super::kernel::Cord;
use super::model::Model;
use crate::anchor::AnchorError;

/// Newton steps of one stage.
const BUDGET: usize = 40;
/// Stages by which friction is raised, at most.
const STAGES: usize = 200;
/// Unbalanced force over the pull, and missing length over the loop, in the end.
const ACCEPT: f64 = 1e-10;

/// A pattern of slip at rest.
#[derive(Debug, Clone)]
pub(super) struct Slip {
    /// Master point and logarithm of the mean tension.
    pub(super) x: Vector4<f64>,
    /// Tension that reaches the point, strand by strand.
    pub(super) strand: Vec<f64>,
    /// What the turn that holds is beyond its limit, as a logarithm.
    pub(super) over: f64,
}

/// One pattern: the turn that holds, and how much of its limit each other turn takes.
#[derive(Debug, Clone)]
pub(super) struct Pattern {
    pub(super) holds: usize,
    /// From −1, full slip to one side, to 1, full slip to the other; turn by turn.
    pub(super) part: Vec<f64>,
}

impl Pattern {
    /// Logarithms of the tensions, the mean of the tensions one, and what the turn that holds takes.
    pub(super) fn logs(&self, limits: &[f64]) -> (Vec<f64>, f64) {
        let m = limits.len();
        let mut logs = vec![0.0; m];
        let mut sum = 0.0;
        for k in 1..m {
            // Turn t lies between strand t and the next.
            let t = (self.holds + k) % m;
            sum += self.part[t] * limits[t];
            logs[(t + 1) % m] = sum;
        }
        let mean = (logs.iter().map(|y| y.exp()).sum::<f64>() / m as f64).ln();
        (logs.into_iter().map(|y| y - mean).collect(), sum)
    }
}

/// Rest of a pattern, from the rest `start` without friction: raises friction from none to all, in one stage where that
/// goes.
pub(super) fn rest(
    model: &Model,
    pattern: &Pattern,
    start: &Vector4<f64>,
) -> Result<Slip, AnchorError> {
    let mut x = *start;
    let (mut done, mut stage) = (0.0, 1.0_f64);
    let mut last = f64::INFINITY;
    for _ in 0..STAGES {
        let aim = (done + stage).min(1.0);
        match newton(model, pattern, x, aim)? {
            Ok(next) => {
                x = next;
                done = aim;
                stage *= 2.0;
            }
            Err(residual) => {
                last = residual;
                stage *= 0.5;
            }
        }
        if done >= 1.0 {
            return described(model, pattern, x);
        }
    }
    let what = "the rest with friction";
    Err(AnchorError::NotConverged { what, iterations: STAGES, residual: last })
}

/// The same from a rest of much the same pattern; none where it does not come to rest.
pub(super) fn near(
    model: &Model,
    pattern: &Pattern,
    start: &Vector4<f64>,
) -> Result<Option<Slip>, AnchorError> {
    let found = newton(model, pattern, *start, 1.0)?;
    found.ok().map(|x| described(model, pattern, x)).transpose()
}

fn described(model: &Model, pattern: &Pattern, x: Vector4<f64>) -> Result<Slip, AnchorError> {
    let limits = model.limits(&x.xyz())?;
    let (logs, sum) = pattern.logs(&limits);
    let (strand, ..) = strands(&model.cord, &x, &logs);
    Ok(Slip { x, strand, over: sum.abs() - limits[pattern.holds] })
}

fn logs(
    model: &Model,
    pattern: &Pattern,
    x: &Vector4<f64>,
    part: f64,
) -> Result<Vec<f64>, AnchorError> {
    let limits = model.limits(&x.xyz())?;
    Ok(pattern.logs(&limits.into_iter().map(|c| c * part).collect::<Vec<_>>()).0)
}

/// What reaches the points, and lengths without tension, Eqs. (A1) and (A2), with their derivatives by distance and by
/// the logarithm of the tension.
type Strands = (Vec<f64>, Vec<f64>, Vec<[f64; 2]>, Vec<[f64; 2]>);

fn strands(cord: &Cord, x: &Vector4<f64>, logs: &[f64]) -> Strands {
    let d = cord.distances(&x.xyz());
    let (mut strand, mut length) = (Vec::new(), Vec::new());
    let (mut by_strand, mut by_length) = (Vec::new(), Vec::new());
    for (s, y) in logs.iter().enumerate() {
        let (d, b) = (d[s / 2], cord.knot[s / 2]);
        let t = (x[3] + y).exp();
        let stretch = 1.0 + t / cord.ea;
        if d < b * stretch {
            let taut = d > b;
            strand.push(if taut { cord.ea * (d - b) / b } else { 0.0 });
            length.push(b);
            by_strand.push([if taut { cord.ea / b } else { 0.0 }, 0.0]);
            by_length.push([0.0, 0.0]);
        } else {
            strand.push(t);
            length.push(d / stretch);
            by_strand.push([0.0, t]);
            by_length.push([1.0 / stretch, -d / stretch / stretch * t / cord.ea]);
        }
    }
    (strand, length, by_strand, by_length)
}

/// What Eqs. (A1) and (A3) miss.
fn missing(cord: &Cord, pull: &Vector3<f64>, x: &Vector4<f64>, logs: &[f64]) -> Vector4<f64> {
    let u = cord.toward(&x.xyz());
    let (strand, length, ..) = strands(cord, x, logs);
    let force = strand.iter().enumerate().fold(*pull, |sum, (s, t)| sum + u[s / 2] * *t);
    let length = length.iter().sum::<f64>() - cord.length;
    Vector4::new(force.x, force.y, force.z, length)
}

/// Solves for `part` of the friction from near; the residual where it does not come to rest.
fn newton(
    model: &Model,
    pattern: &Pattern,
    start: Vector4<f64>,
    part: f64,
) -> Result<Result<Vector4<f64>, f64>, AnchorError> {
    let (cord, pull) = (&model.cord, &model.pull);
    let mut x = start;
    let mut y = logs(model, pattern, &x, part)?;
    let mut f = missing(cord, pull, &x, &y);
    for _ in 0..BUDGET {
        if f.norm() <= 0.01 * ACCEPT {
            return Ok(Ok(x));
        }
        let Some(way) = jacobian(model, pattern, &x, &y, part)?.lu().solve(&-f) else { break };
        let mut share = (0.3 / way.norm()).min(1.0);
        let mut better = None;
        for _ in 0..12 {
            let next = x + way * share;
            let y = logs(model, pattern, &next, part)?;
            let f_next = missing(cord, pull, &next, &y);
            if f_next.norm() < f.norm() {
                better = Some((next, y, f_next));
                break;
            }
            share *= 0.5;
        }
        let Some(better) = better else { break };
        (x, y, f) = better;
    }
    Ok(if f.norm() <= ACCEPT { Ok(x) } else { Err(f.norm()) })
}

/// Derivatives of what is missing; those of the friction by differences, since the wraps are smooth.
fn jacobian(
    model: &Model,
    pattern: &Pattern,
    x: &Vector4<f64>,
    y: &[f64],
    part: f64,
) -> Result<Matrix4<f64>, AnchorError> {
    const STEP: f64 = 1e-6;
    let cord = &model.cord;
    let (d, u) = (cord.distances(&x.xyz()), cord.toward(&x.xyz()));
    let (strand, _, by_strand, by_length) = strands(cord, x, y);
    let mut turned = Vec::new();
    for axis in 0..3 {
        let mut ends = [Vec::new(), Vec::new()];
        for (end, side) in ends.iter_mut().zip([-STEP, STEP]) {
            let mut near = *x;
            near[axis] += side;
            *end = logs(model, pattern, &near, part)?;
        }
        let [low, high] = ends;
        turned.push(high.iter().zip(&low).map(|(h, l)| (h - l) / (2.0 * STEP)).collect::<Vec<_>>());
    }
    let mut j = Matrix4::zeros();
    for s in 0..y.len() {
        let (u, d) = (u[s / 2], d[s / 2]);
        // A step of the master along an axis takes u of it from the distance.
        for axis in 0..3 {
            let force = -by_strand[s][0] * u[axis] + by_strand[s][1] * turned[axis][s];
            let length = -by_length[s][0] * u[axis] + by_length[s][1] * turned[axis][s];
            let across = if d > 0.0 {
                (u * u[axis] - Vector3::ith(axis, 1.0)) * (strand[s] / d)
            } else {
                Vector3::zeros()
            };
            let column = u * force + across;
            for row in 0..3 {
                j[(row, axis)] += column[row];
            }
            j[(3, axis)] += length;
        }
        for row in 0..3 {
            j[(row, 3)] += u[row] * by_strand[s][1];
        }
        j[(3, 3)] += by_length[s][1];
    }
    Ok(j)
}
