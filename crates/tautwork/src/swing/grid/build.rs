//! Makes the grid of one anchor as fine as the error bound asks.

use super::super::half::{Exact, Half};
use super::super::patch::{Cell, Corner, patch, slopes};
use super::{Grid, whole_number};
use crate::line::{Planar, Stop};

/// Error of the force, over the force and the weight of the line, to which the grid is refined.
pub(in crate::swing) const BOUND: f64 = 1e-8;
/// Most intervals in the square of the chord; a line that needs more is solved as it goes.
const MOST_Q: usize = 1500;
/// Most intervals in height.
const MOST_Z: usize = 64;
/// Where the derivative of the error of a quintic Hermite interpolant is greatest.
const WORST_AT: f64 = 0.276;

/// Squares of chords, m², and heights, m, that are covered.
#[derive(Debug, Clone, Copy)]
pub(in crate::swing) struct Range {
    pub q: [f64; 2],
    pub z: [f64; 2],
}

/// A grid, the cells of each of its half lines, and the greatest error found between the knots.
#[derive(Debug)]
pub(in crate::swing) struct Built {
    pub grid: Grid,
    pub cells: Vec<Vec<Cell>>,
    /// For each half line and cell, a bound of its tension at the anchor, N.
    pub tops_n: Vec<Vec<f64>>,
    pub worst: f64,
}

/// Makes the grid of the half lines at one anchor; none if it would have too many cells.
pub(in crate::swing) fn build(halves: &[&Half], range: Range) -> Result<Option<Built>, Stop> {
    let Some(mut q) = squares(halves, range)? else { return Ok(None) };
    let wide = (range.z[1] - range.z[0]) / range.q[0].sqrt();
    let mut z_count = whole_number((wide / 0.05).ceil().max(1.0)) as usize;
    for _ in 0..6 {
        if q.len() > MOST_Q || z_count > MOST_Z {
            return Ok(None);
        }
        let grid = Grid::new(q.clone(), range.z, u32::try_from(z_count).unwrap_or(u32::MAX));
        let filled = halves.iter().map(|half| fill(half, &grid)).collect::<Result<Vec<_>, _>>()?;
        let (cells, tops_n): (Vec<_>, Vec<_>) = filled.into_iter().unzip();
        let mut fine = vec![true; q.len() - 1];
        let (mut worst, mut worst_z) = (0.0_f64, 0.0_f64);
        for (half, cells) in halves.iter().zip(&cells) {
            let mut near = None;
            for i in 0..q.len() - 1 {
                let mut error = |t: f64, w: f64, j: usize| -> Result<f64, Stop> {
                    let q_at = q[i] + t * (q[i + 1] - q[i]);
                    let z = grid.z_low + (j as f64 + w) * grid.z_step;
                    let exact = half.exact(q_at, z, &mut near)?;
                    let [_, by_t, by_w] = slopes(&cells[i * z_count + j], t, w);
                    let got = [by_t * grid.per_side[i], by_w * grid.per_step];
                    Ok(off(half, &exact, got, q_at, z))
                };
                for j in [0, z_count / 2, z_count - 1] {
                    fine[i] &= error(WORST_AT, 0.0, j)? <= BOUND;
                }
                for j in 0..z_count {
                    if i % 4 == 0 {
                        worst_z = worst_z.max(error(0.0, WORST_AT, j)?);
                    }
                    if (i + j) % 3 == 0 {
                        worst = worst.max(error(WORST_AT, 1.0 - WORST_AT, j)?);
                    }
                }
            }
        }
        if worst_z <= BOUND && !fine.contains(&false) {
            return Ok(Some(Built { grid, cells, tops_n, worst }));
        }
        if worst_z > BOUND {
            // The error falls with the fifth power of the step.
            let finer = (worst_z / BOUND).powf(0.2) * 1.1;
            z_count = whole_number((z_count as f64 * finer).ceil().min(1e3)) as usize;
        }
        q = halved(&q, &fine);
    }
    Ok(None)
}

/// Error of the force over the force and the weight.
fn off(half: &Half, exact: &Exact, got: [f64; 2], q: f64, z: f64) -> f64 {
    let size = |by_q: f64, by_z: f64| {
        let along = 2.0 * by_q;
        (along * (q - z * z).sqrt()).hypot(along * z + by_z)
    };
    let scale = size(exact.u_q, exact.u_z) + half.q_n_per_m * half.rest_m;
    let error = size(got[0] - exact.u_q, got[1] - exact.u_z);
    if scale > 0.0 { error / scale } else { error }
}

fn halved(q: &[f64], fine: &[bool]) -> Vec<f64> {
    let mut all = vec![q[0]];
    for (ends, fine) in q.windows(2).zip(fine) {
        if !fine {
            all.push(0.5 * (ends[0] + ends[1]));
        }
        all.push(ends[1]);
    }
    all
}

/// Knots at which a quintic in the square of the chord alone keeps half the bound.
fn squares(halves: &[&Half], range: Range) -> Result<Option<Vec<f64>>, Stop> {
    let middle = 0.5 * (range.z[0] + range.z[1]);
    let heights = [range.z[0], middle, range.z[1]];
    let mut near: Vec<Option<Planar>> = vec![None; halves.len() * heights.len()];
    let mut sample = |q: f64| -> Result<Vec<Exact>, Stop> {
        let mut all = Vec::with_capacity(near.len());
        for (i, near) in near.iter_mut().enumerate() {
            all.push(halves[i / heights.len()].exact(q, heights[i % heights.len()], near)?);
        }
        Ok(all)
    };
    let [low, up] = range.q;
    let first = 8;
    let mut knots = vec![low];
    let mut left = sample(low)?;
    // Intervals still to look at, the nearest last.
    let at = |k: i32| low + (up - low) * f64::from(k) / f64::from(first);
    let mut open = Vec::new();
    for k in (1..=first).rev() {
        let end = if k == first { up } else { at(k) };
        open.push((end, sample(end)?));
    }
    while let Some((end, right)) = open.last() {
        let start = knots[knots.len() - 1];
        let side = end - start;
        let q = start + WORST_AT * side;
        let inside = sample(q)?;
        let mut fine = true;
        for (i, exact) in inside.iter().enumerate() {
            let half = halves[i / heights.len()];
            let ends = [&left[i], &right[i]]
                .map(|e| -> Corner { [[e.u, 0.0, 0.0], [e.u_q, 0.0, 0.0], [e.u_qq, 0.0, 0.0]] });
            let cell = patch([[&ends[0], &ends[0]], [&ends[1], &ends[1]]], [side, 1.0]);
            let by_q = slopes(&cell, WORST_AT, 0.0)[1] / side;
            let z = heights[i % heights.len()];
            fine &= off(half, exact, [by_q, exact.u_z], q, z) <= 0.5 * BOUND;
        }
        if fine {
            knots.push(*end);
            left.clone_from(right);
            open.pop();
        } else {
            let middle = start + 0.5 * side;
            if knots.len() + open.len() > MOST_Q || middle <= start || middle >= *end {
                return Ok(None);
            }
            open.push((middle, sample(middle)?));
        }
    }
    Ok(Some(knots))
}

/// The cells of one half line, and a bound of the tension at its anchor in each of them. The mixed derivatives
/// that the line model does not give are central differences of those that it gives; they enter with the
/// fifth power of the cell.
fn fill(half: &Half, grid: &Grid) -> Result<(Vec<Cell>, Vec<f64>), Stop> {
    let d = 0.01 * grid.z_step;
    let rows = grid.columns() + 1;
    let mut pulls_n = Vec::with_capacity(grid.q.len() * rows);
    let mut corners: Vec<Corner> = Vec::with_capacity(grid.q.len() * rows);
    let mut near = None;
    for q in &grid.q {
        for j in 0..rows {
            let z = grid.z_low + j as f64 * grid.z_step;
            let low = half.exact(*q, z - d, &mut near)?;
            let e = half.exact(*q, z, &mut near)?;
            pulls_n.push(near.as_ref().map_or(0.0, |p| p.h_n.hypot(p.v0_n)));
            let up = half.exact(*q, z + d, &mut near)?;
            let slope = |a: f64, b: f64| (b - a) / (2.0 * d);
            corners.push([
                [e.u, e.u_z, e.u_zz],
                [e.u_q, e.u_qz, slope(low.u_qz, up.u_qz)],
                [e.u_qq, slope(low.u_qq, up.u_qq), (low.u_qq - 2.0 * e.u_qq + up.u_qq) / (d * d)],
            ]);
        }
    }
    let mut cells = Vec::with_capacity(grid.count());
    let mut tops_n = Vec::with_capacity(grid.count());
    for (i, ends) in grid.q.windows(2).enumerate() {
        for j in 0..grid.columns() {
            let at = |p: usize, q: usize| &corners[(i + p) * rows + j + q];
            let four = [[at(0, 0), at(0, 1)], [at(1, 0), at(1, 1)]];
            cells.push(patch(four, [ends[1] - ends[0], grid.z_step]));
            let pulls = [0, 1].map(|p| [0, 1].map(|q| pulls_n[(i + p) * rows + j + q]));
            let all = pulls.as_flattened();
            let low_n = all.iter().copied().fold(f64::INFINITY, f64::min);
            let high_n = all.iter().copied().fold(0.0, f64::max);
            // Between the corners a smooth tension exceeds the greatest by a part of their spread.
            tops_n.push(high_n + 0.25 * (high_n - low_n));
        }
    }
    Ok((cells, tops_n))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::material::Law;

    fn half(rest_m: f64, grams: f64, ea_n: f64) -> Half {
        let q_n_per_m = 9.81e-3 * grams;
        let mass_kg = 1e-3 * grams * rest_m;
        Half { anchor_m: [0.0; 3], rest_m, mass_kg, q_n_per_m, law: Law::Linear { ea_n } }
    }

    #[test]
    fn the_force_between_the_knots_keeps_the_bound() {
        let halves = [half(63.87, 68.0, 2.5e5), half(66.2, 60.0, 1.4e5), half(66.6, 72.0, 3e4)];
        let all: Vec<&Half> = halves.iter().collect();
        let range = Range { q: [57.5 * 57.5, 74.0 * 74.0], z: [-32.0, 13.0] };
        let start = std::time::Instant::now();
        let built = build(&all, range).unwrap().unwrap();
        println!(
            "{} by {} cells for {} lines in {:?}, worst {:.1e}",
            built.grid.q.len() - 1,
            built.grid.z_count,
            halves.len(),
            start.elapsed(),
            built.worst
        );
        assert!(built.worst < 2.0 * BOUND);
        let mut worst = 0.0_f64;
        for k in 0..4000_u32 {
            // Two irrational steps fill the range evenly.
            let share = |by: f64| (f64::from(k) * by).fract();
            let c = 57.5 + 16.5 * share(0.618_033_988_7);
            let z = -32.0 + 45.0 * share(0.754_877_666_2);
            let spot = built.grid.window(c * c, z).unwrap().spot(c * c, z);
            for ((half, cells), tops_n) in halves.iter().zip(&built.cells).zip(&built.tops_n) {
                let exact = half.exact(c * c, z, &mut None).unwrap();
                let [u, by_t, by_w] = slopes(&cells[spot.cell], spot.t, spot.w);
                let got = [by_t * spot.per_side[0], by_w * spot.per_side[1]];
                worst = worst.max(off(half, &exact, got, c * c, z));
                let top_n = tops_n[spot.cell];
                let mut near = None;
                half.exact(c * c, z, &mut near).unwrap();
                let pull_n = near.map_or(0.0, |p| p.h_n.hypot(p.v0_n));
                assert!(pull_n <= top_n * (1.0 + 1e-9), "{pull_n} {top_n}");
                assert!((u - exact.u).abs() < 1e-7 * (1.0 + exact.u.abs()));
            }
        }
        println!("worst of 4000 random chords {worst:.1e}");
        assert!(worst < 3.0 * BOUND);
        let find = |q: f64, z: f64| built.grid.window(q, z);
        assert!(find(57.4 * 57.4, 0.0).is_none() && find(3600.0, 13.1).is_none());
        assert!(find(f64::NAN, 0.0).is_none() && find(3600.0, f64::NAN).is_none());
    }
}
