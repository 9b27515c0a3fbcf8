//! One uniform line between two points, in the plane of chord and load: Newton on the convex
//! complementary energy, Eq. (10).

use super::segment::{Piece, Uniform};

/// The chord in the plane of the load: across it (never negative) and along it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Chord {
    pub across_m: f64,
    pub along_m: f64,
}

impl Chord {
    pub fn length_m(self) -> f64 {
        length(self.across_m, self.along_m)
    }
}

/// Hypotenuse, by the plain root where the squares neither overflow nor vanish: `hypot` costs as much as
/// a piece.
fn length(a: f64, b: f64) -> f64 {
    let square = a * a + b * b;
    if square > 1e-280 && square < 1e280 { square.sqrt() } else { a.hypot(b) }
}

/// Tension at the start of the line, with the integrals there.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Planar {
    pub h_n: f64,
    pub v0_n: f64,
    pub piece: Piece,
    pub residual_m: f64,
    pub iterations: u32,
}

/// Why there is no solution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Stop {
    /// A weightless line is no shorter than its chord is long: its shape is not unique.
    Slack,
    /// The budget is used up, or a number left the range of doubles.
    Stalled { residual_m: f64, iterations: u32 },
    /// The same for the forces at the nodes of a net.
    Unbalanced { residual_n: f64, iterations: u32 },
}

/// More than any input of the sweep in the tests needs (see there); a stop, not a tuning.
const BUDGET: u32 = 100;
/// Closure, over the larger of rest length and chord, at which the solution is accepted.
/// Rounding of the closed forms leaves about 1e-15.
pub(crate) const CLOSED: f64 = 1e-13;

impl Uniform<'_> {
    /// Solves for the end tension that closes the line on the chord, from any chord.
    pub fn solve(&self, chord: Chord) -> Result<Planar, Stop> {
        if self.q_n_per_m == 0.0 {
            return self.weightless(chord);
        }
        let (h, v0) = self.guess(chord);
        self.newton(chord, (h, v0, self.at(h, v0)), CLOSED, true)
    }

    /// Solves from the state of a nearby chord, to a looser tolerance; from anywhere if that fails.
    pub fn follow(&self, chord: Chord, from: &Planar, tolerance: f64) -> Result<Planar, Stop> {
        if self.q_n_per_m == 0.0 {
            return self.weightless(chord);
        }
        self.newton(chord, (from.h_n, from.v0_n, from.piece), tolerance, false)
            .or_else(|_| self.solve(chord))
    }

    fn weightless(&self, chord: Chord) -> Result<Planar, Stop> {
        let c = chord.length_m();
        let t = self.law.tension((c - self.rest_m) / self.rest_m);
        if t <= 0.0 {
            return Err(Stop::Slack);
        }
        let (h_n, v0_n) = (t * (chord.across_m / c), t * (chord.along_m / c));
        let piece = self.at(h_n, v0_n);
        let residual_m = gap(&piece, chord).length();
        if residual_m <= CLOSED * c.max(self.rest_m) {
            Ok(Planar { h_n, v0_n, piece, residual_m, iterations: 0 })
        } else {
            Err(Stop::Stalled { residual_m, iterations: 0 })
        }
    }

    /// Damped Newton from tension (H, V₀) with the integrals there. `polish` makes one step more after
    /// the tolerance is reached, which brings the residual down to rounding.
    pub(super) fn newton(
        &self,
        chord: Chord,
        (mut h_n, mut v0_n, mut piece): (f64, f64, Piece),
        tolerance: f64,
        polish: bool,
    ) -> Result<Planar, Stop> {
        let scale = chord.length_m().max(self.rest_m);
        let mut g = gap(&piece, chord);
        let mut damping = Damping::default();
        for iterations in 0..BUDGET {
            let residual_m = g.length();
            let closed = residual_m <= tolerance * scale;
            if closed && !polish {
                return Ok(Planar { h_n, v0_n, piece, residual_m, iterations });
            }
            let step = newton_step(&piece, g, if closed { 0.0 } else { damping.share() });
            if closed {
                let (h, v0) = (h_n + step.across, v0_n + step.along);
                let last = self.at(h, v0);
                let better = gap(&last, chord).length();
                if better < residual_m {
                    (h_n, v0_n, piece) = (h, v0, last);
                }
                let (residual_m, iterations) = (residual_m.min(better), iterations + 1);
                return Ok(Planar { h_n, v0_n, piece, residual_m, iterations });
            }
            let slope = g.dot(step);
            if !(slope < 0.0 && slope.is_finite()) {
                return Err(Stop::Stalled { residual_m, iterations });
            }
            let (h, v0) = (h_n, v0_n);
            let taken = line_search(slope, |share| {
                (h_n, v0_n) = (h + share * step.across, v0 + share * step.along);
                piece = self.at(h_n, v0_n);
                g = gap(&piece, chord);
                g.dot(step)
            });
            damping.learn(taken);
        }
        Err(Stop::Stalled { residual_m: g.length(), iterations: BUDGET })
    }

    /// A start near the solution: Eq. (11) for a line longer than its chord, else Eq. (12).
    pub(super) fn guess(&self, chord: Chord) -> (f64, f64) {
        let (q, l) = (self.q_n_per_m, self.rest_m);
        let (across, along) = (chord.across_m, chord.along_m);
        let c = chord.length_m();
        if l > 1.02 * c {
            let ratio2 = (l / across) * (l / across) - (along / across) * (along / across);
            // sinh(k)/k = sqrt(ratio2): two terms of the series, or the logarithm when k is large.
            let mut k = (10.0 * ((1.0 + 1.2 * (ratio2.sqrt() - 1.0)).sqrt() - 1.0)).sqrt();
            if k > 2.0 {
                let target = ratio2.sqrt();
                k = 3.0;
                for _ in 0..4 {
                    k = (2.0 * target * k).ln();
                }
            }
            let h = 0.5 * q * across / k;
            if h.is_finite() && h > 0.0 {
                return (h, 0.5 * q * (along / k.tanh() + l));
            }
            return (0.0, 0.5 * q * (along + l));
        }
        let (_, slope) = self.law.strain_and_slope(0.0);
        let excess = (c - l) / l;
        let bow = (q * (across / c) * l).powi(2) / 24.0;
        // T³ - taut T² = bow, from above: by the first correction of a taut line, else by the sum of the
        // two limiting cases.
        let (taut, bow) = (excess.max(0.0) / slope, bow / slope);
        let taut2 = taut * taut;
        let mut t = if taut2 * taut > 8.0 * bow { taut + bow / taut2 } else { taut + bow.cbrt() };
        let level = excess / slope;
        for _ in 0..8 {
            let next = t - (t * t * (t - level) - bow) / (t * (3.0 * t - 2.0 * level));
            if !(next.is_finite() && next > 0.0) {
                break;
            }
            // The closed form is no nearer to the line than this.
            let near = (next - t).abs() <= 1e-6 * t;
            t = next;
            if near {
                break;
            }
        }
        let t = t.max(f64::MIN_POSITIVE);
        (t * across / c, t * along / c + 0.5 * q * l)
    }
}

/// A vector in the plane.
#[derive(Debug, Clone, Copy)]
struct Pair {
    across: f64,
    along: f64,
}

impl Pair {
    fn dot(self, other: Self) -> f64 {
        self.across * other.across + self.along * other.along
    }

    fn length(self) -> f64 {
        length(self.across, self.along)
    }
}

/// Gradient of the complementary energy: where the line ends less where it should.
fn gap(piece: &Piece, chord: Chord) -> Pair {
    Pair { across: piece.across_m - chord.across_m, along: piece.along_m - chord.along_m }
}

fn newton_step(piece: &Piece, g: Pair, damping: f64) -> Pair {
    let extra = damping * (piece.hh + piece.vv);
    let piece = Piece { hh: piece.hh + extra, vv: piece.vv + extra, ..*piece };
    // Eliminating the larger diagonal entry first keeps a nearly straight line well conditioned.
    if piece.hh >= piece.vv {
        let ratio = piece.hv / piece.hh;
        let along = -(g.along - ratio * g.across) / (piece.vv - ratio * piece.hv);
        Pair { along, across: -(g.across + piece.hv * along) / piece.hh }
    } else {
        let ratio = piece.hv / piece.vv;
        let across = -(g.across - ratio * g.along) / (piece.hh - ratio * piece.hv);
        Pair { across, along: -(g.along + piece.hv * across) / piece.vv }
    }
}

/// Levenberg's share of the trace that is added to the diagonal of a Hessian.
///
/// The energy of a nearly weightless line is a cone: far from the solution a full Newton step along the
/// cone hides the turn that is needed, and the line search then creeps. Damping brings the turn back;
/// it fades a hundredfold with every good step, so that the end stays quadratic.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Damping(f64);

impl Damping {
    pub fn share(self) -> f64 {
        self.0
    }

    /// `taken` is the share of the step that the line search kept.
    pub fn learn(&mut self, taken: f64) {
        if taken < 0.1 {
            self.0 = (self.0 * 10.0).clamp(1e-2, 1e2);
        } else {
            self.0 = if self.0 > 1e-14 { self.0 * 1e-2 } else { 0.0 };
        }
    }
}

/// Goes along a step until the directional derivative of a convex function is small enough.
///
/// `at_zero` is the derivative at the start, negative; `derivative` rises with the share of the step
/// and remembers the state of its last call, which is the result. The root is bracketed and narrowed
/// until at most half of the slope is left: bounded work, and no comparison of energies, whose
/// differences drown in rounding near the solution. Returns the share.
pub(crate) fn line_search(at_zero: f64, mut derivative: impl FnMut(f64) -> f64) -> f64 {
    let enough = 0.5 * -at_zero;
    let (mut low, mut at_low) = (0.0, at_zero);
    let mut high = f64::INFINITY;
    let mut share = 1.0;
    for _ in 0..40 {
        let d = derivative(share);
        if d.abs() <= enough {
            return share;
        }
        if d < 0.0 {
            (low, at_low) = (share, d);
            share = if high.is_finite() { 0.5 * (low + high) } else { 4.0 * share };
        } else {
            // NaN stands for a state outside the range of doubles: also too far.
            high = share;
            let secant = low + (high - low) * at_low / (at_low - d);
            let within = secant > low + 0.1 * (high - low) && secant < low + 0.9 * (high - low);
            share = if within { secant } else { 0.5 * (low + high) };
        }
    }
    low
}
