//! Equilibrium of nodes joined by lines: Newton on the convex potential, Eq. (14).

use nalgebra::{DMatrix, DVector, Matrix3, Vector3};

use super::planar::{Damping, Stop, line_search};
use super::strand::Strand;

/// Lines between nodes. A node is free if `free` gives it a row.
#[derive(Debug, Clone)]
pub(crate) struct Tangle {
    pub position_m: Vec<Vector3<f64>>,
    pub load_n: Vec<Vector3<f64>>,
    /// For each node its place among the free ones.
    pub free: Vec<Option<usize>>,
    /// Start and end node of each line.
    pub ends: Vec<(usize, usize)>,
    pub strands: Vec<Strand>,
}

/// How well the nodes balance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Balance {
    /// Largest force left at a free node.
    pub residual_n: f64,
    /// That force over the largest tension, weight or load.
    pub residual: f64,
    pub iterations: u32,
}

/// Force left at a node, over the largest force about, at which it counts as balanced.
pub(super) const BALANCED: f64 = 1e-10;
/// More than any input in the tests needs; a stop, not a tuning.
const BUDGET: u32 = 200;

impl Tangle {
    fn free_count(&self) -> usize {
        self.free.iter().flatten().count()
    }

    /// Solves every line for the present positions.
    pub fn pull(&mut self) -> Result<(), Stop> {
        for (strand, &(from, to)) in self.strands.iter_mut().zip(&self.ends) {
            strand.solve(&(self.position_m[to] - self.position_m[from]))?;
        }
        Ok(())
    }

    /// Force on each node from lines and load, in the last state.
    pub fn forces_n(&self) -> Vec<Vector3<f64>> {
        let mut forces = self.load_n.clone();
        for (strand, &(from, to)) in self.strands.iter().zip(&self.ends) {
            forces[from] += strand.start_pull_n();
            forces[to] += strand.end_pull_n();
        }
        forces
    }

    /// Gradient of the potential over the free nodes: minus the forces.
    fn gradient(&self) -> DVector<f64> {
        let mut g = DVector::zeros(3 * self.free_count());
        for (force, row) in self.forces_n().iter().zip(&self.free) {
            if let Some(i) = row {
                g.fixed_rows_mut::<3>(3 * i).copy_from(&-force);
            }
        }
        g
    }

    /// Hessian of the potential: the tangent stiffness of the free nodes.
    pub fn stiffness(&self) -> DMatrix<f64> {
        let n = 3 * self.free_count();
        let mut k = DMatrix::zeros(n, n);
        let mut add = |row: usize, column: usize, part: &Matrix3<f64>| {
            let mut block = k.fixed_view_mut::<3, 3>(3 * row, 3 * column);
            block += part;
        };
        for (strand, &(from, to)) in self.strands.iter().zip(&self.ends) {
            let part = strand.stiffness_n_per_m();
            let (a, b) = (self.free[from], self.free[to]);
            for i in [a, b].into_iter().flatten() {
                add(i, i, &part);
            }
            if let (Some(i), Some(j)) = (a, b) {
                add(i, j, &-part);
                add(j, i, &-part);
            }
        }
        k
    }

    fn scale_n(&self) -> f64 {
        let lines = self.strands.iter().map(|s| {
            let (near, far) = s.tensions_n();
            near.max(far).max(s.weight_n())
        });
        lines.chain(self.load_n.iter().map(Vector3::norm)).fold(f64::MIN_POSITIVE, f64::max)
    }

    /// The least change of a node that its coordinates and those of its lines can show. A net of stiff
    /// lines is at rest when no shorter step would better it: stiffness times this may be more than the
    /// force that counts as balanced.
    fn resolution_m(&self) -> f64 {
        // A free node that nothing holds may be anywhere.
        let fixed = self.position_m.iter().zip(&self.free).filter(|(_, free)| free.is_none());
        let places = fixed.map(|(place, _)| place.amax());
        let lengths = self.strands.iter().map(|s| s.rest_m);
        4.0 * f64::EPSILON * places.chain(lengths).fold(0.0, f64::max)
    }

    fn balance(&self, g: &DVector<f64>, iterations: u32) -> Balance {
        let residual_n =
            (0..g.len() / 3).map(|i| g.fixed_rows::<3>(3 * i).norm()).fold(0.0, f64::max);
        Balance { residual_n, residual: residual_n / self.scale_n(), iterations }
    }

    /// Moves the free nodes until every one balances. The positions given are where the search starts.
    pub fn settle(&mut self) -> Result<Balance, Stop> {
        self.pull()?;
        let mut g = self.gradient();
        let mut damping = Damping::default();
        for iterations in 0..BUDGET {
            let balance = self.balance(&g, iterations);
            if balance.residual <= BALANCED {
                return Ok(balance);
            }
            let Some(step) = self.newton_step(&g, damping.share()) else {
                return Err(stalled(balance));
            };
            if damping.share() < 1.0 && step.amax() <= self.resolution_m() {
                return Ok(balance);
            }
            let slope = g.dot(&step);
            if !(slope < 0.0 && slope.is_finite()) {
                return Err(stalled(balance));
            }
            let start = self.position_m.clone();
            let taken = line_search(slope, |share| {
                self.place(&start, &step, share);
                match self.pull() {
                    Ok(()) => {
                        g = self.gradient();
                        g.dot(&step)
                    }
                    Err(_) => f64::NAN,
                }
            });
            // The search may end on a share whose state it has left again.
            self.place(&start, &step, taken);
            self.pull()?;
            g = self.gradient();
            damping.learn(taken);
        }
        Err(stalled(self.balance(&g, BUDGET)))
    }

    /// Newton step with a share of the trace on the diagonal: a slack line without weight gives no
    /// stiffness, so a small share always stays.
    fn newton_step(&self, g: &DVector<f64>, share: f64) -> Option<DVector<f64>> {
        let k = self.stiffness();
        let n = g.len();
        let trace = k.trace();
        // Without any stiffness a node falls until a line holds it: any positive scale will do.
        let unit = if trace > 0.0 { trace / n as f64 } else { self.scale_n() };
        let mut extra = (share * unit).max(1e-13 * unit);
        for _ in 0..40 {
            let damped = &k + DMatrix::identity(n, n) * extra;
            if let Some(factor) = damped.cholesky() {
                return Some(-factor.solve(g));
            }
            extra *= 10.0;
        }
        None
    }

    fn place(&mut self, start: &[Vector3<f64>], step: &DVector<f64>, share: f64) {
        for ((position, from), row) in self.position_m.iter_mut().zip(start).zip(&self.free) {
            if let Some(i) = row {
                *position = from + step.fixed_rows::<3>(3 * i) * share;
            }
        }
    }
}

/// The residual of a node stands in for the one of a line.
fn stalled(balance: Balance) -> Stop {
    Stop::Unbalanced { residual_n: balance.residual_n, iterations: balance.iterations }
}
