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

/// Exact potential at one chord with its derivatives by chord length c and sine s, Eq. (16).
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Exact {
    pub u: f64,
    pub u_c: f64,
    pub u_s: f64,
    pub u_cc: f64,
    pub u_cs: f64,
    pub u_ss: f64,
}

/// Closure of the line on its chord, over the larger of both: rounding.
const CLOSED: f64 = 1e-13;

impl Half {
    fn uniform(&self) -> Uniform<'_> {
        Uniform { q_n_per_m: self.q_n_per_m, rest_m: self.rest_m, law: &self.law }
    }

    /// Tension at the anchor and sums at a chord, from the solution of a nearby chord if there is one.
    /// None is a slack line without weight.
    pub fn solve(&self, c_m: f64, s: f64, near: &mut Option<Planar>) -> Result<bool, Stop> {
        let chord =
            Chord { across_m: c_m * ((1.0 - s) * (1.0 + s)).max(0.0).sqrt(), along_m: -c_m * s };
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

    /// Everything at a chord; the sine must be within the open interval from -1 to 1.
    pub fn exact(&self, c_m: f64, s: f64, near: &mut Option<Planar>) -> Result<Exact, Stop> {
        let taut = self.solve(c_m, s, near)?;
        let (Some(p), true) = (near.as_ref(), taut) else { return Ok(Exact::default()) };
        let k = ((1.0 - s) * (1.0 + s)).sqrt();
        // By distance across and height: force, and the inverse of the flexibility.
        let (fa, fh) = (p.h_n, -p.piece.v1_n);
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
        let a_s = -c_m * s / k;
        Ok(Exact {
            u: self.potential_j(p, c_m * k, c_m * s),
            u_c: fa * k + fh * s,
            u_s: fa * a_s + fh * c_m,
            u_cc: aa * k * k + 2.0 * ah * k * s + dd * s * s,
            u_cs: aa * k * a_s + ah * (k * c_m + s * a_s) + dd * s * c_m - fa * s / k + fh,
            u_ss: aa * a_s * a_s + 2.0 * ah * a_s * c_m + dd * c_m * c_m - fa * c_m / (k * k * k),
        })
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
                let at = |c: f64, s: f64| half.exact(c, s, &mut None).unwrap();
                let (e, d) = (at(c, s), 1e-4);
                let by = |up: f64, low: f64| (up - low) / (2.0 * d);
                let (right, left) = (at(c + d, s), at(c - d, s));
                let (over, under) = (at(c, s + d), at(c, s - d));
                let close = |got: f64, want: f64| {
                    assert!((got - want).abs() < 1e-4 * (1.0 + want.abs()), "{got} {want}");
                };
                close(by(right.u, left.u), e.u_c);
                close(by(over.u, under.u), e.u_s);
                close(by(right.u_c, left.u_c), e.u_cc);
                close(by(over.u_c, under.u_c), e.u_cs);
                close(by(right.u_s, left.u_s), e.u_cs);
                close(by(over.u_s, under.u_s), e.u_ss);
            }
        }
    }

    #[test]
    fn a_straight_weightless_line_stores_half_the_stiffness_times_the_square() {
        let e = half(10.0, 0.0, 2e4).exact(10.5, 0.2, &mut None).unwrap();
        assert!((e.u - 0.5 * 2e4 / 10.0 * 0.25).abs() < 1e-9, "{}", e.u);
        let slack = half(10.0, 0.0, 2e4).exact(9.5, 0.2, &mut None).unwrap();
        assert_eq!((slack.u, slack.u_c), (0.0, 0.0));
    }
}
