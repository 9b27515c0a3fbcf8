//! Closed forms of one uniform piece, in the plane of its load and its tension: Eq. (3) to (9).
//!
//! Every form stays exact through no load (q = 0), a fold (H = 0) and a straight line; none subtracts
//! two large numbers to get a small one.

use crate::material::Law;

/// Integrals of one piece at tension (H, V₀), with their Jacobian.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Piece {
    /// Tension at both ends.
    pub t0_n: f64,
    pub t1_n: f64,
    /// Component of the far tension along the load.
    pub v1_n: f64,
    /// ∫ (1 + e) T / |T| ds across and along the load.
    pub across_m: f64,
    pub along_m: f64,
    /// Flexibility: the derivatives of the two by H and V₀.
    pub hh: f64,
    pub hv: f64,
    pub vv: f64,
    /// Flexibility out of the plane.
    pub out: f64,
}

/// Load of a piece: magnitude per rest length, rest length, stretch.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Uniform<'a> {
    pub q_n_per_m: f64,
    pub rest_m: f64,
    pub law: &'a Law,
}

/// Quantities at the ends of a piece from which its closed forms are made.
struct End {
    v1: f64,
    t0: f64,
    t1: f64,
    sum: f64,
    per_sum: f64,
    /// q L / (T₀ + T₁).
    x: f64,
    /// T₀ + T₁ - q L.
    short: f64,
    /// atanh(x) / x.
    phi: f64,
    /// The load turns the line around: V₀ > 0 > V₁.
    fold: bool,
    h2_short: f64,
}

/// atanh(x) / x for 0 <= x < 1, given 1 - x free of cancellation.
fn atanh_over(x: f64, one_minus_x: f64) -> f64 {
    let x2 = x * x;
    if x2 < 1e-4 {
        // Five terms leave 1e-21.
        return 1.0 + x2 * (1.0 / 3.0 + x2 * (0.2 + x2 * (1.0 / 7.0 + x2 * (1.0 / 9.0))));
    }
    if x2 < 0.01 {
        // Nine terms leave 1e-19; even and odd ones apart, since the chain of operations is what costs.
        let y = x2 * x2;
        let even = 1.0 + y * (0.2 + y * (1.0 / 9.0 + y * (1.0 / 13.0 + y * (1.0 / 17.0))));
        let odd = 1.0 / 3.0 + y * (1.0 / 7.0 + y * (1.0 / 11.0 + y * (1.0 / 15.0)));
        return even + x2 * odd;
    }
    0.5 * ((1.0 + x) / one_minus_x).ln() / x
}

impl Uniform<'_> {
    /// All integrals at (H, V₀). NaN at zero tension throughout, where no direction exists.
    pub fn at(&self, h_n: f64, v0_n: f64) -> Piece {
        let mut p = self.inextensible(h_n, v0_n);
        match self.law {
            Law::Linear { ea_n } => {
                let e = self.rest_m / ea_n;
                p.across_m += h_n * e;
                p.along_m += 0.5 * (v0_n + p.v1_n) * e;
                p.hh += e;
                p.vv += e;
                p.out += e;
            }
            Law::Curve(_) => self.add_curved_stretch(&mut p, h_n, v0_n),
        }
        p
    }

    /// What all closed forms share.
    #[inline]
    fn ends(&self, h: f64, v0: f64) -> End {
        let (q, l) = (self.q_n_per_m, self.rest_m);
        let v1 = v0 - q * l;
        let h2 = h * h;
        let (t0, t1) = ((h2 + v0 * v0).sqrt(), (h2 + v1 * v1).sqrt());
        let sum = t0 + t1;
        let per_sum = 1.0 / sum;
        let x = q * l * per_sum;
        let fold = v0 > 0.0 && v1 < 0.0;
        // sum - q l = (t0 - v0) + (t1 + v1), each free of cancellation. In a fold H² / (sum - q l)
        // stays finite while H goes to zero.
        let (short, h2_short) = if fold {
            let (p, r) = (t0 + v0, t1 - v1);
            let h2_short = p * (r / (p + r));
            (h2 / h2_short, h2_short)
        } else {
            let lower = if v0 > 0.0 { h2 / (t0 + v0) } else { t0 - v0 };
            let upper = if v1 < 0.0 { h2 / (t1 - v1) } else { t1 + v1 };
            (lower + upper, 0.0)
        };
        // The floor stands for a fold without any H, where the logarithm of Eq. (5) has no bound.
        let short = short.max(1e-290 * sum);
        let h2_short = if fold { h2_short } else { h2 / short };
        End {
            v1,
            t0,
            t1,
            sum,
            per_sum,
            x,
            short,
            phi: atanh_over(x, short * per_sum),
            fold,
            h2_short,
        }
    }

    #[inline]
    fn inextensible(&self, h: f64, v0: f64) -> Piece {
        let End { v1, t0, t1, per_sum, x, short, phi, fold, h2_short, .. } = self.ends(h, v0);
        let l = self.rest_m;
        let (a, mean) = (2.0 * l * per_sum * phi, l * (v0 + v1) * per_sum);
        let (vv, hv) = if fold || h != 0.0 {
            let (per_t0, per_t1) = (1.0 / t0, 1.0 / t1);
            let hv = -mean * per_t0 * (h * per_t1);
            let vv = if fold {
                2.0 * l * per_t0 * per_t1 * h2_short / (1.0 + x)
            } else {
                (h * per_t0) * (h * per_t1) * 2.0 * l / ((1.0 + x) * short)
            };
            (vv, hv)
        } else {
            (0.0, 0.0)
        };
        Piece {
            t0_n: t0,
            t1_n: t1,
            v1_n: v1,
            across_m: h * a,
            along_m: mean,
            hh: (a - vv).max(0.0),
            hv,
            vv,
            out: a,
        }
    }

    /// Where the piece ends, across and along the load: [`Self::at`] without its derivatives.
    pub fn reach(&self, h: f64, v0: f64) -> (f64, f64) {
        let Law::Linear { ea_n } = self.law else {
            let p = self.at(h, v0);
            return (p.across_m, p.along_m);
        };
        let End { v1, per_sum, phi, .. } = self.ends(h, v0);
        let (l, e) = (self.rest_m, self.rest_m / ea_n);
        (h * (2.0 * l * per_sum * phi + e), (v0 + v1) * (l * per_sum + 0.5 * e))
    }

    /// ∫ |T| ds, Eq. (9).
    pub fn tension_integral(&self, h: f64, v0: f64) -> f64 {
        let End { v1, t0, t1, sum, x, short, phi, fold, h2_short, .. } = self.ends(h, v0);
        let h2 = h * h;
        let top = if fold {
            (h2 + v0 * v0 + v1 * v1) / (t0 * t1 - v0 * v1) * h2_short
        } else {
            (t0 * t1 + v0 * v1) / short
        };
        self.rest_m / sum * (top * sum / (1.0 + x) + h2 * phi)
    }

    /// Stretched length, ∫ (1 + e) ds.
    pub fn stretched_m(&self, h: f64, v0: f64) -> f64 {
        if let Law::Linear { ea_n } = self.law {
            return self.rest_m + self.tension_integral(h, v0) / ea_n;
        }
        let mut sum = self.rest_m;
        self.quadrature(h, v0, |s, weight| {
            sum += weight * self.law.strain(h.hypot(v0 - self.q_n_per_m * s));
        });
        sum
    }

    /// Adds the stretch part of a curve by Gauss quadrature between the kinks of e(|T(s)|).
    fn add_curved_stretch(&self, p: &mut Piece, h: f64, v0: f64) {
        self.quadrature(h, v0, |s, weight| {
            let v = v0 - self.q_n_per_m * s;
            let t = h.hypot(v);
            if t == 0.0 {
                return;
            }
            let (e, slope) = self.law.strain_and_slope(t);
            let secant = e / t;
            let (ch, cv) = (h / t, v / t);
            p.across_m += weight * secant * h;
            p.along_m += weight * secant * v;
            p.hh += weight * (secant * cv * cv + slope * ch * ch);
            p.vv += weight * (secant * ch * ch + slope * cv * cv);
            p.hv += weight * (slope - secant) * ch * cv;
            p.out += weight * secant;
        });
    }

    /// Calls `f(s, weight)` over Gauss points of the pieces between which e(|T(s)|) is smooth.
    pub fn quadrature(&self, h: f64, v0: f64, mut f: impl FnMut(f64, f64)) {
        let (q, l) = (self.q_n_per_m, self.rest_m);
        let mut from = 0.0;
        // Two crossings for each point of the table, and the place of least tension, at most.
        for _ in 0..=2 * self.law.knots().len() + 1 {
            let to = self.next_kink(h, v0, from).unwrap_or(l);
            let half = 0.5 * (to - from);
            for (x, w) in GAUSS_8 {
                f(from + half * (1.0 - x), half * w);
                f(from + half * (1.0 + x), half * w);
            }
            from = to;
            if from >= l || q == 0.0 {
                break;
            }
        }
    }

    /// The first rest arc length after `from` where |T(s)| meets a point of the table or its least.
    fn next_kink(&self, h: f64, v0: f64, from: f64) -> Option<f64> {
        let (q, l) = (self.q_n_per_m, self.rest_m);
        if q == 0.0 {
            return None;
        }
        let clear = from + 1e-12 * l;
        let mut best: Option<f64> = None;
        let mut offer = |v: f64| {
            let s = (v0 - v) / q;
            if s > clear && s < l && best.is_none_or(|b| s < b) {
                best = Some(s);
            }
        };
        offer(0.0);
        for &knot in self.law.knots() {
            let v2 = (knot - h) * (knot + h);
            if v2 > 0.0 {
                offer(v2.sqrt());
                offer(-v2.sqrt());
            }
        }
        best
    }
}

/// Abscissas and weights of eight-point Gauss-Legendre quadrature, positive half
/// (Abramowitz and Stegun 1964, table 25.4).
const GAUSS_8: [(f64, f64); 4] = [
    (0.183_434_642_495_649_8, 0.362_683_783_378_362),
    (0.525_532_409_916_329, 0.313_706_645_877_887_3),
    (0.796_666_477_413_626_7, 0.222_381_034_453_374_5),
    (0.960_289_856_497_536_2, 0.101_228_536_290_376_3),
];
