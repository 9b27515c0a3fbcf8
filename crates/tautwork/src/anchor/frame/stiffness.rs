//! Stiffness of the head by a set of members, factored so that soft members keep their digits beside
//! stiff ones.

use nalgebra::{Matrix3, Vector3};

/// Directions stiffer than this part of the stiffest count as held, in square roots of stiffness: members
/// whose stiffness differs a trillionfold still count.
const RANK: f64 = 1e-8;
/// Sweeps of rotations; a handful makes the columns orthogonal.
const SWEEPS: usize = 30;

/// G V' = rows √k b, with orthogonal columns in G and a rotation V.
pub(super) struct Factors {
    rows: Vec<Vector3<f64>>,
    turn: Matrix3<f64>,
    /// Squares of the columns' sizes: stiffnesses along the columns of `turn`. Zero where nothing holds.
    held: [f64; 3],
}

impl Factors {
    /// One-sided Jacobi: turns pairs of columns until all are orthogonal.
    pub(super) fn of(rows: impl Iterator<Item = Vector3<f64>>) -> Self {
        let mut rows: Vec<_> = rows.collect();
        let mut turn = Matrix3::identity();
        for _ in 0..SWEEPS {
            let mut still = true;
            for (p, q) in [(0, 1), (0, 2), (1, 2)] {
                let (mut pp, mut qq, mut pq) = (0.0, 0.0, 0.0);
                for row in &rows {
                    pp += row[p] * row[p];
                    qq += row[q] * row[q];
                    pq += row[p] * row[q];
                }
                if f64::abs(pq) <= f64::EPSILON * f64::sqrt(pp * qq) {
                    continue;
                }
                still = false;
                let zeta = (qq - pp) / (2.0 * pq);
                let tan = zeta.signum() / (zeta.abs() + zeta.hypot(1.0));
                let cos = 1.0 / tan.hypot(1.0);
                let sin = cos * tan;
                for row in &mut rows {
                    (row[p], row[q]) = (cos * row[p] - sin * row[q], sin * row[p] + cos * row[q]);
                }
                for i in 0..3 {
                    let (a, b) = (turn[(i, p)], turn[(i, q)]);
                    (turn[(i, p)], turn[(i, q)]) = (cos * a - sin * b, sin * a + cos * b);
                }
            }
            if still {
                break;
            }
        }
        let squares = [0, 1, 2].map(|k| rows.iter().map(|row| row[k] * row[k]).sum::<f64>());
        let floor = RANK * RANK * squares.iter().fold(0.0, |m: f64, &s| m.max(s));
        Self { rows, turn, held: squares.map(|s| if s > floor { s } else { 0.0 }) }
    }

    /// Whether every direction is held.
    pub(super) fn full(&self) -> bool {
        self.held.iter().all(|&s| s > 0.0)
    }

    /// The part of a force along directions that nothing holds.
    pub(super) fn loose(&self, force: &Vector3<f64>) -> Vector3<f64> {
        self.parts(|k| self.held[k] == 0.0, |_| 1.0, force)
    }

    /// Displacement along held directions that takes up a force.
    pub(super) fn displacement(&self, force: &Vector3<f64>) -> Vector3<f64> {
        self.parts(|k| self.held[k] > 0.0, |k| 1.0 / self.held[k], force)
    }

    /// What that displacement gives in each row: √k b · u.
    pub(super) fn taken(&self, force: &Vector3<f64>) -> impl Iterator<Item = f64> {
        let amount = [0, 1, 2].map(|k| match self.held[k] {
            0.0 => 0.0,
            held => self.turn.column(k).dot(force) / held,
        });
        self.rows
            .iter()
            .map(move |row| row[0] * amount[0] + row[1] * amount[1] + row[2] * amount[2])
    }

    fn parts(
        &self,
        chosen: impl Fn(usize) -> bool,
        weight: impl Fn(usize) -> f64,
        force: &Vector3<f64>,
    ) -> Vector3<f64> {
        (0..3).filter(|&k| chosen(k)).fold(Vector3::zeros(), |sum, k| {
            let axis = self.turn.column(k);
            sum + axis * (axis.dot(force) * weight(k))
        })
    }
}
