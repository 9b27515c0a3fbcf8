//! Limits, signs, monotony and energy.

use proptest::prelude::*;

use crate::line::*;
use crate::material::Stretch;
use crate::quantity::*;

pub(super) fn line(span: f64, rise: f64, rest: f64, w: f64, ea: f64) -> ElasticLine {
    ElasticLine {
        span: span.meters(),
        rise: rise.meters(),
        rest_length: rest.meters(),
        weight: w.newtons_per_meter(),
        stretch: Stretch::axial_rigidity(ea.newtons()).unwrap(),
    }
}

pub(super) fn chain(pieces: Vec<ChainPiece>, far: [f64; 3], loads: Vec<ChainLoad>) -> Chain {
    Chain { near: [0.0.meters(); 3], far: far.map(Length::from_si), pieces, loads, samples: 21 }
}

pub(super) fn piece(rest: f64, w: f64, stretch: Stretch) -> ChainPiece {
    ChainPiece::new(rest.meters(), w.newtons_per_meter(), stretch)
}

#[test]
fn a_stiff_line_is_the_catenary() {
    for rise in [0.0, 20.0, -35.0] {
        let c = catenary(100.0.meters(), rise.meters(), 115.0.meters(), 2.0.newtons_per_meter())
            .unwrap();
        let s = solve_elastic(&line(100.0, rise, 115.0, 2.0, 1e13)).unwrap();
        for (a, b) in [
            (c.h, s.h),
            (c.v_near, s.v_near),
            (c.tension_near, s.tension_near),
            (c.tension_far, s.tension_far),
        ] {
            assert!((a.si() / b.si() - 1.0).abs() < 1e-8, "{rise}: {a:?} {b:?}");
        }
        assert!((c.sag_below_chord.si() - s.sag_below_chord.si()).abs() < 1e-7);
        assert!((c.sag_below_near.si() - s.sag_below_near.si()).abs() < 1e-7);
    }
}

#[test]
fn a_small_sag_is_the_parabola() {
    // H = w L² / (8 d), and the length exceeds the span by 8 d² / (3 L).
    let c = catenary_from_sag(100.0.meters(), 0.0.meters(), 0.5.meters(), 1.0.newtons_per_meter())
        .unwrap();
    assert!((c.h.si() / (1e4 / 4.0) - 1.0).abs() < 1e-4);
    assert!(((c.rest_length.si() - 100.0) / (8.0 * 0.25 / 300.0) - 1.0).abs() < 1e-4);
}

#[test]
fn both_ends_on_one_vertical() {
    // Twice the length: a fold. Each half hangs by itself.
    let s = solve_elastic(&line(0.0, -10.0, 20.0, 3.0, 1e9)).unwrap();
    assert!(s.h.si().abs() < 1e-9);
    assert!((s.v_near.si() - 3.0 * 15.0).abs() < 1e-5 && (s.tension_far.si() - 15.0).abs() < 1e-5);
    assert!((s.sag_below_near.si() - 15.0).abs() < 1e-6);
}

/// A line exactly as long as its span carries H³ = EA (w L)² / 24, to leading order in H / EA: its
/// stretch H / EA equals the excess (w L / H)² / 24 of a shallow parabola.
#[test]
fn a_line_as_long_as_its_chord() {
    for w in [0.01, 0.1, 0.7] {
        let s = solve_elastic(&line(100.0, 0.0, 100.0, w, 2e5)).unwrap();
        let leading = (2e5 * (100.0 * w).powi(2) / 24.0).cbrt();
        let order = leading / 2e5 + (100.0 * w / leading).powi(2);
        assert!((s.h.si() / leading - 1.0).abs() < order, "{w}: {} {leading}", s.h.si());
    }
}

#[test]
fn one_piece_without_load_is_the_elastic_line() {
    let stretch = Stretch::axial_rigidity(5e4.newtons()).unwrap();
    for (x, z, rest) in
        [(100.0, 0.0, 99.0), (80.0, -30.0, 90.0), (0.5, 20.0, 21.0), (100.0, 10.0, 180.0)]
    {
        let one = solve_elastic(&line(x, z, rest, 1.5, 5e4)).unwrap();
        let half = || piece(0.5 * rest, 1.5, stretch.clone());
        let two = solve_chain(&chain(vec![half(), half()], [x, 0.0, z], vec![])).unwrap();
        assert!((one.tension_near.si() / two.tension_near.si() - 1.0).abs() < 1e-10);
        assert!((one.stretched_length.si() / two.stretched_length.si() - 1.0).abs() < 1e-11);
        // The chain measures its sag at the points of its profile.
        assert!(two.sag_below_chord.si() <= one.sag_below_chord.si() + 1e-9);
        assert!(one.sag_below_chord.si() - two.sag_below_chord.si() < 0.01 * rest);
    }
}

#[test]
fn wind_turns_the_line_out_of_its_plane() {
    let stretch = Stretch::axial_rigidity(5e4.newtons()).unwrap();
    let mut blown = piece(101.0, 3.0, stretch.clone());
    blown.wind = [0.0, 4.0, 0.0].map(LineLoad::from_si);
    let with = solve_chain(&chain(vec![blown], [100.0, 0.0, 0.0], vec![])).unwrap();
    // 3-4-5: the same as a line of 5 N/m, seen from the side.
    let calm =
        solve_chain(&chain(vec![piece(101.0, 5.0, stretch)], [100.0, 0.0, 0.0], vec![])).unwrap();
    assert!((with.tension_near.si() / calm.tension_near.si() - 1.0).abs() < 1e-10);
    assert!((with.sag_below_chord.si() / calm.sag_below_chord.si() - 0.6).abs() < 1e-9);
    assert!(with.profile.y_m[10] > 0.0 && with.pull_near[1].si() > 0.0);
}

/// The deepest points lie between the points of a coarse profile, and are found all the same.
#[test]
fn sag_and_lowest_point_do_not_depend_on_the_samples() {
    let stretch = Stretch::axial_rigidity(5e4.newtons()).unwrap();
    let load = ChainLoad { at: 30.0.meters(), force: [0.0, 0.0, -20.0].map(Force::from_si) };
    let pieces = vec![piece(60.0, 1.5, stretch.clone()), piece(50.0, 3.0, stretch)];
    let mut c = chain(pieces, [100.0, 0.0, -12.0], vec![load]);
    c.samples = 2;
    let coarse = solve_chain(&c).unwrap();
    c.samples = 20_001;
    let fine = solve_chain(&c).unwrap();
    let sag = fine.profile.x_m.iter().zip(&fine.profile.z_m).map(|(x, z)| -0.12 * x - z);
    let low = fine.profile.z_m.iter().copied().fold(0.0, f64::min);
    assert!((coarse.sag_below_chord.si() - sag.fold(0.0, f64::max)).abs() < 1e-6);
    assert!((coarse.lowest[2].si() - low).abs() < 1e-6);
}

#[test]
fn pulls_balance_weight_and_loads() {
    let table = Stretch::table(vec![
        (2.0.kilonewtons(), 1.2.percent()),
        (5.0.kilonewtons(), 2.2.percent()),
        (10.0.kilonewtons(), 4.0.percent()),
    ])
    .unwrap();
    let load =
        |at: f64, force: [f64; 3]| ChainLoad { at: at.meters(), force: force.map(Force::from_si) };
    let pieces = vec![
        piece(5.0, 9.0, Stretch::axial_rigidity(1e6.newtons()).unwrap()),
        piece(60.0, 0.7, table.clone()),
        piece(66.0, 0.6, table),
    ];
    let loads = vec![load(80.0, [0.0, 100.0, -800.0]), load(30.0, [50.0, 0.0, -300.0])];
    let s = solve_chain(&chain(pieces, [130.0, 1.0, -3.0], loads)).unwrap();
    let weight = 5.0 * 9.0 + 60.0 * 0.7 + 66.0 * 0.6;
    for (axis, want) in [(0, 50.0), (1, 100.0), (2, -1100.0 - weight)] {
        let sum = s.pull_near[axis].si() + s.pull_far[axis].si();
        assert!((sum - want).abs() < 1e-6, "{axis}: {sum} {want}");
    }
    assert!(s.residual.si() < 1e-12);
    assert!(s.profile.s_m.len().abs_diff(25) <= 1, "{}", s.profile.s_m.len());
}

#[test]
fn loading_stores_its_work() {
    // Work of a slowly growing load = stretch energy stored + weight raised. The profile is summed
    // exactly for a tension that is linear between its points, but at the load, where it jumps.
    let stretch = Stretch::axial_rigidity(3e4.newtons()).unwrap();
    let state = |p: f64| {
        let loads =
            vec![ChainLoad { at: 20.0.meters(), force: [0.0, 0.0, -p].map(Force::from_si) }];
        let mut c = chain(vec![piece(50.2, 5.0, stretch.clone())], [50.0, 0.0, 2.0], loads);
        c.samples = 2001;
        solve_chain(&c).unwrap()
    };
    let energy = |s: &ChainSolution| {
        let mut sum = 0.0;
        for w in 0..s.profile.s_m.len() - 1 {
            let ds = s.profile.s_m[w + 1] - s.profile.s_m[w];
            let (a, b) = (s.profile.tension_n[w], s.profile.tension_n[w + 1]);
            sum += ds * (a * a + a * b + b * b) / (6.0 * 3e4);
            sum += ds * 5.0 * 0.5 * (s.profile.z_m[w] + s.profile.z_m[w + 1]);
        }
        sum
    };
    // Trapezoid over the load with steps 2 d and d, and Richardson's extrapolation of the two.
    let most = 2000.0;
    let work = |n: u32| -> f64 {
        let z: Vec<f64> = (0..=n)
            .map(|i| state(most * f64::from(i) / f64::from(n)).loads[0].position[2].si())
            .collect();
        let step = most / f64::from(n);
        z.windows(2).zip(0..n).map(|(z, i)| (z[0] - z[1]) * step * (f64::from(i) + 0.5)).sum()
    };
    let work = (4.0 * work(160) - work(80)) / 3.0;
    let stored = energy(&state(most)) - energy(&state(0.0));
    assert!((work / stored - 1.0).abs() < 1e-5, "{work} {stored}");
}

#[test]
fn only_a_piece_past_its_table_carries_a_note() {
    let table = |last: f64| Stretch::table(vec![(last.newtons(), 2.0.percent())]).unwrap();
    let noted = |last: f64| {
        let linear = Stretch::axial_rigidity(1e5.newtons()).unwrap();
        let pieces = vec![piece(50.0, 1.0, table(last)), piece(49.0, 1.0, linear)];
        solve_chain(&chain(pieces, [100.0, 0.0, 0.0], vec![])).unwrap().notes
    };
    assert_eq!(noted(1e5), vec![]);
    assert!(matches!(noted(200.0)[..], [LineNote::PastStretchTable { .. }]));
}

#[test]
fn degenerate_chains_say_why() {
    let stretch = Stretch::axial_rigidity(1e4.newtons()).unwrap();
    let slack =
        solve_chain(&chain(vec![piece(10.0, 0.0, stretch.clone())], [9.0, 0.0, 0.0], vec![]));
    assert_eq!(slack.unwrap_err(), LineError::NotUnique);
    let empty = solve_chain(&chain(vec![], [9.0, 0.0, 0.0], vec![])).unwrap_err();
    assert_eq!(empty.to_string(), "pieces is empty; it must be at least one piece");
    let off = ChainLoad { at: 11.0.meters(), force: [0.0.newtons(); 3] };
    let error = solve_chain(&chain(vec![piece(10.0, 1.0, stretch)], [9.0, 0.0, 0.0], vec![off]));
    assert_eq!(error.unwrap_err().to_string(), "loads[0].at is 11 m; it must be from 0 m to 10 m");
}

#[test]
fn too_little_tension_is_out_of_reach() {
    let slack = line(100.0, 0.0, 1.0, 2.0, 1e5);
    let error = rest_length_for_tension(&slack, 10.0.newtons(), LineEnd::Near).unwrap_err();
    assert!(error.to_string().contains("the tension rises again"), "{error}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    #[test]
    fn a_longer_line_hangs_lower_and_pulls_less(
        rise in -40.0..40.0_f64, ratio in 0.97..1.02_f64, w in 0.1..5.0_f64, ea in 4.0..6.0_f64,
    ) {
        let chord = 100.0_f64.hypot(rise);
        let ea = 10.0_f64.powf(ea);
        let short = solve_elastic(&line(100.0, rise, ratio * chord, w, ea)).unwrap();
        let long = solve_elastic(&line(100.0, rise, 1.001 * ratio * chord, w, ea)).unwrap();
        prop_assert!(long.h < short.h && long.sag_below_chord > short.sag_below_chord);
    }

    #[test]
    fn mirrored_lines_swap_their_ends(
        rise in -60.0..60.0_f64, ratio in 0.9..1.8_f64, w in 0.1..5.0_f64,
    ) {
        let rest = ratio * 100.0_f64.hypot(rise);
        let a = solve_elastic(&line(100.0, rise, rest, w, 5e4)).unwrap();
        let b = solve_elastic(&line(100.0, -rise, rest, w, 5e4)).unwrap();
        prop_assert!((a.tension_near.si() / b.tension_far.si() - 1.0).abs() < 1e-9);
        prop_assert!((a.sag_below_chord.si() - b.sag_below_chord.si()).abs() < 1e-8 * rest);
    }

    #[test]
    fn length_for_tension_gives_the_tension(
        rise in -30.0..30.0_f64, t in 0.5..20.0_f64, w in 0.1..1.0_f64, ea in 4.0..7.0_f64,
    ) {
        let mut l = line(100.0, rise, 1.0, w, 10.0_f64.powf(ea));
        let want = t.kilonewtons();
        for end in [LineEnd::Near, LineEnd::Far] {
            l.rest_length = rest_length_for_tension(&l, want, end).unwrap();
            let s = solve_elastic(&l).unwrap();
            let got = if end == LineEnd::Near { s.tension_near } else { s.tension_far };
            prop_assert!((got.si() / want.si() - 1.0).abs() < 1e-8);
        }
    }

    #[test]
    fn any_chain_gives_an_answer_or_an_error(
        l in any::<f64>(), w in any::<f64>(), wind in any::<f64>(), x in any::<f64>(), z in any::<f64>(),
        at in any::<f64>(), p in any::<f64>(), ea in 1e2..1e9_f64,
    ) {
        let mut p0 = piece(l, w, Stretch::axial_rigidity(ea.newtons()).unwrap());
        p0.wind[1] = LineLoad::from_si(wind);
        let load = ChainLoad { at: at.meters(), force: [0.0, p, p].map(Force::from_si) };
        if let Ok(s) = solve_chain(&chain(vec![p0], [x, 0.0, z], vec![load])) {
            prop_assert!(s.tension_near.si().is_finite() && s.residual.si().is_finite());
        }
    }

    #[test]
    fn chains_close_over_the_stated_range(
        ea in 2.0..10.0_f64, ratio in 0.5..2.0_f64, angle in -1.57..1.57_f64, p in 0.0..5e3_f64,
        side in -1e3..1e3_f64, share in 0.01..0.99_f64,
    ) {
        let c = 80.0;
        let stretch = Stretch::axial_rigidity(10.0_f64.powf(ea).newtons()).unwrap();
        let pieces = vec![piece(0.3 * ratio * c, 2.0, stretch.clone()), piece(0.7 * ratio * c, 0.6, stretch)];
        let load = ChainLoad {
            at: (share * ratio * c).meters(),
            force: [0.0, side, -p].map(Force::from_si),
        };
        let far = [c * angle.cos(), 0.0, c * angle.sin()];
        let s = solve_chain(&chain(pieces, far, vec![load])).unwrap();
        prop_assert!(s.residual.si() < 1e-10, "{:?}", s.residual);
    }
}
