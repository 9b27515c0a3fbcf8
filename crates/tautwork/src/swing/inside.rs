//! Maxima, crossings and roots inside a step.

/// Where a smooth function with one maximum has it, from three points around it: parabolas through the best
/// three, and the golden section where they do not help (Brent, *Algorithms for Minimization Without
/// Derivatives*, from memory). With its value. A maximum is flat: 1e-4 of the bracket, some microseconds of a
/// step, leaves an error of the value of its square.
fn top(points: [(f64, f64); 3], mut f: impl FnMut(f64) -> f64) -> (f64, f64) {
    const SHARE: f64 = 0.381_966_011_250_105_1;
    let [(mut low, f_low), (mut x, mut f_x), (mut up, f_up)] = points;
    // The best point x, the second best w and the third best v; the last two strides.
    let ((mut w, mut f_w), (mut v, mut f_v)) =
        if f_low >= f_up { ((low, f_low), (up, f_up)) } else { ((up, f_up), (low, f_low)) };
    let close = 1e-4 * (up - low);
    let (mut stride, mut before) = (up - low, up - low);
    for _ in 0..40 {
        let middle = 0.5 * (low + up);
        if (x - middle).abs() <= 2.0 * close - 0.5 * (up - low) {
            break;
        }
        let (r, q) = ((x - w) * (f_x - f_v), (x - v) * (f_x - f_w));
        let (p, q) = ((x - v) * q - (x - w) * r, 2.0 * (q - r));
        let parabola = -p / q;
        let to = x + parabola;
        let good = parabola.abs() < 0.5 * before.abs() && to > low && to < up;
        if good && parabola.abs() < close {
            break;
        }
        before = stride;
        stride = if good {
            parabola
        } else {
            before = if x < middle { up - x } else { low - x };
            SHARE * before
        };
        let to = x + if stride.abs() < close { close.copysign(stride) } else { stride };
        let value = f(to);
        if value >= f_x {
            if to < x {
                up = x;
            } else {
                low = x;
            }
            ((v, f_v), (w, f_w), (x, f_x)) = ((w, f_w), (x, f_x), (to, value));
        } else {
            if to < x {
                low = to;
            } else {
                up = to;
            }
            if value >= f_w || w == x {
                ((v, f_v), (w, f_w)) = ((w, f_w), (to, value));
            } else if value >= f_v || v == x || v == w {
                (v, f_v) = (to, value);
            }
        }
    }
    (x, f_x)
}

/// Where a smooth function is greatest between 0 and 1, with its value there, from its values at 0, 1/2 and 1:
/// at an end, or looked for around the vertex of the parabola through them.
pub(super) fn peak([a, b, c]: [f64; 3], mut f: impl FnMut(f64) -> f64) -> (f64, f64) {
    let end = if c >= a { (1.0, c) } else { (0.0, a) };
    let bend = a - 2.0 * b + c;
    let vertex = if bend < 0.0 { (0.75 * a - b + 0.25 * c) / bend } else { f64::NAN };
    let points = if b >= a && b >= c {
        if a == c && b == a {
            return end;
        }
        [(0.0, a), (0.5, b), (1.0, c)]
    } else if vertex > 0.0 && vertex < 0.5 {
        [(0.0, a), (vertex, f(vertex)), (0.5, b)]
    } else if (0.5..1.0).contains(&vertex) {
        [(0.5, b), (vertex, f(vertex)), (1.0, c)]
    } else {
        return end;
    };
    let found = top(points, f);
    if found.1 > end.1 { found } else { end }
}

/// Where a condition that is false at `from` and true at `to` turns true, by bisection down to the
/// spacing of doubles; the result is on the true side.
pub(super) fn crossing(from: f64, to: f64, mut holds: impl FnMut(f64) -> bool) -> f64 {
    let (mut low, mut up) = (from, to);
    for _ in 0..60 {
        let middle = 0.5 * (low + up);
        if middle <= low || middle >= up {
            break;
        }
        if holds(middle) {
            up = middle;
        } else {
            low = middle;
        }
    }
    up
}

/// Where a smooth function changes from the sign of `at_from` to the other, by the Illinois form of
/// false position, down to 1e-14 of the step or of the ends; the result is on the far side but for rounding.
pub(super) fn root(
    (from, at_from): (f64, f64),
    (to, at_to): (f64, f64),
    mut f: impl FnMut(f64) -> f64,
) -> f64 {
    let (mut low, mut f_low, mut up, mut f_up) = (from, at_from, to, at_to);
    let enough = 1e-14 * (at_from.abs() + at_to.abs());
    let mut last = None;
    for _ in 0..60 {
        let mut middle = up - f_up * (up - low) / (f_up - f_low);
        if !(middle > low && middle < up) {
            middle = 0.5 * (low + up);
        }
        let value = f(middle);
        let far = (value > 0.0) == (at_to > 0.0);
        if value.abs() <= enough || up - low <= 1e-14 {
            return if far { middle } else { up.min(middle + 1e-14) };
        }
        if far {
            (up, f_up) = (middle, value);
            f_low *= if last == Some(true) { 0.5 } else { 1.0 };
        } else {
            (low, f_low) = (middle, value);
            f_up *= if last == Some(false) { 0.5 } else { 1.0 };
        }
        last = Some(far);
    }
    up
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn maxima_are_found_with_few_calls() {
        for (f, want) in [
            ((|x| -(x - 0.3) * (x - 0.3)) as fn(f64) -> f64, 0.3),
            (|x| (2.0 * x).sin() * (-x).exp(), 0.5 * 2.0_f64.atan()),
            (|x| -(x - 0.8).powi(4), 0.8),
            (|x| -(x - 0.2).abs(), 0.2),
        ] {
            let mut calls = 0;
            let points = [0.0, 0.5, 1.0].map(|x| (x, f(x)));
            let (at, value) = top(points, |x| {
                calls += 1;
                f(x)
            });
            let left = f(want) - value;
            assert!(value == f(at) && left < 1e-3 && calls < 25, "{want}: {at} {calls}");
            if want != 0.2 && want != 0.8 {
                assert!(left < 1e-8 && calls < 8, "{want}: {at} {calls}");
            }
        }
    }

    #[test]
    fn the_peak_of_a_step_is_at_an_end_or_inside() {
        for (f, want) in [
            ((|x| x) as fn(f64) -> f64, 1.0),
            (|x| -x * x, 0.0),
            (|_| 3.0, 1.0),
            (|x| (3.0 * x).sin(), core::f64::consts::PI / 6.0),
            (|x| -(x - 0.8) * (x - 0.8) * (1.0 + 0.3 * x), 0.8),
            (|x| (x - 0.4) * (x - 0.4), 1.0),
        ] {
            let (at, value) = peak([0.0, 0.5, 1.0].map(f), f);
            assert!((at - want).abs() < 1e-3 && (value - f(want)).abs() < 1e-7, "{want}: {at}");
        }
    }

    #[test]
    fn bisection_and_false_position_find_what_they_should() {
        let half = crossing(0.0, 1.0, |x| x * x > 0.5);
        assert!((half - 0.5_f64.sqrt()).abs() < 1e-15);
        let mut calls = 0;
        let half = root((0.0, -0.5), (1.0, 0.5), |x| {
            calls += 1;
            x * x - 0.5
        });
        assert!((half - 0.5_f64.sqrt()).abs() < 1e-13 && calls < 20, "{half} {calls}");
    }
}
