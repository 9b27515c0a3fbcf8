//! Cases at which formulas break: each has an answer, or an error that says why not.

use super::limits::{chain, line, piece};
use crate::line::*;
use crate::material::Stretch;
use crate::quantity::*;

fn linear(ea: f64) -> Stretch {
    Stretch::axial_rigidity(ea.newtons()).unwrap()
}

fn down(n: f64) -> [Force; 3] {
    [0.0, 0.0, -n].map(Force::from_si)
}

fn half_and_half(far: [f64; 3], rest: (f64, f64), w: f64, ea: f64) -> BundleLine {
    BundleLine {
        name: "line".to_owned(),
        near: [0.0.meters(); 3],
        far: far.map(Length::from_si),
        near_length: rest.0.meters(),
        far_length: rest.1.meters(),
        weight: w.newtons_per_meter(),
        stretch: linear(ea),
    }
}

/// Both ends on one vertical, twice as long as they are apart: H is zero, each half hangs by itself.
#[test]
fn a_vertical_fold_has_no_horizontal_part() {
    // (rise, length of the near side of the fold)
    for (rise, near_side) in [(-10.0, 15.0), (10.0, 5.0), (0.0, 10.0)] {
        let (w, rest) = (3.0, 20.0);
        let one = solve_elastic(&line(0.0, rise, rest, w, 1e9)).unwrap();
        let two = solve_chain(&chain(
            vec![piece(8.0, w, linear(1e9)), piece(12.0, w, linear(1e9))],
            [0.0, 0.0, rise],
            vec![],
        ))
        .unwrap();
        assert!(one.h.si().abs() < 1e-9 && two.pull_near[0].si().abs() < 1e-9, "{rise}");
        for near in [one.tension_near.si(), two.tension_near.si()] {
            assert!((near - w * near_side).abs() < 1e-5, "{rise}: {near}");
        }
        for far in [one.tension_far.si(), two.tension_far.si()] {
            assert!((far - w * (rest - near_side)).abs() < 1e-5, "{rise}: {far}");
        }
        assert!((two.sag_below_near.si() - near_side).abs() < 1e-6);
        assert!((two.lowest_at.si() - near_side).abs() < 1e-6);
    }
    // A ring on the vertical: the near half is taut, the far one a fold that hangs from ring and anchor.
    let (w, ea) = (2.0, 1e5);
    let lines = [half_and_half([0.0, 0.0, -20.0], (10.5, 10.5), w, ea)];
    let solved = solve_bundle(&lines, down(100.0)).unwrap();
    let ring = solved.ring.map(Quantity::si);
    // Of the far half's 10.5 m the ring carries (10.5 + 9.5) / 2 and the anchor the rest, but for half of
    // the stretch of the near half, which carries 120 N below and 141 N above.
    let stretch = 0.5 * (120.0 + 141.0) * 10.5 / ea;
    assert!(ring[0].abs() < 1e-6 && ring[1].abs() < 1e-6, "{ring:?}");
    assert!((ring[2] + 10.5 + stretch).abs() < 1e-4, "{ring:?}");
    assert!((solved.lines[0].tension_ring_near.si() - 100.0 - w * 10.0).abs() < w * stretch);
    assert!((solved.lines[0].tension_far.si() - w * 0.5).abs() < w * stretch);
}

/// No weight and no tension before a load in the middle: P = EA (d/l)³ to leading order, l the half span
/// (Timoshenko, from memory), with a relative error of (d/l)².
#[test]
fn a_straight_weightless_line_takes_a_load_by_the_cubic_law() {
    let half = 25.0;
    for (ea, load) in [(3e4, 1.0), (1e6, 0.01), (1e6, 1.0), (1e9, 0.01), (1e9, 500.0)] {
        let leading = f64::cbrt(load / ea);
        let tension = load / (2.0 * leading);
        let pieces = vec![piece(2.0 * half, 0.0, linear(ea))];
        let c = chain(
            pieces,
            [2.0 * half, 0.0, 0.0],
            vec![ChainLoad { at: half.meters(), force: down(load) }],
        );
        let one = solve_chain(&c).unwrap();
        let two = solve_bundle(
            &[half_and_half([2.0 * half, 0.0, 0.0], (half, half), 0.0, ea)],
            down(load),
        )
        .unwrap();
        // The solvers close the chord to 1e-12 of its length, beside an excess of (d/l)² / 2.
        let within = leading * leading + 2e-12 / (leading * leading);
        for (depth, t) in [
            (one.loads[0].below_chord.si(), one.tension_near.si()),
            (-two.ring[2].si(), two.lines[0].tension_near.si()),
        ] {
            assert!((depth / (half * leading) - 1.0).abs() < within, "{ea} {load}: {depth}");
            assert!((t / tension - 1.0).abs() < within, "{ea} {load}: {t} {tension}");
        }
    }
}

/// A thread of 100 N rigidity over a kilometre: strains of many hundred percent, still the printed
/// equations of the elastic catenary (Irvine 1981, chapter 1, from memory; not the form used here).
#[test]
fn a_very_soft_line_still_obeys_its_equations() {
    for (x, z, rest, w) in
        [(1000.0, 0.0, 1000.0, 0.7), (800.0, -500.0, 400.0, 0.05), (900.0, 300.0, 1500.0, 2.0)]
    {
        let ea = 100.0;
        let s = solve_elastic(&line(x, z, rest, w, ea)).unwrap();
        let (h, v) = (s.h.si(), s.v_near.si());
        let far = v - w * rest;
        let reach = h * rest / ea + h / w * ((v / h).asinh() - (far / h).asinh());
        let drop = (v - 0.5 * w * rest) * rest / ea + (h.hypot(v) - h.hypot(far)) / w;
        assert!((reach / x - 1.0).abs() < 1e-10, "{reach} {x}");
        assert!((drop + z).abs() < 1e-10 * drop.abs().max(x), "{drop} {z}");
        let c = chain(
            vec![piece(0.4 * rest, w, linear(ea)), piece(0.6 * rest, w, linear(ea))],
            [x, 0.0, z],
            vec![],
        );
        let two = solve_chain(&c).unwrap();
        assert!((two.tension_near.si() / s.tension_near.si() - 1.0).abs() < 1e-10);
        let lines = [half_and_half([x, 0.0, z], (0.5 * rest, 0.5 * rest), w, ea)];
        let three = solve_bundle(&lines, down(0.0)).unwrap();
        let near = three.lines[0].tension_near.si();
        assert!((near / s.tension_near.si() - 1.0).abs() < 1e-7, "{near} {s:?}");
    }
}

/// As long as the chord to the last bit: with weight all three agree, to leading order with
/// T³ = EA (w L)² / 24; without it there is no tension and no answer, or one of no tension.
#[test]
fn a_line_exactly_as_long_as_its_chord() {
    let (x, z, w, ea) = (96.0, 28.0, 0.3, 2e5);
    let s = solve_elastic(&line(x, z, 100.0, w, ea)).unwrap();
    let leading = (ea * (w * x).powi(2) / 24.0).cbrt();
    // Next orders: T / EA, (w L / T)², and half the weight between middle and end.
    let order = leading / ea + (w * 100.0 / leading).powi(2) + w * 50.0 / leading;
    assert!(
        (s.tension_near.si() / leading - 1.0).abs() < order,
        "{} {leading}",
        s.tension_near.si()
    );
    let c =
        chain(vec![piece(25.0, w, linear(ea)), piece(75.0, w, linear(ea))], [x, 0.0, z], vec![]);
    let two = solve_chain(&c).unwrap();
    assert!((two.tension_near.si() / s.tension_near.si() - 1.0).abs() < 1e-9);
    let lines = [half_and_half([x, 0.0, z], (50.0, 50.0), w, ea)];
    let three = solve_bundle(&lines, down(0.0)).unwrap();
    assert!((three.lines[0].tension_near.si() / s.tension_near.si() - 1.0).abs() < 1e-7);
    assert_eq!(solve_elastic(&line(x, z, 100.0, 0.0, ea)).unwrap_err(), LineError::NotUnique);
    let c = chain(vec![piece(100.0, 0.0, linear(ea))], [x, 0.0, z], vec![]);
    assert_eq!(solve_chain(&c).unwrap_err(), LineError::NotUnique);
    let rest = solve_bundle(&[half_and_half([x, 0.0, z], (50.0, 50.0), 0.0, ea)], down(0.0));
    assert!(rest.is_ok_and(|s| s.lines[0].tension_near.si() < 1e-6 * ea));
}
