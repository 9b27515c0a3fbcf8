//! A chain as uniform links with loads between them: Newton on the convex complementary energy,
//! Eq. (10), in space.

use std::sync::Arc;

use nalgebra::{Matrix3, Vector3};

use super::LineError;
use super::chain::{Chain, ChainPiece};
use super::drag::Drag;
use super::follow::{Blown, Followed};
use super::net::vector;
use super::planar::{CLOSED, Damping, Stop, line_search};
use super::segment::Uniform;
use super::strand::{Strand, split, stiffness_n_per_m};
use crate::material::{Law, MaterialError};
use crate::quantity::check::{self, between, non_negative, positive};
use crate::quantity::{Invalid, Length, Quantity, Ratio};

/// A uniform stretch between two joints, and the load at its end.
#[derive(Debug, Clone)]
pub(super) struct Link {
    /// Rest arc length at its start, from the near end of the chain.
    pub from_m: f64,
    /// The piece it is cut from.
    pub piece: usize,
    pub q_n_per_m: f64,
    /// Direction of the load along the link.
    pub down: Vector3<f64>,
    pub rest_m: f64,
    pub law: Arc<Law>,
    pub load_n: Vector3<f64>,
    /// Index of the load at its end, if there is one.
    pub load: Option<usize>,
    /// Rest length now over the rest length that all else counts on.
    pub lengthening: f64,
}

/// The links, and how the wind on those that it follows was found.
#[derive(Debug, Clone)]
pub(super) struct Links(pub Vec<Link>, pub Followed);

#[derive(Debug, Clone, Copy)]
pub(super) struct LinksState {
    pub pull_n: Vector3<f64>,
    pub residual_m: f64,
    pub scale_m: f64,
    pub iterations: u32,
    /// How often the whole chain was gone through.
    #[cfg_attr(not(test), expect(dead_code, reason = "the tests count the work"))]
    pub runs: u32,
}

/// End of the chain, its derivative by the pull at the start, and the pull at the end.
pub(super) struct Run {
    pub end_m: Vector3<f64>,
    pub flexibility: Matrix3<f64>,
    pub pull_n: Vector3<f64>,
}

impl Run {
    /// How far the last place of the forces moves the end, up to 1e-10 of the length: no step brings
    /// the end nearer to where it should be.
    fn rounding_m(&self, start_n: &Vector3<f64>, scale_m: f64) -> f64 {
        let most_n = start_n.norm().max(self.pull_n.norm());
        let moved_m = 2.0 * f64::EPSILON * most_n * self.flexibility.trace();
        moved_m.max(CLOSED * scale_m).min(1e3 * CLOSED * scale_m)
    }
}

const BUDGET: u32 = 200;
const MOST_PARTS: usize = 1000;

/// A piece in SI: its load per rest length without and with the wind across a direction.
struct Piece {
    rest_m: f64,
    load_n_per_m: Vector3<f64>,
    drag: Option<Drag>,
    law: Arc<Law>,
    lengthening: f64,
    parts: usize,
}

impl Piece {
    fn new(piece: &ChainPiece, within: &str) -> Result<Self, LineError> {
        let named = |e: Invalid| e.within(within);
        let weight = non_negative("weight", piece.weight).map_err(named)?;
        let wind = vector("wind", &piece.wind).map_err(named)?;
        let parts = check::count("gust_parts", piece.gust_parts, 0, MOST_PARTS).map_err(named)?;
        let drag = piece.gust.as_ref().map(Drag::new).transpose();
        Ok(Self {
            rest_m: positive("rest_length", piece.rest_length).map_err(named)?,
            load_n_per_m: wind - Vector3::z() * weight,
            drag: drag.map_err(|e| named(e.within("gust")))?,
            law: Arc::new(piece.stretch.law().clone()),
            lengthening: lengthening(piece, within)?,
            parts,
        })
    }
}

impl Links {
    pub fn new(chain: &Chain) -> Result<Self, LineError> {
        if chain.pieces.is_empty() {
            return Err(Invalid::new("pieces", "empty", "at least one piece").into());
        }
        let mut pieces = Vec::with_capacity(chain.pieces.len());
        for (i, piece) in chain.pieces.iter().enumerate() {
            pieces.push(Piece::new(piece, &format!("pieces[{i}]"))?);
        }
        let total: f64 = pieces.iter().map(|p| p.rest_m).sum();
        if !total.is_finite() {
            return Err(LineError::Overflow { result: "rest length" });
        }
        check::count("samples", chain.samples, 2, 100_000)?;
        let mut loads = Vec::with_capacity(chain.loads.len());
        for (i, load) in chain.loads.iter().enumerate() {
            let inside = |e: Invalid| e.within(&format!("loads[{i}]"));
            let zero = Length::from_si(0.0);
            let at = between("at", load.at, zero, Length::from_si(total)).map_err(inside)?;
            loads.push((at, vector("force", &load.force).map_err(inside)?, i));
        }
        loads.sort_by(|a, b| a.0.total_cmp(&b.0));
        let chord_m = vector("far", &chain.far)? - vector("near", &chain.near)?;
        let (links, blown) = cut(&pieces, &loads, total, &chord_m)?;
        let mut links = Self(links, Followed::default());
        links.follow(&blown, &chord_m)?;
        Ok(links)
    }

    pub fn length_m(&self) -> f64 {
        self.0.last().map_or(0.0, |last| last.from_m + last.rest_m)
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
        self.solve_from(self.guess(chord_m)?, chord_m)
    }

    /// The same, by Newton from a pull.
    pub fn solve_from(
        &self,
        mut pull: Vector3<f64>,
        chord_m: &Vector3<f64>,
    ) -> Result<LinksState, Stop> {
        let scale_m = chord_m.norm().max(self.length_m());
        let mut run = self.run(pull);
        let mut runs = 1;
        let mut damping = Damping::default();
        for iterations in 0..BUDGET {
            let g = run.end_m - chord_m;
            let residual_m = g.norm();
            let closed = residual_m <= run.rounding_m(&pull, scale_m);
            let share = if closed { 0.0 } else { damping.share() };
            let trace = run.flexibility.trace();
            let damped = run.flexibility + Matrix3::identity() * (share * trace);
            let step = damped.cholesky().map(|c| -c.solve(&g));
            let step = step.filter(|s| s.iter().all(|x| x.is_finite()));
            if closed {
                // One step more brings the residual down to rounding, if it is not there yet.
                let mut state =
                    LinksState { pull_n: pull, residual_m, scale_m, iterations, runs: runs + 1 };
                let last = pull + step.unwrap_or_default();
                let better = (self.run(last).end_m - chord_m).norm();
                if better < residual_m {
                    (state.pull_n, state.residual_m) = (last, better);
                }
                state.iterations += 1;
                return Ok(state);
            }
            let Some(step) = step else {
                return Err(Stop::Stalled { residual_m, iterations });
            };
            let slope = g.dot(&step);
            if slope >= 0.0 {
                // Rounding only: there is nothing left to gain.
                return if residual_m <= 1e3 * CLOSED * scale_m {
                    Ok(LinksState { pull_n: pull, residual_m, scale_m, iterations, runs })
                } else {
                    Err(Stop::Stalled { residual_m, iterations })
                };
            }
            let start = pull;
            let mut last = f64::NAN;
            let taken = line_search(slope, |share| {
                last = share;
                pull = start + step * share;
                run = self.run(pull);
                runs += 1;
                (run.end_m - chord_m).dot(&step)
            });
            if taken != last {
                pull = start + step * taken;
                run = self.run(pull);
                runs += 1;
            }
            damping.learn(taken);
        }
        let residual_m = (run.end_m - chord_m).norm();
        if residual_m <= 1e3 * CLOSED * scale_m {
            return Ok(LinksState { pull_n: pull, residual_m, scale_m, iterations: BUDGET, runs });
        }
        Err(Stop::Stalled { residual_m, iterations: BUDGET })
    }

    /// The pull of a uniform line with the same total load and mean flexibility.
    fn guess(&self, chord_m: &Vector3<f64>) -> Result<Vector3<f64>, Stop> {
        let length_m: f64 = self.0.iter().map(|l| l.rest_m * l.lengthening).sum();
        let weight = self.0.iter().map(|l| l.down * (l.q_n_per_m * l.rest_m));
        let total: Vector3<f64> =
            weight.sum::<Vector3<f64>>() + self.0.iter().map(|l| l.load_n).sum::<Vector3<f64>>();
        let slopes =
            self.0.iter().map(|l| l.rest_m * l.lengthening * l.law.strain_and_slope(0.0).1);
        let law = Law::Linear { ea_n: length_m / slopes.sum::<f64>() };
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
}

/// How much longer a piece is for its condition.
fn lengthening(piece: &ChainPiece, within: &str) -> Result<f64, LineError> {
    let factor = piece.condition.map_or(Ok(Ratio::from_si(1.0)), |c| c.rest_length_factor());
    match factor {
        Ok(factor) => Ok(factor.si()),
        Err(MaterialError::Invalid(e)) => Err(e.within(&format!("{within}.condition")).into()),
        Err(e) => Err(e.into()),
    }
}

/// Cuts pieces at loads, and into the parts on which the wind follows the line.
fn cut(
    pieces: &[Piece],
    loads: &[(f64, Vector3<f64>, usize)],
    total: f64,
    chord_m: &Vector3<f64>,
) -> Result<(Vec<Link>, Vec<Blown>), LineError> {
    let mut loads = loads.iter().peekable();
    let (mut links, mut blown) = (Vec::with_capacity(pieces.len()), Vec::new());
    let mut from = 0.0;
    for (i, piece) in pieces.iter().enumerate() {
        let gust = piece.drag.as_ref().map(|drag| drag.across(chord_m)).transpose()?;
        let q = piece.load_n_per_m + gust.unwrap_or_default();
        let q_n_per_m = q.norm();
        let down = if q_n_per_m > 0.0 { q / q_n_per_m } else { -Vector3::z() };
        let link = |from_m: f64, to_m: f64, load_n: Vector3<f64>, load: Option<usize>| Link {
            from_m,
            piece: i,
            q_n_per_m,
            down,
            rest_m: to_m - from_m,
            law: Arc::clone(&piece.law),
            load_n,
            load,
            lengthening: piece.lengthening,
        };
        let first = links.len();
        let last = i + 1 == pieces.len();
        let to = if last { total } else { from + piece.rest_m };
        let parts = piece.parts.max(1);
        let mut at = from;
        for part in 1..=parts {
            let end = part == parts;
            let part_to = if end {
                to
            } else {
                (from + piece.rest_m * (part as f64 / parts as f64)).max(at).min(to)
            };
            // A load at a joint belongs to the piece before it; one at the very end changes no shape.
            let here = |s: f64| s <= part_to || (last && end);
            while let Some(&(s, force, load)) = loads.next_if(|(s, ..)| here(*s)) {
                links.push(link(at, s, force, Some(load)));
                at = s;
            }
            links.push(link(at, part_to, Vector3::zeros(), None));
            at = part_to;
        }
        if let (Some(drag), Some(gust), true) = (&piece.drag, gust, piece.parts > 0) {
            let follows = (first..links.len()).filter(|&l| links[l].rest_m > 0.0);
            blown.extend(follows.map(|link| Blown {
                link,
                dead_n_per_m: piece.load_n_per_m,
                drag: *drag,
                gust_n_per_m: gust,
            }));
        }
        from = to;
    }
    Ok((links, blown))
}

impl Link {
    pub fn set_load(&mut self, q: &Vector3<f64>) {
        self.q_n_per_m = q.norm();
        self.down = if self.q_n_per_m > 0.0 { q / self.q_n_per_m } else { -Vector3::z() };
    }

    /// Parts of a pull across and along the load, and the direction across.
    pub fn split(&self, pull: &Vector3<f64>) -> (f64, f64, Vector3<f64>) {
        split(pull, &self.down)
    }

    pub fn uniform(&self) -> Uniform<'_> {
        Uniform { q_n_per_m: self.q_n_per_m, rest_m: self.rest_m, law: &self.law }
    }

    /// Derivative of the pull at its start by its chord, at that pull.
    pub fn stiffness_n_per_m(&self, pull_n: &Vector3<f64>) -> Matrix3<f64> {
        let (h, v, across) = self.split(pull_n);
        stiffness_n_per_m(&self.uniform().at(h, v), &self.down, &across) / self.lengthening
    }

    /// Adds this link to a run that has come to its start.
    pub fn extend(&self, run: &mut Run) {
        let (h, v, across) = self.split(&run.pull_n);
        let p = self.uniform().at(h, v);
        let (down, factor) = (self.down, self.lengthening);
        run.end_m += (across * p.across_m + down * p.along_m) * factor;
        let out = down.cross(&across);
        let mixed = across * down.transpose();
        run.flexibility += (across * across.transpose() * p.hh
            + (mixed + mixed.transpose()) * p.hv
            + down * down.transpose() * p.vv
            + out * out.transpose() * p.out)
            * factor;
        run.pull_n -= down * (self.q_n_per_m * self.rest_m);
    }

    pub fn stretched_m(&self, pull: &Vector3<f64>) -> f64 {
        if self.rest_m == 0.0 {
            return 0.0;
        }
        let (h, v, _) = self.split(pull);
        self.uniform().stretched_m(h, v) * self.lengthening
    }
}
