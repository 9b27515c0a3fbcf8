//! Small linear systems by elimination with full pivoting, which also tells what they leave open.

/// Rows of coefficients with the right side in the last column.
pub(super) struct Rows {
    cells: Vec<f64>,
    height: usize,
    unknowns: usize,
}

/// A system brought to its solved form.
pub(super) struct Solved {
    /// The unknowns; those left open are zero.
    pub(super) x: Vec<f64>,
    /// Unknowns that nothing fixes, and those that depend on them; in order.
    pub(super) open: Vec<usize>,
    /// Largest right side of a row that has no unknown left: not zero where rows contradict.
    pub(super) contradiction: f64,
}

impl Rows {
    pub(super) fn new(rows: usize, unknowns: usize) -> Self {
        Self { cells: vec![0.0; rows * (unknowns + 1)], height: rows, unknowns }
    }

    /// The coefficient of an unknown; the right side stands behind the last.
    pub(super) fn at(&mut self, row: usize, unknown: usize) -> &mut f64 {
        &mut self.cells[row * (self.unknowns + 1) + unknown]
    }

    /// The coefficients of one row, without the right side.
    pub(super) fn row(&self, row: usize) -> &[f64] {
        let start = row * (self.unknowns + 1);
        &self.cells[start..start + self.unknowns]
    }

    /// Solves; a pivot of `rank` times the largest coefficient or less counts as zero.
    pub(super) fn solve(mut self, rank: f64) -> Solved {
        let (rows, n) = (self.height, self.unknowns);
        let width = n + 1;
        let mut order: Vec<usize> = (0..n).collect();
        let mut done = 0;
        let mut floor = 0.0;
        while done < rows.min(n) {
            let mut pivot = (done, done, 0.0_f64);
            for r in done..rows {
                for c in done..n {
                    let size = self.cells[r * width + c].abs();
                    if size > pivot.2 {
                        pivot = (r, c, size);
                    }
                }
            }
            if done == 0 {
                floor = rank * pivot.2;
            }
            // A NaN is never a pivot, since it is greater than nothing.
            if pivot.2 <= floor {
                break;
            }
            for c in 0..width {
                self.cells.swap(done * width + c, pivot.0 * width + c);
            }
            for r in 0..rows {
                self.cells.swap(r * width + done, r * width + pivot.1);
            }
            order.swap(done, pivot.1);
            let scale = self.cells[done * width + done];
            for c in done..width {
                self.cells[done * width + c] /= scale;
            }
            for r in (0..rows).filter(|&r| r != done) {
                let factor = self.cells[r * width + done];
                if factor != 0.0 {
                    for c in done..width {
                        self.cells[r * width + c] -= factor * self.cells[done * width + c];
                    }
                }
            }
            done += 1;
        }
        let mut x = vec![0.0; n];
        for (r, &unknown) in order.iter().enumerate().take(done) {
            x[unknown] = self.cells[r * width + n];
        }
        let mut open = Vec::new();
        for c in done..n {
            open.push(order[c]);
            open.extend(
                (0..done).filter(|r| self.cells[r * width + c].abs() > 1e-6).map(|r| order[r]),
            );
        }
        open.sort_unstable();
        open.dedup();
        let rest = (done..rows).map(|r| self.cells[r * width + n].abs());
        Solved { x, open, contradiction: rest.fold(0.0, f64::max) }
    }
}
