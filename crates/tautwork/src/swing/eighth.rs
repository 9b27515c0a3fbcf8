//! Dormand-Prince 8(5,3) with dense output, for the events of a jump.
//!
//! Contract: one explicit step at a time, of a size that keeps the scaled local error (root mean square
//! over the state) at or below one; between its ends a step is read by its sixth-order continuous
//! extension. The integrator moves only when told to, so that its owner can look for an event inside a
//! step first and retake the step up to that event at full order. Every attempt counts against a budget.
//!
//! Of eighth order because a ring on taut lines moves fast and smoothly: a tolerance of 1e-8 takes a third
//! of the steps of the fifth order.

use super::beat::{Angle, Beat, Bouncing, MOST_TURN, Turn, angles};
use super::dop853::{FIFTH, STAGES, STEP, THIRD, Term};
use super::step::{BLOCK, Step};
use crate::ode::{Control, Halt, Rates};

/// Step that is tried, over the one that the error would allow.
const SHARE: f64 = 0.88;
/// A step grows to [`NEAR`] times its length at most, or to [`MOST`] times where [`FAR`] times would do: found
/// by trial to take the fewest evaluations for jumps on taut lines.
const NEAR: f64 = 1.15;
const FAR: f64 = 3.0;
const MOST: f64 = 6.0;
/// Stages after the first, the end of the step among them.
const NODES: usize = 12;

/// x to the power of 1/8.
fn eighth_root(x: f64) -> f64 {
    x.sqrt().sqrt().sqrt()
}

fn padded(values: &[f64]) -> Vec<f64> {
    let mut all = values.to_vec();
    all.resize(values.len().next_multiple_of(BLOCK), 0.0);
    all
}

/// to = from + h Σ weight k, N components: their sums stay in registers. `k` starts at the first of them, and
/// its stages are `stride` apart.
#[inline(never)]
fn part<const N: usize>(
    to: &mut [f64],
    from: &[f64],
    h: f64,
    terms: &[Term],
    (k, stride): (&[f64], usize),
) {
    let ends = (to.first_chunk_mut::<N>(), from.first_chunk::<N>());
    let (Some(to), Some(from)) = ends else { return };
    let mut sum = [0.0; N];
    for (stage, weight) in terms {
        let Some(k) = k.get(*stage * stride..).and_then(|k| k.first_chunk::<N>()) else { return };
        for i in 0..N {
            sum[i] += weight * k[i];
        }
    }
    for i in 0..N {
        to[i] = from[i] + h * sum[i];
    }
}

/// to = from + h Σ weight k, as many components as are wanted. A jump with one or two ropes has seventeen or
/// eighteen, of which its rates ask for the first thirteen or fourteen.
fn advanced(to: &mut [f64], from: &[f64], h: f64, terms: &[Term], k: &[f64]) {
    let stride = from.len();
    match to.len() {
        16 => part::<16>(to, from, h, terms, (k, stride)),
        20 => part::<20>(to, from, h, terms, (k, stride)),
        _ => {
            for at in (0..to.len()).step_by(BLOCK) {
                part::<BLOCK>(&mut to[at..], &from[at..], h, terms, (&k[at..], stride));
            }
        }
    }
}

/// The integrator: state, step size and work counters.
#[derive(Debug)]
pub(super) struct Eighth {
    /// Time, s.
    pub t_s: f64,
    /// Last step tried by [`Self::advance`] or [`Self::shorten`].
    pub step: Step,
    /// Attempts so far, kept or rejected.
    pub attempts: usize,
    control: Control,
    h_s: f64,
    longest_s: f64,
    beat: Option<Beat>,
    turn: Option<Turn>,
    /// Parts of a step at which its stages after the first are, and by what angle the bounce has turned there
    /// in a step of the length `turned_s`.
    nodes: [f64; NODES],
    angles: [Angle; NODES],
    turned_s: f64,
    /// Acceleration of what bounces at the end of the step, and its numbers as they are carried.
    end_rate: f64,
    end: [f64; 2],
    y: Vec<f64>,
    /// Rates of all stages, one after the other.
    k: Vec<f64>,
    stage: Vec<f64>,
    /// Components that the rates ask for, as whole blocks.
    asked: usize,
    errors: [Vec<f64>; 2],
    zero: Vec<f64>,
}

impl Eighth {
    /// Ready at time zero in state `y`, of which the rates ask for the first `asked` components only; the first
    /// step is a guess that the error control corrects.
    pub fn new<R: Bouncing>(rates: &mut R, y: &[f64], asked: usize, control: Control) -> Self {
        let size = y.len();
        let y = padded(y);
        let zero = vec![0.0; y.len()];
        let k = vec![0.0; (NODES + 1) * y.len()];
        let (from, to, carried) = (y.clone(), y.clone(), y.clone());
        let step = Step { t_s: 0.0, h_s: 0.0, size, from, to, carried, k: k.clone(), turn: None };
        let mut new = Self {
            t_s: 0.0,
            step,
            attempts: 0,
            h_s: control.longest_s * 1e-2,
            longest_s: control.longest_s,
            control,
            beat: None,
            turn: None,
            nodes: nodes(),
            angles: [[0.0, 1.0]; NODES],
            turned_s: 0.0,
            end_rate: 0.0,
            end: [0.0; 2],
            k,
            stage: zero.clone(),
            asked: asked.min(size).next_multiple_of(BLOCK),
            errors: [zero.clone(), zero.clone()],
            zero,
            y,
        };
        new.restart(rates);
        new
    }

    /// The present state.
    pub fn y(&self) -> &[f64] {
        &self.y[..self.step.size]
    }

    /// Finds the next step that meets the tolerance, no longer than `limit_s`, into [`Self::step`].
    pub fn advance<R: Rates>(&mut self, rates: &mut R, limit_s: f64) -> Result<(), Halt> {
        let mut rejected = false;
        loop {
            let h = self.h_s.min(self.longest_s).min(limit_s);
            if self.t_s + h <= self.t_s {
                return Err(Halt::Stalled);
            }
            let error = self.attempt(rates, h)?;
            // A NaN error is a rejection too.
            if error <= 1.0 {
                let grow = SHARE / eighth_root(error.max(1e-10));
                // A bouncing ring lets a step grow that its next bounce would refuse.
                let most = if rejected {
                    1.0
                } else if grow < FAR {
                    NEAR
                } else {
                    MOST
                };
                let grow = grow.clamp(0.3, most);
                // A step cut short by `limit_s` says nothing against a longer one.
                self.h_s =
                    if h < self.h_s { self.h_s.min(h * MOST).max(h * grow) } else { h * grow };
                self.fill(h);
                return Ok(());
            }
            rejected = true;
            let shrink = if error.is_finite() { SHARE / eighth_root(error) } else { 0.1 };
            self.h_s = h * shrink.clamp(0.1, 0.9);
        }
    }

    /// Retakes the step found by [`Self::advance`] over its first `theta` only, at full order.
    pub fn shorten<R: Rates>(&mut self, rates: &mut R, theta: f64) -> Result<(), Halt> {
        let h = self.step.h_s * theta;
        if self.t_s + h <= self.t_s {
            return Err(Halt::Stalled);
        }
        self.attempt(rates, h)?;
        self.fill(h);
        Ok(())
    }

    /// Makes the next step found by [`Self::advance`] half as long as the present one, which is not kept.
    pub fn halve(&mut self) {
        self.h_s = 0.5 * self.step.h_s;
    }

    /// Moves to the end of the step.
    pub fn commit(&mut self) {
        self.t_s = self.step.t_s + self.step.h_s;
        self.y.copy_from_slice(&self.step.to);
        // First same as last: the rates at the end of this step begin the next one.
        let n = self.y.len();
        self.k[..n].copy_from_slice(&self.step.k[NODES * n..]);
        if let Some(beat) = self.beat {
            self.k[beat.speed] = self.end_rate;
        }
        self.begin();
    }

    /// Takes the rates anew, after they changed at this instant.
    pub fn renew<R: Rates>(&mut self, rates: &mut R) {
        let n = self.y.len();
        rates.rates(&self.y, &mut self.k[..n]);
        self.begin();
    }

    /// Takes the rates anew and the bounce too.
    pub fn restart<R: Bouncing>(&mut self, rates: &mut R) {
        self.beat = rates.beat(&self.y);
        let longest_s = self.beat.map_or(f64::INFINITY, |beat| MOST_TURN / beat.per_s);
        self.longest_s = self.control.longest_s.min(longest_s);
        self.turned_s = 0.0;
        self.renew(rates);
    }

    /// Carries the bounce from here on; at the start of a step nothing is left for its rates.
    fn begin(&mut self) {
        self.turn = self.beat.map(|beat| Turn::new(beat, &self.y, &self.k));
        if let Some(beat) = self.beat {
            (self.k[beat.place], self.k[beat.speed]) = (0.0, 0.0);
        }
    }

    /// The angles of the bounce in a step of the length h.
    fn turned_by(&mut self, h: f64) {
        if let Some(beat) = self.beat
            && h != self.turned_s
        {
            let whole = beat.per_s * h;
            self.angles = angles(self.nodes.map(|node| whole * node));
            self.turned_s = h;
        }
    }

    /// Stage `s` after the first: its numbers carried are in the vector of stages, its rates come to be `k`. Answers
    /// the acceleration of what bounces; zero where nothing does.
    fn stage<R: Rates>(&mut self, rates: &mut R, s: usize) -> f64 {
        let n = self.y.len();
        let k = &mut self.k[s * n..][..n];
        // The angles leave out the first stage.
        let turn = self.turn.zip(self.angles.get(s - 1));
        if let Some((turn, angle)) = turn {
            turn.carry(&mut self.stage, *angle);
        }
        rates.rates(&self.stage, k);
        let Some((turn, angle)) = turn else { return 0.0 };
        let acceleration = k[turn.beat.speed];
        turn.carry_back(&self.stage, k, *angle);
        acceleration
    }

    fn attempt<R: Rates>(&mut self, rates: &mut R, h: f64) -> Result<f64, Halt> {
        if self.attempts >= self.control.budget {
            return Err(Halt::Budget);
        }
        self.attempts += 1;
        self.turned_by(h);
        for (s, terms) in STAGES.iter().enumerate() {
            advanced(&mut self.stage[..self.asked], &self.y, h, terms, &self.k);
            self.stage(rates, s + 1);
        }
        advanced(&mut self.stage, &self.y, h, STEP, &self.k);
        if let Some(beat) = self.beat {
            self.end = [self.stage[beat.place], self.stage[beat.speed]];
        }
        self.end_rate = self.stage(rates, 12);
        let [fifth, third] = &mut self.errors;
        advanced(fifth, &self.zero, h, FIFTH, &self.k);
        advanced(third, &self.zero, h, THIRD, &self.k);
        if let Some(beat) = self.beat {
            beat.turn(fifth, self.angles[11]);
            beat.turn(third, self.angles[11]);
        }
        let (mut five, mut three) = (0.0, 0.0);
        for (i, atol) in self.control.atol.iter().enumerate() {
            let size = self.y[i].abs().max(self.stage[i].abs());
            let scale = 1.0 / (atol + self.control.rtol * size);
            five += (fifth[i] * scale) * (fifth[i] * scale);
            three += (third[i] * scale) * (third[i] * scale);
        }
        if five == 0.0 && three == 0.0 {
            return Ok(0.0);
        }
        Ok(five / ((five + 0.01 * three) * self.control.atol.len() as f64).sqrt())
    }

    /// Makes the step just tried the one to read.
    fn fill(&mut self, h: f64) {
        let n = self.y.len();
        self.step.t_s = self.t_s;
        self.step.h_s = h;
        self.step.from.copy_from_slice(&self.y);
        self.step.to.copy_from_slice(&self.stage);
        self.step.carried.copy_from_slice(&self.stage);
        if let Some(beat) = self.beat {
            [self.step.carried[beat.place], self.step.carried[beat.speed]] = self.end;
        }
        self.step.turn = self.turn;
        core::mem::swap(&mut self.step.k, &mut self.k);
        self.k[..n].copy_from_slice(&self.step.k[..n]);
    }
}

/// Parts of a step at which the stages after the first are: the sums of their weights.
fn nodes() -> [f64; NODES] {
    let stages = STAGES.into_iter().chain([STEP]);
    let sum = |terms: &[Term]| terms.iter().map(|(_, weight)| weight).sum();
    let mut nodes = [0.0; NODES];
    for (node, terms) in nodes.iter_mut().zip(stages) {
        *node = sum(terms);
    }
    nodes
}

#[cfg(test)]
mod tests;
