//! Kinematics: how far each body travels, and how much rope passes each sheave, per travel of the hand.

use super::super::PulleyError;
use super::layout::{Layout, Strand};
use super::linear::Rows;
use super::{BodyKind, System};

/// Travel per travel of the hand.
pub(super) struct Motion {
    /// Of each body along its direction.
    pub(super) travel: Vec<f64>,
    /// Rope that passes each inner stop of each rope, positive from start to end.
    pub(super) flow: Vec<Vec<f64>>,
    /// Growth of each part of each rope.
    pub(super) growth: Vec<Vec<f64>>,
    /// Largest change of a strand's length: 0 but for rounding.
    pub(super) residual: f64,
}

/// A pivot below this part of the largest entry counts as zero: well above rounding of a few hundred
/// parts, far below what any rig with a usable advantage has.
const RANK: f64 = 1e-10;

/// Coefficient of the travel of the body at stop `j` in the rate of length of the strand, Eq. (1).
fn coefficient(layout: &Layout, strand: &Strand, j: usize) -> f64 {
    let path = &layout.paths[strand.path];
    let e = &layout.travel[path.stops[j]];
    let before = if j > strand.first { path.along[j - 1].dot(e) } else { 0.0 };
    let after = if j < strand.last { path.along[j].dot(e) } else { 0.0 };
    before - after
}

/// Solves Eq. (1).
pub(super) fn motion(
    system: &System,
    layout: &Layout,
    strands: &[Strand],
) -> Result<Motion, PulleyError> {
    let moving = layout.unknown.len();
    let mut k = Rows::new(strands.len(), moving);
    for (r, strand) in strands.iter().enumerate() {
        let stops = &layout.paths[strand.path].stops[strand.first..=strand.last];
        for (j, &stop) in stops.iter().enumerate() {
            let c = coefficient(layout, strand, strand.first + j);
            match layout.column[stop] {
                Some(column) => *k.at(r, column) += c,
                None if stop == layout.hand => *k.at(r, moving) -= c,
                None => {}
            }
        }
    }
    one_sided(system, layout, &k, strands.len())?;
    let solved = k.solve(RANK);
    if !solved.open.is_empty() {
        let name = |&c: &usize| format!("\"{}\"", system.bodies[layout.unknown[c]].name);
        let bodies = solved.open.iter().map(name).collect::<Vec<_>>().join(", ");
        return Err(PulleyError::Free { bodies });
    }
    if strands.len() > moving {
        return Err(PulleyError::Locked { ropes: strands.len(), moving });
    }
    let mut travel = vec![0.0; system.bodies.len()];
    for (&body, &v) in layout.unknown.iter().zip(&solved.x) {
        travel[body] = v;
    }
    travel[layout.hand] = 1.0;
    let growth: Vec<Vec<f64>> = layout
        .paths
        .iter()
        .map(|path| {
            let parts = path.along.iter().zip(path.stops.windows(2));
            parts
                .map(|(u, ends)| {
                    let run = |b: usize| layout.travel[b] * travel[b];
                    u.dot(&(run(ends[1]) - run(ends[0])))
                })
                .collect()
        })
        .collect();
    let mut flow: Vec<Vec<f64>> =
        layout.paths.iter().map(|path| vec![0.0; path.eta.len()]).collect();
    let mut residual = 0.0_f64;
    for strand in strands {
        let mut rate = 0.0;
        for j in strand.first..strand.last {
            rate += growth[strand.path][j];
            if j + 1 < strand.last {
                flow[strand.path][j] = -rate;
            }
        }
        residual = residual.max(rate.abs());
    }
    let largest = travel.iter().fold(1.0_f64, |m, v| m.max(v.abs()));
    let residual = residual / largest;
    // Written so that NaN fails too.
    if residual <= 1e-9 {
        Ok(Motion { travel, flow, growth, residual })
    } else {
        Err(PulleyError::Residual { balance: "travel", residual })
    }
}

/// Names a block that all its ropes pull one way: it cannot be in equilibrium under tension.
fn one_sided(
    system: &System,
    layout: &Layout,
    k: &Rows,
    strands: usize,
) -> Result<(), PulleyError> {
    for (column, &body) in layout.unknown.iter().enumerate() {
        if system.bodies[body].kind == BodyKind::Load {
            continue;
        }
        let pulls = || (0..strands).map(|r| k.row(r)[column]).filter(|c| c.abs() > RANK);
        let first = pulls().next();
        if first.is_some_and(|first| pulls().all(|c| c * first > 0.0)) {
            return Err(PulleyError::OneSided { body: system.bodies[body].name.clone() });
        }
    }
    Ok(())
}
