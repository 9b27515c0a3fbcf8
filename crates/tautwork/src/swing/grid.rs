//! The grid of one anchor: knots in chord length and sine, made as fine as the error bound asks.

use super::half::{Exact, Half};
use super::patch::{Cell, Corner, patch, slopes};
use crate::line::{Planar, Stop};

/// Error of the force, over the force and the weight of the line, to which the grid is refined.
pub(super) const BOUND: f64 = 1e-9;
/// Most intervals in chord length; a line that needs more is solved as it goes.
const MOST_C: usize = 1500;
/// Most intervals in the sine.
const MOST_S: usize = 64;
/// Where the derivative of the error of a quintic Hermite interpolant is greatest.
const WORST_AT: f64 = 0.276;

/// Knots, and where to find the interval of a chord.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Grid {
    c_m: Vec<f64>,
    s_low: f64,
    s_step: f64,
    s_count: usize,
    /// First interval that may hold a chord, by equal parts of the whole range.
    lookup: Vec<u16>,
    parts_per_m: f64,
}

/// A cell, the place in it and the lengths of its sides.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot {
    pub cell: usize,
    pub t: f64,
    pub w: f64,
    pub sides: [f64; 2],
}

/// Chord lengths and sines that are covered.
#[derive(Debug, Clone, Copy)]
pub(super) struct Range {
    pub c_m: [f64; 2],
    pub s: [f64; 2],
}

/// A grid, the cells of each of its half lines, and the greatest error found between the knots.
#[derive(Debug)]
pub(super) struct Built {
    pub grid: Grid,
    pub cells: Vec<Vec<Cell>>,
    pub worst: f64,
}

/// A number that is not below zero, without its fraction; a cast stops at the ends of the type.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "meant")]
#[inline]
fn whole_number(x: f64) -> usize {
    x as usize
}

impl Grid {
    fn new(c_m: Vec<f64>, s: [f64; 2], s_count: usize) -> Self {
        let least = c_m.windows(2).map(|w| w[1] - w[0]).fold(f64::INFINITY, f64::min);
        let whole = c_m[c_m.len() - 1] - c_m[0];
        let parts = (whole / least).ceil().clamp(1.0, 65_536.0);
        let lookup = (0..whole_number(parts)).map(|part| {
            let from = c_m[0] + whole * (part as f64 / parts);
            let at = c_m.partition_point(|c| *c <= from).max(1) - 1;
            u16::try_from(at.min(c_m.len() - 2)).unwrap_or(0)
        });
        Self {
            lookup: lookup.collect(),
            parts_per_m: parts / whole,
            s_low: s[0],
            s_step: (s[1] - s[0]) / s_count as f64,
            s_count,
            c_m,
        }
    }

    /// Cells in all.
    pub fn count(&self) -> usize {
        (self.c_m.len() - 1) * self.s_count
    }

    /// The cell of a chord; none outside of the grid.
    #[inline]
    pub fn find(&self, c_m: f64, s: f64) -> Option<Spot> {
        let part = (c_m - self.c_m[0]) * self.parts_per_m;
        let row = (s - self.s_low) / self.s_step;
        // False for NaN too.
        if !(part >= 0.0 && row >= 0.0 && row < self.s_count as f64) {
            return None;
        }
        let mut i = usize::from(*self.lookup.get(whole_number(part))?);
        while c_m >= *self.c_m.get(i + 1)? {
            i += 1;
        }
        let j = whole_number(row);
        let side = self.c_m[i + 1] - self.c_m[i];
        Some(Spot {
            cell: i * self.s_count + j,
            t: (c_m - self.c_m[i]) / side,
            w: row - j as f64,
            sides: [side, self.s_step],
        })
    }
}

/// Makes the grid of the half lines at one anchor; none if it would have too many cells.
pub(super) fn build(halves: &[&Half], range: Range) -> Result<Option<Built>, Stop> {
    let Some(mut c_m) = chords(halves, range)? else { return Ok(None) };
    let mut s_count = whole_number(((range.s[1] - range.s[0]) / 0.05).ceil().max(1.0));
    for _ in 0..6 {
        if c_m.len() > MOST_C || s_count > MOST_S {
            return Ok(None);
        }
        let grid = Grid::new(c_m.clone(), range.s, s_count);
        let cells = halves.iter().map(|half| fill(half, &grid)).collect::<Result<Vec<_>, _>>()?;
        let mut fine = vec![true; c_m.len() - 1];
        let (mut worst, mut worst_s) = (0.0_f64, 0.0_f64);
        for (half, cells) in halves.iter().zip(&cells) {
            let mut near = None;
            for i in 0..c_m.len() - 1 {
                let mut error = |t: f64, w: f64, j: usize| -> Result<f64, Stop> {
                    let c = c_m[i] + t * (c_m[i + 1] - c_m[i]);
                    let s = grid.s_low + (j as f64 + w) * grid.s_step;
                    let exact = half.exact(c, s, &mut near)?;
                    let sides = [c_m[i + 1] - c_m[i], grid.s_step];
                    let [_, by_t, by_w] = slopes(&cells[i * s_count + j], t, w);
                    Ok(off(half, &exact, [by_t / sides[0], by_w / sides[1]], c, s))
                };
                for j in [0, s_count / 2, s_count - 1] {
                    fine[i] &= error(WORST_AT, 0.0, j)? <= BOUND;
                }
                for j in 0..s_count {
                    if i % 4 == 0 {
                        worst_s = worst_s.max(error(0.0, WORST_AT, j)?);
                    }
                    if (i + j) % 3 == 0 {
                        worst = worst.max(error(WORST_AT, 1.0 - WORST_AT, j)?);
                    }
                }
            }
        }
        if worst_s <= BOUND && !fine.contains(&false) {
            return Ok(Some(Built { grid, cells, worst }));
        }
        if worst_s > BOUND {
            // The error falls with the fifth power of the step.
            let finer = (worst_s / BOUND).powf(0.2) * 1.1;
            s_count = whole_number((s_count as f64 * finer).ceil().min(1e3));
        }
        c_m = halved(&c_m, &fine);
    }
    Ok(None)
}

/// Error of the force over the force and the weight.
fn off(half: &Half, exact: &Exact, got: [f64; 2], c_m: f64, s: f64) -> f64 {
    let size = |by_c: f64, by_s: f64| by_c.hypot(by_s * ((1.0 - s) * (1.0 + s)).sqrt() / c_m);
    let scale = size(exact.u_c, exact.u_s) + half.q_n_per_m * half.rest_m;
    let error = size(got[0] - exact.u_c, got[1] - exact.u_s);
    if scale > 0.0 { error / scale } else { error }
}

fn halved(c_m: &[f64], fine: &[bool]) -> Vec<f64> {
    let mut all = vec![c_m[0]];
    for (ends, fine) in c_m.windows(2).zip(fine) {
        if !fine {
            all.push(0.5 * (ends[0] + ends[1]));
        }
        all.push(ends[1]);
    }
    all
}

/// Knots in chord length at which a quintic in the chord alone keeps half the bound.
fn chords(halves: &[&Half], range: Range) -> Result<Option<Vec<f64>>, Stop> {
    let middle = 0.5 * (range.s[0] + range.s[1]);
    let sines = [range.s[0], middle, range.s[1]];
    let mut near: Vec<Option<Planar>> = vec![None; halves.len() * sines.len()];
    let mut sample = |c_m: f64| -> Result<Vec<Exact>, Stop> {
        let mut all = Vec::with_capacity(near.len());
        for (i, near) in near.iter_mut().enumerate() {
            all.push(halves[i / sines.len()].exact(c_m, sines[i % sines.len()], near)?);
        }
        Ok(all)
    };
    let [low, up] = range.c_m;
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
        let c_m = start + WORST_AT * side;
        let inside = sample(c_m)?;
        let mut fine = true;
        for (i, exact) in inside.iter().enumerate() {
            let half = halves[i / sines.len()];
            let ends = [&left[i], &right[i]]
                .map(|e| -> Corner { [[e.u, 0.0, 0.0], [e.u_c, 0.0, 0.0], [e.u_cc, 0.0, 0.0]] });
            let cell = patch([[&ends[0], &ends[0]], [&ends[1], &ends[1]]], [side, 1.0]);
            let by_c = slopes(&cell, WORST_AT, 0.0)[1] / side;
            fine &= off(half, exact, [by_c, exact.u_s], c_m, sines[i % sines.len()]) <= 0.5 * BOUND;
        }
        if fine {
            knots.push(*end);
            left.clone_from(right);
            open.pop();
        } else {
            let middle = start + 0.5 * side;
            if knots.len() + open.len() > MOST_C || middle <= start || middle >= *end {
                return Ok(None);
            }
            open.push((middle, sample(middle)?));
        }
    }
    Ok(Some(knots))
}

/// The cells of one half line. The mixed derivatives that the line model does not give are central
/// differences of those that it gives; they enter with the fifth power of the cell.
fn fill(half: &Half, grid: &Grid) -> Result<Vec<Cell>, Stop> {
    let d = 0.01 * grid.s_step;
    let rows = grid.s_count + 1;
    let mut corners: Vec<Corner> = Vec::with_capacity(grid.c_m.len() * rows);
    let mut near = None;
    for c_m in &grid.c_m {
        for j in 0..rows {
            let s = grid.s_low + j as f64 * grid.s_step;
            let low = half.exact(*c_m, s - d, &mut near)?;
            let e = half.exact(*c_m, s, &mut near)?;
            let up = half.exact(*c_m, s + d, &mut near)?;
            let slope = |a: f64, b: f64| (b - a) / (2.0 * d);
            corners.push([
                [e.u, e.u_s, e.u_ss],
                [e.u_c, e.u_cs, slope(low.u_cs, up.u_cs)],
                [e.u_cc, slope(low.u_cc, up.u_cc), (low.u_cc - 2.0 * e.u_cc + up.u_cc) / (d * d)],
            ]);
        }
    }
    let mut cells = Vec::with_capacity(grid.count());
    for (i, ends) in grid.c_m.windows(2).enumerate() {
        for j in 0..grid.s_count {
            let at = |p: usize, q: usize| &corners[(i + p) * rows + j + q];
            let four = [[at(0, 0), at(0, 1)], [at(1, 0), at(1, 1)]];
            cells.push(patch(four, [ends[1] - ends[0], grid.s_step]));
        }
    }
    Ok(cells)
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
        let range = Range { c_m: [57.5, 74.0], s: [-0.5, 0.2] };
        let start = std::time::Instant::now();
        let built = build(&all, range).unwrap().unwrap();
        println!(
            "{} by {} cells for {} lines in {:?}, worst {:.1e}",
            built.grid.c_m.len() - 1,
            built.grid.s_count,
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
            let s = -0.5 + 0.7 * share(0.754_877_666_2);
            let spot = built.grid.find(c, s).unwrap();
            for (half, cells) in halves.iter().zip(&built.cells) {
                let exact = half.exact(c, s, &mut None).unwrap();
                let [u, by_t, by_w] = slopes(&cells[spot.cell], spot.t, spot.w);
                let got = [by_t / spot.sides[0], by_w / spot.sides[1]];
                worst = worst.max(off(half, &exact, got, c, s));
                assert!((u - exact.u).abs() < 1e-7 * (1.0 + exact.u.abs()));
            }
        }
        println!("worst of 4000 random chords {worst:.1e}");
        assert!(worst < 3.0 * BOUND);
        assert!(built.grid.find(57.4, 0.0).is_none() && built.grid.find(60.0, 0.3).is_none());
        assert!(
            built.grid.find(f64::NAN, 0.0).is_none() && built.grid.find(60.0, f64::NAN).is_none()
        );
    }
}
