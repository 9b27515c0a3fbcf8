//! Kinematics: how far each body travels, and how much rope passes each sheave, per travel of the hand.

use nalgebra::{DMatrix, DVector};

use super::layout::{Layout, Path};
use super::{PulleyError, System};

/// Travel per travel of the hand.
pub(super) struct Motion {
    /// Of each body along its direction.
    pub(super) travel: Vec<f64>,
    /// Rope that passes each sheave of each rope, positive from start to end.
    pub(super) flow: Vec<Vec<f64>>,
    /// Largest change of a rope's length: 0 but for rounding.
    pub(super) residual: f64,
}

/// A pivot below this part of the largest entry counts as zero: well above rounding of a few hundred
/// parts, far below what any rig with a usable advantage has.
const RANK: f64 = 1e-10;

/// Coefficient of the travel of the body at stop `j` in the rate of length of the rope, Eq. (1).
fn coefficient(layout: &Layout, path: &Path, j: usize) -> f64 {
    let e = &layout.travel[path.stops[j]];
    let before = if j > 0 { path.along[j - 1].dot(e) } else { 0.0 };
    let after = path.along.get(j).map_or(0.0, |u| u.dot(e));
    before - after
}

/// Solves Eq. (1).
pub(super) fn motion(system: &System, layout: &Layout) -> Result<Motion, PulleyError> {
    let (ropes, moving) = (layout.paths.len(), layout.unknown.len());
    let mut k = DMatrix::zeros(ropes, moving);
    let mut rhs = DVector::zeros(ropes);
    for (r, path) in layout.paths.iter().enumerate() {
        for j in 0..path.stops.len() {
            let c = coefficient(layout, path, j);
            match layout.column[path.stops[j]] {
                Some(column) => k[(r, column)] += c,
                None if path.stops[j] == layout.hand => rhs[r] -= c,
                None => {}
            }
        }
    }
    free_bodies(system, layout, &k)?;
    if ropes > moving {
        return Err(PulleyError::Locked { ropes, moving });
    }
    let unknown = k
        .full_piv_lu()
        .solve(&rhs)
        .ok_or(PulleyError::Residual { balance: "travel", residual: f64::INFINITY })?;
    let travel: Vec<f64> = layout
        .column
        .iter()
        .enumerate()
        .map(|(b, column)| column.map_or(f64::from(u8::from(b == layout.hand)), |c| unknown[c]))
        .collect();
    let mut flow = Vec::new();
    let mut residual = 0.0_f64;
    for path in &layout.paths {
        let mut length_rate = 0.0;
        let mut rates = Vec::new();
        for (i, u) in path.along.iter().enumerate() {
            let (a, b) = (path.stops[i], path.stops[i + 1]);
            length_rate += u.dot(&(layout.travel[b] * travel[b] - layout.travel[a] * travel[a]));
            rates.push(-length_rate);
        }
        residual = residual.max(length_rate.abs());
        // After the last part the sum is the change of the whole rope, not a flow.
        rates.pop();
        flow.push(rates);
    }
    let largest = travel.iter().fold(1.0_f64, |m, v| m.max(v.abs()));
    let residual = residual / largest;
    // Written so that NaN fails too.
    if residual <= 1e-9 {
        Ok(Motion { travel, flow, residual })
    } else {
        Err(PulleyError::Residual { balance: "travel", residual })
    }
}

/// Names the bodies that can move while the hand stays still: elimination with full pivoting leaves
/// the columns that no rope fixes, and the bodies that move with them.
fn free_bodies(system: &System, layout: &Layout, k: &DMatrix<f64>) -> Result<(), PulleyError> {
    let mut k = k.clone();
    let largest = k.amax();
    let mut order: Vec<usize> = (0..k.ncols()).collect();
    let mut rank = 0;
    while rank < k.nrows().min(k.ncols()) {
        let rest = k.view((rank, rank), (k.nrows() - rank, k.ncols() - rank));
        let (row, column) = rest.iamax_full();
        if rest[(row, column)].abs() <= RANK * largest {
            break;
        }
        k.swap_rows(rank, rank + row);
        k.swap_columns(rank, rank + column);
        order.swap(rank, rank + column);
        let pivot_row = k.row(rank) / k[(rank, rank)];
        for i in (0..k.nrows()).filter(|&i| i != rank) {
            let factor = k[(i, rank)];
            let reduced = k.row(i) - &pivot_row * factor;
            k.set_row(i, &reduced);
        }
        k.set_row(rank, &pivot_row);
        rank += 1;
    }
    let mut free = std::collections::BTreeSet::new();
    for column in rank..k.ncols() {
        free.insert(order[column]);
        free.extend((0..rank).filter(|&i| k[(i, column)].abs() > 1e-6).map(|i| order[i]));
    }
    if free.is_empty() {
        return Ok(());
    }
    let name = |c: usize| format!("\"{}\"", system.bodies[layout.unknown[c]].name);
    let bodies = free.into_iter().map(name).collect::<Vec<_>>().join(", ");
    Err(PulleyError::Free { bodies })
}
