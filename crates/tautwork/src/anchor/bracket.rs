//! How much of a step to take where the energy is convex along it.

/// Tries of one search: each halves or doubles the part.
const TRIES: usize = 60;

/// A part of a step at which `tried` says that it is good enough, beside the slope of the energy there, which grows
/// along the step; short of that, the longest part found before the least of the energy.
pub(super) fn bracket(mut tried: impl FnMut(f64) -> (f64, bool)) -> f64 {
    let (mut low, mut high, mut part) = (0.0, f64::INFINITY, 1.0);
    for _ in 0..TRIES {
        let (slope, good) = tried(part);
        if good {
            return part;
        }
        if slope < 0.0 {
            low = part;
        } else {
            high = part;
        }
        part = if high.is_finite() { 0.5 * (low + high) } else { 2.0 * part };
    }
    low
}
