//! Tensions with losses: one linear system for each sense of motion.

use nalgebra::Vector3;

use super::super::PulleyError;
use super::layout::{Layout, Strand};
use super::linear::Rows;
use super::motion::Motion;

/// Which way the ropes run.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Sense {
    Raising,
    Lowering,
    /// No losses.
    Ideal,
}

/// Tensions for one sense of motion.
pub(super) struct Tensions {
    /// Of each part of each rope, in N.
    pub(super) parts_n: Vec<Vec<f64>>,
    pub(super) hand_n: f64,
    /// Work lost at the sheaves per travel of the hand, in N.
    pub(super) lost_n: f64,
    /// What is missing in Eq. (11), relative to its largest term.
    pub(super) residual: f64,
}

/// Below this flow per travel of the hand a sheave stands still; flows are sums of a few unit terms.
pub(super) const STANDS: f64 = 1e-12;

/// Tension after a sheave over tension before it, along the rope from start to end, Eq. (4).
fn ratio(eta: f64, flow: f64, sense: Sense) -> f64 {
    let forward = match sense {
        Sense::Raising => flow,
        Sense::Lowering => -flow,
        Sense::Ideal => return 1.0,
    };
    if forward.abs() <= STANDS {
        1.0
    } else if forward > 0.0 {
        1.0 / eta
    } else {
        eta
    }
}

/// Force of rope `r` on the body at stop `j`, given the tensions of its parts.
pub(super) fn pull(layout: &Layout, r: usize, j: usize, tension: &[f64]) -> Vector3<f64> {
    let along = &layout.paths[r].along;
    let mut force = Vector3::zeros();
    if j > 0 {
        force -= along[j - 1] * tension[j - 1];
    }
    if j < along.len() {
        force += along[j] * tension[j];
    }
    force
}

/// Tensions of the parts of a strand over that of its strongest, so that steep losses do not spoil the
/// solve, Eq. (4).
fn factors(layout: &Layout, strand: &Strand, motion: &Motion, sense: Sense) -> Vec<f64> {
    let path = &layout.paths[strand.path];
    let mut factor = Vec::with_capacity(strand.last - strand.first);
    let mut now = 1.0;
    let mut largest = 1.0_f64;
    factor.push(now);
    for i in strand.first..strand.last - 1 {
        now *= ratio(path.eta[i], motion.flow[strand.path][i], sense);
        largest = largest.max(now);
        factor.push(now);
    }
    for f in &mut factor {
        *f /= largest;
    }
    factor
}

/// Puts the pull of a strand on the bodies that move into a column, Eq. (3).
fn column(layout: &Layout, strand: &Strand, factor: &[f64], a: &mut Rows, at: usize) {
    let path = &layout.paths[strand.path];
    for j in strand.first..=strand.last {
        let Some(row) = layout.column[path.stops[j]] else { continue };
        let e = &layout.travel[path.stops[j]];
        let k = j - strand.first;
        if j > strand.first {
            *a.at(row, at) -= e.dot(&path.along[j - 1]) * factor[k - 1];
        }
        if j < strand.last {
            *a.at(row, at) += e.dot(&path.along[j]) * factor[k];
        }
    }
}

/// Tensions of all parts from those of the strands.
fn spread(
    layout: &Layout,
    strands: &[Strand],
    factors: &[Vec<f64>],
    base: &[f64],
    load_n: f64,
) -> Vec<Vec<f64>> {
    let mut parts_n: Vec<Vec<f64>> =
        layout.paths.iter().map(|path| vec![0.0; path.along.len()]).collect();
    for ((strand, factor), &t) in strands.iter().zip(factors).zip(base) {
        for (part, f) in parts_n[strand.path][strand.first..].iter_mut().zip(factor) {
            *part = f * t.max(0.0) * load_n;
        }
    }
    parts_n
}

/// Solves Eqs. (3) and (4).
pub(super) fn tensions(
    layout: &Layout,
    strands: &[Strand],
    motion: &Motion,
    load_n: f64,
    sense: Sense,
) -> Result<Tensions, Failure> {
    let n = layout.unknown.len();
    let mut a = Rows::new(n, n);
    let mut all = Vec::with_capacity(n);
    for (c, strand) in strands.iter().enumerate() {
        let factor = factors(layout, strand, motion, sense);
        column(layout, strand, &factor, &mut a, c);
        all.push(factor);
    }
    if let Some(row) = layout.column[layout.load] {
        *a.at(row, n) = 1.0;
    }
    let solved = a.solve(0.0);
    let base = solved.x;
    let largest = base.iter().fold(0.0_f64, |m, t| m.max(t.abs()));
    if !solved.open.is_empty() || !base.iter().all(|t| t.is_finite()) {
        return Err(Failure::Singular);
    }
    // Rounding may leave an idle rope a hair below zero.
    if let Some(c) = base.iter().position(|&t| t < -1e-9 * largest) {
        return Err(Failure::Pushes(strands[c].path));
    }
    let parts_n = spread(layout, strands, &all, &base, load_n);
    let (rope, part) = layout.hand_part;
    let hand_n = parts_n[rope][part];
    let mut lost_n = 0.0;
    for strand in strands {
        let tension = &parts_n[strand.path];
        for i in strand.first..strand.last - 1 {
            lost_n += ((tension[i + 1] - tension[i]) * motion.flow[strand.path][i]).abs();
        }
    }
    let raised_n = load_n * motion.travel[layout.load];
    let (given_n, taken_n) =
        if sense == Sense::Lowering { (raised_n, hand_n) } else { (hand_n, raised_n) };
    let residual = (given_n - taken_n - lost_n).abs() / given_n.abs().max(taken_n.abs());
    Ok(Tensions { parts_n, hand_n, lost_n, residual })
}

/// Tensions while nothing moves and the hand is off: only the grabs hold, and sheaves that stand take
/// nothing. None if these strands cannot hold the load, or do not say how they share it.
pub(super) fn held(layout: &Layout, strands: &[Strand], load_n: f64) -> Option<Tensions> {
    let hand = layout.hand_strand(strands)?;
    let n = layout.unknown.len();
    let tight = strands.len() - 1;
    let mut a = Rows::new(n, tight);
    let all: Vec<Vec<f64>> = strands.iter().map(|s| vec![1.0; s.last - s.first]).collect();
    for (c, s) in (0..strands.len()).filter(|&s| s != hand).enumerate() {
        column(layout, &strands[s], &all[s], &mut a, c);
    }
    *a.at(layout.column[layout.load]?, tight) = 1.0;
    let solved = a.solve(1e-10);
    let mut base = solved.x;
    // Written so that NaN fails too.
    let fits = solved.contradiction <= 1e-9 && base.iter().all(|&t| t >= -1e-9);
    if !fits || !solved.open.is_empty() {
        return None;
    }
    base.insert(hand, 0.0);
    let parts_n = spread(layout, strands, &all, &base, load_n);
    Some(Tensions { parts_n, hand_n: 0.0, lost_n: 0.0, residual: solved.contradiction })
}

/// Why one sense of motion has no tensions.
pub(super) enum Failure {
    /// A rope would push.
    Pushes(usize),
    /// The losses make the equilibrium singular.
    Singular,
}

impl Failure {
    /// As the error of a system that cannot be raised.
    pub(super) fn named(self, ropes: &[super::Rope]) -> PulleyError {
        match self {
            Self::Pushes(rope) => PulleyError::WouldPush { rope: ropes[rope].name.clone() },
            Self::Singular => PulleyError::FrictionLocks,
        }
    }
}
