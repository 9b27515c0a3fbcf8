//! The grid of one anchor: knots in the square of the chord and in the height. The square, since so a look-up
//! needs no root and no division.

mod build;

pub(super) use self::build::{BOUND, Built, Range, build};

/// Knots, and where to find the interval of a chord.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Grid {
    /// Squares of chords, m².
    q: Vec<f64>,
    /// One over the length of each interval.
    per_side: Vec<f64>,
    z_low: f64,
    z_step: f64,
    per_step: f64,
    z_count: u32,
    /// First interval that may hold a chord, by equal parts of the whole range.
    lookup: Vec<u16>,
    parts: f64,
}

/// A cell, the place in it and one over the lengths of its sides.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot {
    pub cell: usize,
    pub t: f64,
    pub w: f64,
    pub per_side: [f64; 2],
}

/// A cell: where it begins and ends in the square of the chord and in height, and one over the lengths of its
/// sides. The default is nowhere.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Window {
    cell: usize,
    low: [f64; 2],
    high: [f64; 2],
    per_side: [f64; 2],
}

impl Window {
    #[inline]
    pub fn holds(&self, q: f64, z: f64) -> bool {
        q >= self.low[0] && q < self.high[0] && z >= self.low[1] && z < self.high[1]
    }

    #[inline]
    pub fn spot(&self, q: f64, z: f64) -> Spot {
        let Self { cell, low, per_side, .. } = *self;
        Spot { cell, t: (q - low[0]) * per_side[0], w: (z - low[1]) * per_side[1], per_side }
    }
}

/// A number that is not below zero, without its fraction; a cast stops at the ends of the type.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "meant")]
#[inline]
fn whole_number(x: f64) -> u32 {
    x as u32
}

impl Grid {
    fn new(q: Vec<f64>, z: [f64; 2], z_count: u32) -> Self {
        let least = q.windows(2).map(|w| w[1] - w[0]).fold(f64::INFINITY, f64::min);
        let whole = q[q.len() - 1] - q[0];
        let parts = (whole / least).ceil().clamp(1.0, 65_536.0);
        let lookup = (0..whole_number(parts)).map(|part| {
            let from = q[0] + whole * (f64::from(part) / parts);
            let at = q.partition_point(|q| *q <= from).max(1) - 1;
            u16::try_from(at.min(q.len() - 2)).unwrap_or(0)
        });
        let z_step = (z[1] - z[0]) / f64::from(z_count);
        Self {
            lookup: lookup.collect(),
            parts: parts / whole,
            z_low: z[0],
            z_step,
            per_step: 1.0 / z_step,
            z_count,
            per_side: q.windows(2).map(|w| 1.0 / (w[1] - w[0])).collect(),
            q,
        }
    }

    /// Cells in all.
    pub fn count(&self) -> usize {
        (self.q.len() - 1) * self.columns()
    }

    fn columns(&self) -> usize {
        self.z_count as usize
    }

    /// The interval of the square of a chord; none outside of the grid.
    #[inline]
    fn interval(&self, q: f64) -> Option<usize> {
        let part = (q - self.q[0]) * self.parts;
        if part.is_nan() || part < 0.0 {
            return None;
        }
        let mut i = usize::from(*self.lookup.get(whole_number(part) as usize)?);
        while q >= *self.q.get(i + 1)? {
            i += 1;
        }
        Some(i)
    }

    /// The cell of a place; none outside of the grid.
    pub fn window(&self, q: f64, z: f64) -> Option<Window> {
        let i = self.interval(q)?;
        if !self.holds_height(z) {
            return None;
        }
        let j = self.column(z);
        let height = |j: usize| self.z_low + self.z_step * j as f64;
        Some(Window {
            cell: i * self.columns() + j,
            low: [self.q[i], height(j)],
            high: [self.q[i + 1], height(j + 1)],
            per_side: [self.per_side[i], self.per_step],
        })
    }

    /// The cells between two squares and two heights, as intervals and columns, ends included; none if they
    /// reach out of the grid.
    pub fn between(&self, q: [f64; 2], z: [f64; 2]) -> Option<[[usize; 2]; 2]> {
        let column = |z: f64| self.holds_height(z).then(|| self.column(z));
        let [low, high] = [self.interval(q[0])?, self.interval(q[1])?];
        Some([[low, high], [column(z[0])?, column(z[1])?]])
    }

    fn column(&self, z: f64) -> usize {
        whole_number((z - self.z_low) * self.per_step) as usize
    }

    /// Whether a height is inside of the grid.
    #[inline]
    fn holds_height(&self, z: f64) -> bool {
        let row = (z - self.z_low) * self.per_step;
        row >= 0.0 && row < f64::from(self.z_count)
    }

    /// The greatest of some values of the cells.
    pub fn greatest(&self, values: &[f64], [[low, high], [first, last]]: [[usize; 2]; 2]) -> f64 {
        let mut most = f64::NEG_INFINITY;
        for row in (low..=high).map(|i| i * self.columns()) {
            for value in values.get(row + first..=row + last).unwrap_or_default() {
                most = if *value > most { *value } else { most };
            }
        }
        most
    }
}
