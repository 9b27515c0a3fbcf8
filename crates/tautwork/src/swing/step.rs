//! A step of the integrator, read anywhere between its ends.

use super::beat::{Beat, Turn, angle};

/// One step, readable anywhere between its ends.
#[derive(Debug, Clone, Default)]
pub(super) struct Step {
    /// Time at the start, s.
    pub t_s: f64,
    /// Length of the step, s.
    pub h_s: f64,
    /// Components without those that fill up the last block.
    pub size: usize,
    /// State at the start, whole blocks.
    pub from: Vec<f64>,
    /// State at the end, whole blocks.
    pub to: Vec<f64>,
    pub terms: [Vec<f64>; 7],
    /// What the numbers read are carried by.
    pub turn: Option<Turn>,
}

impl Step {
    /// State at the fraction `theta` of the step, to seventh order; exact at both ends.
    pub fn read(&self, theta: f64, out: &mut [f64]) {
        let rest = 1.0 - theta;
        let n = out.len();
        let [a, b, c, d, e, f, g] = self.terms.each_ref().map(|term| &term[..n]);
        let start = &self.from[..n];
        for i in 0..n {
            let high = d[i] + theta * (e[i] + rest * (f[i] + theta * g[i]));
            out[i] = start[i] + theta * (a[i] + rest * (b[i] + theta * (c[i] + rest * high)));
        }
        if let Some(turn) = self.turn {
            turn.carry(out, angle(turn.beat.per_s * theta * self.h_s));
        }
    }

    /// One component at the fraction `theta` of the step.
    pub fn component(&self, i: usize, theta: f64) -> f64 {
        match self.turn {
            Some(turn) if [turn.beat.place, turn.beat.speed].contains(&i) => {
                let Beat { place, speed, per_s } = turn.beat;
                let mut both = [self.carried(place, theta), self.carried(speed, theta)];
                turn.carry_pair(&mut both, angle(per_s * theta * self.h_s));
                both[usize::from(i == speed)]
            }
            _ => self.carried(i, theta),
        }
    }

    fn carried(&self, i: usize, theta: f64) -> f64 {
        let rest = 1.0 - theta;
        let [a, b, c, d, e, f, g] = self.terms.each_ref().map(|term| term[i]);
        let high = d + theta * (e + rest * (f + theta * g));
        self.from[i] + theta * (a + rest * (b + theta * (c + rest * high)))
    }

    /// State at the start.
    pub fn start(&self) -> &[f64] {
        &self.from[..self.size]
    }

    /// State at the end.
    pub fn end(&self) -> &[f64] {
        &self.to[..self.size]
    }
}
