//! Quintic Hermite patches: a function of two variables from exact values and derivatives at the
//! corners of a grid, twice continuously differentiable over the whole grid, Eq. (17).

/// Coefficients of powers of both local variables, each from 0 to 1: number i, j goes with tⁱ wʲ. Aligned, so
/// that two of them are read at a time.
#[derive(Debug, Clone, PartialEq)]
#[repr(align(16))]
pub(super) struct Cell(pub [[f64; 6]; 6]);

/// At a corner: `[i][j]` is the derivative i times by the first and j times by the second variable.
pub(super) type Corner = [[f64; 3]; 3];

/// The quintic with value, slope and curvature given at both ends of the interval from 0 to 1.
fn quintic(a: [f64; 3], b: [f64; 3]) -> [f64; 6] {
    let rise = b[0] - a[0];
    [
        a[0],
        a[1],
        0.5 * a[2],
        10.0 * rise - 6.0 * a[1] - 4.0 * b[1] - 1.5 * a[2] + 0.5 * b[2],
        -15.0 * rise + 8.0 * a[1] + 7.0 * b[1] + 1.5 * a[2] - b[2],
        6.0 * rise - 3.0 * (a[1] + b[1]) - 0.5 * (a[2] - b[2]),
    ]
}

/// The patch between four corners (first variable low or up, second low or up), whose sides have the
/// lengths given.
pub(super) fn patch(corners: [[&Corner; 2]; 2], sides: [f64; 2]) -> Cell {
    let scale = |n: usize, side: f64| side.powi(i32::try_from(n).unwrap_or(0));
    let value = |p: usize, q: usize, i: usize, j: usize| {
        corners[p][q][i][j] * scale(i, sides[0]) * scale(j, sides[1])
    };
    // First along t for each derivative by w at both ends, then along w for each power of t.
    let mut along = [[[0.0; 6]; 3]; 2];
    for (q, ends) in along.iter_mut().enumerate() {
        for (j, powers) in ends.iter_mut().enumerate() {
            let end = |p: usize| [0, 1, 2].map(|i| value(p, q, i, j));
            *powers = quintic(end(0), end(1));
        }
    }
    Cell(core::array::from_fn(|i| {
        let end = |q: usize| [0, 1, 2].map(|j: usize| along[q][j][i]);
        quintic(end(0), end(1))
    }))
}

/// Value and first derivatives by t and w.
#[expect(
    clippy::inline_always,
    reason = "a call's answer would go through memory, a third of its cost"
)]
#[inline(always)]
pub(super) fn slopes(cell: &Cell, t: f64, w: f64) -> [f64; 3] {
    let Cell([low @ .., last]) = cell;
    let (mut p, mut by_t) = (*last, [0.0; 6]);
    for row in low.iter().rev() {
        for j in 0..6 {
            by_t[j] = by_t[j] * t + p[j];
            p[j] = p[j] * t + row[j];
        }
    }
    // Sums of products, since Horner's chain would wait for itself.
    let (w2, w3) = (w * w, w * w * w);
    let w4 = w2 * w2;
    let powers = [1.0, w, w2, w3, w4, w4 * w];
    let slopes = [0.0, 1.0, 2.0 * w, 3.0 * w2, 4.0 * w3, 5.0 * w4];
    let mut sums = [[0.0; 2]; 3];
    for j in 0..6 {
        sums[0][j % 2] += p[j] * powers[j];
        sums[1][j % 2] += by_t[j] * powers[j];
        sums[2][j % 2] += p[j] * slopes[j];
    }
    sums.map(|[even, odd]| even + odd)
}

/// Second derivatives: tt, tw, ww.
pub(super) fn curvatures(cell: &Cell, t: f64, w: f64) -> [f64; 3] {
    let all_powers = |x: f64| {
        let mut all = [[0.0; 6]; 3];
        for n in 0..6_u8 {
            let (i, k) = (usize::from(n), f64::from(n));
            all[0][i] = x.powi(i32::from(n));
            all[1][i] = if n < 1 { 0.0 } else { k * x.powi(i32::from(n) - 1) };
            all[2][i] = if n < 2 { 0.0 } else { k * (k - 1.0) * x.powi(i32::from(n) - 2) };
        }
        all
    };
    let (a, b) = (all_powers(t), all_powers(w));
    let sum = |m: usize, n: usize| -> f64 {
        let rows = cell.0.iter().zip(&a[m]);
        rows.map(|(row, t)| t * row.iter().zip(&b[n]).map(|(c, w)| c * w).sum::<f64>()).sum()
    };
    [sum(2, 0), sum(1, 1), sum(0, 2)]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// x⁵ y⁴ + 3 x² y⁵ − x and its derivatives.
    fn corner(x: f64, y: f64) -> Corner {
        let (x2, y2) = (x * x, y * y);
        let (x3, y3) = (x2 * x, y2 * y);
        let (x4, y4) = (x2 * x2, y2 * y2);
        [
            [
                x4 * x * y4 + 3.0 * x2 * y4 * y - x,
                4.0 * x4 * x * y3 + 15.0 * x2 * y4,
                12.0 * x4 * x * y2 + 60.0 * x2 * y3,
            ],
            [
                5.0 * x4 * y4 + 6.0 * x * y4 * y - 1.0,
                20.0 * x4 * y3 + 30.0 * x * y4,
                60.0 * x4 * y2 + 120.0 * x * y3,
            ],
            [
                20.0 * x3 * y4 + 6.0 * y4 * y,
                80.0 * x3 * y3 + 30.0 * y4,
                240.0 * x3 * y2 + 120.0 * y3,
            ],
        ]
    }

    #[test]
    fn a_patch_is_exact_for_quintics() {
        let (x, y, sides) = (0.3, -0.8, [0.5, 1.5]);
        let all =
            [0.0, 1.0].map(|p| [0.0, 1.0].map(|q| corner(x + p * sides[0], y + q * sides[1])));
        let cell = patch([[&all[0][0], &all[0][1]], [&all[1][0], &all[1][1]]], sides);
        for (t, w) in [(0.0, 0.0), (0.3, 0.6), (1.0, 0.2), (0.77, 1.0)] {
            let want = corner(x + t * sides[0], y + w * sides[1]);
            let [u, by_t, by_w] = slopes(&cell, t, w);
            let [tt, tw, ww] = curvatures(&cell, t, w);
            let [a, b] = sides;
            for (got, want) in [
                (u, want[0][0]),
                (by_t / a, want[1][0]),
                (by_w / b, want[0][1]),
                (tt / (a * a), want[2][0]),
                (tw / (a * b), want[1][1]),
                (ww / (b * b), want[0][2]),
            ] {
                assert!((got - want).abs() < 1e-11, "{got} {want}");
            }
        }
    }
}
