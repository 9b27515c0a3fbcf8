//! The lines of a rig as what holds the ring: looked up in their table, or solved outside of it.

use std::sync::Arc;

use super::grid::{Spot, Window};
use super::half::Half;
use super::patch::{Cell, curvatures, slopes};
use super::space::{dot, from, size};
use super::support::Support;
use super::table::{Group, Table};
use crate::line::Planar;

/// The lines of one jump.
#[derive(Debug, Clone)]
pub(super) struct Lines {
    table: Arc<Table>,
    /// The line of the table for each line of the jump.
    chosen: Vec<usize>,
    /// Which members of each group are there.
    there: Vec<Vec<bool>>,
    sums: Vec<Arc<Vec<Cell>>>,
    /// The cell of each group that was asked for last: the ring seldom leaves it.
    windows: Vec<Window>,
    /// Line of the jump and end of each half line of the table.
    ends: Vec<Option<(usize, usize)>>,
    /// The last solution of each half line that had to be solved.
    near: Vec<Option<Planar>>,
}

impl Lines {
    /// The lines with these places in the table.
    pub fn new(table: Arc<Table>, chosen: Vec<usize>) -> Self {
        let mut there: Vec<Vec<bool>> =
            table.groups.iter().map(|g| vec![false; g.halves.len()]).collect();
        for line in &chosen {
            for half in [2 * line, 2 * line + 1] {
                let [group, member] = table.place[half];
                there[group][member] = true;
            }
        }
        let sums = table.groups.iter().zip(&there).map(|(group, there)| {
            if there.contains(&false) { group.sum_of(there) } else { Arc::clone(&group.sum) }
        });
        let sums = sums.collect();
        let windows = vec![Window::default(); table.groups.len()];
        let near = vec![None; table.halves.len()];
        let mut ends = vec![None; table.halves.len()];
        for (line, of) in chosen.iter().enumerate() {
            (ends[2 * of], ends[2 * of + 1]) = (Some((line, 0)), Some((line, 1)));
        }
        Self { table, chosen, there, sums, windows, ends, near }
    }

    /// Force of a cell on the ring.
    #[expect(
        clippy::inline_always,
        reason = "a call's answer would go through memory, half of its cost"
    )]
    #[inline(always)]
    fn force(cell: &Cell, spot: &Spot, r: [f64; 3]) -> [f64; 3] {
        let [_, by_t, by_w] = slopes(cell, spot.t, spot.w);
        let along = -2.0 * by_t * spot.per_side[0];
        [along * r[0], along * r[1], along * r[2] - by_w * spot.per_side[1]]
    }

    /// Where a group looks a ring up, first in the window it looked through last; none outside of its grid.
    #[inline]
    fn spot(window: &mut Window, group: &Group, r: [f64; 3]) -> Option<Spot> {
        let (q, z) = (dot(r, r), r[2]);
        if !window.holds(q, z) {
            *window = Self::window(group, q, z)?;
        }
        Some(window.spot(q, z))
    }

    #[cold]
    fn window(group: &Group, q: f64, z: f64) -> Option<Window> {
        group.grid.as_ref()?.window(q, z)
    }

    /// Energy and force of the half lines of a group that are there, solved.
    #[cold]
    fn solved(&mut self, group: usize, r: [f64; 3]) -> Result<(f64, [f64; 3]), String> {
        let (mut energy, mut force) = (0.0, [0.0; 3]);
        for (half, there) in self.table.groups[group].halves.iter().zip(&self.there[group]) {
            if *there {
                let (u, f) = solve(&self.table.halves[*half], &mut self.near[*half], r, None)?;
                energy += u;
                force = [0, 1, 2].map(|i| force[i] + f[i]);
            }
        }
        Ok((energy, force))
    }
}

/// Energy, force on the ring and, if asked for, stiffness, of one half line at the chord r.
#[cold]
fn solve(
    line: &Half,
    near: &mut Option<Planar>,
    r: [f64; 3],
    stiffness: Option<&mut [[f64; 3]; 3]>,
) -> Result<(f64, [f64; 3]), String> {
    let across_m = r[0].hypot(r[1]);
    if !line.solve(across_m, r[2], near).map_err(|stop| format!("{stop:?}"))? {
        return Ok((0.0, [0.0; 3]));
    }
    let Some(p) = near.as_ref() else { return Ok((0.0, [0.0; 3])) };
    let a = if across_m > 0.0 { [r[0] / across_m, r[1] / across_m, 0.0] } else { [1.0, 0.0, 0.0] };
    let force = [-p.h_n * a[0], -p.h_n * a[1], p.piece.v1_n];
    if let Some(sum) = stiffness {
        let det = p.piece.hh * p.piece.vv - p.piece.hv * p.piece.hv;
        let (aa, az, zz) = (p.piece.vv / det, p.piece.hv / det, p.piece.hh / det);
        let out = [-a[1], a[0], 0.0];
        let up = [0.0, 0.0, 1.0];
        for i in 0..3 {
            for j in 0..3 {
                sum[i][j] += aa * a[i] * a[j]
                    + az * (a[i] * up[j] + up[i] * a[j])
                    + zz * up[i] * up[j]
                    + out[i] * out[j] / p.piece.out;
            }
        }
    }
    Ok((line.potential_j(p, across_m, r[2]), force))
}

impl Support for Lines {
    #[expect(clippy::inline_always, reason = "place and force would go through memory")]
    #[inline(always)]
    fn force_n(&mut self, ring_m: [f64; 3]) -> Result<[f64; 3], String> {
        let mut force = [0.0; 3];
        for index in 0..self.sums.len() {
            let group = &self.table.groups[index];
            let r = from(group.anchor_m, ring_m);
            let spot = Self::spot(&mut self.windows[index], group, r);
            let f = match spot.and_then(|spot| Some((spot, self.sums[index].get(spot.cell)?))) {
                Some((spot, cell)) => Self::force(cell, &spot, r),
                None => self.solved(index, r)?.1,
            };
            force = [0, 1, 2].map(|i| force[i] + f[i]);
        }
        Ok(force)
    }

    fn potential_j(&mut self, ring_m: [f64; 3]) -> Result<f64, String> {
        let mut energy = 0.0;
        for index in 0..self.sums.len() {
            let group = &self.table.groups[index];
            let r = from(group.anchor_m, ring_m);
            let spot = Self::spot(&mut self.windows[index], group, r);
            energy += match spot.and_then(|spot| Some((spot, self.sums[index].get(spot.cell)?))) {
                Some((spot, cell)) => slopes(cell, spot.t, spot.w)[0],
                None => self.solved(index, r)?.0,
            };
        }
        Ok(energy)
    }

    fn anchor_pull_n(
        &mut self,
        ring_m: [f64; 3],
        line: usize,
        end: usize,
    ) -> Result<[f64; 3], String> {
        let half = 2 * self.chosen[line] + end;
        let [index, member] = self.table.place[half];
        if !self.there[index][member] {
            return Ok([0.0; 3]);
        }
        let group = &self.table.groups[index];
        let r = from(group.anchor_m, ring_m);
        let line = &self.table.halves[half];
        let spot = Self::spot(&mut self.windows[index], group, r);
        let cell = spot.and_then(|spot| Some((spot, group.cells.get(member)?.get(spot.cell)?)));
        let force = match cell {
            Some((spot, cell)) => Self::force(cell, &spot, r),
            None => solve(line, &mut self.near[half], r, None)?.1,
        };
        Ok(line.on_anchor_n(force))
    }

    fn anchor_pulls_n(&mut self, ring_m: [f64; 3], pulls_n: &mut [[[f64; 3]; 2]]) {
        for (index, group) in self.table.groups.iter().enumerate() {
            let r = from(group.anchor_m, ring_m);
            let spot = Self::spot(&mut self.windows[index], group, r);
            for (member, half) in group.halves.iter().enumerate() {
                let Some((line, end)) = self.ends[*half] else { continue };
                let pull_n = &mut pulls_n[line][end];
                if !self.there[index][member] {
                    *pull_n = [0.0; 3];
                    continue;
                }
                let cells = group.cells.get(member);
                let cell = spot.and_then(|spot| Some((spot, cells?.get(spot.cell)?)));
                let its = &self.table.halves[*half];
                let force = if let Some((spot, cell)) = cell {
                    Self::force(cell, &spot, r)
                } else {
                    let solved = solve(its, &mut self.near[*half], r, None);
                    solved.map_or([f64::NAN; 3], |(_, force)| force)
                };
                *pull_n = its.on_anchor_n(force);
            }
        }
    }

    fn anchors_at_most_n(&self, rings_m: [[f64; 3]; 3], most_n: &mut [[f64; 2]]) {
        for of in &self.table.groups {
            let Some(grid) = &of.grid else { continue };
            let r = rings_m.map(|ring| from(of.anchor_m, ring));
            let wide = |[a, b, c]: [f64; 3]| {
                let (low, high) = (a.min(b).min(c), a.max(b).max(c));
                // Between the looks it is not further out than they differ.
                [low - (high - low), high + (high - low)]
            };
            let (q, z) = (wide(r.map(|r| dot(r, r))), wide(r.map(|r| r[2])));
            let Some(cells) = grid.between(q, z) else { continue };
            for (half, tops_n) in of.halves.iter().zip(&of.tops_n) {
                if let Some((line, end)) = self.ends[*half] {
                    most_n[line][end] = grid.greatest(tops_n, cells);
                }
            }
        }
    }

    fn stiffness_n_per_m(&mut self, ring_m: [f64; 3]) -> Result<[[f64; 3]; 3], String> {
        let mut k = [[0.0; 3]; 3];
        for group in 0..self.sums.len() {
            let of = &self.table.groups[group];
            let r = from(of.anchor_m, ring_m);
            let spot = Self::spot(&mut self.windows[group], of, r);
            let cell = spot.and_then(|spot| Some((spot, self.sums[group].get(spot.cell)?)));
            if let Some((spot, cell)) = cell {
                let [_, by_t, _] = slopes(cell, spot.t, spot.w);
                let [tt, tw, ww] = curvatures(cell, spot.t, spot.w);
                let [a, b] = spot.per_side;
                let (u_q, qq, qz, zz) = (by_t * a, tt * a * a, tw * a * b, ww * b * b);
                for (i, row) in k.iter_mut().enumerate() {
                    for (j, k) in row.iter_mut().enumerate() {
                        *k += 4.0 * qq * r[i] * r[j];
                    }
                    row[i] += 2.0 * u_q;
                    row[2] += 2.0 * qz * r[i];
                }
                for (k, r) in k[2].iter_mut().zip(r) {
                    *k += 2.0 * qz * r;
                }
                k[2][2] += zz;
                continue;
            }
            for member in 0..self.there[group].len() {
                if self.there[group][member] {
                    let half = self.table.groups[group].halves[member];
                    let (line, near) = (&self.table.halves[half], &mut self.near[half]);
                    solve(line, near, r, Some(&mut k))?;
                }
            }
        }
        Ok(k)
    }

    fn taut_kg(&self, ring_m: [f64; 3]) -> f64 {
        let halves = self.chosen.iter().flat_map(|line| [2 * line, 2 * line + 1]);
        let there = |half: &usize| {
            let [group, member] = self.table.place[*half];
            self.there[group][member]
        };
        let halves = halves.filter(there).map(|half| &self.table.halves[half]);
        let taut = halves.filter(|half| size(from(half.anchor_m, ring_m)) >= half.rest_m);
        taut.map(|half| half.mass_kg).sum()
    }

    fn lose(&mut self, line: usize, ends: [bool; 2]) {
        for (end, lost) in ends.into_iter().enumerate() {
            if lost {
                let [group, member] = self.table.place[2 * self.chosen[line] + end];
                self.there[group][member] = false;
                self.sums[group] = self.table.groups[group].sum_of(&self.there[group]);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::jump::{Line, Place};
    use super::*;
    use crate::line::{HalfLine, RingField};
    use crate::material::Stretch;
    use crate::quantity::Words;

    fn line(near: [f64; 3], far: [f64; 3], rest: f64, grams: f64, ea: f64) -> Line {
        let at = |p: [f64; 3]| Place { x: p[0].meters(), y: p[1].meters(), z: p[2].meters() };
        Line {
            name: "line".into(),
            near: at(near),
            far: at(far),
            near_length: (0.5 * rest).meters(),
            far_length: (0.5 * rest).meters(),
            linear_density: grams.grams_per_meter(),
            stretch: Stretch::axial_rigidity(ea.newtons()).unwrap(),
        }
    }

    #[test]
    fn the_table_gives_the_force_of_the_exact_field_in_space() {
        let (a, b) = ([0.0, 0.0, 0.0], [130.0, 0.0, -3.0]);
        let all = [
            line(a, b, 127.74, 68.0, 2.5e5),
            line(a, b, 132.4, 60.0, 1.4e5),
            line([0.0, 6.0, 1.0], [130.0, -5.0, -2.0], 133.2, 72.0, 3e4),
        ];
        let table = Arc::new(Table::new(&all).unwrap());
        assert_eq!((table.groups.len(), table.solved_halves()), (4, 0));
        println!("{} cells, worst {:.1e}", table.cells(), table.worst);
        let halves = table.halves.iter().map(|h| HalfLine {
            anchor_m: h.anchor_m,
            rest_m: h.rest_m,
            load_n_per_m: [0.0, 0.0, -h.q_n_per_m],
            law: h.law.clone(),
        });
        let mut exact = RingField::new(halves.collect());
        let mut lines = Lines::new(Arc::clone(&table), vec![0, 1, 2]);
        for ring in [[65.0, 0.0, -4.0], [64.0, 2.0, -9.0], [66.0, -3.0, -15.0], [65.0, 0.0, -90.0]]
        {
            let want = exact.force(ring).unwrap();
            let got = lines.force_n(ring).unwrap();
            let (k, want_k) = (lines.stiffness_n_per_m(ring).unwrap(), exact.stiffness_n_per_m());
            for i in 0..3 {
                assert!((got[i] - want[i]).abs() < 2e-8 * size(want), "{ring:?} {got:?} {want:?}");
                for j in 0..3 {
                    let error = (k[i][j] - want_k[i][j]).abs();
                    assert!(error < 1e-4 * want_k[0][0], "{ring:?} {k:?} {want_k:?}");
                }
            }
            let tensions: Vec<f64> = exact.tensions_n().map(|(anchor, _)| anchor).collect();
            for line in 0..3 {
                let ends = [0, 1].map(|end| lines.anchor_n(ring, line, end).unwrap());
                assert!((ends[0] / tensions[2 * line] - 1.0).abs() < 1e-7);
                assert!((ends[1] / tensions[2 * line + 1] - 1.0).abs() < 1e-7);
                let mut most = [[f64::INFINITY; 2]; 3];
                lines.anchors_at_most_n([ring; 3], &mut most);
                assert!(ends[0] <= most[line][0] && ends[1] <= most[line][1]);
            }
            // The force is minus the derivative of the potential.
            for i in 0..3 {
                let d = 1e-4;
                let mut moved = |by: f64| {
                    let mut p = ring;
                    p[i] += by;
                    lines.potential_j(p).unwrap()
                };
                let slope = (moved(d) - moved(-d)) / (2.0 * d);
                assert!((slope + want[i]).abs() < 1e-3 * (1.0 + size(want)), "{slope} {want:?}");
            }
        }
        let sum = dot(lines.force_n([65.0, 0.0, -9.0]).unwrap(), [0.0, 0.0, 1.0]);
        lines.lose(0, [true, true]);
        assert!(dot(lines.force_n([65.0, 0.0, -9.0]).unwrap(), [0.0, 0.0, 1.0]) < 0.1 * sum);
        let fresh = Lines::new(table, vec![1, 2]).force_n([65.0, 0.0, -9.0]).unwrap();
        assert_eq!(lines.force_n([65.0, 0.0, -9.0]).unwrap(), fresh);
    }
}
