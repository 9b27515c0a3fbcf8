//! A chain of segments at rest between two points: Eq. (F13) to (F15), the static twin of a strand.

use nalgebra::{Matrix3, Vector3};

use super::plan::Strand;
use crate::material::Law;
use crate::quantity::GRAVITY;

type V = Vector3<f64>;
type M = Matrix3<f64>;

/// Newton steps for one degree of smoothing.
const ITERATIONS: usize = 100;
/// Degrees of smoothing, each a tenth of the last. More would leave a slack segment of a fold no digits.
const DEGREES: i32 = 6;
/// Closure over the larger of length and distance.
const CLOSED: f64 = 1e-12;
/// Closure that will do where Newton finds no better.
const NEARLY: f64 = 1e-9;

/// A strand at rest.
#[derive(Debug, Clone)]
pub(super) struct Hanging {
    pub strand: Strand,
    /// Pull on the first point; the last state.
    pull_n: V,
    /// Derivative of the pull by the last point.
    stiffness: M,
    solved: bool,
}

impl Hanging {
    pub fn new(strand: &Strand) -> Self {
        Self { strand: strand.clone(), pull_n: V::zeros(), stiffness: M::zeros(), solved: false }
    }

    fn segment_weight_n(&self) -> f64 {
        self.strand.mass_kg * GRAVITY
    }

    /// Pull in segment i: it grows upwards by the weight of each mass passed, Eq. (F13).
    fn pull_in_n(&self, pull_n: V, i: usize) -> V {
        pull_n + V::new(0.0, 0.0, i as f64 * self.segment_weight_n())
    }

    /// Span of one segment under a pull, and its derivative, Eq. (F14). `smooth_n` gives a segment without
    /// pull a direction.
    fn span(&self, t: V, rest_m: f64, smooth_n: f64) -> (V, M) {
        let size = (t.norm_squared() + smooth_n * smooth_n).sqrt();
        let (e, slope) = self.strand.spring.law.strain_and_slope(size);
        let u = t / size;
        let stretched = rest_m * (1.0 + e);
        let uu = u * u.transpose();
        let across = (M::identity() - uu) * (stretched / size);
        (u * stretched, across + uu * (rest_m * slope))
    }

    fn run(&self, pull_n: V, smooth_n: f64) -> (V, M) {
        let (mut end, mut flexibility) = (V::zeros(), M::zeros());
        for i in 0..self.strand.segments {
            let (r, f) = self.span(self.pull_in_n(pull_n, i), self.strand.segment_m(i), smooth_n);
            end += r;
            flexibility += f;
        }
        (end, flexibility)
    }

    /// Solves for the distance from the first point to the last. False if no pull was found.
    pub fn solve(&mut self, chord_m: V) -> bool {
        if self.strand.mass_kg == 0.0 {
            self.solve_straight(chord_m);
            return self.pull_n.iter().all(|t| t.is_finite());
        }
        let weight_n = self.segment_weight_n() * self.strand.segments as f64;
        let finest_n = weight_n * 0.1_f64.powi(DEGREES);
        if self.solved && self.newton(chord_m, finest_n) {
            return true;
        }
        let length_m = self.strand.length_m();
        let taut = chord_m.norm() / length_m - 1.0;
        self.pull_n = V::new(0.0, 0.0, -0.5 * weight_n);
        if taut > 0.0 {
            self.pull_n += chord_m.normalize() * self.strand.spring.law.tension(taut);
        }
        self.solved = (0..=DEGREES).all(|k| self.newton(chord_m, weight_n * 0.1_f64.powi(k)));
        self.solved
    }

    /// One segment without weight.
    fn solve_straight(&mut self, chord_m: V) {
        let d = chord_m.norm();
        let e = d / self.strand.length_m() - 1.0;
        (self.pull_n, self.stiffness) = (V::zeros(), M::zeros());
        if e > 0.0 {
            let t = self.strand.spring.law.tension(e);
            let u = chord_m / d;
            let uu = u * u.transpose();
            let slope = 1.0 / self.strand.spring.law.strain_and_slope(t).1;
            self.pull_n = u * t;
            self.stiffness = uu * (slope / self.strand.length_m()) + (M::identity() - uu) * (t / d);
        }
    }

    /// Newton on the convex complementary energy, Eq. (F15).
    fn newton(&mut self, chord_m: V, smooth_n: f64) -> bool {
        let scale_m = self.strand.length_m().max(chord_m.norm());
        let mut pull = self.pull_n;
        let (mut end, mut flexibility) = self.run(pull, smooth_n);
        for _ in 0..ITERATIONS {
            let off = end - chord_m;
            if off.norm() <= CLOSED * scale_m {
                return self.keep(pull, flexibility);
            }
            let Some(inverse) = flexibility.try_inverse() else { return false };
            let step = -(inverse * off);
            let slope = off.dot(&step);
            if !slope.is_finite() {
                return false;
            }
            let mut share = 1.0;
            let taken = loop {
                let trial = pull + step * share;
                let (trial_end, trial_flexibility) = self.run(trial, smooth_n);
                // The slope along the step only rises: past the least energy by no more than it fell.
                if (trial_end - chord_m).dot(&step) <= -0.5 * slope {
                    (pull, end, flexibility) = (trial, trial_end, trial_flexibility);
                    break true;
                }
                share *= 0.5;
                if share < 1e-18 {
                    break false;
                }
            };
            if !taken {
                break;
            }
        }
        (end - chord_m).norm() <= NEARLY * scale_m && self.keep(pull, flexibility)
    }

    fn keep(&mut self, pull: V, flexibility: M) -> bool {
        let Some(stiffness) = flexibility.try_inverse() else { return false };
        (self.pull_n, self.stiffness) = (pull, stiffness);
        true
    }

    /// Pull on the first point.
    pub fn first_pull_n(&self) -> V {
        self.pull_n
    }

    /// Pull on the last point.
    pub fn last_pull_n(&self) -> V {
        -self.pull_in_n(self.pull_n, self.strand.segments - 1)
    }

    /// Minus the derivative of the last pull by the last point.
    pub fn stiffness_n_per_m(&self) -> M {
        self.stiffness
    }

    /// Every point, from the first to the last, which are given.
    pub fn points_m(&self, from: V, to: V) -> Vec<[f64; 3]> {
        let n = self.strand.segments;
        let mut at = from;
        let mut points = vec![from.into()];
        let smooth_n = self.segment_weight_n() * n as f64 * 0.1_f64.powi(DEGREES);
        for i in 1..n {
            at += self.span(self.pull_in_n(self.pull_n, i - 1), self.strand.rest_m, smooth_n).0;
            points.push(at.into());
        }
        points.push(to.into());
        points
    }
}

/// Whether a law is known at all sizes of pull a state asks for.
pub(super) fn past_table(law: &Law, tension_n: f64) -> bool {
    tension_n > law.last_n()
}

#[cfg(test)]
mod tests {
    use super::super::plan::{End, Spring};
    use super::*;

    fn strand(segments: usize, length_m: f64, kg_per_m: f64, ea_n: f64) -> Strand {
        let spring = Spring { law: Law::Linear { ea_n }, arm_n: 0.0, relaxation_s: 1.0 };
        Strand::new((End::Ring, End::Body), length_m, kg_per_m, segments, spring)
    }

    // Level inextensible catenary: w 5 N/m, span 20 m, sag 6 m has H 45.9 N and half length 12.1 m
    // (Hibbeler, from memory; recomputed 45.9447 N, 12.0941 m).
    #[test]
    fn many_segments_hang_as_the_catenary() {
        let mut off = Vec::new();
        for segments in [25, 50, 100] {
            let strand = strand(segments, 24.188_2, 5.0 / GRAVITY, 1e9);
            let mut hanging = Hanging::new(&strand);
            assert!(hanging.solve(V::new(20.0, 0.0, 0.0)));
            off.push((hanging.first_pull_n().x / 45.944_7 - 1.0).abs());
        }
        println!("H off by {off:?}");
        assert!(off[2] < 3e-4 && (off[0] / off[1] - 4.0).abs() < 0.3, "{off:?}");
    }

    // A rope hung at one end: EA ΔL = w L²/2 + W L (Gere and Timoshenko, from memory), here for segments:
    // Σ ℓ (W + i w ℓ) / EA.
    #[test]
    fn a_loaded_rope_stretches_by_the_sum() {
        let strand = strand(40, 20.0, 0.1, 5e3);
        let mut hanging = Hanging::new(&strand);
        let w = strand.mass_kg * GRAVITY;
        let stretched = 20.0 + (0..40).map(|i| 0.5 * (200.0 + f64::from(i) * w) / 5e3).sum::<f64>();
        assert!(hanging.solve(V::new(0.0, 0.0, -stretched)));
        assert!((hanging.last_pull_n().z - 200.0).abs() < 1e-7, "{}", hanging.last_pull_n());
    }

    #[test]
    fn folds_close_for_any_number_of_segments() {
        for segments in 1..30 {
            for (x, z) in [(0.0, 0.0), (0.0, -3.0), (1e-9, 4.2), (0.0, 9.99), (3.0, -1.0)] {
                let strand = strand(segments, 10.0, 0.07, 2e4);
                let mut hanging = Hanging::new(&strand);
                assert!(hanging.solve(V::new(x, 0.0, z)), "{segments} segments to {x}, {z}");
                let points = hanging.points_m(V::zeros(), V::new(x, 0.0, z));
                // No segment is longer than its weight below stretches it.
                for pair in points.windows(2) {
                    let d = (V::from(pair[1]) - V::from(pair[0])).norm();
                    assert!(d < strand.rest_m * 1.001, "{segments} to {x}, {z}: {d}");
                }
            }
        }
    }
}
