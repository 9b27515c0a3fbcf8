//! All roots of a function of one variable in a range, on a grid with its turning points.

use crate::line::inverse::root;

/// Grid of a scan: two roots nearer to each other than a cell are found by the turn between them.
const CELLS: usize = 240;

/// Roots of `f` from `low` to `high`, in order. Places where `f` has no value are passed over.
pub(super) fn roots(low: f64, high: f64, f: impl Fn(f64) -> f64) -> Vec<f64> {
    let x = |i: usize| low + (high - low) * (i as f64 / CELLS as f64);
    let values: Vec<f64> = (0..=CELLS).map(|i| f(x(i))).collect();
    let mut knots = vec![(x(0), values[0])];
    for i in 1..=CELLS {
        // Between three points of one sign the middle one may be next to a turn that reaches zero.
        if i >= 2 {
            let [a, b, c] = [values[i - 2], values[i - 1], values[i]];
            let one_sign = a * b > 0.0 && b * c > 0.0;
            if one_sign && b.abs() <= a.abs() && b.abs() <= c.abs() {
                let turn = least(x(i - 2), x(i), |at| f(at) * b.signum());
                knots.push((turn, f(turn)));
                knots.sort_by(|p, q| p.0.total_cmp(&q.0));
            }
        }
        knots.push((x(i), values[i]));
    }
    let mut found: Vec<f64> = Vec::new();
    for pair in knots.windows(2) {
        let ((a, fa), (b, fb)) = (pair[0], pair[1]);
        if fa == 0.0 {
            found.push(a);
        } else if fa * fb < 0.0 {
            found.extend(root(a, b, &f));
        }
    }
    found.extend(knots.last().filter(|knot| knot.1 == 0.0).map(|knot| knot.0));
    found
}

/// Place of the least value between two points, by golden section.
fn least(mut low: f64, mut high: f64, f: impl Fn(f64) -> f64) -> f64 {
    let golden = 0.5 * (5.0_f64.sqrt() - 1.0);
    for _ in 0..60 {
        let span = golden * (high - low);
        let (a, b) = (high - span, low + span);
        if f(a) < f(b) { high = b } else { low = a }
    }
    0.5 * (low + high)
}

/// Derivative of a smooth function, by central differences: for error bars, not for exact results.
pub(super) fn slope(at: f64, f: impl Fn(f64) -> f64) -> f64 {
    const STEP: f64 = 1e-4;
    (f(at + STEP) - f(at - STEP)) / (2.0 * STEP)
}
