//! Vectors in space as arrays.

/// Length of a vector.
#[inline]
pub(super) fn size(a: [f64; 3]) -> f64 {
    dot(a, a).sqrt()
}

#[inline]
pub(super) fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// a − b.
#[inline]
pub(super) fn from(b: [f64; 3], a: [f64; 3]) -> [f64; 3] {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

/// The three components that start at `at`.
#[inline]
pub(super) fn three(y: &[f64], at: usize) -> [f64; 3] {
    [y[at], y[at + 1], y[at + 2]]
}
