//! Where a rope or a stop leaves its branch inside a step: goes slack, or taut.
//!
//! Its rates follow the branch of the start of the step, so neither the error control nor the books tell of a
//! change that is not found here. One that comes and goes within the step is looked for at more places the nearer
//! the tension comes to its limit.

use super::inside::{peak, root};
use super::watch::GRID;

/// Share of its change in a step below which a tension counts as near its limit.
const NEAR: f64 = 0.25;

/// The first fraction of a step at which a tension before clipping leaves its branch, from its values at the
/// points of [`GRID`]; none if it does not.
pub(super) fn leaves(
    trials_n: [f64; 3],
    taut: bool,
    mut trial_n: impl FnMut(f64) -> f64,
) -> Option<f64> {
    let stays = |n: f64| (n > 0.0) == taut;
    // How far it is on its side, and beyond it.
    let sign = if taut { 1.0 } else { -1.0 };
    let [start, middle, end] = trials_n;
    let mut from = (GRID[0], start);
    if !stays(start) && !stays(middle) {
        // It has just changed, but for rounding: is it where it should be for a part of the first half?
        let half = [start, trial_n(0.5 * GRID[1]), middle].map(|n| sign * n);
        let (part, value) = peak(half, |part| sign * trial_n(part * GRID[1]));
        if value.is_nan() || value <= 0.0 {
            return Some(GRID[0]);
        }
        from = (part * GRID[1], sign * value);
    }
    let quarters = comes_near(trials_n.map(|n| sign * n))
        .then(|| [0.25, 0.75].map(|theta| (theta, trial_n(theta))));
    let [first, third] = [0, 1].map(|k| quarters.map(|q| q[k]));
    for to in [first, Some((GRID[1], middle)), third, Some((GRID[2], end))].into_iter().flatten() {
        if !stays(to.1) {
            return Some(root(from, to, &mut trial_n));
        }
        from = to;
    }
    let [(_, first), (_, third)] = quarters?;
    for (at, half) in [(GRID[0], [start, first, middle]), (GRID[1], [middle, third, end])] {
        let place = |part: f64| at + 0.5 * part;
        let (part, beyond) = peak(half.map(|n| -sign * n), |part| -sign * trial_n(place(part)));
        if beyond > 0.0 {
            return Some(root((at, half[0]), (place(part), -sign * beyond), &mut trial_n));
        }
    }
    None
}

/// Whether what is on its side at all points comes near to nothing at one.
fn comes_near(values: [f64; 3]) -> bool {
    let [a, b, c] = values;
    let (least, most) = (a.min(b).min(c), a.max(b).max(c));
    least >= 0.0 && least < NEAR * (most - least)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(taut: bool, f: impl Fn(f64) -> f64) -> Option<f64> {
        leaves(GRID.map(&f), taut, &f)
    }

    #[test]
    fn a_plain_change_is_where_the_sign_changes() {
        for at in [0.01, 0.3, 0.5, 0.77, 0.999] {
            assert!((found(true, |x| at - x).unwrap() - at).abs() < 1e-12);
            assert!((found(false, |x| (x - at) * (1.0 + x)).unwrap() - at).abs() < 1e-12);
        }
        assert_eq!((found(true, |x| 1.0 + x), found(false, |x| -x * x)), (None, None));
        assert_eq!((found(false, |_| 0.0), found(true, |_| f64::NAN)), (None, Some(0.0)));
    }

    // Slack for a moment only, down to a millionth of the change in the step; the depth is given over that at which
    // it would begin slack.
    #[test]
    fn a_touch_within_a_step_is_found() {
        for depth in [0.5, 1e-2, 1e-4] {
            for vertex in [0.1, 0.25, 0.4, 0.5, 0.6, 0.9] {
                let way = |x: f64| (x - vertex) * (x - vertex) * (1.0 + 0.3 * x);
                let deep = |share: f64| move |x: f64| way(x) - share * vertex * vertex;
                let f = deep(depth);
                let at = found(true, f).unwrap();
                assert!(f(at).abs() < 1e-12 && at < vertex, "{depth} {vertex}: {at}");
                assert!((found(false, |x| -f(x)).unwrap() - at).abs() < 1e-10);
                assert_eq!(found(true, deep(-depth)), None);
            }
        }
    }

    // A bounce of two radians on a slope that hides its dip from three points: a parabola through them has its
    // vertex outside of the step.
    #[test]
    fn a_dip_that_three_points_do_not_show_is_found() {
        let f = |x: f64| (1.52 + 2.0 * x).cos() + 0.5 * x + 2.5 * x * x;
        let least = (0..=1000).map(|k| f(f64::from(k) * 1e-3)).fold(f64::INFINITY, f64::min);
        for deep in [0.02, 0.1] {
            let dip = |x: f64| f(x) - least - deep;
            assert!(GRID.map(dip).iter().all(|n| *n > 0.0) || deep > 0.05);
            let at = found(true, dip).unwrap();
            assert!(dip(at).abs() < 1e-12 && dip(at + 1e-3) < 0.0, "{deep}: {at}");
        }
    }

    // Just gone slack, but for a residue of rounding on the other side.
    #[test]
    fn a_start_off_its_branch_by_rounding() {
        let dip = |x: f64| x * (x - 0.3) + 1e-15;
        assert!((found(false, dip).unwrap() - 0.3).abs() < 1e-12);
        assert_eq!(found(false, |x| x + 1e-15), Some(0.0));
        assert_eq!(found(false, |x| -x + 1e-15), None);
    }
}
