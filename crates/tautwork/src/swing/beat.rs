//! The bounce of the ring along the span, taken out of the steps, Eq. (20).
//!
//! A ring on taut lines bounces along them dozens of times while the body swings once, nearly as on a
//! spring, and its bounce alone would set the length of the steps. The integrator therefore carries place
//! and speed of the ring along that axis as they would have been at the start of the step, had the spring
//! been all: they change as slowly as the spring falls short of the truth. The method is exact for any
//! stiffness of the spring, which decides about the length of the steps only (Lawson (1967), Generalized
//! Runge-Kutta processes for stable systems with large Lipschitz constants, SIAM J. Numer. Anal. 4:372,
//! from memory).

use crate::ode::Rates;

/// A motion of which one component bounces.
pub(super) trait Bouncing: Rates {
    /// The bounce in a state; none if nothing is known of it.
    fn beat(&mut self, y: &[f64]) -> Option<Beat>;
}

/// Components of a bounce, and its angular frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Beat {
    /// Component that is the place.
    pub place: usize,
    /// Component that is its speed.
    pub speed: usize,
    /// Angular frequency, 1/s: not zero.
    pub per_s: f64,
}

/// A bounce from the start of one step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Turn {
    pub beat: Beat,
    /// Where the spring would rest.
    centre: f64,
}

/// Sine and cosine of an angle.
pub(super) type Angle = [f64; 2];

impl Beat {
    /// Turns a difference of two states by an angle.
    pub fn turn(&self, d: &mut [f64], [sin, cos]: Angle) {
        let (place, speed) = (d[self.place], d[self.speed]);
        d[self.place] = cos * place + sin / self.per_s * speed;
        d[self.speed] = cos * speed - sin * self.per_s * place;
    }
}

impl Turn {
    /// From a state and its rates: the spring pulls as all forces do there.
    pub fn new(beat: Beat, y: &[f64], rates: &[f64]) -> Self {
        Self { beat, centre: y[beat.place] + rates[beat.speed] / (beat.per_s * beat.per_s) }
    }

    /// From the numbers carried to the state, an angle after the start.
    #[inline]
    pub fn carry(&self, y: &mut [f64], angle: Angle) {
        y[self.beat.place] -= self.centre;
        self.beat.turn(y, angle);
        y[self.beat.place] += self.centre;
    }

    /// The same for place and speed alone.
    pub fn carry_pair(&self, both: &mut [f64; 2], angle: Angle) {
        let beat = Beat { place: 0, speed: 1, ..self.beat };
        Self { beat, ..*self }.carry(both, angle);
    }

    /// From the rates of a state to those of the numbers carried.
    #[inline]
    pub fn carry_back(&self, y: &[f64], rates: &mut [f64], [sin, cos]: Angle) {
        let Beat { place, speed, per_s } = self.beat;
        // What the spring does not do.
        let rest = rates[speed] + per_s * per_s * (y[place] - self.centre);
        rates[place] = -sin / per_s * rest;
        rates[speed] = cos * rest;
    }
}

/// Sines and cosines, by their series up to [`MOST_TURN`]: they are wanted at twelve places of each step, for
/// which the library's would take as long as two evaluations.
#[inline]
pub(super) fn angles<const N: usize>(x: [f64; N]) -> [Angle; N] {
    if x.iter().any(|x| x.is_nan() || x.abs() > MOST_TURN) {
        return x.map(|x| [x.sin(), x.cos()]);
    }
    let q = x.map(|x| x * x);
    let (mut sin, mut cos) = ([0.0; N], [0.0; N]);
    for (s, c) in SERIES {
        for i in 0..N {
            sin[i] = sin[i] * q[i] + s;
            cos[i] = cos[i] * q[i] + c;
        }
    }
    core::array::from_fn(|i| [sin[i] * x[i], cos[i]])
}

/// Sine and cosine of one angle.
#[inline]
pub(super) fn angle(x: f64) -> Angle {
    angles([x])[0]
}

/// Most that a bounce turns in a step, rad: less than half a turn, so that it has one crest in a step at most.
pub(super) const MOST_TURN: f64 = 2.0;

/// Coefficients of the series of sine and cosine, from the last that counts below [`MOST_TURN`] down.
const SERIES: [(f64, f64); 12] = [
    (-1.0 / 25_852_016_738_884_976_640_000.0, -1.0 / 1_124_000_727_777_607_680_000.0),
    (1.0 / 51_090_942_171_709_440_000.0, 1.0 / 2_432_902_008_176_640_000.0),
    (-1.0 / 121_645_100_408_832_000.0, -1.0 / 6_402_373_705_728_000.0),
    (1.0 / 355_687_428_096_000.0, 1.0 / 20_922_789_888_000.0),
    (-1.0 / 1_307_674_368_000.0, -1.0 / 87_178_291_200.0),
    (1.0 / 6_227_020_800.0, 1.0 / 479_001_600.0),
    (-1.0 / 39_916_800.0, -1.0 / 3_628_800.0),
    (1.0 / 362_880.0, 1.0 / 40_320.0),
    (-1.0 / 5_040.0, -1.0 / 720.0),
    (1.0 / 120.0, 1.0 / 24.0),
    (-1.0 / 6.0, -1.0 / 2.0),
    (1.0, 1.0),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_series_are_sine_and_cosine() {
        for n in -400..=400 {
            let x = 0.01 * f64::from(n);
            let [sin, cos] = angle(x);
            assert!((sin - x.sin()).abs() < 5e-16 && (cos - x.cos()).abs() < 5e-16, "{x}");
        }
        assert!(angle(f64::NAN)[0].is_nan() && angle(f64::INFINITY)[1].is_nan());
    }

    #[test]
    fn a_state_that_only_bounces_is_carried_as_it_was() {
        let beat = Beat { place: 0, speed: 1, per_s: 3.0 };
        let y = [0.7, -0.4];
        let pull = |y: &[f64]| [y[1], 2.0 - 9.0 * y[0]];
        let turn = Turn::new(beat, &y, &pull(&y));
        let mut later = y;
        turn.carry(&mut later, angle(3.0 * 0.2));
        // About 2 / 9: x = 2/9 + a cos 3t + b sin 3t.
        let (a, b) = (0.7 - 2.0 / 9.0, -0.4 / 3.0);
        let (sin, cos) = 0.6_f64.sin_cos();
        assert!((later[0] - (2.0 / 9.0 + a * cos + b * sin)).abs() < 1e-15);
        assert!((later[1] - 3.0 * (b * cos - a * sin)).abs() < 1e-15);
        let mut rates = pull(&later);
        turn.carry_back(&later, &mut rates, angle(0.6));
        assert!(rates[0].abs() < 1e-15 && rates[1].abs() < 1e-14, "{rates:?}");
    }
}
