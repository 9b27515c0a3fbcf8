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

#[inline]
pub(super) fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
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

/// The point at a share of the way from p to q.
#[inline]
pub(super) fn along(p: [f64; 3], q: [f64; 3], share: f64) -> [f64; 3] {
    [0, 1, 2].map(|i| p[i] + share * (q[i] - p[i]))
}

/// Nearest points of two segments.
pub(super) fn between_segments(p: [[f64; 3]; 2], q: [[f64; 3]; 2]) -> [[f64; 3]; 2] {
    let [s, t] = shares_between(p, q);
    [along(p[0], p[1], s), along(q[0], q[1], t)]
}

/// Shares of two segments at which they are nearest.
pub(super) fn shares_between([p, p1]: [[f64; 3]; 2], [q, q1]: [[f64; 3]; 2]) -> [f64; 2] {
    let (u, v, w) = (from(p, p1), from(q, q1), from(q, p));
    let (uu, vv, uv, uw, vw) = (dot(u, u), dot(v, v), dot(u, v), dot(u, w), dot(v, w));
    let along = |a: f64, aa: f64| if aa > 0.0 { (a / aa).clamp(0.0, 1.0) } else { 0.0 };
    let det = uu * vv - uv * uv;
    // Parallel: any s will do before t is held to its segment.
    let s = if det > 1e-12 * uu * vv { along(uv * vw - vv * uw, det) } else { 0.0 };
    let t = along(uv * s + vw, vv);
    [along(uv * t - uw, uu), t]
}
