//! Published roots and frequencies, limits, convergence, symmetry, readings, bad numbers.

use core::f64::consts::PI;

use proptest::prelude::*;

use super::*;
use crate::line::*;
use crate::material::Stretch;
use crate::quantity::*;

/// λ² and ω c sqrt(m / N) / π of the first three symmetric modes: the equation of Irvine and Caughey
/// (1974, from memory) solved by mpmath with 30 digits.
const SYMMETRIC: [(f64, [f64; 3]); 14] = [
    (0.1, [1.004_097_448_233_059, 3.000_152_236_841_416_6, 5.000_032_863_814_453]),
    (1.0, [1.040_200_486_809_136_8, 3.001_535_822_351_657, 5.000_329_782_791_915]),
    (4.0, [1.151_822_805_437_427, 3.006_328_803_944_407, 5.001_334_616_561_34]),
    (
        9.869_604_401_089_358,
        [1.341_257_710_312_173_7, 3.016_583_404_089_397, 5.003_370_331_648_108],
    ),
    (10.0, [1.345_124_511_390_440_2, 3.016_825_452_422_489, 5.003_416_639_752_300_6]),
    (20.0, [1.609_536_427_868_276_4, 3.037_508_978_735_008_5, 5.007_117_241_616_14]),
    (39.478_417_604_357_43, [2.0, 3.093_422_228_055_651, 5.015_278_107_529_518]),
    (50.0, [2.162_571_794_203_086_7, 3.135_366_941_835_851_4, 5.020_302_541_913_669_5]),
    (100.0, [2.597_184_544_634_785_7, 3.479_675_075_535_531, 5.052_662_792_307_358]),
    (157.913_670_417_429_73, [2.737_485_787_138_505_4, 4.0, 5.122_152_531_530_32]),
    (200.0, [2.774_390_138_970_093_6, 4.317_222_540_408_602, 5.217_398_717_081_489_5]),
    (500.0, [2.833_918_620_841_034, 4.847_084_400_145_9, 6.610_737_211_799_31]),
    (1000.0, [2.848_263_638_446_196, 4.892_570_740_093_693, 6.890_411_961_994_61]),
    (10_000.0, [2.859_440_690_785_900_7, 4.916_034_434_259_792, 6.938_866_670_848_425]),
];

fn line(span: f64, rise: f64, rest: f64, w: f64, ea: f64) -> ElasticLine {
    ElasticLine {
        span: span.meters(),
        rise: rise.meters(),
        rest_length: rest.meters(),
        weight: w.newtons_per_meter(),
        stretch: Stretch::axial_rigidity(ea.newtons()).unwrap(),
    }
}

fn chain_of(line: &ElasticLine, loads: Vec<ChainLoad>) -> Chain {
    let zero = 0.0.meters();
    Chain {
        near: [zero; 3],
        far: [line.span, zero, line.rise],
        pieces: vec![ChainPiece::new(line.rest_length, line.weight, line.stretch.clone())],
        loads,
        samples: 2,
    }
}

fn modes_of(line: &ElasticLine, segments: usize, count: usize) -> ChainModes {
    let chain = chain_of(line, vec![]);
    chain_modes(&VibratingChain { chain, masses: vec![], segments, count }).unwrap()
}

/// Frequencies of one plane, and the two halves of the vertical motion of each mode compared.
fn vertical(modes: &ChainModes) -> Vec<(f64, bool)> {
    let plane = modes.modes.iter().filter(|m| m.upward_share.si() > 0.5);
    plane
        .map(|m| {
            let n = m.z.len();
            let even: f64 = (0..n / 2).map(|i| m.z[i] * m.z[n - 1 - i]).sum();
            (m.frequency_hz, even > 0.0)
        })
        .collect()
}

fn sideways(modes: &ChainModes) -> Vec<f64> {
    let aside = modes.modes.iter().filter(|m| m.sideways_share.si() > 0.5);
    aside.map(|m| m.frequency_hz).collect()
}

#[test]
fn roots_of_irvine_and_caughey() {
    for (lambda2, want) in SYMMETRIC {
        let got = irvine_caughey(lambda2.ratio(), 3).unwrap();
        for (got, want) in got.symmetric_over_pi.iter().zip(want) {
            assert!((got - want).abs() < 2e-13 * want, "{lambda2}: {got} {want}");
        }
        assert_eq!(got.antisymmetric_over_pi, [2.0, 4.0, 6.0]);
        assert_eq!(got.out_of_plane_over_pi, [1.0, 2.0, 3.0]);
    }
}

#[test]
fn limits_of_the_sag_parameter() {
    // Crossovers, and the line that does not stretch: 2.86 π and 4.92 π, tan(W/2) = W/2 with the roots
    // 4.4934 and 7.7253 (Irvine and Caughey 1974, from memory).
    let at = |lambda2: f64| irvine_caughey(lambda2.ratio(), 2).unwrap().symmetric_over_pi;
    assert!((at(4.0 * PI * PI)[0] - 2.0).abs() < 1e-13);
    assert!((at(16.0 * PI * PI)[1] - 4.0).abs() < 1e-13);
    for huge in [1e15, 1e300, f64::MAX] {
        let [a, b] = [at(huge)[0], at(huge)[1]];
        assert!((a - 2.86).abs() < 0.005 && (b - 4.92).abs() < 0.005);
        assert!((a * PI / 2.0 - 4.493_409_457_909_064).abs() < 1e-12);
        assert!((b * PI / 2.0 - 7.725_251_836_937_707).abs() < 1e-12);
    }
    // Small λ²: W = π + 8 λ² / (2 π³) to first order.
    for tiny in [0.0, f64::MIN_POSITIVE, 1e-12, 1e-6] {
        assert!((at(tiny)[0] - 1.0 - 4.0 * tiny / PI.powi(4)).abs() < 1e-3 * tiny + 1e-14);
    }
}

#[test]
fn a_steel_wire() {
    // Timoshenko, Vibration Problems in Engineering, 3rd edition, article 64 (from memory): 100 in,
    // 0.00306796 in², 0.00073 lb s²/in⁴, 500 lb: 74.708, 149.42, 224.12 Hz.
    let inch = 0.0254;
    let pound = 4.448_221_615_260_5;
    let density = 0.003_067_96 * 0.000_73 * pound / inch / inch;
    let modes =
        string_modes(100.0.inches(), 500.0.pounds_force(), density.kilograms_per_meter(), 3)
            .unwrap();
    for (got, want) in modes.frequency_hz.iter().zip([74.708, 149.42, 224.12]) {
        assert!((got - want).abs() < 0.005, "{got} {want}");
    }
}

#[test]
fn masses_on_a_line_become_a_string() {
    // Nearly weightless: λ² = 2e-9. n masses on a string have ω = 2 n / c sqrt(N / m) sin(j π / 2 n)
    // (Lagrange; Rayleigh, Theory of Sound, from memory).
    let line = line(101.0, 0.0, 100.0, 1e-3, 1e5);
    let exact = cable_modes(&line, 3).unwrap();
    for segments in [8, 32] {
        let modes = modes_of(&line, segments, 6);
        let n = segments as f64;
        for (j, got) in sideways(&modes).into_iter().take(3).enumerate() {
            let x = (j + 1) as f64 * PI / (2.0 * n);
            let want = exact.out_of_plane_hz[j] * x.sin() / x;
            assert!((got / want - 1.0).abs() < 1e-8, "{segments} {j}: {got} {want}");
        }
        assert!(modes.residual.si() < 1e-9);
    }
}

#[test]
fn masses_on_a_line_become_a_shallow_cable() {
    // Sag 1 : 250 to 1 : 60 with λ² from 0.3 to 100: what is left is of the order of the sag squared.
    for (rise, w, ea, rest) in [
        (0.0, 0.667, 250e3, 99.0),
        (0.0, 0.667, 250e3, 99.9),
        (0.0, 0.667, 2e6, 100.0),
        (0.0, 0.667, 2e6, 100.02),
        (0.0, 0.667, 1e7, 100.05),
        (20.0, 0.667, 2e6, 101.98),
        (-20.0, 0.667, 2e6, 101.98),
    ] {
        let line = line(100.0, rise, rest, w, ea);
        let cable = cable_modes(&line, 2).unwrap();
        let steep = (rise / 100.0 * w * 100.0 / cable.chord_tension.si()).powi(2);
        let allowed = 6.0 * cable.sag_ratio.si().powi(2) + steep + 1e-6;
        let (coarse, fine) = (modes_of(&line, 40, 8), modes_of(&line, 80, 8));
        // Richardson: the lumping error falls as the square of the number of pieces.
        let limit = |a: f64, b: f64| b + (b - a) / 3.0;
        let (v40, v80) = (vertical(&coarse), vertical(&fine));
        let (mut symmetric, mut anti) = (0, 0);
        for (a, b) in v40.iter().zip(&v80).take(3) {
            let got = limit(a.0, b.0);
            let want = if a.1 {
                symmetric += 1;
                cable.symmetric_hz.get(symmetric - 1)
            } else {
                anti += 1;
                cable.antisymmetric_hz.get(anti - 1)
            };
            let want = want.unwrap();
            assert!(
                (got / want - 1.0).abs() < allowed,
                "λ² {:?}, sag {:?}: {got} {want}",
                cable.lambda_squared,
                cable.sag_ratio
            );
        }
        assert!(symmetric >= 1 && anti >= 1);
        let first = limit(sideways(&coarse)[0], sideways(&fine)[0]);
        assert!((first / cable.out_of_plane_hz[0] - 1.0).abs() < allowed);
        let lowest = if v80[0].1 { FirstInPlane::Symmetric } else { FirstInPlane::Antisymmetric };
        assert_eq!(cable.first_in_plane, lowest);
    }
}

#[test]
fn shapes_of_a_shallow_cable() {
    let line = line(100.0, 0.0, 100.0, 0.667, 2e6);
    let cable = cable_modes(&line, 2).unwrap();
    let modes = modes_of(&line, 40, 4);
    let symmetric = modes.modes.iter().find(|m| m.upward_share.si() > 0.5).unwrap();
    let sign = symmetric.z[20].signum();
    for (i, (got, want)) in symmetric.z.iter().zip(&cable.symmetric_shape[0]).enumerate() {
        let want = want * cable.symmetric_shape[0][20].signum();
        assert!((sign * got - want).abs() < 3e-3, "{i}: {got} {want}");
    }
    assert!(cable.out_of_plane_shape[1][10] > 0.999 && cable.out_of_plane_shape[1][30] < -0.999);
    assert!(cable.symmetric_shape.iter().all(|s| s[0].abs() < 1e-12 && s[40].abs() < 1e-12));
}

#[test]
fn a_chain_turned_around_sounds_the_same() {
    let piece = |rest: f64, w: f64| {
        ChainPiece::new(
            rest.meters(),
            w.newtons_per_meter(),
            Stretch::axial_rigidity(1e5.newtons()).unwrap(),
        )
    };
    let load =
        |at: f64, force: [f64; 3]| ChainLoad { at: at.meters(), force: force.map(Force::from_si) };
    let [zero, far, up] = [0.0, 60.0, 8.0].map(Length::from_si);
    let kg = |m: f64| m.kilograms();
    let there = VibratingChain {
        chain: Chain {
            near: [zero; 3],
            far: [far, zero, up],
            pieces: vec![piece(20.0, 0.6), piece(41.0, 0.3)],
            loads: vec![load(15.0, [0.0, 30.0, -700.0]), load(40.0, [0.0, 0.0, -50.0])],
            samples: 2,
        },
        masses: vec![kg(70.0), kg(5.0)],
        segments: 30,
        count: 8,
    };
    let back = VibratingChain {
        chain: Chain {
            near: [far, zero, up],
            far: [zero; 3],
            pieces: vec![piece(41.0, 0.3), piece(20.0, 0.6)],
            loads: vec![load(21.0, [0.0, 0.0, -50.0]), load(46.0, [0.0, 30.0, -700.0])],
            samples: 2,
        },
        masses: vec![kg(5.0), kg(70.0)],
        ..there.clone()
    };
    let (a, b) = (chain_modes(&there).unwrap(), chain_modes(&back).unwrap());
    for (a, b) in a.modes.iter().zip(&b.modes) {
        assert!((a.frequency_hz / b.frequency_hz - 1.0).abs() < 1e-9);
        assert!((a.upward_share.si() - b.upward_share.si()).abs() < 1e-6);
        let shares = a.along_share + a.sideways_share + a.upward_share;
        assert!((shares.si() - 1.0).abs() < 1e-12);
    }
}

/// A joint without mass follows the others: cutting a weightless piece in two changes nothing.
#[test]
fn a_joint_without_mass_follows() {
    let line = line(50.0, 3.0, 49.0, 0.0, 5e4);
    let load =
        |at: f64, n: f64| ChainLoad { at: at.meters(), force: [0.0, 0.0, n].map(Force::from_si) };
    let run = |loads: Vec<ChainLoad>, masses: Vec<Mass>| {
        let chain = chain_of(&line, loads);
        chain_modes(&VibratingChain { chain, masses, segments: 8, count: 9 }).unwrap()
    };
    let kg = |m: f64| m.kilograms();
    let one = run(vec![load(20.0, -300.0)], vec![kg(30.0)]);
    let two = run(vec![load(20.0, -300.0), load(35.0, 0.0)], vec![kg(30.0), kg(0.0)]);
    assert_eq!((one.modes.len(), two.modes.len()), (3, 3));
    for (a, b) in one.modes.iter().zip(&two.modes) {
        assert!((a.frequency_hz / b.frequency_hz - 1.0).abs() < 1e-10);
    }
    assert_eq!(two.modes[0].z.len(), 4);
}

#[test]
fn the_stiffness_under_a_person_is_that_of_the_chain() {
    for (at, rise, rest) in [(65.0, 0.0, 128.0), (20.0, -3.0, 127.74), (100.0, 12.0, 131.0)] {
        let line = line(130.0, rise, rest, 0.667, 250e3);
        let person = bounce(&line, at.meters(), 82.0.kilograms()).unwrap();
        let solve = |y: f64, z: f64| {
            let load = ChainLoad {
                at: at.meters(),
                force: [0.0, y, z - 82.0 * GRAVITY].map(Force::from_si),
            };
            solve_chain(&chain_of(&line, vec![load])).unwrap().loads[0].position.map(Quantity::si)
        };
        let d = 1.0;
        let vertical = 2.0 * d / (solve(0.0, d)[2] - solve(0.0, -d)[2]);
        let sway = 2.0 * d / (solve(d, 0.0)[1] - solve(-d, 0.0)[1]);
        assert!((person.vertical_stiffness.si() / vertical - 1.0).abs() < 1e-5);
        assert!((person.sway_stiffness.si() / sway - 1.0).abs() < 1e-5);
    }
}

#[test]
fn a_third_of_the_line_bounces_along() {
    let line = line(130.0, -3.0, 127.74, 0.667, 250e3);
    for at in [20.0, 63.87, 100.0] {
        let p = bounce(&line, at.meters(), 82.0.kilograms()).unwrap();
        let [without, third, exact] =
            [p.sway_period, p.sway_period_with_third, p.sway_period_exact].map(Quantity::si);
        assert!((third - exact).abs() < 0.1 * (without - exact).abs(), "{without} {third} {exact}");
        let [without, third, exact] =
            [p.bounce_period, p.bounce_period_with_third, p.bounce_period_exact].map(Quantity::si);
        assert!(third > without && (third / exact - 1.0).abs() < 0.02, "{without} {third} {exact}");
        assert!(p.bounce_share.si() > 0.9 && p.bounce_share.si() <= 1.0 + 1e-9);
        assert!(p.residual.si() < 1e-8);
    }
    // Without mass in the line, in the middle, all three are one.
    let p = bounce(&super_light(), 50.0.meters(), 82.0.kilograms()).unwrap();
    let [a, b, c] =
        [p.bounce_period, p.bounce_period_with_third, p.bounce_period_exact].map(Quantity::si);
    assert!((a / b - 1.0).abs() < 1e-12 && (a / c - 1.0).abs() < 1e-9);
}

fn super_light() -> ElasticLine {
    line(101.0, 0.0, 100.0, 0.0, 1e5)
}

fn pluck(line: &ElasticLine, plane: PluckPlane, period: f64) -> PluckedLine {
    PluckedLine {
        span: line.span,
        rise: line.rise,
        weight: line.weight,
        stretch: line.stretch.clone(),
        plane,
        time: (10.0 * period).seconds(),
        periods: 10,
        time_error: 0.1.seconds(),
        weight_error: (0.02 * line.weight.si()).newtons_per_meter(),
    }
}

#[test]
fn a_pluck_gives_the_tension_back() {
    for rest in [99.0, 99.9, 100.0, 100.02, 100.05] {
        for rise in [0.0, 15.0] {
            let chord = 100.0_f64.hypot(rise);
            let line = line(100.0, rise, rest * chord / 100.0, 0.667, 1e6);
            let cable = cable_modes(&line, 1).unwrap();
            let want = cable.chord_tension.si();
            let aside = 1.0 / cable.out_of_plane_hz[0];
            let read = tension_from_pluck(&pluck(&line, PluckPlane::Sideways, aside)).unwrap();
            assert_eq!(read.tensions.len(), 1);
            assert!((read.tensions[0].chord_tension.si() / want - 1.0).abs() < 1e-9);
            // 1 % of the time and 2 % of the weight: 2 % each, of N (1 + e).
            let e = want / 1e6;
            let two = 0.02 * want * (1.0 + e) / (1.0 + 2.0 * e);
            let t = &read.tensions[0];
            let of_time = t.error_from_time.si() / (0.2 / aside / 10.0 * want) - 1.0;
            assert!(of_time.abs() < 2.0 * e + 1e-6, "{of_time}");
            assert!((t.error_from_weight.si() / two - 1.0).abs() < 1e-5);
            assert!(t.error.si() > t.error_from_weight.si());

            let up = 1.0 / cable.symmetric_hz[0];
            let read = tension_from_pluck(&pluck(&line, PluckPlane::Vertical, up)).unwrap();
            let found =
                read.tensions.iter().filter(|t| (t.chord_tension.si() / want - 1.0).abs() < 1e-7);
            let found: Vec<_> = found.collect();
            assert_eq!(found.len(), 1, "{rest}: {want} {:?}", read.tensions);
            assert!((found[0].lambda_squared.si() / cable.lambda_squared.si() - 1.0).abs() < 1e-6);
            // The string always reads too high: it knows no other spring.
            assert!(read.tensions.iter().all(|t| t.string_bias.si() >= -1e-6 * want));
        }
    }
}

/// As a line gets slacker its first symmetric mode gets slower, then faster as the sag stiffens it, then
/// slower again: a band of periods belongs to three tensions, one long enough to none.
#[test]
fn three_tensions_for_one_period() {
    let line = line(100.0, 0.0, 100.0, 0.667, 250e3);
    let read = |period: f64| tension_from_pluck(&pluck(&line, PluckPlane::Vertical, period));
    let counts: Vec<usize> =
        (1..200).map(|i| read(f64::from(i) * 0.02).map_or(0, |r| r.tensions.len())).collect();
    let three = counts.iter().position(|&n| n == 3).unwrap();
    let none = counts.iter().position(|&n| n == 0).unwrap();
    assert_eq!(counts[0], 1);
    assert!(three < none && counts[none..].iter().all(|&n| n == 0), "{counts:?}");
    let period = (three + 1) as f64 * 0.02;
    let all = read(period).unwrap().tensions;
    // All are right: each has the period by the equation itself.
    for t in &all {
        let w = irvine_caughey(t.lambda_squared, 1).unwrap().symmetric_over_pi[0];
        let n = t.chord_tension.si();
        let m = 0.667 / GRAVITY / (1.0 + n / 250e3);
        let got = 2.0 * 100.0 / w / (n / m).sqrt();
        assert!((got / period - 1.0).abs() < 1e-9, "{got} {period}");
    }
    assert!(all.windows(2).all(|t| t[0].chord_tension < t[1].chord_tension));
    assert!(matches!(read(50.0), Err(LineError::Unreachable { .. })));
}

fn bounced(line: &ElasticLine, share: f64, period: f64) -> BouncedLine {
    BouncedLine {
        span: line.span,
        rise: line.rise,
        weight: line.weight,
        stretch: line.stretch.clone(),
        at_share: share.ratio(),
        mass: 82.0.kilograms(),
        mass_error: 2.0.kilograms(),
        time: (10.0 * period).seconds(),
        periods: 10,
        time_error: 0.2.seconds(),
    }
}

#[test]
fn a_bounce_gives_the_tension_back() {
    for (rest, share) in [(126.0, 0.5), (127.74, 0.5), (127.74, 0.2), (129.0, 0.7)] {
        let line = line(130.0, -3.0, rest, 0.667, 250e3);
        let at = (share * rest).meters();
        let period = bounce(&line, at, 82.0.kilograms()).unwrap().bounce_period_with_third;
        let read = tension_from_bounce(&bounced(&line, share, period.si())).unwrap();
        let near = read.tensions.iter().filter(|t| (t.rest_length.si() / rest - 1.0).abs() < 1e-8);
        let near: Vec<_> = near.collect();
        assert_eq!(near.len(), 1, "{rest}: {:?}", read.tensions);
        let standing = solve_elastic(&line).unwrap().tension_near.si();
        assert!((near[0].standing_tension.si() / standing - 1.0).abs() < 1e-6);
        assert!((near[0].period_exact.si() / period.si() - 1.0).abs() < 0.03);
        assert!(near[0].loaded_tension > near[0].standing_tension);
    }
}

/// The errors are those of reading again with a changed time and a changed mass.
#[test]
fn errors_of_a_bounce() {
    let line = line(130.0, -3.0, 126.0, 0.667, 250e3);
    let at = 63.0.meters();
    let period = bounce(&line, at, 82.0.kilograms()).unwrap().bounce_period_with_third.si();
    let base = bounced(&line, 0.5, period);
    let last = |b: &BouncedLine| tension_from_bounce(b).unwrap().tensions.pop().unwrap();
    let t = last(&base);
    let moved = |up: BouncedLine, down: BouncedLine| {
        let (up, down) = (last(&up), last(&down));
        let half = |a: Force, b: Force| (0.5 * (a.si() - b.si())).abs();
        (
            half(up.standing_tension, down.standing_tension),
            half(up.loaded_tension, down.loaded_tension),
        )
    };
    let share = 1e-2;
    let time = |s: f64| BouncedLine { time: base.time + base.time_error * s, ..base.clone() };
    let mass = |s: f64| BouncedLine { mass: base.mass + base.mass_error * s, ..base.clone() };
    let (standing_time, loaded_time) = moved(time(share), time(-share));
    let (standing_mass, loaded_mass) = moved(mass(share), mass(-share));
    let close = |got: Force, want: f64| (got.si() / (want / share) - 1.0).abs() < 1e-3;
    assert!(close(t.standing_error_from_time, standing_time));
    assert!(close(t.standing_error_from_mass, standing_mass));
    assert!(close(t.standing_error, standing_time.hypot(standing_mass)));
    assert!(close(t.loaded_error, loaded_time.hypot(loaded_mass)));
}

#[test]
fn refused_inputs() {
    let line = line(100.0, 0.0, 99.0, 0.667, 1e5);
    let chain = chain_of(&line, vec![ChainLoad { at: 9.0.meters(), force: [0.0.newtons(); 3] }]);
    let input = VibratingChain { chain, masses: vec![1.0.kilograms()], segments: 8, count: 2 };
    assert!(chain_modes(&input).is_ok());
    assert!(chain_modes(&VibratingChain { segments: 201, ..input.clone() }).is_err());
    assert!(chain_modes(&VibratingChain { segments: 1, ..input.clone() }).is_err());
    assert!(chain_modes(&VibratingChain { count: 0, ..input.clone() }).is_err());
    assert!(chain_modes(&VibratingChain { masses: vec![], ..input.clone() }).is_err());
    let mut windy = input.clone();
    windy.chain.pieces[0].wind[1] = 1.0.newtons_per_meter();
    assert!(chain_modes(&windy).unwrap_err().to_string().contains("wind"));
    let mut heavy = input;
    heavy.masses[0] = (-1.0).kilograms();
    assert!(chain_modes(&heavy).unwrap_err().to_string().contains("masses[0]"));
    assert!(irvine_caughey(1.0.ratio(), 101).is_err());
    assert!(bounce(&line, 0.0.meters(), 80.0.kilograms()).is_err());
    assert!(bounce(&line, 99.0.meters(), 80.0.kilograms()).is_err());
    let deep = ElasticLine { rest_length: 110.0.meters(), ..line };
    let notes = cable_modes(&deep, 1).unwrap().notes;
    assert!(matches!(notes[..], [LineNote::DeepSag { .. }]));
}

fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => -2.0..200.0_f64,
        1 => prop_oneof![
            Just(0.0), Just(-0.0), Just(f64::NAN), Just(f64::INFINITY), Just(f64::NEG_INFINITY),
            Just(f64::MIN_POSITIVE), Just(5e-324), Just(1e300), Just(-1e300), Just(1e-300),
            Just(f64::MAX), Just(1e10), Just(1e-10),
        ],
    ]
}

fn sound(value: &serde_json::Value) -> bool {
    match value {
        // A number that is not finite becomes null in JSON.
        serde_json::Value::Null => false,
        serde_json::Value::Array(items) => items.iter().all(sound),
        serde_json::Value::Object(fields) => fields.values().all(sound),
        serde_json::Value::String(text) => !text.contains("NaN") && !text.contains("inf"),
        _ => true,
    }
}

fn check<T: serde::Serialize>(result: Result<T, LineError>) -> Result<(), TestCaseError> {
    if let Ok(value) = result {
        let value = serde_json::to_value(&value).unwrap();
        prop_assert!(sound(&value), "{value}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    #[test]
    fn bad_numbers_do_no_harm(x in prop::array::uniform10(any_number()), count in 0_usize..4) {
        let one = |i: usize| x[i];
        check(string_modes(one(0).meters(), one(1).newtons(), one(2).kilograms_per_meter(), count))?;
        check(irvine_caughey(one(0).ratio(), count))?;
        let Ok(stretch) = Stretch::axial_rigidity((one(4) * 1e3).newtons()) else { return Ok(()) };
        let line = ElasticLine {
            span: one(0).meters(),
            rise: one(1).meters(),
            rest_length: one(2).meters(),
            weight: one(3).newtons_per_meter(),
            stretch,
        };
        check(cable_modes(&line, count))?;
        check(bounce(&line, one(5).meters(), one(6).kilograms()))?;
        for plane in [PluckPlane::Sideways, PluckPlane::Vertical] {
            check(tension_from_pluck(&PluckedLine {
                time: one(7).seconds(),
                time_error: one(8).seconds(),
                weight_error: one(9).newtons_per_meter(),
                ..pluck(&line, plane, 1.0)
            }))?;
        }
        check(tension_from_bounce(&BouncedLine {
            mass: one(6).kilograms(),
            mass_error: one(9).kilograms(),
            time: one(7).seconds(),
            time_error: one(8).seconds(),
            ..bounced(&line, one(5) / 100.0, 1.0)
        }))?;
        let chain = chain_of(&line, vec![ChainLoad {
            at: one(5).meters(),
            force: [one(7), one(8), one(9)].map(Force::from_si),
        }]);
        let masses = vec![one(6).kilograms()];
        check(chain_modes(&VibratingChain { chain, masses, segments: 6, count: 3 }))?;
    }
}
