//! The implicit function theorem on the closure of a chain, Eq. (D1) to (D8).

use nalgebra::{Cholesky, Const, Matrix3, Vector3};

use crate::line::LineError;
use crate::line::course::Course;
use crate::line::links::{Link, Links};
use crate::line::shape::BelowChord;
use crate::material::Law;

/// What a figure is derived by.
#[derive(Debug, Clone, Copy)]
pub(super) enum Input {
    /// Force of a load, by axis.
    Force(usize, usize),
    /// Rest length from the near end to a load.
    At(usize),
    /// Rest length of a piece.
    Rest(usize),
    /// Factor on the strain of a piece.
    Scale(usize),
    /// Downward load per rest length of a piece, in its own direction.
    Weight(usize),
    /// Place of the far anchor, by axis.
    Far(usize),
}

/// Derivatives of all figures by one input.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Row {
    pub near: f64,
    pub far: f64,
    pub h: f64,
    pub sag: f64,
    pub stretched: f64,
}

/// A stretch of a link with its integrals at its pull.
struct Part {
    extension_m: Vector3<f64>,
    flexibility: Matrix3<f64>,
    /// Derivative of the stretched length by the pull.
    growth: Vector3<f64>,
    /// ∫ e T/|T| ds and ∫ e ds: derivatives by a factor on the strain.
    scaled_m: Vector3<f64>,
    scaled_length_m: f64,
    /// Derivatives by the size of the load per rest length.
    by_load: Vector3<f64>,
    length_by_load: f64,
    start_n: Vector3<f64>,
    end_n: Vector3<f64>,
}

/// Changes at a fixed pull on the near end.
#[derive(Debug, Clone, Copy, Default)]
struct Change {
    end: Vector3<f64>,
    mark: Vector3<f64>,
    length: f64,
    /// Of the pull at the far end.
    far: Vector3<f64>,
}

/// A solved chain, ready for its derivatives.
pub(super) struct Implicit<'a> {
    links: &'a Links,
    chord: Vector3<f64>,
    parts: Vec<Part>,
    /// Parts up to the place of the largest sag; none if no point is below the chord.
    marked: Vec<Part>,
    mark_m: Vector3<f64>,
    /// The link at whose end the mark is, if a load is there.
    marked_load: Option<usize>,
    factor: Cholesky<f64, Const<3>>,
}

/// (1 + e) T/|T|, and its derivative by T; longer or shorter by the condition of the piece.
fn tangent(link: &Link, pull: &Vector3<f64>) -> (Vector3<f64>, Matrix3<f64>) {
    let t = pull.norm();
    let (e, slope) = link.law.strain_and_slope(t);
    let unit = pull / t;
    let secant = (1.0 + e) / t;
    let along = unit * unit.transpose();
    let factor = link.lengthening;
    (
        unit * (factor * (1.0 + e)),
        (along * (slope - secant) + Matrix3::identity() * secant) * factor,
    )
}

impl Part {
    fn new(link: &Link, start_n: Vector3<f64>) -> Self {
        let (q, l, down, factor) = (link.q_n_per_m, link.rest_m, link.down, link.lengthening);
        let mut run = Links::start(start_n);
        if l > 0.0 {
            link.extend(&mut run);
        }
        let end_n = run.pull_n;
        let mut part = Self {
            extension_m: run.end_m,
            flexibility: run.flexibility,
            growth: Vector3::zeros(),
            scaled_m: Vector3::zeros(),
            scaled_length_m: 0.0,
            by_load: Vector3::zeros(),
            length_by_load: 0.0,
            start_n,
            end_n,
        };
        if l == 0.0 {
            return part;
        }
        let stretched = link.stretched_m(&start_n);
        part.scaled_length_m = stretched - factor * l;
        match link.law.as_ref() {
            Law::Linear { ea_n } => {
                part.scaled_m = (start_n + end_n) * (0.5 * factor * l / ea_n);
                part.growth = (part.extension_m - part.scaled_m) / *ea_n;
            }
            law @ Law::Curve(_) => {
                let (h, v, _) = link.split(&start_n);
                link.uniform().quadrature(h, v, |s, weight| {
                    let pull = start_n - down * (q * s);
                    let t = pull.norm();
                    let (e, slope) = law.strain_and_slope(t);
                    part.scaled_m += pull * (factor * weight * e / t);
                    part.growth += pull * (factor * weight * slope / t);
                });
            }
        }
        // Eq. (D6): the derivative along the load is a difference of ends; where the load is too small
        // for that the integrand is linear.
        let (at_end, by_end) = tangent(link, &end_n);
        let growth = |pull: &Vector3<f64>| {
            let t = pull.norm();
            factor * link.law.strain_and_slope(t).1 * pull.dot(&down) / t
        };
        if q * l > 1e-5 * start_n.norm().min(end_n.norm()) {
            part.by_load = (at_end * l - part.extension_m) / q;
            part.length_by_load = (at_end.norm() * l - stretched) / q;
        } else {
            let (_, by_start) = tangent(link, &start_n);
            part.by_load = (by_start / 6.0 + by_end / 3.0) * down * (-l * l);
            part.length_by_load = -l * l * (growth(&start_n) / 6.0 + growth(&end_n) / 3.0);
        }
        part
    }
}

fn parts(links: &[Link], pull_n: Vector3<f64>) -> Vec<Part> {
    let mut pull = pull_n;
    links
        .iter()
        .map(|link| {
            let part = Part::new(link, pull);
            pull = part.end_n - link.load_n;
            part
        })
        .collect()
}

impl<'a> Implicit<'a> {
    pub fn new(
        links: &'a Links,
        chord: Vector3<f64>,
        pull_n: Vector3<f64>,
    ) -> Result<Self, LineError> {
        let all = parts(&links.0, pull_n);
        let flexibility: Matrix3<f64> = all.iter().map(|p| p.flexibility).sum();
        let overflow = || LineError::Overflow { result: "derivative" };
        let factor = flexibility.cholesky().ok_or_else(overflow)?;
        let mut this = Self {
            links,
            chord,
            parts: all,
            marked: Vec::new(),
            mark_m: Vector3::zeros(),
            marked_load: None,
            factor,
        };
        if let Some((s, load)) = this.deepest(pull_n) {
            let before = links.0.iter().take_while(|link| link.from_m < s);
            let marked: Vec<Link> = match load {
                Some(link) => links.0[..=link].to_vec(),
                None => before
                    .map(|link| Link { rest_m: link.rest_m.min(s - link.from_m), ..link.clone() })
                    .collect(),
            };
            this.marked_load = load;
            this.marked = parts(&marked, pull_n);
            this.mark_m = this.marked.iter().map(|p| p.extension_m).sum();
        }
        Ok(this)
    }

    /// Rest length at which the chain is farthest below its chord, and the link at whose end that is if
    /// it is at a load; none if nowhere.
    fn deepest(&self, pull_n: Vector3<f64>) -> Option<(f64, Option<usize>)> {
        let course = Course::new(self.links, pull_n);
        let from_chord = self.below();
        let below = |s: f64| from_chord.dot(&course.before(s).place_m);
        let loaded = self.links.0.iter().enumerate().filter(|(_, link)| link.load.is_some());
        let loaded = loaded.map(|(i, link)| (link.from_m + link.rest_m, Some(i)));
        let between = course.turns_m(&from_chord).map(|s| (s, None));
        let best = between.chain(loaded).max_by(|a, b| below(a.0).total_cmp(&below(b.0)));
        let (total, deepest) = (self.links.length_m(), best.map_or(0.0, |(s, _)| below(s)));
        // A straight chain without load sags first in its middle.
        let middle = 0.5 * total;
        if deepest.abs() <= 1e-12 * total && below(middle).abs() <= 1e-12 * total {
            return Some((middle, None));
        }
        best.filter(|_| deepest > 0.0)
    }

    /// Depth below the chord of a place is this vector times the place.
    fn below(&self) -> Vector3<f64> {
        BelowChord::new(self.chord).normal()
    }

    /// Derivatives by one input, Eq. (D2) to (D4).
    pub fn by(&self, input: Input) -> Row {
        let change = self.change(input);
        let mut chord = Vector3::zeros();
        if let Input::Far(axis) = input {
            chord[axis] = 1.0;
        }
        let pull = self.factor.solve(&(chord - change.end));
        let (Some(first), Some(last)) = (self.parts.first(), self.parts.last()) else {
            return Row::default();
        };
        let (start_n, end_n) = (first.start_n, last.end_n);
        let level = Vector3::new(start_n.x, start_n.y, 0.0);
        let growth: Vector3<f64> = self.parts.iter().map(|p| p.growth).sum();
        let flexibility: Matrix3<f64> = self.marked.iter().map(|p| p.flexibility).sum();
        let mark = flexibility * pull + change.mark;
        Row {
            near: start_n.dot(&pull) / start_n.norm(),
            far: end_n.dot(&(pull + change.far)) / end_n.norm(),
            h: level.dot(&pull) / level.norm(),
            sag: self.below().dot(&mark) + self.chord_moves(&chord),
            stretched: growth.dot(&pull) + change.length,
        }
    }

    /// Change of the depth below the chord when the chord moves and the place does not, Eq. (D5).
    fn chord_moves(&self, moved: &Vector3<f64>) -> f64 {
        let (c, p) = (&self.chord, &self.mark_m);
        let level2 = c.x * c.x + c.y * c.y;
        let share = (p.x * c.x + p.y * c.y) / level2;
        let share_moves = (p.x * moved.x + p.y * moved.y
            - 2.0 * share * (c.x * moved.x + c.y * moved.y))
            / level2;
        share_moves * c.z + share * moved.z
    }

    fn change(&self, input: Input) -> Change {
        let mut change = Change::default();
        match input {
            Input::Far(_) => {}
            Input::Force(load, axis) => {
                let mut pull = Vector3::zeros();
                pull[axis] = -1.0;
                if let Some(link) = self.link_of(load) {
                    self.after(link, pull, &mut change);
                }
            }
            Input::At(load) => {
                if let Some(link) = self.link_of(load) {
                    change = self.moved(link);
                }
            }
            Input::Rest(piece) => self.grown(piece, &mut change),
            Input::Scale(piece) => {
                for (k, (link, part)) in self.links.0.iter().zip(&self.parts).enumerate() {
                    if link.piece == piece {
                        change.end += part.scaled_m;
                        change.length += part.scaled_length_m;
                        change.mark += self.marked.get(k).map_or(Vector3::zeros(), |p| p.scaled_m);
                    }
                }
            }
            Input::Weight(piece) => {
                for (k, (link, part)) in self.links.0.iter().zip(&self.parts).enumerate() {
                    if link.piece == piece {
                        change.end += part.by_load;
                        change.length += part.length_by_load;
                        change.mark += self.marked.get(k).map_or(Vector3::zeros(), |p| p.by_load);
                        self.after(k, link.down * -link.rest_m, &mut change);
                    }
                }
            }
        }
        change
    }

    fn link_of(&self, load: usize) -> Option<usize> {
        self.links.0.iter().position(|link| link.load == Some(load))
    }

    /// Adds a change of the pull in all links after one.
    fn after(&self, link: usize, pull: Vector3<f64>, change: &mut Change) {
        for (k, part) in self.parts.iter().enumerate().skip(link + 1) {
            change.end += part.flexibility * pull;
            change.length += part.growth.dot(&pull);
            if let Some(marked) = self.marked.get(k) {
                change.mark += marked.flexibility * pull;
            }
        }
        change.far += pull;
    }

    /// A load moves towards the far end: the piece before it gets longer, the one after it shorter,
    /// Eq. (D7).
    fn moved(&self, link: usize) -> Change {
        let (piece, before) = (&self.links.0[link], self.parts[link].end_n);
        let after = before - piece.load_n;
        let (tangent_before, tangent_after) = (tangent(piece, &before).0, tangent(piece, &after).0);
        let mut change = Change {
            end: tangent_before - tangent_after,
            length: tangent_before.norm() - tangent_after.norm(),
            ..Change::default()
        };
        // If the load itself hangs lowest, the mark goes with it.
        if self.marked.len() > link + 1 {
            change.mark = change.end;
        } else if self.marked_load == Some(link) {
            change.mark = tangent_before;
        }
        change
    }

    /// A piece gets longer at its far end, Eq. (D8); the loads after it keep their rest length from the
    /// near end.
    fn grown(&self, piece: usize, change: &mut Change) {
        let Some(last) = self.links.0.iter().rposition(|link| link.piece == piece) else { return };
        let (link, pull) = (&self.links.0[last], self.parts[last].end_n);
        let grown = tangent(link, &pull).0;
        change.end += grown;
        change.length += grown.norm();
        if self.marked.len() > last + 1 {
            change.mark += grown;
        }
        self.after(last, link.down * -link.q_n_per_m, change);
        for k in last + 1..self.links.0.len() {
            if self.links.0[k].load.is_some() {
                // The weight of what the load passes is the same before it and after it.
                let back = self.moved(k);
                change.end -= back.end;
                change.mark -= back.mark;
                change.length -= back.length;
            }
        }
    }
}
