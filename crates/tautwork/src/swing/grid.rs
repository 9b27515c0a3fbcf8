//! The grid of one anchor: knots in the square of the chord and in the height, made as fine as the error
//! bound asks. The square, since so a look-up needs no root and no division.

use super::half::{Exact, Half};
use super::patch::{Cell, Corner, patch, slopes};
use crate::line::{Planar, Stop};

/// Error of the force, over the force and the weight of the line, to which the grid is refined.
pub(super) const BOUND: f64 = 1e-8;
/// Most intervals in the square of the chord; a line that needs more is solved as it goes.
const MOST_Q: usize = 1500;
/// Most intervals in height.
const MOST_Z: usize = 64;
/// Where the derivative of the error of a quintic Hermite interpolant is greatest.
const WORST_AT: f64 = 0.276;

/// Knots, and where to find the interval of a chord.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Grid {
    /// Squares of chords, m².
    q: Vec<f64>,
    /// One over the length of each interval.
    per_side: Vec<f64>,
    z_low: f64,
    z_step: f64,
    per_step: f64,
    z_count: u32,
    /// First interval that may hold a chord, by equal parts of the whole range.
    lookup: Vec<u16>,
    parts: f64,
}

/// A cell, the place in it and one over the lengths of its sides.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot {
    pub cell: usize,
    pub t: f64,
    pub w: f64,
    pub per_side: [f64; 2],
}

/// A cell: where it begins and ends in the square of the chord and in height, and one over the lengths of its
/// sides. The default is nowhere.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Window {
    cell: usize,
    low: [f64; 2],
    high: [f64; 2],
    per_side: [f64; 2],
}

impl Window {
    #[inline]
    pub fn holds(&self, q: f64, z: f64) -> bool {
        q >= self.low[0] && q < self.high[0] && z >= self.low[1] && z < self.high[1]
    }

    #[inline]
    pub fn spot(&self, q: f64, z: f64) -> Spot {
        let Self { cell, low, per_side, .. } = *self;
        Spot { cell, t: (q - low[0]) * per_side[0], w: (z - low[1]) * per_side[1], per_side }
    }
}

/// Squares of chords, m², and heights, m, that are covered.
#[derive(Debug, Clone, Copy)]
pub(super) struct Range {
    pub q: [f64; 2],
    pub z: [f64; 2],
}

/// A grid, the cells of each of its half lines, and the greatest error found between the knots.
#[derive(Debug)]
pub(super) struct Built {
    pub grid: Grid,
    pub cells: Vec<Vec<Cell>>,
    /// For each half line and cell, a bound of its tension at the anchor, N.
    pub tops_n: Vec<Vec<f64>>,
    pub worst: f64,
}

/// A number that is not below zero, without its fraction; a cast stops at the ends of the type.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "meant")]
#[inline]
fn whole_number(x: f64) -> u32 {
    x as u32
}

impl Grid {
    fn new(q: Vec<f64>, z: [f64; 2], z_count: u32) -> Self {
        let least = q.windows(2).map(|w| w[1] - w[0]).fold(f64::INFINITY, f64::min);
        let whole = q[q.len() - 1] - q[0];
        let parts = (whole / least).ceil().clamp(1.0, 65_536.0);
        let lookup = (0..whole_number(parts)).map(|part| {
            let from = q[0] + whole * (f64::from(part) / parts);
            let at = q.partition_point(|q| *q <= from).max(1) - 1;
            u16::try_from(at.min(q.len() - 2)).unwrap_or(0)
        });
        let z_step = (z[1] - z[0]) / f64::from(z_count);
        Self {
            lookup: lookup.collect(),
            parts: parts / whole,
            z_low: z[0],
            z_step,
            per_step: 1.0 / z_step,
            z_count,
            per_side: q.windows(2).map(|w| 1.0 / (w[1] - w[0])).collect(),
            q,
        }
    }

    /// Cells in all.
    pub fn count(&self) -> usize {
        (self.q.len() - 1) * self.columns()
    }

    fn columns(&self) -> usize {
        self.z_count as usize
    }

    /// The interval of the square of a chord; none outside of the grid.
    #[inline]
    fn interval(&self, q: f64) -> Option<usize> {
        let part = (q - self.q[0]) * self.parts;
        if part.is_nan() || part < 0.0 {
            return None;
        }
        let mut i = usize::from(*self.lookup.get(whole_number(part) as usize)?);
        while q >= *self.q.get(i + 1)? {
            i += 1;
        }
        Some(i)
    }

    /// The cell of a place; none outside of the grid.
    pub fn window(&self, q: f64, z: f64) -> Option<Window> {
        let i = self.interval(q)?;
        if !self.holds_height(z) {
            return None;
        }
        let j = self.column(z);
        let height = |j: usize| self.z_low + self.z_step * j as f64;
        Some(Window {
            cell: i * self.columns() + j,
            low: [self.q[i], height(j)],
            high: [self.q[i + 1], height(j + 1)],
            per_side: [self.per_side[i], self.per_step],
        })
    }

    /// The same, with the place in it.
    pub fn find(&self, q: f64, z: f64) -> Option<Spot> {
        Some(self.window(q, z)?.spot(q, z))
    }

    /// The cells between two squares and two heights, as intervals and columns, ends included; none if they
    /// reach out of the grid.
    pub fn between(&self, q: [f64; 2], z: [f64; 2]) -> Option<[[usize; 2]; 2]> {
        let column = |z: f64| self.holds_height(z).then(|| self.column(z));
        let [low, high] = [self.interval(q[0])?, self.interval(q[1])?];
        Some([[low, high], [column(z[0])?, column(z[1])?]])
    }

    fn column(&self, z: f64) -> usize {
        whole_number((z - self.z_low) * self.per_step) as usize
    }

    /// Whether a height is inside of the grid.
    #[inline]
    fn holds_height(&self, z: f64) -> bool {
        let row = (z - self.z_low) * self.per_step;
        row >= 0.0 && row < f64::from(self.z_count)
    }

    /// The greatest of some values of the cells.
    pub fn greatest(&self, values: &[f64], [[low, high], [first, last]]: [[usize; 2]; 2]) -> f64 {
        let mut most = f64::NEG_INFINITY;
        for row in (low..=high).map(|i| i * self.columns()) {
            for value in values.get(row + first..=row + last).unwrap_or_default() {
                most = if *value > most { *value } else { most };
            }
        }
        most
    }
}

/// Makes the grid of the half lines at one anchor; none if it would have too many cells.
pub(super) fn build(halves: &[&Half], range: Range) -> Result<Option<Built>, Stop> {
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
            let spot = built.grid.find(c * c, z).unwrap();
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
        let find = |q: f64, z: f64| built.grid.find(q, z);
        assert!(find(57.4 * 57.4, 0.0).is_none() && find(3600.0, 13.1).is_none());
        assert!(find(f64::NAN, 0.0).is_none() && find(3600.0, f64::NAN).is_none());
    }
}
