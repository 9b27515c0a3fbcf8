//! Which stock rope gives which pieces.

use serde::{Deserialize, Serialize};

use crate::quantity::{Length, Text};

/// What is cut from a stock rope.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct CutFrom {
    /// Name of the stock rope.
    pub stock: String,
    /// Cordage.
    pub kind: String,
    /// Its length.
    #[serde(with = "Text::<Length>")]
    pub length: Length,
    /// Pieces, the longest first.
    pub pieces: Vec<CutPiece>,
    /// What is left of it.
    #[serde(with = "Text::<Length>")]
    pub left: Length,
}

/// A piece of a stock rope.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct CutPiece {
    /// What it is for.
    pub name: String,
    /// Its length.
    #[serde(with = "Text::<Length>")]
    pub length: Length,
}

/// A piece to cut, or a stock rope: its length and the strength it needs or has.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Rope {
    pub length_m: f64,
    pub strength_n: f64,
}

/// Which stock rope each piece comes from, and whether it is known that no way covers more pieces.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Assignment {
    pub from: Vec<Option<usize>>,
    pub proved: bool,
}

/// Steps of the search over every way of cutting.
const BUDGET: u32 = 200_000;

/// Assigns pieces to stock ropes, Eq. (K9). `pieces` stand with the longest first.
pub(super) fn assign(pieces: &[Rope], stock: &[Rope]) -> Assignment {
    let greedy = greedy(pieces, stock);
    if greedy.iter().all(Option::is_some) {
        return Assignment { from: greedy, proved: true };
    }
    let mut search = Search {
        pieces,
        stock,
        left: stock.iter().map(|s| s.length_m).collect(),
        now: vec![None; pieces.len()],
        score: score(pieces, &greedy),
        best: greedy,
        steps: 0,
    };
    search.place(0, 0, 0.0);
    Assignment { from: search.best, proved: search.steps < BUDGET }
}

fn greedy(pieces: &[Rope], stock: &[Rope]) -> Vec<Option<usize>> {
    let mut left: Vec<f64> = stock.iter().map(|s| s.length_m).collect();
    let each = pieces.iter().map(|piece| {
        let fits = (0..stock.len()).filter(|&i| fits(piece, &stock[i], left[i]));
        // Of equal remainders the weakest rope, so that strong ones stay for those who need them.
        let best = fits.min_by(|&a, &b| {
            left[a].total_cmp(&left[b]).then(stock[a].strength_n.total_cmp(&stock[b].strength_n))
        })?;
        left[best] -= piece.length_m;
        Some(best)
    });
    each.collect()
}

/// A stock rope of exactly the length is long enough, rounding of sums included.
fn fits(piece: &Rope, stock: &Rope, left_m: f64) -> bool {
    stock.strength_n >= piece.strength_n && left_m >= piece.length_m * (1.0 - 1e-9)
}

/// Pieces covered, then their length.
fn score(pieces: &[Rope], from: &[Option<usize>]) -> (usize, f64) {
    let covered = pieces.iter().zip(from).filter(|(_, from)| from.is_some());
    covered.fold((0, 0.0), |(count, length), (piece, _)| (count + 1, length + piece.length_m))
}

/// Depth-first over every way, with the bound that all pieces still to come are covered.
struct Search<'a> {
    pieces: &'a [Rope],
    stock: &'a [Rope],
    left: Vec<f64>,
    now: Vec<Option<usize>>,
    best: Vec<Option<usize>>,
    score: (usize, f64),
    steps: u32,
}

impl Search<'_> {
    fn place(&mut self, i: usize, covered: usize, length_m: f64) {
        self.steps += 1;
        if self.steps >= BUDGET {
            return;
        }
        if covered > self.score.0 || (covered == self.score.0 && length_m > self.score.1) {
            self.score = (covered, length_m);
            self.best.clone_from(&self.now);
        }
        let Some(piece) = self.pieces.get(i) else { return };
        let rest_m: f64 = self.pieces[i..].iter().map(|p| p.length_m).sum();
        let most = covered + self.pieces.len() - i;
        if most < self.score.0 || (most == self.score.0 && length_m + rest_m <= self.score.1) {
            return;
        }
        let mut tried: Vec<(f64, f64)> = Vec::new();
        for s in 0..self.stock.len() {
            let alike = (self.left[s], self.stock[s].strength_n);
            if !fits(piece, &self.stock[s], self.left[s]) || tried.contains(&alike) {
                continue;
            }
            tried.push(alike);
            self.left[s] -= piece.length_m;
            self.now[i] = Some(s);
            self.place(i + 1, covered + 1, length_m + piece.length_m);
            self.now[i] = None;
            self.left[s] = alike.0;
            if self.steps >= BUDGET {
                return;
            }
        }
        self.place(i + 1, covered, length_m);
    }
}
