//! Two integrals at once, halved where they bend.

use crate::line::LineError;

type Pair = [f64; 2];

/// Integrals of both parts of `f` from `low` to `high`.
pub(in crate::line) fn integral(
    f: &dyn Fn(f64) -> Result<Pair, LineError>,
    low: f64,
    high: f64,
) -> Result<Pair, LineError> {
    halved(f, low, high, DEPTH)
}

fn halved(
    f: &dyn Fn(f64) -> Result<Pair, LineError>,
    low: f64,
    high: f64,
    depth: u32,
) -> Result<Pair, LineError> {
    let middle = 0.5 * (low + high);
    let whole = lobatto(f, low, high)?;
    let (left, right) = (lobatto(f, low, middle)?, lobatto(f, middle, high)?);
    let both = [left[0] + right[0], left[1] + right[1]];
    let close = |i: usize| (both[i] - whole[i]).abs() <= 1e-10 * both[i].abs();
    if depth == 0 || (close(0) && close(1)) {
        return Ok(both);
    }
    let left = halved(f, low, middle, depth - 1)?;
    let right = halved(f, middle, high, depth - 1)?;
    Ok([left[0] + right[0], left[1] + right[1]])
}

fn lobatto(
    f: &dyn Fn(f64) -> Result<Pair, LineError>,
    low: f64,
    high: f64,
) -> Result<Pair, LineError> {
    let half = 0.5 * (high - low);
    let mut sum = [0.0, 0.0];
    for (x, w) in LOBATTO_5 {
        let value = f(low + half * (1.0 + x))?;
        sum[0] += half * w * value[0];
        sum[1] += half * w * value[1];
    }
    Ok(sum)
}

/// Halvings of an interval at most. A bend inside one costs a few evaluations for each halving.
const DEPTH: u32 = 12;

/// Abscissas and weights of five-point Lobatto quadrature (Abramowitz and Stegun 1964, table 25.6). Its
/// ends make a bend near the edge of an interval show, which Gauss points would miss.
const LOBATTO_5: [(f64, f64); 5] = [
    (-1.0, 0.1),
    (-0.654_653_670_707_977_1, 49.0 / 90.0),
    (0.0, 32.0 / 45.0),
    (0.654_653_670_707_977_1, 49.0 / 90.0),
    (1.0, 0.1),
];
