//! Wind that stays across a line while the line gives way to it: passes of dead wind, each at the shape
//! of the last.

use nalgebra::Vector3;

use super::LineError;
use super::drag::Drag;
use super::links::Links;

/// A link whose wind follows it.
#[derive(Debug, Clone)]
pub(super) struct Blown {
    pub link: usize,
    /// Load per rest length without the gust.
    pub dead_n_per_m: Vector3<f64>,
    pub drag: Drag,
    pub gust_n_per_m: Vector3<f64>,
}

/// How the wind was found.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Followed {
    pub passes: u32,
    /// Largest change of the wind on a link in the last pass, over the largest load of a link.
    pub residual: f64,
}

/// Passes made at most: wind much heavier than the line needs some twenty.
const BUDGET: u32 = 200;
/// Change of the wind, over the largest load, at which it counts as found.
const FOUND: f64 = 1e-11;

impl Links {
    /// Turns the wind on the links that it follows across them, in the shape that it gives them.
    ///
    /// Fixed-point passes, relaxed by Aitken's factor: the wind on a line that it blows about may
    /// overshoot.
    pub fn follow(&mut self, blown: &[Blown], chord_m: &Vector3<f64>) -> Result<(), LineError> {
        if blown.is_empty() {
            return Ok(());
        }
        let mut blown = blown.to_vec();
        let mut last: Option<Vec<Vector3<f64>>> = None;
        let mut relax = 1.0_f64;
        let mut state = self.solve(chord_m)?;
        for passes in 1..=BUDGET {
            let change = self.changes(&blown, state.pull_n)?;
            let loads = self.0.iter().map(|l| l.q_n_per_m);
            let largest = loads.fold(f64::MIN_POSITIVE, f64::max);
            let residual = change.iter().map(Vector3::norm).fold(0.0, f64::max) / largest;
            self.1 = Followed { passes, residual };
            if residual <= FOUND {
                return Ok(());
            }
            if let Some(last) = &last {
                let (mut up, mut down) = (0.0, 0.0);
                for (new, old) in change.iter().zip(last) {
                    let turn = new - old;
                    up += old.dot(&turn);
                    down += turn.norm_squared();
                }
                let aitken = -relax * up / down;
                relax = if aitken.is_finite() { aitken.clamp(0.05, 2.0) } else { 1.0 };
            }
            for (wind, change) in blown.iter_mut().zip(&change) {
                wind.gust_n_per_m += change * relax;
                self.0[wind.link].set_load(&(wind.dead_n_per_m + wind.gust_n_per_m));
            }
            last = Some(change);
            state = self.solve_from(state.pull_n, chord_m).or_else(|_| self.solve(chord_m))?;
        }
        let Followed { passes, residual } = self.1;
        let unit = "of the largest load per length";
        Err(LineError::NotConverged { residual, unit, iterations: passes })
    }

    /// Wind across each link as it lies, less the wind on it.
    fn changes(
        &self,
        blown: &[Blown],
        pull_n: Vector3<f64>,
    ) -> Result<Vec<Vector3<f64>>, LineError> {
        let mut run = Self::start(pull_n);
        let mut winds = blown.iter().peekable();
        let mut changes = Vec::with_capacity(blown.len());
        for (i, link) in self.0.iter().enumerate() {
            let from = run.end_m;
            if link.rest_m > 0.0 {
                link.extend(&mut run);
            }
            if let Some(wind) = winds.next_if(|wind| wind.link == i) {
                let lies = run.end_m - from;
                let across = if lies == Vector3::zeros() {
                    // A fold of equal halves has no direction as a whole.
                    wind.gust_n_per_m
                } else {
                    wind.drag.across(&lies)?
                };
                changes.push(across - wind.gust_n_per_m);
            }
            run.pull_n -= link.load_n;
        }
        Ok(changes)
    }
}
