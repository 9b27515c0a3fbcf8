//! The closed forms and the planar solver.

use nalgebra::Vector3;
use proptest::prelude::*;

use crate::line::planar::{CLOSED, Chord, Stop};
use crate::line::ring::{HalfLine, RingField};
use crate::line::segment::Uniform;
use crate::line::strand::Strand;
use crate::material::{Law, Stretch};
use crate::quantity::Words;

fn linear(ea_n: f64) -> Law {
    Law::Linear { ea_n }
}

/// Midpoint sum of the integrals that the closed forms stand for.
fn by_sum(u: Uniform<'_>, h: f64, v0: f64) -> [f64; 7] {
    let n = 200_000;
    let ds = u.rest_m / f64::from(n);
    let mut sum = [0.0; 7];
    for i in 0..n {
        let v = v0 - u.q_n_per_m * ds * (f64::from(i) + 0.5);
        let t = h.hypot(v);
        let (e, slope) = u.law.strain_and_slope(t);
        let along = (1.0 + e) / t;
        let (ch, cv) = (h / t, v / t);
        for (total, term) in sum.iter_mut().zip([
            along * h,
            along * v,
            along * cv * cv + slope * ch * ch,
            (slope - along) * ch * cv,
            along * ch * ch + slope * cv * cv,
            along,
            1.0 + e,
        ]) {
            *total += term * ds;
        }
    }
    sum
}

#[test]
fn closed_forms_are_the_integrals() {
    let curve = Stretch::table(vec![
        (Words::newtons(30.0), Words::percent(1.0)),
        (Words::newtons(80.0), Words::percent(5.0)),
        (Words::newtons(200.0), Words::percent(7.0)),
    ])
    .unwrap();
    for law in [linear(1e3), linear(1e9), curve.law().clone()] {
        for (q, l) in [(0.7, 100.0), (1e-9, 100.0), (0.0, 3.0), (5.0, 40.0)] {
            for (h, v0) in [(40.0, 35.0), (90.0, -20.0), (5.0, 150.0), (1e3, 0.0), (20.0, -300.0)] {
                let u = Uniform { q_n_per_m: q, rest_m: l, law: &law };
                let p = u.at(h, v0);
                let got = [p.across_m, p.along_m, p.hh, p.hv, p.vv, p.out, u.stretched_m(h, v0)];
                for (i, (got, want)) in got.into_iter().zip(by_sum(u, h, v0)).enumerate() {
                    let scale = if i < 2 || i == 6 { l } else { p.out };
                    assert!(
                        (got - want).abs() < 2e-8 * scale,
                        "{i}: {got} {want} {q} {h} {v0} {law:?}"
                    );
                }
            }
        }
    }
}

#[test]
fn a_fold_has_finite_limits() {
    let law = linear(1e30);
    // H = 0, both ends pulled up: only the stiffness across is without bound.
    let p = Uniform { q_n_per_m: 2.0, rest_m: 10.0, law: &law }.at(0.0, 12.0);
    assert!((p.along_m - 2.0).abs() < 1e-12, "{p:?}");
    assert!((p.vv - 2.0 / 2.0).abs() < 1e-12);
    assert_eq!((p.across_m, p.hv), (0.0, 0.0));
    let near = Uniform { q_n_per_m: 2.0, rest_m: 10.0, law: &law }.at(1e-7, 12.0);
    assert!((near.vv - p.vv).abs() < 1e-9 && (near.along_m - p.along_m).abs() < 1e-9);
    let u = Uniform { q_n_per_m: 2.0, rest_m: 10.0, law: &law };
    // Two triangles of tension: 12²/4 + 8²/4.
    assert!((u.tension_integral(0.0, 12.0) - 52.0).abs() < 1e-9);
}

/// Every rigidity, slackness and slope closes, from a cold start and from a wild one.
#[test]
fn newton_closes_the_line_from_any_start() {
    let (mut worst, mut most, mut cases) = (0.0_f64, 0, 0);
    let mut wild_most = 0;
    for ea_exp in 2..=10 {
        let law = linear(10.0_f64.powi(ea_exp));
        for q in [1e-3, 0.7, 20.0] {
            for c in [1.0, 130.0] {
                for ratio in
                    [0.5, 0.9, 0.99, 0.999_999, 1.0, 1.000_001, 1.001, 1.02, 1.03, 1.3, 2.0]
                {
                    for angle in [0.0, 1e-3, 0.5, 1.2, 1.57, std::f64::consts::FRAC_PI_2] {
                        for sign in [1.0, -1.0] {
                            let (sin, cos): (f64, f64) =
                                if angle > 1.5705 { (1.0, 0.0) } else { f64::sin_cos(angle) };
                            let chord = Chord { across_m: c * cos, along_m: sign * c * sin };
                            let u = Uniform { q_n_per_m: q, rest_m: ratio * c, law: &law };
                            let s = u.solve(chord).unwrap_or_else(|e| {
                                panic!("{e:?} {q} {c} {ratio} {angle} {ea_exp}")
                            });
                            worst = worst.max(s.residual_m / (c * ratio.max(1.0)));
                            most = most.max(s.iterations);
                            cases += 1;
                            for (h, v) in [(1e-3, 0.0), (1e6, -1e6), (1.0, 1e7), (1e-9, 5.0)] {
                                let w = u.newton(chord, (h, v, u.at(h, v)), CLOSED, true)
                                    .unwrap_or_else(|e| panic!("wild {h} {v}: {e:?} {q} {c} {ratio} {angle} {ea_exp} want {s:?}"));
                                worst = worst.max(w.residual_m / (c * ratio.max(1.0)));
                                wild_most = wild_most.max(w.iterations);
                                cases += 1;
                            }
                        }
                    }
                }
            }
        }
    }
    println!("{cases} cases, worst closure {worst:e}, iterations {most} cold {wild_most} wild");
    assert!(worst < 1e-12, "{worst:e}");
    assert!(cases > 5000);
}

#[test]
fn a_slack_line_without_weight_is_not_unique() {
    let law = linear(1e4);
    let u = Uniform { q_n_per_m: 0.0, rest_m: 10.0, law: &law };
    assert!(matches!(u.solve(Chord { across_m: 9.0, along_m: 0.0 }), Err(Stop::Slack)));
    let s = u.solve(Chord { across_m: 8.0, along_m: 8.0 }).unwrap();
    assert!((s.h_n - 1e4 * (128.0_f64.sqrt() / 10.0 - 1.0) * 0.5_f64.sqrt()).abs() < 1e-8);
}

fn strand(q: [f64; 3]) -> Strand {
    Strand::new(66.0, Vector3::from(q), linear(2.5e5))
}

#[test]
fn stiffness_is_the_derivative_of_the_pull() {
    for q in [[0.0, 0.0, -0.7], [0.2, 0.4, -0.7]] {
        for d in [[65.0, 0.0, -3.0], [60.0, 2.0, -20.0], [64.0, -5.0, 17.0], [66.5, 1.0, -9.0]] {
            let d = Vector3::from(d);
            let mut s = strand(q);
            assert!(s.solve(&d).unwrap());
            let k = s.stiffness_n_per_m();
            for i in 0..3 {
                let step = 1e-5;
                let mut e = Vector3::zeros();
                e[i] = step;
                let [up, low] = [d + e, d - e].map(|chord| {
                    let mut fresh = strand(q);
                    fresh.solve(&chord).unwrap();
                    fresh.start_pull_n()
                });
                let by_difference = (up - low) / (2.0 * step);
                let gap = (k.column(i) - by_difference).norm();
                assert!(gap < 1e-5 * k.norm(), "{gap} {k} {by_difference}");
            }
        }
    }
}

/// Moving one end slowly puts its work into stretch and height, from slack to taut.
#[test]
fn moving_an_end_stores_its_work() {
    let table = vec![
        (Words::kilonewtons(1.0), Words::percent(1.0)),
        (Words::kilonewtons(4.0), Words::percent(2.5)),
        (Words::kilonewtons(9.0), Words::percent(4.0)),
    ];
    let curve = Stretch::table(table).unwrap();
    // Three-point Gauss in many steps, for path and line alike.
    let gauss = |n: u32, f: &mut dyn FnMut(f64) -> f64| -> f64 {
        let h = 1.0 / f64::from(n);
        let r = 0.6_f64.sqrt();
        (0..n)
            .map(|i| {
                let m = (f64::from(i) + 0.5) * h;
                let outer = f(m - 0.5 * r * h) + f(m + 0.5 * r * h);
                h * (5.0 / 18.0 * outer + 4.0 / 9.0 * f(m))
            })
            .sum()
    };
    for law in [linear(2.5e5), curve.law().clone()] {
        let q = Vector3::new(0.3, -0.2, -0.7);
        let mut s = Strand::new(66.0, q, law.clone());
        let (from, to) = (Vector3::new(60.0, 3.0, -9.0), Vector3::new(67.0, -1.0, -4.0));
        let mut energy = |chord: Vector3<f64>| {
            s.solve(&chord).unwrap();
            66.0 * gauss(2000, &mut |share| {
                let at = 66.0 * share;
                let tension = (s.start_pull_n() - q * at).norm();
                law.energy_n(tension) - q.dot(&s.place_m(at, &chord))
            })
        };
        let stored = energy(to) - energy(from);
        let mut moved = Strand::new(66.0, q, law.clone());
        let work = gauss(4000, &mut |share| {
            moved.solve(&(from + (to - from) * share)).unwrap();
            -moved.end_pull_n().dot(&(to - from))
        });
        assert!((work / stored - 1.0).abs() < 1e-9, "{work} {stored}");
    }
}

#[test]
fn the_pulls_carry_the_weight() {
    let mut s = strand([0.1, -0.3, -0.7]);
    s.solve(&Vector3::new(60.0, 5.0, -12.0)).unwrap();
    let sum = s.start_pull_n() + s.end_pull_n();
    assert!((sum - Vector3::new(0.1, -0.3, -0.7) * 66.0).norm() < 1e-10);
}

#[test]
fn a_ring_field_follows_its_ring_as_if_started_afresh() {
    let lines: Vec<HalfLine> = [0.0, 130.0]
        .into_iter()
        .flat_map(|x| {
            [(63.9, 0.068, 2.5e5), (66.2, 0.06, 1.4e5), (66.7, 0.072, 3e4)].map(
                |(rest_m, mass, ea)| HalfLine {
                    anchor_m: [x, 0.0, 0.0],
                    rest_m,
                    load_n_per_m: [0.0, 0.0, -mass * 9.81],
                    law: linear(ea),
                },
            )
        })
        .collect();
    let mut warm = RingField::new(lines.clone());
    for i in 0..400 {
        let a = f64::from(i) * 0.02;
        let ring = [65.0 + 3.0 * a.sin(), 2.0 * (1.7 * a).sin(), -9.0 + 7.0 * a.cos()];
        let followed = warm.force(ring).unwrap();
        let mut cold = RingField::new(lines.clone());
        let fresh = cold.force(ring).unwrap();
        for (f, c) in followed.iter().zip(fresh) {
            assert!((f - c).abs() < 1e-5, "{followed:?} {fresh:?}");
        }
        assert!(warm.tensions_n().zip(cold.tensions_n()).all(|(a, b)| (a.0 - b.0).abs() < 1e-5));
        assert!(warm.anchor_pull_n(6).is_none());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]
    #[test]
    fn a_random_line_closes_from_a_random_start(
        ea in 2.0..10.0_f64, q in -4.0..2.0_f64, c in -1.0..3.0_f64, ratio in 0.5..2.0_f64,
        angle in -1.57..1.57_f64, h in -6.0..9.0_f64, v in -1e6..1e6_f64,
    ) {
        let law = linear(10.0_f64.powf(ea));
        let c = 10.0_f64.powf(c);
        let chord = Chord { across_m: c * angle.cos(), along_m: c * angle.sin() };
        let u = Uniform { q_n_per_m: 10.0_f64.powf(q), rest_m: ratio * c, law: &law };
        let h = 10.0_f64.powf(h);
        let cold = u.solve(chord).unwrap();
        let wild = u.newton(chord, (h, v, u.at(h, v)), CLOSED, true).unwrap();
        prop_assert!(cold.residual_m <= 1e-12 * c.max(u.rest_m));
        prop_assert!(wild.residual_m <= 1e-12 * c.max(u.rest_m));
        prop_assert!((cold.piece.t0_n / wild.piece.t0_n - 1.0).abs() < 1e-4);
    }

    #[test]
    fn any_number_gives_an_answer_or_an_error(
        ea in any::<f64>(), q in any::<f64>(), l in any::<f64>(), x in any::<f64>(), z in any::<f64>(),
    ) {
        let law = linear(ea.abs());
        let u = Uniform { q_n_per_m: q.abs(), rest_m: l.abs(), law: &law };
        if let Ok(s) = u.solve(Chord { across_m: x.abs(), along_m: z }) {
            prop_assert!(s.h_n.is_finite() && s.v0_n.is_finite() && s.residual_m.is_finite());
        }
    }
}
