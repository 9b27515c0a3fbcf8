//! Columns of a batch: each slice holds one value for each row, or one for all rows; and the rows solved
//! on all cores.

use super::LineError;
use crate::quantity::Invalid;

#[derive(Debug, Clone, Copy)]
pub(super) struct Columns<'a, const N: usize> {
    slices: [(&'static str, &'a [f64]); N],
    rows: usize,
}

impl<'a, const N: usize> Columns<'a, N> {
    /// The number of rows is the one length other than one, if any. An empty slice makes it zero.
    pub fn new(slices: &[(&'static str, &'a [f64]); N]) -> Result<Self, LineError> {
        let mut rows = 1;
        for (name, slice) in slices {
            if slice.len() == 1 || slice.len() == rows {
                continue;
            }
            if rows != 1 {
                return Err(LineError::Invalid(Invalid::new(
                    *name,
                    format!("{} values", slice.len()),
                    format!("1 or {rows} values, as the others"),
                )));
            }
            rows = slice.len();
        }
        Ok(Self { slices: *slices, rows })
    }

    pub fn len(&self) -> usize {
        self.rows
    }

    /// Names and values of a row.
    #[inline]
    pub fn row(&self, i: usize) -> [(&'static str, f64); N] {
        self.slices.map(|(name, s)| (name, if s.len() == 1 { s[0] } else { s[i] }))
    }
}

/// Rows below which another thread costs more than it brings: a row takes a third of a microsecond.
const CHUNK: usize = 2048;

/// Fills N columns of results row by row, on all cores. The result and the error, that of the first row
/// at fault, do not depend on how many there are.
pub(super) fn fill<const N: usize>(
    columns: [&mut [f64]; N],
    row: &(impl Fn(usize) -> Result<[f64; N], LineError> + Sync),
) -> Result<(), LineError> {
    fill_from(0, columns, row)
}

fn fill_from<const N: usize>(
    from: usize,
    mut columns: [&mut [f64]; N],
    row: &(impl Fn(usize) -> Result<[f64; N], LineError> + Sync),
) -> Result<(), LineError> {
    let rows = columns.first().map_or(0, |c| c.len());
    if rows <= CHUNK {
        for i in 0..rows {
            let values = row(from + i).map_err(|e| e.at(from + i))?;
            for (column, value) in columns.iter_mut().zip(values) {
                column[i] = value;
            }
        }
        return Ok(());
    }
    let half = rows / 2;
    let mut high = [const { None }; N];
    let low = {
        let mut rest = high.iter_mut();
        columns.map(|c| {
            let (low, high) = c.split_at_mut(half);
            if let Some(slot) = rest.next() {
                *slot = Some(high);
            }
            low
        })
    };
    let high = high.map(Option::unwrap_or_default);
    let (first, second) = both(|| fill_from(from, low, row), || fill_from(from + half, high, row));
    first.and(second)
}

#[cfg(not(target_family = "wasm"))]
use rayon::join as both;

/// A web page gives a module one thread.
#[cfg(target_family = "wasm")]
fn both<A, B>(a: impl FnOnce() -> A, b: impl FnOnce() -> B) -> (A, B) {
    (a(), b())
}
