//! A half line, from its anchor to the ring, as a potential of where the ring is.

use crate::line::{Chord, Planar, Stop, Uniform};
use crate::material::Law;

/// A uniform line from a fixed anchor to the ring; its only load is its weight.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Half {
    pub anchor_m: [f64; 3],
    pub rest_m: f64,
    pub mass_kg: f64,
    /// Weight per rest length, N/m.
    pub q_n_per_m: f64,
    pub law: Law,
}

/// Exact potential at one place of the ring, with its derivatives by the square q of the chord and the
/// height z, Eq. (16).
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Exact {
    pub u: f64,
    pub u_q: f64,
    pub u_z: f64,
    pub u_qq: f64,
    pub u_qz: f64,
    pub u_zz: f64,
}

/// Closure of the line on its chord, over the larger of both: rounding.
const CLOSED: f64 = 1e-13;

impl Half {
    fn uniform(&self) -> Uniform<'_> {
        Uniform { q_n_per_m: self.q_n_per_m, rest_m: self.rest_m, law: &self.law }
    }

    /// Tension at the anchor and sums with the ring at a distance across and a height, from the solution of a
    /// nearby place if there is one. False for a slack line without weight.
    pub fn solve(
        &self,
        across_m: f64,
        height_m: f64,
        near: &mut Option<Planar>,
    ) -> Result<bool, Stop> {
        let chord = Chord { across_m, along_m: -height_m };
        let solved = match near {
            Some(planar) => self.uniform().follow(chord, planar, CLOSED),
            None => self.uniform().solve(chord),
        };
        *near = None;
        match solved {
            Ok(planar) => *near = Some(planar),
            Err(Stop::Slack) => return Ok(false),
            Err(stop) => return Err(stop),
        }
        Ok(true)
    }

    /// Everything at a place that is not straight above or below the anchor.
    pub fn exact(&self, q: f64, z: f64, near: &mut Option<Planar>) -> Result<Exact, Stop> {
        let a = (q - z * z).sqrt();
        let taut = self.solve(a, z, near)?;
        let (Some(p), true) = (near.as_ref(), taut) else { return Ok(Exact::default()) };
        // By distance across and height: force, and the inverse of the flexibility.
        let (f_a, f_h) = (p.h_n, -p.piece.v1_n);
        let (hh, hv, vv) = (p.piece.hh, p.piece.hv, p.piece.vv);
        let (aa, ad, dd) = if hh >= vv {
            let r = hv / hh;
            let dd = 1.0 / (vv - r * hv);
            (1.0 / hh + r * r * dd, -r * dd, dd)
        } else {
            let r = hv / vv;
            let aa = 1.0 / (hh - r * hv);
            (aa, -r * aa, 1.0 / vv + r * r * aa)
        };
        let ah = -ad;
        // a = √(q − z²)
        let (a_q, a_z, a3) = (0.5 / a, -z / a, a * a * a);
        Ok(Exact {
            u: self.potential_j(p, a, z),
            u_q: f_a * a_q,
            u_z: f_a * a_z + f_h,
            u_qq: aa * a_q * a_q - f_a / (4.0 * a3),
            u_qz: (aa * a_z + ah) * a_q + f_a * z / (2.0 * a3),
            u_zz: aa * a_z * a_z + 2.0 * ah * a_z + dd - f_a * q / a3,
        })
    }

    /// What it does to its anchor if it does `force` to the ring: the same the other way round, but for its
    /// weight.
    #[inline]
    pub fn on_anchor_n(&self, [x, y, z]: [f64; 3]) -> [f64; 3] {
        [-x, -y, -z - self.q_n_per_m * self.rest_m]
    }

    /// Elastic energy and height of the line over its anchor, J: T·r less the complementary energy.
    pub fn potential_j(&self, p: &Planar, across_m: f64, height_m: f64) -> f64 {
        let (h, v0, v1) = (p.h_n, p.v0_n, p.piece.v1_n);
        let stretch = match &self.law {
            Law::Linear { ea_n } => {
                let squares = h * h + (v0 * v0 + v0 * v1 + v1 * v1) / 3.0;
                0.5 * self.rest_m * (squares / ea_n)
            }
            Law::Curve(_) => {
                let mut sum = 0.0;
                self.uniform().quadrature(h, v0, |s, weight| {
                    let t = h.hypot(v0 - self.q_n_per_m * s);
                    sum += weight * (t * self.law.strain(t) - self.law.energy_n(t));
                });
                sum
            }
        };
        h * across_m - v1 * height_m - self.uniform().tension_integral(h, v0) - stretch
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn half(rest_m: f64, q_n_per_m: f64, ea_n: f64) -> Half {
        let law = Law::Linear { ea_n };
        Half { anchor_m: [0.0; 3], rest_m, mass_kg: q_n_per_m * rest_m / 9.81, q_n_per_m, law }
    }

    #[test]
    fn force_and_stiffness_are_the_derivatives_of_the_potential() {
        for (half, c) in [
            (half(64.0, 0.667, 2.5e5), 65.0),
            (half(64.0, 0.667, 2.5e5), 63.9),
            (half(66.5, 0.6, 3e4), 64.0),
            (half(10.0, 0.0, 2e4), 10.2),
        ] {
            for s in [-0.6, -0.1, 0.0, 0.3] {
                let (q, z) = (c * c, c * s);
                let at = |q: f64, z: f64| half.exact(q, z, &mut None).unwrap();
                let (e, dq, dz) = (at(q, z), 1e-4 * c, 1e-4);
                let (right, left) = (at(q + dq, z), at(q - dq, z));
                let (over, under) = (at(q, z + dz), at(q, z - dz));
                let close = |up: f64, low: f64, d: f64, want: f64, unit: f64| {
                    let got = (up - low) / (2.0 * d);
                    assert!((got - want).abs() < 1e-4 * (unit + want.abs()), "{got} {want}");
                };
                let by_q = 1.0 / c;
                close(right.u, left.u, dq, e.u_q, by_q);
                close(over.u, under.u, dz, e.u_z, 1.0);
                close(right.u_q, left.u_q, dq, e.u_qq, by_q * by_q);
                close(over.u_q, under.u_q, dz, e.u_qz, by_q);
                close(right.u_z, left.u_z, dq, e.u_qz, by_q);
                close(over.u_z, under.u_z, dz, e.u_zz, 1.0);
            }
        }
    }

    #[test]
    fn a_straight_weightless_line_stores_half_the_stiffness_times_the_square() {
        let e = half(10.0, 0.0, 2e4).exact(10.5 * 10.5, 2.1, &mut None).unwrap();
        assert!((e.u - 0.5 * 2e4 / 10.0 * 0.25).abs() < 1e-9, "{}", e.u);
        let slack = half(10.0, 0.0, 2e4).exact(9.5 * 9.5, 1.9, &mut None).unwrap();
        assert_eq!((slack.u, slack.u_q), (0.0, 0.0));
    }
}
