//! Where free knots on tension-only springs rest: the kernel.

use nalgebra::{DMatrix, DVector, Vector3};

use super::AnchorError;
use super::bracket::bracket;

/// Where a spring ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum End {
    Fixed(Vector3<f64>),
    Knot(usize),
}

/// A tension-only spring between two ends, in SI units.
#[derive(Debug, Clone, Copy)]
pub(super) struct Link {
    pub(super) from: End,
    pub(super) to: End,
    pub(super) rest_m: f64,
    pub(super) k_n_per_m: f64,
}

/// Stretch of a link, its direction from its first end to its second, and its length.
pub(super) struct Pulled {
    pub(super) stretch_m: f64,
    pub(super) toward: Vector3<f64>,
    pub(super) length_m: f64,
}

/// Place of a knot among the components of all.
pub(super) fn place(x: &DVector<f64>, knot: usize) -> Vector3<f64> {
    x.fixed_rows::<3>(3 * knot).into()
}

fn at(end: End, x: &DVector<f64>) -> Vector3<f64> {
    match end {
        End::Fixed(p) => p,
        End::Knot(i) => place(x, i),
    }
}

impl Link {
    pub(super) fn pulled(&self, x: &DVector<f64>) -> Pulled {
        let d = at(self.to, x) - at(self.from, x);
        let length_m = d.norm();
        let toward = if length_m > 0.0 { d / length_m } else { Vector3::zeros() };
        Pulled { stretch_m: (length_m - self.rest_m).max(0.0), toward, length_m }
    }

    pub(super) fn tension_n(&self, x: &DVector<f64>) -> f64 {
        self.k_n_per_m * self.pulled(x).stretch_m
    }
}

/// Energy of links and loads, Eq. (2).
pub(super) fn energy_j(links: &[Link], loads_n: &DVector<f64>, x: &DVector<f64>) -> f64 {
    let stored: f64 = links.iter().map(|l| 0.5 * l.k_n_per_m * l.pulled(x).stretch_m.powi(2)).sum();
    stored - loads_n.dot(x)
}

/// What is missing in Eq. (3), for each knot.
pub(super) fn unbalanced(links: &[Link], loads_n: &DVector<f64>, x: &DVector<f64>) -> DVector<f64> {
    let mut sum = loads_n.clone();
    for link in links {
        let pulled = link.pulled(x);
        let force = pulled.toward * (link.k_n_per_m * pulled.stretch_m);
        if let End::Knot(i) = link.from {
            let mut row = sum.fixed_rows_mut::<3>(3 * i);
            row += force;
        }
        if let End::Knot(i) = link.to {
            let mut row = sum.fixed_rows_mut::<3>(3 * i);
            row -= force;
        }
    }
    sum
}

/// Second derivative of Eq. (2): taut links only.
fn curvature(links: &[Link], x: &DVector<f64>) -> DMatrix<f64> {
    let mut h = DMatrix::zeros(x.len(), x.len());
    for link in links {
        let Pulled { stretch_m, toward, length_m } = link.pulled(x);
        if stretch_m <= 0.0 {
            continue;
        }
        let along = toward * toward.transpose();
        let across = (nalgebra::Matrix3::identity() - along) * (stretch_m / length_m);
        let block = (along + across) * link.k_n_per_m;
        let knots = [link.from, link.to].map(|end| match end {
            End::Knot(i) => Some(3 * i),
            End::Fixed(_) => None,
        });
        for (i, a) in knots.into_iter().enumerate() {
            for (j, b) in knots.into_iter().enumerate() {
                if let (Some(a), Some(b)) = (a, b) {
                    let mut part = h.fixed_view_mut::<3, 3>(a, b);
                    part += if i == j { block } else { -block };
                }
            }
        }
    }
    h
}

/// What rounding of positions to a few units in the last place makes of the forces.
fn rounding_n(links: &[Link], x: &DVector<f64>) -> f64 {
    links.iter().fold(0.0, |sum, link| {
        let pulled = link.pulled(x);
        let taut = f64::from(u8::from(pulled.stretch_m > 0.0));
        let far = at(link.from, x).norm() + at(link.to, x).norm();
        sum + taut * 4.0 * f64::EPSILON * link.k_n_per_m * (pulled.length_m + far)
    })
}

/// Places at rest and what they took.
pub(super) struct Rest {
    pub(super) x: DVector<f64>,
    /// Unbalanced force over the pull.
    pub(super) residual: f64,
    pub(super) iterations: usize,
}

/// Newton steps of one stage. A stage takes five to ten; more only at slack-taut borders.
const BUDGET: usize = 200;
/// Aim: rounding of a stretch of a thousandth leaves about this much.
const AIM: f64 = 1e-13;
/// What a result may miss, as part of the pull.
const ACCEPT: f64 = 1e-9;
/// What it may miss at most, where legs are so stiff that rounding of lengths leaves no more digits.
const WORST: f64 = 1e-6;
/// Springs from each knot to where it is, over the unbalanced force: small beside a pull over the size.
const FADING: f64 = 1e-2;
/// Steps in the rounding of forces that may do without halving the force.
const IDLE: usize = 6;
/// Compliance added in the first stage, in lengths per pull: the knot sags by about this much.
const SOFT: f64 = 0.1;

/// Lengths in the size of the anchor, forces in the pull, origin amid the fixed ends.
struct Scale {
    middle: Vector3<f64>,
    size_m: f64,
    force_n: f64,
}

impl Scale {
    fn of(links: &[Link], force_n: f64) -> Self {
        let fixed: Vec<Vector3<f64>> = links
            .iter()
            .flat_map(|l| [l.from, l.to])
            .filter_map(|end| if let End::Fixed(p) = end { Some(p) } else { None })
            .collect();
        let sum = fixed.iter().fold(Vector3::zeros(), |sum, p| sum + p);
        let middle = sum / fixed.len().max(1) as f64;
        let rest_m = links.iter().fold(0.0_f64, |m, l| m.max(l.rest_m));
        let size_m = fixed.iter().fold(rest_m, |m, p| m.max((p - middle).norm()));
        Self { middle, size_m, force_n }
    }

    fn links(&self, links: &[Link]) -> Option<Vec<Link>> {
        let end = |end: End| match end {
            End::Fixed(p) => End::Fixed((p - self.middle) / self.size_m),
            End::Knot(i) => End::Knot(i),
        };
        let scaled = links.iter().map(|l| Link {
            from: end(l.from),
            to: end(l.to),
            rest_m: l.rest_m / self.size_m,
            k_n_per_m: l.k_n_per_m / self.force_n * self.size_m,
        });
        let number = |l: &Link| {
            let placed = [l.from, l.to].into_iter().all(|end| match end {
                End::Fixed(p) => p.iter().all(|c| c.is_finite()),
                End::Knot(_) => true,
            });
            placed && l.k_n_per_m.is_finite() && l.k_n_per_m > 0.0
        };
        let scaled: Vec<Link> = scaled.collect();
        scaled.iter().all(number).then_some(scaled)
    }

    fn inside(&self, x: &DVector<f64>) -> DVector<f64> {
        DVector::from_fn(x.len(), |i, _| (x[i] - self.middle[i % 3]) / self.size_m)
    }

    fn outside(&self, x: &DVector<f64>) -> DVector<f64> {
        DVector::from_fn(x.len(), |i, _| x[i] * self.size_m + self.middle[i % 3])
    }
}

/// Solves Eq. (3) by damped Newton on Eq. (2), from `start`; without a start, from each knot one size along its
/// load. `force_n` is the size of the forces about.
pub(super) fn rest(
    links: &[Link],
    loads_n: &DVector<f64>,
    start: Option<&DVector<f64>>,
    force_n: f64,
) -> Result<Rest, AnchorError> {
    let scale = Scale::of(links, force_n);
    let loads = loads_n / scale.force_n;
    let scaled = scale.links(links).filter(|_| loads.iter().all(|c| c.is_finite()));
    let Some(scaled) = scaled else {
        return Err(AnchorError::Overflow { result: "the scale of the anchor" });
    };
    let stiffest = scaled.iter().fold(0.0_f64, |m, l| m.max(l.k_n_per_m));
    let mut x = start.map_or_else(|| loads.clone(), |start| scale.inside(start));
    let mut iterations = 0;
    let mut compliance = SOFT;
    // Until the softening is lost beside the legs' own compliance: 17 stages at most for stiffness
    // that leaves any digits.
    while compliance * stiffest > 1e-2 && compliance > 1e-18 {
        let soft: Vec<Link> = scaled
            .iter()
            .map(|l| Link { k_n_per_m: 1.0 / (1.0 / l.k_n_per_m + compliance), ..*l })
            .collect();
        iterations += newton(&soft, &loads, &mut x, 1e-3);
        compliance *= 0.1;
    }
    iterations += newton(&scaled, &loads, &mut x, AIM);
    finish(links, loads_n, &scale, &x, iterations)
}

/// The same from a start that is near, with forces of the size `force_n`; loads may be zero.
pub(super) fn follow(
    links: &[Link],
    loads_n: &DVector<f64>,
    start: &DVector<f64>,
    force_n: f64,
) -> Result<Rest, AnchorError> {
    let scale = Scale::of(links, force_n);
    let Some(scaled) = scale.links(links) else {
        return Err(AnchorError::Overflow { result: "the scale of the anchor" });
    };
    let mut x = scale.inside(start);
    let iterations = newton(&scaled, &(loads_n / force_n), &mut x, AIM);
    finish(links, loads_n, &scale, &x, iterations)
}

fn finish(
    links: &[Link],
    loads_n: &DVector<f64>,
    scale: &Scale,
    x: &DVector<f64>,
    iterations: usize,
) -> Result<Rest, AnchorError> {
    let x = scale.outside(x);
    let residual = unbalanced(links, loads_n, &x).norm() / scale.force_n;
    // Written so that NaN fails too.
    if residual <= (rounding_n(links, &x) / scale.force_n).clamp(ACCEPT, WORST) {
        Ok(Rest { x, residual, iterations })
    } else {
        Err(AnchorError::NotConverged { what: "the place of rest", iterations, residual })
    }
}

/// Moves `x` towards rest until the unbalanced force is below `aim`, or rounding leaves nothing to gain.
fn newton(links: &[Link], loads: &DVector<f64>, x: &mut DVector<f64>, aim: f64) -> usize {
    let mut best = (f64::INFINITY, x.clone());
    let (mut idle, mut taken) = (0, 0);
    for iteration in 0..BUDGET {
        let force = unbalanced(links, loads, x);
        let size = force.norm();
        if size <= aim {
            return iteration;
        }
        if size < 0.5 * best.0 {
            best = (size, x.clone());
            idle = 0;
        } else if size < 100.0 * rounding_n(links, x) {
            idle += 1;
        }
        taken = iteration;
        if idle == IDLE {
            break;
        }
        // Springs to where the knots are hold those that nothing else holds, and fade as rest comes near: this
        // keeps the second order of the steps.
        let h = curvature(links, x);
        let held = h.trace() * 1e-15 + FADING * size.min(1.0);
        let Some(mut step) = solve(&h, held, &force) else { break };
        // Half a size at most: the model of a step does not see legs that become taut on the way.
        let long = step.norm();
        if long > 0.5 {
            step *= 0.5 / long;
        }
        *x += &step * along(links, loads, x, &step, -force.dot(&step));
        taken = iteration + 1;
    }
    let force = unbalanced(links, loads, x).norm();
    if best.0 < force {
        x.copy_from(&best.1);
    }
    taken
}

fn solve(h: &DMatrix<f64>, held: f64, force: &DVector<f64>) -> Option<DVector<f64>> {
    let mut held = held;
    for _ in 0..20 {
        let mut sum = h.clone();
        for i in 0..sum.nrows() {
            sum[(i, i)] += held;
        }
        if let Some(c) = sum.cholesky() {
            return Some(c.solve(force)).filter(|s| s.iter().all(|c| c.is_finite()));
        }
        held *= 10.0;
    }
    None
}

/// How much of a step to take: about to where the energy is least along it.
///
/// Its slope grows along the step, since the energy is convex, and is known to many more digits than the energy. Up to
/// where the slope is zero the energy falls, so a point with less slope than the start, and not past the least, or
/// not above the start, is a good one.
fn along(
    links: &[Link],
    loads: &DVector<f64>,
    x: &DVector<f64>,
    step: &DVector<f64>,
    start: f64,
) -> f64 {
    let here = energy_j(links, loads, x);
    bracket(|part| {
        let next = x + step * part;
        let slope = -unbalanced(links, loads, &next).dot(step);
        let little = slope.abs() <= 0.5 * start.abs();
        let falls = || energy_j(links, loads, &next) <= here + 1e-12 * (1.0 + here.abs());
        (slope, little && (slope <= 0.0 || falls()))
    })
}
