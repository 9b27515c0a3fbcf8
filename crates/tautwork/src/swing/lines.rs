//! The lines of a rig as what holds the ring: looked up in their table, or solved outside of it.

use std::sync::Arc;

use super::patch::{Cell, curvatures, slopes};
use super::space::{from, size};
use super::support::Support;
use super::table::Table;
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
        let near = vec![None; table.halves.len()];
        Self { table, chosen, there, sums, near }
    }

    /// Energy, force on the ring and, if asked for, stiffness, of one half line at the chord r.
    fn solve(
        &mut self,
        half: usize,
        r: [f64; 3],
        stiffness: Option<&mut [[f64; 3]; 3]>,
    ) -> Result<(f64, [f64; 3]), String> {
        let line = &self.table.halves[half];
        let c = size(r);
        let s = if c > 0.0 { r[2] / c } else { 0.0 };
        let near = &mut self.near[half];
        if !line.solve(c, s, near).map_err(|stop| format!("{stop:?}"))? {
            return Ok((0.0, [0.0; 3]));
        }
        let Some(p) = near.as_ref() else { return Ok((0.0, [0.0; 3])) };
        let across_m = r[0].hypot(r[1]);
        let a =
            if across_m > 0.0 { [r[0] / across_m, r[1] / across_m, 0.0] } else { [1.0, 0.0, 0.0] };
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

    /// Energy and force of a look-up in a group; none outside of its grid.
    #[inline]
    fn look(&self, group: usize, cells: &[Cell], r: [f64; 3]) -> Option<(f64, [f64; 3])> {
        let c = size(r);
        let s = r[2] / c;
        let spot = self.table.groups[group].grid.as_ref()?.find(c, s)?;
        let [u, by_t, by_w] = slopes(cells.get(spot.cell)?, spot.t, spot.w);
        let (by_c, by_s) = (by_t / spot.sides[0], by_w / spot.sides[1]);
        let along = -(by_c - by_s * s / c) / c;
        Some((u, [along * r[0], along * r[1], along * r[2] - by_s / c]))
    }

    /// Energy and force of all lines.
    fn all(&mut self, ring_m: [f64; 3]) -> Result<(f64, [f64; 3]), String> {
        let (mut energy, mut force) = (0.0, [0.0; 3]);
        for group in 0..self.sums.len() {
            let r = from(self.table.groups[group].anchor_m, ring_m);
            if let Some((u, f)) = self.look(group, &self.sums[group], r) {
                energy += u;
                for i in 0..3 {
                    force[i] += f[i];
                }
                continue;
            }
            for member in 0..self.there[group].len() {
                if self.there[group][member] {
                    let half = self.table.groups[group].halves[member];
                    let (u, f) = self.solve(half, r, None)?;
                    energy += u;
                    for i in 0..3 {
                        force[i] += f[i];
                    }
                }
            }
        }
        Ok((energy, force))
    }
}

impl Support for Lines {
    fn force_n(&mut self, ring_m: [f64; 3]) -> Result<[f64; 3], String> {
        Ok(self.all(ring_m)?.1)
    }

    fn potential_j(&mut self, ring_m: [f64; 3]) -> Result<f64, String> {
        Ok(self.all(ring_m)?.0)
    }

    fn anchor_n(&mut self, ring_m: [f64; 3], line: usize, end: usize) -> Result<f64, String> {
        let half = 2 * self.chosen[line] + end;
        let [group, member] = self.table.place[half];
        if !self.there[group][member] {
            return Ok(0.0);
        }
        let r = from(self.table.groups[group].anchor_m, ring_m);
        let cells = self.table.groups[group].cells.get(member);
        let force = match cells.and_then(|cells| self.look(group, cells, r)) {
            Some((_, force)) => force,
            None => self.solve(half, r, None)?.1,
        };
        // What the line does to the ring, it does to the anchor, but for its weight.
        let weight_n = self.table.halves[half].q_n_per_m * self.table.halves[half].rest_m;
        Ok(size([force[0], force[1], force[2] + weight_n]))
    }

    fn stiffness_n_per_m(&mut self, ring_m: [f64; 3]) -> Result<[[f64; 3]; 3], String> {
        let mut k = [[0.0; 3]; 3];
        for group in 0..self.sums.len() {
            let r = from(self.table.groups[group].anchor_m, ring_m);
            let c = size(r);
            let s = r[2] / c;
            let grid = self.table.groups[group].grid.as_ref();
            let found = grid.and_then(|grid| grid.find(c, s));
            let cell = found.and_then(|spot| Some((spot, self.sums[group].get(spot.cell)?)));
            if let Some((spot, cell)) = cell {
                let [_, by_t, by_w] = slopes(cell, spot.t, spot.w);
                let [tt, tw, ww] = curvatures(cell, spot.t, spot.w);
                let [a, b] = spot.sides;
                let (u_c, u_s) = (by_t / a, by_w / b);
                let (cc, cs, ss) = (tt / (a * a), tw / (a * b), ww / (b * b));
                let e = r.map(|r| r / c);
                let g = [-s * e[0] / c, -s * e[1] / c, (1.0 - s * e[2]) / c];
                for i in 0..3 {
                    for j in 0..3 {
                        let same = if i == j { 1.0 } else { 0.0 };
                        let up = |i: usize| if i == 2 { 1.0 } else { 0.0 };
                        let bend_c = (same - e[i] * e[j]) / c;
                        let bend_s =
                            (3.0 * s * e[i] * e[j] - s * same - up(i) * e[j] - e[i] * up(j))
                                / (c * c);
                        k[i][j] += cc * e[i] * e[j]
                            + cs * (e[i] * g[j] + g[i] * e[j])
                            + ss * g[i] * g[j]
                            + u_c * bend_c
                            + u_s * bend_s;
                    }
                }
                continue;
            }
            for member in 0..self.there[group].len() {
                if self.there[group][member] {
                    let half = self.table.groups[group].halves[member];
                    self.solve(half, r, Some(&mut k))?;
                }
            }
        }
        Ok(k)
    }

    fn taut_kg(&self, ring_m: [f64; 3]) -> f64 {
        let halves = self.chosen.iter().flat_map(|line| [2 * line, 2 * line + 1]);
        let halves = halves.map(|half| &self.table.halves[half]);
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
    use super::super::space::dot;
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
