//! Random lines, chains and bundles over stated ranges: each is solved to rounding or refused with a
//! reason, within a budget that is kept as a snapshot. A change that needs more steps fails here.

#![expect(clippy::unwrap_used, reason = "a case that cannot be built should fail the test")]
#![expect(clippy::print_stdout, reason = "the counts are the snapshot to keep")]

use rayon::prelude::*;
use tautwork::line::{
    BundleLine, Chain, ChainLoad, ChainPiece, ElasticLine, LineError, solve_bundle, solve_chain,
    solve_elastic,
};
use tautwork::material::Stretch;
use tautwork::quantity::{Force, Length, LineLoad, Quantity, Words};

/// Most Newton steps and refusals over all cases: measured, not to grow.
const ELASTIC: Tally = Tally { steps: 15, refused: 0 };
const CHAINS: Tally = Tally { steps: 14, refused: 1 };
const BUNDLES: Tally = Tally { steps: 190, refused: 2 };

#[derive(Debug, Clone, Copy, Default, PartialEq)]
struct Tally {
    steps: u32,
    refused: usize,
}

/// SplitMix64 (Steele, Lea and Flood 2014), seeded by the number of the case.
struct Dice(u64);

impl Dice {
    fn new(case: u64) -> Self {
        Self(case.wrapping_mul(0xD134_2543_DE82_EF95).wrapping_add(1892))
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    /// Powers of ten.
    fn decades(&mut self, low: f64, high: f64) -> f64 {
        10.0_f64.powf(self.between(low, high))
    }

    fn one_in(&mut self, n: u64) -> bool {
        self.next().is_multiple_of(n)
    }

    /// Chord of 1 to 1000 m at any slope; one in fifty vertical, one in fifty level.
    fn chord(&mut self) -> (f64, f64) {
        let c = self.decades(0.0, 3.0);
        if self.one_in(50) {
            return (0.0, if self.one_in(2) { c } else { -c });
        }
        let angle = if self.one_in(50) { 0.0 } else { self.between(-1.57, 1.57) };
        (c * angle.cos(), c * angle.sin())
    }

    /// Rest length over chord from 0.5 to 2; a third within a thousandth of one, one in twenty exactly.
    fn slack(&mut self) -> f64 {
        match self.next() % 60 {
            0..3 => 1.0,
            3..23 => 1.0 + (self.share() - 0.5) * self.decades(-9.0, -3.0),
            _ => self.between(0.5, 2.0),
        }
    }

    /// EA from 1e2 to 1e10 N; one in eight a curve of three points.
    fn stretch(&mut self) -> Stretch {
        if !self.one_in(8) {
            return Stretch::axial_rigidity(self.decades(2.0, 10.0).newtons()).unwrap();
        }
        let (mut t, mut e) = (0.0, 0.0);
        let most = self.decades(2.0, 5.0);
        let rows = [(); 3].map(|()| {
            t += most * self.between(0.05, 0.5);
            e += self.between(0.001, 0.1);
            (t.newtons(), e.ratio())
        });
        Stretch::table(rows.to_vec()).unwrap()
    }

    fn weight(&mut self) -> LineLoad {
        LineLoad::from_si(self.decades(-3.0, 2.0))
    }
}

/// Runs the cases on all cores: the most steps of those solved, and how many were refused.
fn tally(cases: u64, solve: impl Fn(&mut Dice) -> Result<(u32, f64), LineError> + Sync) -> Tally {
    (0..cases)
        .into_par_iter()
        .map(|case| match solve(&mut Dice::new(case)) {
            Ok((steps, residual)) => {
                assert!(residual <= 1e-10, "case {case}: residual {residual:e}");
                Tally { steps, refused: 0 }
            }
            Err(error) => {
                assert!(!error.to_string().contains("NaN"), "case {case}: {error}");
                if std::env::var_os("SHOW_REFUSED").is_some() {
                    eprintln!("case {case}: {error}");
                }
                Tally { steps: 0, refused: 1 }
            }
        })
        .reduce(Tally::default, |a, b| Tally {
            steps: a.steps.max(b.steps),
            refused: a.refused + b.refused,
        })
}

fn hold(what: &str, cases: u64, got: Tally, kept: Tally) {
    println!("{cases} {what}: at most {} steps, {} refused", got.steps, got.refused);
    assert!(got.steps <= kept.steps, "{what}: {got:?}, {kept:?} before");
    assert!(got.refused <= kept.refused, "{what}: {got:?}, {kept:?} before");
}

/// Weight 1e-3 to 1e2 N/m; chord, slack and stretch as above.
#[test]
fn a_million_lines() {
    let got = tally(1_000_000, |dice| {
        let (span, rise) = dice.chord();
        let chord = span.hypot(rise);
        let rest = chord * dice.slack();
        let s = solve_elastic(&ElasticLine {
            span: span.meters(),
            rise: rise.meters(),
            rest_length: rest.meters(),
            weight: dice.weight(),
            stretch: dice.stretch(),
        })?;
        Ok((s.iterations, s.residual.si() / rest.max(chord)))
    });
    hold("lines", 1_000_000, got, ELASTIC);
}

/// One to six pieces, wind up to the weight, up to four loads of 1 to 1e4 N in any direction; every piece
/// has weight.
#[test]
fn twenty_thousand_chains() {
    let got = tally(20_000, |dice| {
        let (x, z) = dice.chord();
        let turn = dice.between(-3.2, 3.2);
        let count = 1 + (dice.next() % 6) as usize;
        let shares: Vec<f64> = (0..count).map(|_| dice.between(0.02, 1.0)).collect();
        let rest = x.hypot(z) * dice.slack() / shares.iter().sum::<f64>();
        let pieces: Vec<_> = shares
            .iter()
            .map(|share| {
                let weight = dice.weight();
                let wind = [(); 3].map(|()| weight * dice.between(-1.0, 1.0));
                ChainPiece {
                    wind,
                    ..ChainPiece::new((rest * share).meters(), weight, dice.stretch())
                }
            })
            .collect();
        let total: f64 = pieces.iter().map(|p| p.rest_length.si()).sum();
        let loads = (0..dice.next() % 5)
            .map(|_| {
                let size = dice.decades(0.0, 4.0);
                let force = [(); 3].map(|()| Force::from_si(size * dice.between(-1.0, 1.0)));
                ChainLoad { at: (total * dice.share()).meters(), force }
            })
            .collect();
        let far = [x * turn.cos(), x * turn.sin(), z].map(Length::from_si);
        let near = [0.0.meters(); 3];
        let s = solve_chain(&Chain { near, far, pieces, loads, samples: 2 })?;
        Ok((s.iterations, s.residual.si()))
    });
    hold("chains", 20_000, got, CHAINS);
}

/// One to five lines side by side, the ring tied at 5 to 95 % of each, EA from 1e3 N, and a load of up to
/// 1e4 N.
#[test]
fn five_thousand_bundles() {
    let got = tally(5_000, |dice| {
        let span = dice.decades(1.0, 2.5);
        let rise = span * dice.between(-0.5, 0.5);
        let lines: Vec<_> = (0..=dice.next() % 5)
            .map(|i| {
                let aside = dice.between(-1.0, 1.0);
                let rest = span.hypot(rise) * dice.between(0.97, 1.15);
                let near = dice.between(0.05, 0.95);
                BundleLine {
                    name: format!("line {i}"),
                    near: [0.0, aside, 0.0].map(Length::from_si),
                    far: [span, -aside, rise].map(Length::from_si),
                    near_length: (near * rest).meters(),
                    far_length: ((1.0 - near) * rest).meters(),
                    weight: LineLoad::from_si(dice.decades(-2.0, 1.0)),
                    stretch: Stretch::axial_rigidity(dice.decades(3.0, 7.0).newtons()).unwrap(),
                }
            })
            .collect();
        let size = dice.decades(0.0, 4.0);
        let force = [0.3, 0.3, 1.0].map(|f| Force::from_si(-size * f * dice.share()));
        let s = solve_bundle(&lines, force)?;
        Ok((s.iterations, s.residual.si()))
    });
    hold("bundles", 5_000, got, BUNDLES);
}
