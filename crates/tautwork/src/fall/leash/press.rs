//! How a point of a line gives way to a vertical force, and the energy that takes.

use crate::line::{Chain, ChainLoad, ChainSolution, LineError, solve_chain};
use crate::quantity::{Force, Length, Quantity};

/// Nodes above zero and weights of Gauss and Legendre on eight points (Abramowitz and Stegun, table 25.4,
/// from memory; a test integrates powers).
const GAUSS: [(f64, f64); 4] = [
    (0.183_434_642_495_649_8, 0.362_683_783_378_362),
    (0.525_532_409_916_329, 0.313_706_645_877_887_3),
    (0.796_666_477_413_626_7, 0.222_381_034_453_374_5),
    (0.960_289_856_497_536_3, 0.101_228_536_290_376_3),
];
/// Error of an integral, as part of force times depth, below which a range is not halved again.
const TOLERANCE: f64 = 1e-10;
/// Equilibria after which ranges are no longer halved; what is then missing is in the residual.
const BUDGET: usize = 20_000;
/// Halvings of a range of force: a weightless level line gives way with the cube root of a small force.
const HALVINGS: usize = 40;

/// A line pressed at one point.
pub(super) struct Press {
    chain: Chain,
    free_m: f64,
    /// The line without the force.
    pub free: ChainSolution,
    /// Equilibria solved.
    pub solves: usize,
    /// Estimated error of all integrals so far.
    pub missed_j: f64,
}

impl Press {
    pub fn new(chain: &Chain, at: Length) -> Result<Self, LineError> {
        let zero = Force::from_si(0.0);
        let mut chain = chain.clone();
        chain.samples = 2;
        chain.loads.push(ChainLoad { at, force: [zero; 3] });
        let free = solve_chain(&chain)?;
        let free_m = height_m(&free);
        Ok(Self { chain, free_m, free, solves: 1, missed_j: 0.0 })
    }

    /// The line under a force.
    pub fn state(&mut self, p_n: f64) -> Result<ChainSolution, LineError> {
        if let Some(load) = self.chain.loads.last_mut() {
            load.force[2] = Force::from_si(-p_n);
        }
        self.solves += 1;
        solve_chain(&self.chain)
    }

    /// y(P).
    pub fn depth_m(&mut self, p_n: f64) -> Result<f64, LineError> {
        Ok(self.free_m - height_m(&self.state(p_n)?))
    }

    /// ∫ y dP between two forces, Eq. (L3).
    pub fn area_j(&mut self, from_n: f64, to_n: f64) -> Result<f64, LineError> {
        let enough_j = TOLERANCE * to_n * self.depth_m(to_n)?;
        let whole = self.gauss(from_n, to_n)?;
        self.refine(from_n, to_n, whole, enough_j, HALVINGS)
    }

    /// Halves a range until both halves agree with the whole.
    fn refine(
        &mut self,
        from_n: f64,
        to_n: f64,
        whole_j: f64,
        enough_j: f64,
        halvings: usize,
    ) -> Result<f64, LineError> {
        let mid_n = 0.5 * (from_n + to_n);
        let (low_j, high_j) = (self.gauss(from_n, mid_n)?, self.gauss(mid_n, to_n)?);
        let off_j = (low_j + high_j - whole_j).abs();
        let spent = halvings == 0 || self.solves > BUDGET || off_j.is_nan();
        if off_j <= enough_j || spent {
            self.missed_j += off_j;
            return Ok(low_j + high_j);
        }
        Ok(self.refine(from_n, mid_n, low_j, 0.5 * enough_j, halvings - 1)?
            + self.refine(mid_n, to_n, high_j, 0.5 * enough_j, halvings - 1)?)
    }

    fn gauss(&mut self, from_n: f64, to_n: f64) -> Result<f64, LineError> {
        let (mid, half) = (0.5 * (from_n + to_n), 0.5 * (to_n - from_n));
        let mut sum = 0.0;
        for (node, weight) in GAUSS {
            for p_n in [mid - half * node, mid + half * node] {
                sum += weight * self.depth_m(p_n)?;
            }
        }
        Ok(half * sum)
    }
}

/// Height of the point that is pressed.
fn height_m(solved: &ChainSolution) -> f64 {
    solved.loads.last().map_or(f64::NAN, |load| load.position[2].si())
}

#[cfg(test)]
mod tests {
    use super::GAUSS;

    #[test]
    fn eight_points_integrate_fifteen_powers() {
        for power in (0..16).step_by(2) {
            let sum: f64 = GAUSS.iter().map(|(x, w)| 2.0 * w * x.powi(power)).sum();
            assert!((sum - 2.0 / f64::from(power + 1)).abs() < 1e-14, "{power}");
        }
    }
}
