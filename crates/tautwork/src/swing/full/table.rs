//! A stretch curve as tension by strain, for the inner loop.

use crate::material::Law;

/// Equal cells between no strain and the last strain of the curve.
const CELLS: usize = 1024;

/// Piecewise cubic T(e) through exact values and slopes of a [`Law`], straight past its last point.
#[derive(Debug, Clone)]
pub(super) struct Table {
    cells_per_strain: f64,
    width: f64,
    /// Coefficients of powers of the strain inside a cell, N.
    cubic_n: Vec<[f64; 4]>,
    /// Energy per rest length up to the start of each cell, N.
    before_n: Vec<f64>,
    end: End,
    /// Steepest dT/de, N.
    pub steepest_n: f64,
}

#[derive(Debug, Clone, Copy)]
struct End {
    strain: f64,
    tension_n: f64,
    slope_n: f64,
    energy_n: f64,
}

impl Table {
    /// None for a linear law.
    pub fn new(law: &Law) -> Option<Self> {
        if matches!(law, Law::Linear { .. }) {
            return None;
        }
        let last = law.strain(law.last_n());
        let width = last / CELLS as f64;
        let at = |k: usize| {
            let t_n = law.tension(k as f64 * width);
            (t_n, 1.0 / law.strain_and_slope(t_n).1)
        };
        let (mut cubic_n, mut before_n) = (Vec::with_capacity(CELLS), Vec::with_capacity(CELLS));
        let (mut energy_n, mut steepest_n) = (0.0, 0.0_f64);
        let (mut t0, mut s0) = at(0);
        for k in 1..=CELLS {
            let (t1, s1) = at(k);
            let secant = (t1 - t0) / width;
            let c = [
                t0,
                s0,
                (3.0 * secant - 2.0 * s0 - s1) / width,
                (s0 + s1 - 2.0 * secant) / (width * width),
            ];
            cubic_n.push(c);
            before_n.push(energy_n);
            energy_n += integral_n(&c, width);
            steepest_n = steepest_n.max(s0).max(s1).max(1.5 * secant);
            (t0, s0) = (t1, s1);
        }
        let end = End { strain: last, tension_n: t0, slope_n: s0, energy_n };
        Some(Self { cells_per_strain: 1.0 / width, width, cubic_n, before_n, end, steepest_n })
    }

    fn cell(&self, strain: f64) -> (usize, f64) {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a strain from zero to the end of the table"
        )]
        let k = ((strain * self.cells_per_strain) as usize).min(CELLS - 1);
        (k, strain - k as f64 * self.width)
    }

    pub fn tension_n(&self, strain: f64) -> f64 {
        if strain <= 0.0 {
            return 0.0;
        }
        if strain >= self.end.strain {
            return self.end.tension_n + self.end.slope_n * (strain - self.end.strain);
        }
        let (k, u) = self.cell(strain);
        let c = &self.cubic_n[k];
        c[0] + u * (c[1] + u * (c[2] + u * c[3]))
    }

    /// Energy per rest length: the exact integral of [`tension_n`](Self::tension_n).
    pub fn energy_n(&self, strain: f64) -> f64 {
        if strain <= 0.0 {
            return 0.0;
        }
        if strain >= self.end.strain {
            let u = strain - self.end.strain;
            return self.end.energy_n + u * (self.end.tension_n + 0.5 * self.end.slope_n * u);
        }
        let (k, u) = self.cell(strain);
        self.before_n[k] + integral_n(&self.cubic_n[k], u)
    }
}

fn integral_n(c: &[f64; 4], u: f64) -> f64 {
    u * (c[0] + u * (c[1] / 2.0 + u * (c[2] / 3.0 + u * c[3] / 4.0)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::material::Stretch;
    use crate::quantity::Words;

    #[test]
    fn the_table_is_the_curve() {
        let rows = [(0.5, 0.6), (2.0, 1.2), (6.0, 2.9), (10.0, 4.0)];
        let rows = rows.iter().map(|r| (f64::kilonewtons(r.0), f64::percent(r.1))).collect();
        let stretch = Stretch::table(rows).unwrap();
        let table = Table::new(stretch.law()).unwrap();
        for i in 0..500 {
            let e = f64::from(i) * 1e-4;
            let t = stretch.law().tension(e);
            assert!((table.tension_n(e) - t).abs() < 1e-6 * 10e3, "{e}: {t}");
            assert!((table.energy_n(e) - stretch.law().energy_n(t)).abs() < 1e-6 * 200.0, "{e}");
        }
        assert_eq!(table.tension_n(-0.1), 0.0);
        assert!(Table::new(Stretch::axial_rigidity(1.0.kilonewtons()).unwrap().law()).is_none());
    }
}
