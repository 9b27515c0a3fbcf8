//! Points along a chain, wind by its speed, pieces, and the work of the solver.

use nalgebra::{Rotation3, Vector3};
use proptest::prelude::*;

use super::limits::{chain, line, piece};
use crate::line::links::Links;
use crate::line::*;
use crate::material::{Condition, Stretch};
use crate::quantity::*;

fn linear(ea: f64) -> Stretch {
    Stretch::axial_rigidity(ea.newtons()).unwrap()
}

fn tape() -> Stretch {
    let row = |kn: f64, percent: f64| (kn.kilonewtons(), percent.percent());
    Stretch::table(vec![row(1.0, 0.9), row(2.5, 1.6), row(10.0, 4.0)]).unwrap()
}

fn load(at: f64, force: [f64; 3]) -> ChainLoad {
    ChainLoad { at: at.meters(), force: force.map(Force::from_si) }
}

fn gust(velocity: [f64; 3]) -> Gust {
    Gust {
        drag_coefficient: 1.2.ratio(),
        width: 25.0.millimeters(),
        air_density: 1.25.kilograms_per_cubic_meter(),
        velocity: velocity.map(Speed::from_si),
    }
}

/// Leader, webbing, splice and sling, with loads in all directions.
fn mixed() -> Chain {
    let pieces = vec![
        piece(2.0, 9.0, linear(2e6)),
        piece(60.0, 0.7, tape()),
        piece(1.5, 1.4, linear(5e5)),
        piece(64.0, 0.6, linear(1.4e5)),
    ];
    let loads = vec![
        load(90.0, [30.0, 200.0, -600.0]),
        load(62.0, [0.0, 0.0, -800.0]),
        load(20.0, [-50.0, 0.0, -100.0]),
        load(62.0, [0.0, -40.0, 0.0]),
    ];
    chain(pieces, [125.0, 4.0, -6.0], loads)
}

fn vector<Q: Quantity>(v: [Q; 3]) -> Vector3<f64> {
    Vector3::from(v.map(Quantity::si))
}

#[test]
fn points_are_the_integral_of_direction_and_stretch() {
    let c = mixed();
    let s: Vec<f64> = (0..=12_750).map(|i| 0.01 * f64::from(i)).collect();
    let p = chain_at(&c, &s).unwrap();
    let place = |i: usize| Vector3::new(p.x_m[i], p.y_m[i], p.z_m[i]);
    let mut worst = 0.0_f64;
    for i in 1..s.len() {
        // Loads and joints are at multiples of the step, so the line is smooth between two points.
        let mid = slope_before(&p, &c, 0.5 * (s[i - 1] + s[i]), i);
        let step = place(i) - place(i - 1);
        worst = worst.max((step - mid * 0.01).norm());
    }
    assert!(worst < 1e-8, "{worst:e}");
}

/// dr/ds = (1 + e) T / |T| half a step before a point, on the same side of loads and joints: T is linear
/// in s there.
fn slope_before(p: &ChainProfile, c: &Chain, s: f64, i: usize) -> Vector3<f64> {
    let next = Vector3::new(p.tension_x_n[i], p.tension_y_n[i], p.tension_z_n[i]);
    let mut from = 0.0;
    let piece = c.pieces.iter().find(|piece| {
        from += piece.rest_length.si();
        s < from
    });
    let piece = piece.unwrap();
    let tension = next - Vector3::z() * piece.weight.si() * (p.s_m[i] - s);
    let strain = piece.stretch.strain(tension.norm().newtons()).unwrap().si();
    tension.normalize() * (1.0 + strain)
}

#[test]
fn loads_show_both_sides() {
    let c = mixed();
    let s = solve_chain(&c).unwrap();
    for (state, given) in s.loads.iter().zip(&c.loads) {
        let here: Vector3<f64> =
            c.loads.iter().filter(|l| l.at == given.at).map(|l| vector(l.force)).sum();
        let jump = vector(state.pull_after) - vector(state.pull_before);
        assert!((jump + here).norm() < 1e-9, "{jump}");
        assert!((vector(state.pull_before).norm() - state.tension_before.si()).abs() < 1e-9);
        // Both loads hang down: the line turns upwards.
        assert!(state.slope_after > state.slope_before);
    }
    // Webbing before the joint at 62 m, splice after it.
    let joint = &s.loads[1];
    let strain = |stretch: &Stretch, t: Force| stretch.strain(t).unwrap().si();
    let before = strain(&c.pieces[1].stretch, joint.tension_before);
    let after = strain(&c.pieces[2].stretch, joint.tension_after);
    assert!((joint.strain_before.si() - before).abs() < 1e-14);
    assert!((joint.strain_after.si() - after).abs() < 1e-14);
}

#[test]
fn pieces_add_up_to_the_line() {
    let c = mixed();
    let s = solve_chain(&c).unwrap();
    let sum: f64 = s.pieces.iter().map(|p| p.stretched_length.si()).sum();
    assert!((sum - s.stretched_length.si()).abs() < 1e-12);
    // The profile has the near side of each load.
    let after = s.loads.iter().map(|l| l.tension_after.si());
    let greatest = s.profile.tension_n.iter().copied().chain(after).fold(0.0, f64::max);
    let most = s.pieces.iter().map(|p| p.greatest_tension.si()).fold(0.0, f64::max);
    assert!((most / greatest - 1.0).abs() < 1e-12);
    // The leader carries a tension between those at its ends: its stretch is that of a linear cord.
    let leader = s.pieces[0].stretched_length.si() / 2.0 - 1.0;
    assert!((leader * 2e6 / s.tension_near.si() - 1.0).abs() < 1e-2);
    let low = s.lowest.map(Quantity::si);
    let at = chain_at(&c, &[s.lowest_at.si()]).unwrap();
    assert!((at.z_m[0] - low[2]).abs() < 1e-12 && (at.x_m[0] - low[0]).abs() < 1e-12);
    assert!((s.sag_below_near.si() + low[2]).abs() < 1e-12);
}

#[test]
fn every_crossing_of_an_x_is_found() {
    // A slack loop far longer than its span hangs back over its near anchor: x passes 1 m once, and -0.1
    // twice where a side load pulls it there.
    let pieces = vec![piece(30.0, 2.0, linear(1e6))];
    let c = chain(pieces, [2.0, 0.0, 0.0], vec![load(10.0, [-30.0, 0.0, 0.0])]);
    let fine: Vec<f64> = (0..=300_000).map(|i| (1e-4 * f64::from(i)).min(30.0)).collect();
    let p = chain_at(&c, &fine).unwrap();
    let levels = [-1.0, -0.1, 0.0, 0.5, 1.0, 2.0, 2.3, 9.0];
    let found = chain_at_x(&c, &levels).unwrap();
    for (x, found) in levels.iter().zip(&found) {
        let mut want: Vec<f64> = (1..fine.len())
            .filter(|&i| (p.x_m[i - 1] - x) * (p.x_m[i] - x) < 0.0)
            .map(|i| fine[i])
            .collect();
        // Anchors are points of the line.
        if *x == 0.0 {
            want.insert(0, 0.0);
        }
        if *x == 2.0 && want.last().is_none_or(|s| *s < 29.999) {
            want.push(30.0);
        }
        assert_eq!(found.s_m.len(), want.len(), "{x}: {:?} {want:?}", found.s_m);
        for (got, want) in found.s_m.iter().zip(&want) {
            assert!((got - want).abs() < 2e-4, "{x}: {got} {want}");
        }
        assert!(found.x_m.iter().all(|got| (got - x).abs() < 1e-10));
    }
    assert!(found.iter().any(|f| f.s_m.len() >= 2));
}

#[test]
fn a_line_on_one_vertical_is_met_at_its_ends() {
    let c = chain(vec![piece(10.0, 1.0, linear(1e5))], [0.0, 0.0, -11.0], vec![]);
    let found = chain_at_x(&c, &[0.0, 0.1]).unwrap();
    assert_eq!(found[0].s_m, vec![0.0, 10.0]);
    assert!(found[1].s_m.is_empty());
}

#[test]
fn a_chain_cut_in_many_pieces_is_the_uncut_one() {
    for stretch in [linear(3e4), tape()] {
        let loads = vec![load(37.3, [10.0, 20.0, -500.0])];
        let whole = vec![piece(100.0, 0.7, stretch.clone())];
        let one = solve_chain(&chain(whole, [99.0, 0.0, 5.0], loads.clone())).unwrap();
        let cut = (0..1000).map(|_| piece(0.1, 0.7, stretch.clone())).collect();
        let many = solve_chain(&chain(cut, [99.0, 0.0, 5.0], loads)).unwrap();
        let scale = one.tension_near.si();
        // The closure of 1e-13 of the length, times EA over the length.
        assert!((vector(one.pull_near) - vector(many.pull_near)).norm() < 1e-9 * scale);
        assert!((one.stretched_length.si() - many.stretched_length.si()).abs() < 1e-9);
        assert!((vector(one.loads[0].position) - vector(many.loads[0].position)).norm() < 1e-9);
    }
}

/// The work of one solve: the same runs whatever the number of pieces, and as many link evaluations as
/// runs times pieces. A snapshot: more runs than before fail.
#[test]
fn work_grows_with_the_number_of_pieces() {
    const RUNS: u32 = 7;
    for n in [1_u32, 10, 100, 1000] {
        let rest = 127.74 / f64::from(n);
        let pieces: Vec<_> = (0..n).map(|_| piece(rest, 0.667, linear(2.5e5))).collect();
        let c = chain(pieces, [130.0, 0.0, -3.0], vec![load(60.0, [0.0, 0.0, -800.0])]);
        let links = Links::new(&c).unwrap();
        assert_eq!(links.0.len(), n as usize + 1);
        let solved = links.solve(&Vector3::new(130.0, 0.0, -3.0)).unwrap();
        println!("{n} pieces: {} steps, {} runs", solved.iterations, solved.runs);
        assert!(solved.runs <= RUNS, "{n}: {}", solved.runs);
        assert!(solved.runs <= solved.iterations + 2);
    }
}

#[test]
fn a_gust_across_the_chord_is_a_dead_load() {
    let mut blown = piece(101.0, 0.7, linear(5e4));
    blown.gust = Some(gust([10.0, 15.0, 0.0]));
    let far = [80.0, 60.0, 0.0];
    // By hand: the wind of (10, 15) across (0.8, 0.6) is 15 · 0.8 - 10 · 0.6 = 6 m/s to the left of it.
    let k = 0.5 * 1.25 * 1.2 * 0.025 * 36.0;
    let mut dead = piece(101.0, 0.7, linear(5e4));
    dead.wind = [-0.6 * k, 0.8 * k, 0.0].map(LineLoad::from_si);
    let a = solve_chain(&chain(vec![blown.clone()], far, vec![])).unwrap();
    let b = solve_chain(&chain(vec![dead], far, vec![])).unwrap();
    assert!((vector(a.pull_near) - vector(b.pull_near)).norm() < 1e-9);
    assert_eq!((a.wind_passes, a.wind_residual.si()), (0, 0.0));
    // Without length the chord has no direction.
    let loop_ = solve_chain(&chain(vec![blown], [0.0; 3], vec![])).unwrap_err().to_string();
    assert_eq!(loop_, "far is at near; it must be away from near, for wind across the chord");
}

/// Wind that follows, from the far side: the load on every part is the one of Eq. (17) for the direction
/// in which the part lies.
#[test]
fn a_following_gust_is_across_every_part() {
    for speed in [5.0, 20.0, 60.0] {
        let mut blown = piece(115.0, 0.7, tape());
        blown.gust = Some(gust([0.3 * speed, speed, 0.1 * speed]));
        blown.gust_parts = 40;
        let c = chain(vec![blown], [100.0, 0.0, 10.0], vec![load(30.0, [0.0, 0.0, -50.0])]);
        let s = solve_chain(&c).unwrap();
        assert!(s.wind_passes > 1 && s.wind_residual.si() <= 1e-11, "{s:?}");
        let ends: Vec<f64> = (0..=40).map(|i| 115.0 * f64::from(i) / 40.0).collect();
        let p = chain_at(&c, &ends).unwrap();
        let at = |i: usize| Vector3::new(p.x_m[i], p.y_m[i], p.z_m[i]);
        let pull = |i: usize| Vector3::new(p.tension_x_n[i], p.tension_y_n[i], p.tension_z_n[i]);
        for i in 0..40 {
            if ends[i] < 30.0 && ends[i + 1] >= 30.0 || ends[i] == 30.0 {
                continue;
            }
            let lies = (at(i + 1) - at(i)).map(Length::from_si);
            let q = wind_load(&gust([0.3 * speed, speed, 0.1 * speed]), lies.into()).unwrap();
            let want = vector(q) - Vector3::z() * 0.7;
            let got = (pull(i) - pull(i + 1)) / (115.0 / 40.0);
            assert!((got - want).norm() < 1e-8 * (1.0 + want.norm()), "{speed} {i}: {got} {want}");
        }
        println!("{speed} m/s: {} passes", s.wind_passes);
    }
}

/// The answer turns with the rig about the vertical.
fn turned(c: &Chain, angle: f64) -> Chain {
    let turn = Rotation3::from_axis_angle(&Vector3::z_axis(), angle);
    let place = |v: [Length; 3]| (turn * vector(v)).map(Length::from_si).into();
    let mut c = c.clone();
    (c.near, c.far) = (place(c.near), place(c.far));
    for piece in &mut c.pieces {
        piece.wind = (turn * vector(piece.wind)).map(LineLoad::from_si).into();
        if let Some(gust) = &mut piece.gust {
            gust.velocity = (turn * vector(gust.velocity)).map(Speed::from_si).into();
        }
    }
    for load in &mut c.loads {
        load.force = (turn * vector(load.force)).map(Force::from_si).into();
    }
    c
}

/// A wet, warm, stretched piece is a piece of that length which weighs less per length.
#[test]
fn a_condition_changes_lengths_only() {
    let condition = Condition {
        wet_change: (-2.0).percent(),
        permanent_set: 0.5.percent(),
        ..Condition::default()
    };
    let factor = 0.98 * 1.005;
    let mut worn = piece(60.0, 0.7, tape());
    worn.condition = Some(condition);
    let same = piece(60.0 * factor, 0.7 / factor, tape());
    let rest = |first: ChainPiece, at: f64| {
        let pieces = vec![first, piece(45.0, 0.6, linear(1e5))];
        let c = chain(pieces, [100.0, 0.0, 3.0], vec![load(at, [0.0, 0.0, -500.0])]);
        solve_chain(&c).unwrap()
    };
    let (a, b) = (rest(worn.clone(), 30.0), rest(same, 30.0 * factor));
    let scale = a.tension_near.si();
    assert!((vector(a.pull_near) - vector(b.pull_near)).norm() < 1e-9 * scale);
    assert!((vector(a.loads[0].position) - vector(b.loads[0].position)).norm() < 1e-9);
    assert!((a.loads[0].strain_before.si() - b.loads[0].strain_before.si()).abs() < 1e-12);
    for (a, b) in a.pieces.iter().zip(&b.pieces) {
        assert!((a.stretched_length.si() - b.stretched_length.si()).abs() < 1e-9);
    }
    // Shorter is tighter.
    assert!(a.tension_near > rest(piece(60.0, 0.7, tape()), 30.0).tension_near);
    worn.condition = Some(Condition { wet_change: (-100.0).percent(), ..condition });
    let error = solve_chain(&chain(vec![worn], [50.0, 0.0, 0.0], vec![])).unwrap_err().to_string();
    assert!(error.starts_with("pieces[0].condition.wet_change is -1; "), "{error}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn answers_turn_with_the_rig(
        angle in -7.0..7.0_f64, wind in -3.0..3.0_f64, u in -20.0..20.0_f64, v in -20.0..20.0_f64,
        parts in 0_usize..5, share in 0.0..1.0_f64,
    ) {
        let mut c = mixed();
        c.pieces[1].wind = [wind, 0.4, 0.1].map(LineLoad::from_si);
        c.pieces[3].gust = Some(gust([u, v, 1.0]));
        c.pieces[3].gust_parts = parts;
        c.loads[0].at = (share * 127.5).meters();
        let other = turned(&c, angle);
        let turn = Rotation3::from_axis_angle(&Vector3::z_axis(), angle);
        let (a, b) = (solve_chain(&c).unwrap(), solve_chain(&other).unwrap());
        let scale = a.tension_near.si();
        prop_assert!((turn * vector(a.pull_near) - vector(b.pull_near)).norm() < 1e-7 * scale);
        prop_assert!((turn * vector(a.pull_far) - vector(b.pull_far)).norm() < 1e-7 * scale);
        prop_assert!((a.sag_below_chord.si() - b.sag_below_chord.si()).abs() < 1e-8);
        prop_assert!((turn * vector(a.loads[0].position) - vector(b.loads[0].position)).norm() < 1e-8);
    }

    #[test]
    fn forces_balance_to_rounding(
        n in 1_usize..40, rest in 0.9..1.5_f64, wind in -3.0..3.0_f64, p in -500.0..500.0_f64,
    ) {
        let pieces: Vec<_> = (0..n)
            .map(|i| {
                let stretch = if i % 2 == 0 { tape() } else { linear(5e4) };
                let mut piece = piece(rest * 80.0 / n as f64, 0.5 + 0.1 * i as f64, stretch);
                piece.wind = [0.0, wind, 0.0].map(LineLoad::from_si);
                piece
            })
            .collect();
        let loads: Vec<_> =
            (1..n).map(|i| load(rest * 80.0 * i as f64 / n as f64, [p, 0.3 * p, -p.abs()])).collect();
        let outside: Vector3<f64> = loads.iter().map(|l| vector(l.force)).sum::<Vector3<f64>>()
            + pieces.iter().map(|p| (vector(p.wind) - Vector3::z() * p.weight.si()) * p.rest_length.si())
                .sum::<Vector3<f64>>();
        let s = solve_chain(&chain(pieces, [78.0, 0.0, 12.0], loads)).unwrap();
        let sum = vector(s.pull_near) + vector(s.pull_far) - outside;
        let scale = s.tension_near.si() + s.tension_far.si() + outside.norm();
        prop_assert!(sum.norm() < 1e-13 * n as f64 * scale, "{sum}");
        let miss = vector(s.pull_near) + vector(s.pull_far) - outside;
        prop_assert!(miss.iter().all(|x| x.is_finite()));
    }

    #[test]
    fn any_gust_and_place_give_an_answer_or_an_error(
        c in any::<f64>(), w in any::<f64>(), rho in any::<f64>(), u in any::<f64>(), v in any::<f64>(),
        parts in 0_usize..4, s in any::<f64>(), x in any::<f64>(), far in -120.0..120.0_f64,
    ) {
        let wild = Gust {
            drag_coefficient: c.ratio(),
            width: w.meters(),
            air_density: rho.kilograms_per_cubic_meter(),
            velocity: [u, v, 0.0].map(Speed::from_si),
        };
        let mut blown = piece(100.0, 1.0, linear(1e5));
        blown.gust = Some(wild);
        blown.gust_parts = parts;
        let c = chain(vec![blown], [far, 0.0, 1.0], vec![]);
        if let Ok(p) = chain_at(&c, &[s, 50.0]) {
            prop_assert!(p.tension_n.iter().chain(&p.x_m).all(|x| x.is_finite()));
        }
        if let Ok(found) = chain_at_x(&c, &[x, 0.5 * far]) {
            prop_assert!(found.iter().flat_map(|p| &p.z_m).all(|z| z.is_finite()));
        }
        if let Ok(q) = wind_load(&wild, [u, v, s].map(Length::from_si)) {
            prop_assert!(q.iter().all(|q| q.si().is_finite()));
        }
    }

    #[test]
    fn one_piece_is_the_elastic_line(
        x in 0.1..150.0_f64, z in -80.0..80.0_f64, ratio in 0.8..1.6_f64, w in 0.05..5.0_f64, curved: bool,
    ) {
        let rest = ratio * x.hypot(z);
        let mut l = line(x, z, rest, w, 4e4);
        if curved {
            l.stretch = tape();
        }
        let one = solve_elastic(&l).unwrap();
        let c = chain(vec![piece(rest, w, l.stretch.clone())], [x, 0.0, z], vec![]);
        let s = solve_chain(&c).unwrap();
        let scale = one.tension_near.si().max(one.tension_far.si());
        prop_assert!((one.tension_near.si() - s.tension_near.si()).abs() < 1e-7 * scale);
        prop_assert!((one.h.si() - s.pull_near[0].si()).abs() < 1e-7 * scale);
        prop_assert!((one.v_near.si() + s.pull_near[2].si()).abs() < 1e-7 * scale);
        prop_assert!((one.stretched_length.si() - s.stretched_length.si()).abs() < 1e-9 * rest);
        prop_assert!((one.sag_below_chord.si() - s.sag_below_chord.si()).abs() < 1e-7 * rest);
        prop_assert!((one.sag_below_near.si() - s.sag_below_near.si()).abs() < 1e-7 * rest);
    }
}
