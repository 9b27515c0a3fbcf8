//! The lines of a rig as tables of their potential, made once and shared by many jumps.

use std::sync::Arc;

use super::SwingError;
use super::grid::{BOUND, Built, Grid, Range, build};
use super::half::Half;
use super::jump::Line;
use super::lines::Lines;
use super::patch::Cell;
use super::space::{from, size};
use crate::line::{BundleLine, solve_bundle};
use crate::quantity::check::{finite, non_negative, positive};
use crate::quantity::{Force, GRAVITY, Invalid, LineLoad, Quantity};

/// Half lines with one anchor and one grid, so that one look-up gives their sum.
#[derive(Debug)]
pub(super) struct Group {
    pub anchor_m: [f64; 3],
    /// Indices of the half lines.
    pub halves: Vec<usize>,
    /// None: too many cells would be needed, and the half lines are solved as they are asked for.
    pub grid: Option<Grid>,
    /// Cells of each half line.
    pub cells: Vec<Arc<Vec<Cell>>>,
    /// Sum over all half lines.
    pub sum: Arc<Vec<Cell>>,
    /// For each half line and cell, a bound of its tension at the anchor, N.
    pub tops_n: Vec<Vec<f64>>,
}

/// Line i has halves 2 i (near) and 2 i + 1 (far).
#[derive(Debug)]
pub(super) struct Table {
    pub lines: Vec<Line>,
    pub halves: Vec<Half>,
    pub groups: Vec<Group>,
    /// Group and member of each half.
    pub place: Vec<[usize; 2]>,
    /// Where the ring hangs with nothing else: a start for every search.
    pub hang_m: [f64; 3],
    /// Greatest error of a force over force and weight, found between the knots.
    pub worst: f64,
}

/// Weight at the ring for which its place is sought, N: a start, not a result.
const SOME_WEIGHT_N: f64 = 100.0;

impl Table {
    pub fn new(lines: &[Line]) -> Result<Self, SwingError> {
        let mut table = Self::bare(lines)?;
        for group in &mut table.groups {
            let members: Vec<&Half> = group.halves.iter().map(|i| &table.halves[*i]).collect();
            let Some(range) = range(&members, from(group.anchor_m, table.hang_m)) else { continue };
            // A line without a solution somewhere in the range is solved where it is needed.
            let Ok(Some(Built { grid, cells, tops_n, worst: found })) = build(&members, range)
            else {
                continue;
            };
            group.tops_n = tops_n;
            table.worst = table.worst.max(found);
            group.grid = Some(grid);
            group.cells = cells.into_iter().map(Arc::new).collect();
            let all = vec![true; members.len()];
            group.sum = group.sum_of(&all);
        }
        Ok(table)
    }

    /// Without tables: every half line is solved as it is asked for.
    pub fn bare(lines: &[Line]) -> Result<Self, SwingError> {
        let halves = halves(lines)?;
        let hang_m = if lines.is_empty() { [0.0; 3] } else { hangs_at_m(lines)? };
        let mut groups: Vec<Group> = Vec::new();
        let mut place = Vec::with_capacity(halves.len());
        for (i, half) in halves.iter().enumerate() {
            let known = groups.iter().position(|g| g.anchor_m == half.anchor_m);
            let group = known.unwrap_or(groups.len());
            if known.is_none() {
                groups.push(Group {
                    anchor_m: half.anchor_m,
                    halves: Vec::new(),
                    grid: None,
                    cells: Vec::new(),
                    sum: Arc::new(Vec::new()),
                    tops_n: Vec::new(),
                });
            }
            place.push([group, groups[group].halves.len()]);
            groups[group].halves.push(i);
        }
        Ok(Self { lines: lines.to_vec(), halves, groups, place, hang_m, worst: 0.0 })
    }

    /// All lines, without tables, and where the ring hangs on them: for what is asked a few times only.
    pub fn bare_lines(lines: &[Line]) -> Result<(Lines, [f64; 3]), SwingError> {
        let table = Arc::new(Self::bare(lines)?);
        let hang_m = table.hang_m;
        Ok((Lines::new(table, (0..lines.len()).collect()), hang_m))
    }

    /// Cells of all tables.
    pub fn cells(&self) -> usize {
        self.groups.iter().flat_map(|g| &g.cells).map(|cells| cells.len()).sum()
    }

    /// Half lines that are solved as they are asked for.
    pub fn solved_halves(&self) -> usize {
        self.groups.iter().filter(|g| g.grid.is_none()).map(|g| g.halves.len()).sum()
    }

    /// The error bound of the tables.
    pub fn bound() -> f64 {
        BOUND
    }
}

impl Group {
    /// The sum over the members that are there.
    pub fn sum_of(&self, there: &[bool]) -> Arc<Vec<Cell>> {
        let mut members = self.cells.iter().zip(there).filter(|(_, there)| **there);
        let Some((first, _)) = members.next() else { return Arc::new(Vec::new()) };
        let mut rest = members.peekable();
        if rest.peek().is_none() {
            return Arc::clone(first);
        }
        let mut sum = first.to_vec();
        for (cells, _) in rest {
            for (total, cell) in sum.iter_mut().zip(cells.iter()) {
                for (total, row) in total.0.iter_mut().zip(&cell.0) {
                    for (total, c) in total.iter_mut().zip(row) {
                        *total += c;
                    }
                }
            }
        }
        Arc::new(sum)
    }
}

/// What is covered: chords from slack to a tenth of stretch, and the ring from a little above to far below
/// where it hangs, but not near the vertical through the anchor.
fn range(members: &[&Half], hang_m: [f64; 3]) -> Option<Range> {
    let chord_m = size(hang_m);
    let rest = |half: &&Half| half.rest_m;
    let least = members.iter().map(rest).fold(chord_m, f64::min);
    let most = members.iter().map(rest).fold(chord_m, f64::max);
    let (shortest_m, longest_m) = (0.88 * least, 1.1 * most);
    let z_m = hang_m[2];
    let z = [
        (z_m - 0.45 * chord_m).max(-0.9 * shortest_m),
        (z_m + 0.25 * chord_m).min(0.9 * shortest_m),
    ];
    let usable = chord_m > 0.0 && least > 0.0 && most.is_finite() && most < 1e3 * least;
    let q = [shortest_m * shortest_m, longest_m * longest_m];
    (usable && z[0] < z[1]).then_some(Range { q, z })
}

fn halves(lines: &[Line]) -> Result<Vec<Half>, SwingError> {
    let mut halves = Vec::with_capacity(2 * lines.len());
    for (i, line) in lines.iter().enumerate() {
        let within = |e: Invalid| e.within(&format!("lines[{i}]"));
        let density = non_negative("linear_density", line.linear_density).map_err(within)?;
        for (key, anchor, length_key, length) in [
            ("near", line.near, "near_length", line.near_length),
            ("far", line.far, "far_length", line.far_length),
        ] {
            let anchor_m = [finite(key, anchor.x), finite(key, anchor.y), finite(key, anchor.z)];
            let [x, y, z] = anchor_m;
            let anchor_m = [x.map_err(within)?, y.map_err(within)?, z.map_err(within)?];
            let rest_m = positive(length_key, length).map_err(within)?;
            halves.push(Half {
                anchor_m,
                rest_m,
                mass_kg: density * rest_m,
                q_n_per_m: density * GRAVITY,
                law: line.stretch.law().clone(),
            });
        }
    }
    Ok(halves)
}

/// Where the ring of some lines hangs.
fn hangs_at_m(lines: &[Line]) -> Result<[f64; 3], SwingError> {
    let bundle: Vec<BundleLine> = lines
        .iter()
        .map(|line| BundleLine {
            name: line.name.clone(),
            near: [line.near.x, line.near.y, line.near.z],
            far: [line.far.x, line.far.y, line.far.z],
            near_length: line.near_length,
            far_length: line.far_length,
            weight: LineLoad::from_si(line.linear_density.si() * GRAVITY),
            stretch: line.stretch.clone(),
        })
        .collect();
    let load = [0.0, 0.0, -SOME_WEIGHT_N].map(Force::from_si);
    let solved = solve_bundle(&bundle, load)
        .map_err(|e| SwingError::contradiction("lines", &e.to_string()))?;
    Ok(solved.ring.map(Quantity::si))
}
