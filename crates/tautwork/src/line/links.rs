//! A chain as uniform links with loads between them: Newton on the convex complementary energy,
//! Eq. (10), in space.

use nalgebra::{Matrix3, Vector3};

use super::LineError;
use super::chain::Chain;
use super::net::vector;
use super::planar::{CLOSED, Damping, Stop, line_search};
use super::segment::Uniform;
use super::strand::{Strand, perpendicular, stiffness_n_per_m};
use crate::material::Law;
use crate::quantity::check::{between, non_negative, positive};
use crate::quantity::{Invalid, Length, Quantity};

/// A uniform stretch between two joints, and the load at its end.
#[derive(Debug, Clone)]
pub(super) struct Link {
    pub q_n_per_m: f64,
    /// Direction of the load along the link.
    pub down: Vector3<f64>,
    pub rest_m: f64,
    pub law: Law,
    pub load_n: Vector3<f64>,
}

#[derive(Debug, Clone)]
pub(super) struct Links(pub Vec<Link>);

pub(super) struct LinksState {
    pub pull_n: Vector3<f64>,
    pub residual_m: f64,
    pub scale_m: f64,
    pub iterations: u32,
}

/// End of the chain, its derivative by the pull at the start, and the pull at the end.
pub(super) struct Run {
    pub end_m: Vector3<f64>,
    pub flexibility: Matrix3<f64>,
    pub pull_n: Vector3<f64>,
}

/// A point along a solved chain.
pub(super) struct Mark {
    pub place_m: Vector3<f64>,
    pub pull_n: Vector3<f64>,
    pub strain: f64,
}

const BUDGET: u32 = 200;

impl Links {
    pub fn new(chain: &Chain) -> Result<Self, LineError> {
        let within = |i: usize| move |e: Invalid| e.within(&format!("pieces[{i}]"));
        let mut lengths = Vec::new();
        for (i, piece) in chain.pieces.iter().enumerate() {
            lengths.push(positive("rest_length", piece.rest_length).map_err(within(i))?);
        }
        let total: f64 = lengths.iter().sum();
        if lengths.is_empty() {
            return Err(refused("pieces", "empty", "at least one piece"));
        }
        if !(2..=100_000).contains(&chain.samples) {
            return Err(refused("samples", &chain.samples.to_string(), "from 2 to 100000"));
        }
        let mut loads = Vec::new();
        for (i, load) in chain.loads.iter().enumerate() {
            let inside = |e: Invalid| e.within(&format!("loads[{i}]"));
            let zero = Length::from_si(0.0);
            let at = between("at", load.at, zero, Length::from_si(total)).map_err(inside)?;
            loads.push((at, vector("force", &load.force).map_err(inside)?));
        }
        loads.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut links = Vec::new();
        let mut from = 0.0;
        for (i, (piece, length)) in chain.pieces.iter().zip(&lengths).enumerate() {
            let weight = non_negative("weight", piece.weight).map_err(within(i))?;
            let wind = vector("wind", &piece.wind).map_err(within(i))?;
            let q = wind - Vector3::z() * weight;
            let q_n_per_m = q.norm();
            let down = if q_n_per_m > 0.0 { q / q_n_per_m } else { -Vector3::z() };
            let law = piece.stretch.law().clone();
            let last = i + 1 == lengths.len();
            let to = if last { total } else { from + length };
            let mut at = from;
            // A load at a joint belongs to the piece before it; one at the very end changes no shape.
            while let Some(&(s, force)) = loads.first()
                && (s <= to || last)
            {
                loads.remove(0);
                links.push(Link {
                    q_n_per_m,
                    down,
                    rest_m: s - at,
                    law: law.clone(),
                    load_n: force,
                });
                at = s;
            }
            links.push(Link { q_n_per_m, down, rest_m: to - at, law, load_n: Vector3::zeros() });
            from = to;
        }
        Ok(Self(links))
    }

    pub fn length_m(&self) -> f64 {
        self.0.iter().map(|l| l.rest_m).sum()
    }

    /// A run at the near end.
    pub fn start(pull_n: Vector3<f64>) -> Run {
        Run { end_m: Vector3::zeros(), flexibility: Matrix3::zeros(), pull_n }
    }

    pub fn run(&self, pull_n: Vector3<f64>) -> Run {
        let mut run = Self::start(pull_n);
        for link in &self.0 {
            if link.rest_m > 0.0 {
                link.extend(&mut run);
            }
            run.pull_n -= link.load_n;
        }
        run
    }

    /// The pull at the start that closes the chain on its chord.
    pub fn solve(&self, chord_m: &Vector3<f64>) -> Result<LinksState, Stop> {
        let scale_m = chord_m.norm().max(self.length_m());
        let mut pull = self.guess(chord_m)?;
        let mut run = self.run(pull);
        let mut damping = Damping::default();
        let mut polished = false;
        for iterations in 0..BUDGET {
            let g = run.end_m - chord_m;
            let residual_m = g.norm();
            let closed = residual_m <= CLOSED * scale_m;
            if closed && polished {
                return Ok(LinksState { pull_n: pull, residual_m, scale_m, iterations });
            }
            polished = closed;
            let share = if closed { 0.0 } else { damping.share() };
            let trace = run.flexibility.trace();
            let damped = run.flexibility + Matrix3::identity() * (share * trace);
            let step = damped.cholesky().map(|c| -c.solve(&g));
            let Some(step) = step.filter(|s| s.iter().all(|x| x.is_finite())) else {
                return Err(Stop::Stalled { residual_m, iterations });
            };
            let slope = g.dot(&step);
            if slope >= 0.0 {
                // Rounding only: there is nothing left to gain.
                return if residual_m <= 100.0 * CLOSED * scale_m {
                    Ok(LinksState { pull_n: pull, residual_m, scale_m, iterations })
                } else {
                    Err(Stop::Stalled { residual_m, iterations })
                };
            }
            let start = pull;
            let taken = line_search(slope, |share| {
                pull = start + step * share;
                run = self.run(pull);
                (run.end_m - chord_m).dot(&step)
            });
            pull = start + step * taken;
            run = self.run(pull);
            damping.learn(taken);
        }
        let residual_m = (run.end_m - chord_m).norm();
        if residual_m <= 1e3 * CLOSED * scale_m {
            return Ok(LinksState { pull_n: pull, residual_m, scale_m, iterations: BUDGET });
        }
        Err(Stop::Stalled { residual_m, iterations: BUDGET })
    }

    /// The pull of a uniform line with the same total load and mean flexibility.
    fn guess(&self, chord_m: &Vector3<f64>) -> Result<Vector3<f64>, Stop> {
        let length_m = self.length_m();
        let weight = self.0.iter().map(|l| l.down * (l.q_n_per_m * l.rest_m));
        let total: Vector3<f64> =
            weight.sum::<Vector3<f64>>() + self.0.iter().map(|l| l.load_n).sum::<Vector3<f64>>();
        let slope: f64 = self.0.iter().map(|l| l.rest_m * l.law.strain_and_slope(0.0).1).sum();
        let law = Law::Linear { ea_n: length_m / slope };
        let mut strand = Strand::new(length_m, total / length_m, law);
        if strand.solve(chord_m)? {
            return Ok(strand.start_pull_n());
        }
        // Slack as a whole without a net load: loads that cancel may still hold it open.
        let largest = self.0.iter().map(|l| l.load_n.norm()).fold(0.0, f64::max);
        if largest > 0.0 {
            let along = chord_m.try_normalize(0.0).unwrap_or_else(Vector3::x);
            return Ok(along * largest);
        }
        Err(Stop::Slack)
    }

    /// Rest arc lengths inside links at which the line runs across `normal`: T(s) is linear in s.
    pub fn turns_m(&self, mut pull_n: Vector3<f64>, normal: &Vector3<f64>) -> Vec<f64> {
        let mut turns = Vec::new();
        let mut from = 0.0;
        for link in &self.0 {
            let q = link.down * link.q_n_per_m;
            let s = pull_n.dot(normal) / q.dot(normal);
            if s > 0.0 && s < link.rest_m {
                turns.push(from + s);
            }
            pull_n -= q * link.rest_m + link.load_n;
            from += link.rest_m;
        }
        turns
    }

    /// What is at rest arc length s, just before a load there.
    pub fn at(&self, pull_n: Vector3<f64>, s_m: f64) -> Mark {
        let mark = |run: &Run, link: &Link| {
            let tension_n = run.pull_n.norm();
            Mark { place_m: run.end_m, pull_n: run.pull_n, strain: link.law.strain(tension_n) }
        };
        let mut run = Run { end_m: Vector3::zeros(), flexibility: Matrix3::zeros(), pull_n };
        let mut left = s_m;
        for link in &self.0 {
            if left <= link.rest_m {
                if left > 0.0 {
                    Link { rest_m: left, ..link.clone() }.extend(&mut run);
                }
                return mark(&run, link);
            }
            left -= link.rest_m;
            if link.rest_m > 0.0 {
                link.extend(&mut run);
            }
            run.pull_n -= link.load_n;
        }
        // Rounding of the last length only: there is at least one link.
        let strain = self.0.last().map_or(0.0, |link| link.law.strain(run.pull_n.norm()));
        Mark { place_m: run.end_m, pull_n: run.pull_n, strain }
    }
}

impl Link {
    /// Splits a pull into its parts along and across the load.
    fn split(&self, pull: &Vector3<f64>) -> (f64, f64, Vector3<f64>) {
        let v = pull.dot(&self.down);
        let flat = pull - self.down * v;
        let h = flat.norm();
        let across = if h > 0.0 { flat / h } else { perpendicular(&self.down) };
        (h, v, across)
    }

    fn uniform(&self) -> Uniform<'_> {
        Uniform { q_n_per_m: self.q_n_per_m, rest_m: self.rest_m, law: &self.law }
    }

    /// Derivative of the pull at its start by its chord, at that pull.
    pub fn stiffness_n_per_m(&self, pull_n: &Vector3<f64>) -> Matrix3<f64> {
        let (h, v, across) = self.split(pull_n);
        stiffness_n_per_m(&self.uniform().at(h, v), &self.down, &across)
    }

    /// Adds this link to a run that has come to its start.
    pub fn extend(&self, run: &mut Run) {
        let (h, v, across) = self.split(&run.pull_n);
        let p = self.uniform().at(h, v);
        let down = self.down;
        run.end_m += across * p.across_m + down * p.along_m;
        let out = down.cross(&across);
        let mixed = across * down.transpose();
        run.flexibility += across * across.transpose() * p.hh
            + (mixed + mixed.transpose()) * p.hv
            + down * down.transpose() * p.vv
            + out * out.transpose() * p.out;
        run.pull_n -= down * (self.q_n_per_m * self.rest_m);
    }

    pub fn stretched_m(&self, pull: &Vector3<f64>) -> f64 {
        if self.rest_m == 0.0 {
            return 0.0;
        }
        let (h, v, _) = self.split(pull);
        self.uniform().stretched_m(h, v)
    }
}

fn refused(parameter: &str, value: &str, allowed: &str) -> LineError {
    LineError::Invalid(Invalid {
        parameter: parameter.to_owned(),
        value: value.to_owned(),
        allowed: allowed.to_owned(),
    })
}
