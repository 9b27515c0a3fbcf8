use proptest::prelude::*;

use crate::line::*;
use crate::material::{Condition, Stretch};
use crate::quantity::*;

fn line(span: f64, rise: f64, rest: f64, weight: f64, ea: f64) -> ElasticLine {
    ElasticLine {
        span: span.meters(),
        rise: rise.meters(),
        rest_length: rest.meters(),
        weight: weight.newtons_per_meter(),
        stretch: Stretch::axial_rigidity(ea.newtons()).unwrap(),
    }
}

fn pulled(line: ElasticLine, from: f64, end: LineEnd, samples: usize) -> PullInCurve {
    pull_in(&PullIn { line, from_length: from.meters(), end, samples }).unwrap()
}

fn chain(l: &ElasticLine, loads: &[(f64, f64)], samples: usize) -> Chain {
    let zero = 0.0.meters();
    Chain {
        near: [zero; 3],
        far: [l.span, zero, l.rise],
        pieces: vec![ChainPiece::new(l.rest_length, l.weight, l.stretch.clone())],
        loads: loads
            .iter()
            .map(|(at, down)| ChainLoad {
                at: at.meters(),
                force: [0.0, 0.0, -down].map(Force::from_si),
            })
            .collect(),
        samples,
    }
}

fn close(got: f64, want: f64, rel: f64) {
    assert!((got - want).abs() <= rel * want.abs().max(1e-9), "{got} instead of {want}");
}

// Closed forms of a straight weightless line: T = EA (D - L) / L, U = T² L / 2 EA, and the length that
// comes past the anchor, ∫ D / L dL = D ln(D / L) beyond the slack.
#[test]
fn a_straight_line_follows_its_closed_forms() {
    let (d, ea) = (50.0, 2e5);
    let c = pulled(line(30.0, 40.0, 48.0, 0.0, ea), 51.0, LineEnd::Far, 31);
    for i in 0..31 {
        let l = c.rest_length_m[i];
        let t = (ea * (d - l) / l).max(0.0);
        assert!((c.tension_near_n[i] - t).abs() < 1e-6 * ea * 1e-6, "{l}");
        close(c.stored_j[i], t * t * l / (2.0 * ea), 1e-9);
        close(c.work_j[i], c.stored_j[i], 1e-8);
        let through = if l > d { 51.0 - l } else { 1.0 + d * (d / l).ln() };
        close(c.through_m[i], through, 1e-10);
        close(c.drawn_in_m[i], 51.0 - l, 1e-12);
    }
    assert!(c.imbalance.si() < 1e-9 && c.notes.is_empty());
}

// Weight times height by Simpson's rule over the profile of the chain solver.
#[test]
fn lifted_weight_is_that_of_the_shape() {
    for (end, rise) in [(LineEnd::Near, 12.0), (LineEnd::Far, 12.0), (LineEnd::Far, -30.0)] {
        let (long, short) = (110.0, 101.0);
        let l = line(100.0, rise, short, 3.0, 1e5);
        let c = pulled(l.clone(), long, end, 11);
        let height = |rest: f64| {
            let l = ElasticLine { rest_length: rest.meters(), ..l.clone() };
            let p = solve_chain(&chain(&l, &[], 2001)).unwrap().profile;
            let base = if end == LineEnd::Near { 0.0 } else { rise };
            let n = p.s_m.len() - 1;
            assert_eq!(n, 2000);
            let weight = |i: usize| match i {
                0 => 1.0,
                i if i == n => 1.0,
                i if i % 2 == 1 => 4.0,
                _ => 2.0,
            };
            let sum: f64 = (0..=n).map(|i| weight(i) * (p.z_m[i] - base)).sum();
            3.0 * rest / n as f64 / 3.0 * sum
        };
        close(*c.lifted_j.last().unwrap(), height(short) - height(long), 1e-7);
    }
}

#[test]
fn work_is_energy_stored_and_weight_lifted() {
    let rows = [(2e3, 0.012), (5e3, 0.022), (10e3, 0.04)];
    let rows = rows.map(|(t, e)| (Force::from_si(t), Ratio::from_si(e))).to_vec();
    let tape = ElasticLine {
        stretch: Stretch::table(rows).unwrap(),
        ..line(130.0, -3.0, 128.5, 0.67, 1.0)
    };
    for end in [LineEnd::Near, LineEnd::Far] {
        for (l, from) in [
            (line(130.0, -3.0, 127.74, 0.667, 2.5e5), 134.0),
            (line(100.0, 60.0, 130.0, 5.0, 1e4), 160.0),
            (line(0.0, 20.0, 19.0, 5.0, 1e4), 25.0),
            (line(100.0, 0.0, 99.0, 1e-3, 1e6), 101.0),
            (tape.clone(), 133.0),
        ] {
            let c = pulled(l.clone(), from, end, 41);
            assert!(c.imbalance.si() < 1e-6, "{} of {l:?}", c.imbalance.si());
            for i in 0..c.work_j.len() {
                let gained = c.stored_j[i] - c.stored_j[0] + c.lifted_j[i];
                assert!((c.work_j[i] - gained).abs() < 1e-6 * c.work.si().max(1.0));
            }
            let solved = solve_elastic(&l).unwrap();
            close(*c.tension_far_n.last().unwrap(), solved.tension_far.si(), 1e-12);
            close(*c.sag_below_chord_m.last().unwrap(), solved.sag_below_chord.si(), 1e-9);
        }
    }
}

#[test]
fn past_the_table_is_said() {
    let rows = vec![(1.0.kilonewtons(), 1.0.percent())];
    let l =
        ElasticLine { stretch: Stretch::table(rows).unwrap(), ..line(50.0, 0.0, 49.0, 0.5, 1.0) };
    let c = pulled(l, 51.0, LineEnd::Near, 3);
    assert!(matches!(c.notes[..], [LineNote::PastStretchTable { .. }]));
}

// T = EA (D - L) / L by hand, before and after.
#[test]
fn a_straight_line_changes_by_hand() {
    let (d, l, ea) = (101.0, 100.0, 1e5);
    let c = chain(&line(d, 0.0, l, 0.0, ea), &[], 2);
    let warm = Condition {
        temperature_change: 25.0.kelvins(),
        expansion: 100.0.ppm_per_kelvin(),
        ..Condition::default()
    };
    let mut changes = Changes { condition: warm, ..Changes::default() };
    let changed = change_line(&c, &changes).unwrap();
    close(changed.before.tension_near.si(), 1000.0, 1e-9);
    close(changed.after.tension_near.si(), ea * (d / (l * 1.0025) - 1.0), 1e-9);
    close(changed.rest_length_factor.si(), 1.0025, 1e-15);
    // Warmer is slacker: 1e-4 of strain for each kelvin, 10.1 N.
    close(changed.rates.by_kelvin.si(), -ea * d / l * 1e-4, 1e-5);
    close(changed.rates.by_percent_longer.si(), -ea * d / l * 0.01, 1e-5);
    close(changed.rates.by_far_anchor.si(), -ea / l, 1e-5);
    // Both anchors give way: along the line the sum counts, across it nothing in first order.
    changes = Changes {
        near_moves: [0.2.meters(), 0.0.meters(), 0.0.meters()],
        far_moves: [(-0.3).meters(), 0.0.meters(), 0.0.meters()],
        condition: Condition::default(),
    };
    let changed = change_line(&c, &changes).unwrap();
    close(changed.tension_change.si(), -500.0, 1e-9);
    changes.near_moves = [0.0.meters(); 3];
    changes.far_moves = [0.0.meters(), 1.0.meters(), 0.0.meters()];
    let changed = change_line(&c, &changes).unwrap();
    close(changed.after.tension_near.si(), ea * (d.hypot(1.0) / l - 1.0), 1e-9);
    // It becomes loose: no shape.
    changes.far_moves = [(-2.0).meters(), 0.0.meters(), 0.0.meters()];
    assert_eq!(change_line(&c, &changes), Err(LineError::NotUnique));
}

#[test]
fn every_cause_moves_the_tension_its_way() {
    let l = line(130.0, -3.0, 127.74, 0.667, 2.5e5);
    let c = chain(&l, &[(60.0, 800.0)], 11);
    let none = Condition::default();
    let warmer =
        Condition { temperature_change: 20.0.kelvins(), expansion: 80.0.ppm_per_kelvin(), ..none };
    let colder = Condition { temperature_change: (-20.0).kelvins(), ..warmer };
    for (condition, slacker) in [
        (warmer, true),
        (colder, false),
        (Condition { expansion: (-8.0).ppm_per_kelvin(), ..warmer }, false),
        (Condition { wet_change: 1.0.percent(), ..none }, true),
        (Condition { wet_change: (-1.0).percent(), ..none }, false),
        (Condition { creep: 0.3.percent(), ..none }, true),
        (Condition { permanent_set: 0.3.percent(), ..none }, true),
    ] {
        let changed = change_line(&c, &Changes { condition, ..Changes::default() }).unwrap();
        assert_eq!(changed.tension_change.si() < 0.0, slacker, "{condition:?}");
        assert_eq!(changed.sag_change.si() > 0.0, slacker, "{condition:?}");
        assert!(changed.rates.by_far_anchor.si() < 0.0);
        assert!(changed.rates.by_percent_longer.si() < 0.0);
    }
    let nothing = change_line(&c, &Changes::default()).unwrap();
    assert_eq!(nothing.before, nothing.after);
    // The slope by length against a tenth of a per cent of creep, and the weight as a whole kept.
    let condition = Condition { creep: 0.01.percent(), ..none };
    let small = change_line(&c, &Changes { condition, ..Changes::default() }).unwrap();
    close(small.tension_change.si(), 0.01 * small.rates.by_percent_longer.si(), 0.01);
    let pulls = |c: &Chain| solve_chain(c).unwrap();
    let up = pulls(&c).pull_near[2].si() + pulls(&c).pull_far[2].si();
    close(up, -(0.667 * 127.74 + 800.0), 1e-9);
}

// A vertical line: tension falls by the weight below, exactly.
#[test]
fn a_load_cell_sees_the_tension_of_its_place() {
    let (q, load) = (2.0, 500.0);
    let l = ElasticLine { rise: (-20.2).meters(), ..line(0.0, 0.0, 20.0, q, 1e5) };
    let c = chain(&l, &[(8.0, load)], 21);
    let cell = |at: f64| LoadCell {
        at: at.meters(),
        length: 0.1.meters(),
        mass: 2.0.kilograms(),
        axial_rigidity: None,
    };
    let weight = 2.0 * GRAVITY;
    for (at, above) in [(0.0, 0.0), (5.0, 5.0 * q), (8.0, 8.0 * q + load), (20.0, 20.0 * q + load)]
    {
        let seen = load_cell_reading(&c, &cell(at)).unwrap();
        close(seen.tension_near.si() - seen.tension_near_side.si(), above, 1e-9);
        close(seen.tension_near_side.si() - seen.tension_far_side.si(), weight, 1e-9);
        close(seen.reading.si(), seen.tension_near_side.si() - 0.5 * weight, 1e-12);
        close(seen.greatest.si(), seen.tension_near.si(), 1e-12);
        // Without the cell all of the stretch is the line's: more tension.
        assert!(seen.without_cell.si() > seen.tension_near_side.si());
    }
    // A short light cell reads what is there without it.
    let light = LoadCell { length: 1e-6.meters(), mass: 0.0.kilograms(), ..cell(5.0) };
    let span = chain(&line(130.0, -3.0, 127.74, 0.667, 2.5e5), &[(60.0, 800.0)], 21);
    for at in [0.0, 30.0, 60.0, 100.0, 127.74] {
        let light = LoadCell { at: at.meters(), ..light.clone() };
        let seen = load_cell_reading(&span, &light).unwrap();
        close(seen.reading.si(), seen.without_cell.si(), 1e-5);
        assert!(seen.greatest >= seen.reading);
    }
    assert!(load_cell_reading(&span, &LoadCell { mass: (-1.0).kilograms(), ..cell(1.0) }).is_err());
    assert!(load_cell_reading(&span, &LoadCell { length: 0.0.meters(), ..cell(1.0) }).is_err());
}

#[test]
fn the_list_to_bring_adds_up() {
    let bare = LineToBring {
        name: "backup".to_owned(),
        rest_length: 132.4.meters(),
        near_tail: 0.0.meters(),
        far_tail: 0.0.meters(),
        wraps: vec![],
        knots: vec![],
        bedding_in: 0.0.ratio(),
        marking_error: 0.0.ratio(),
        linear_density: None,
    };
    let list = lengths_to_bring(std::slice::from_ref(&bare)).unwrap();
    assert_eq!((list.total, list.lines[0].items.len()), (bare.rest_length, 1));
    assert_eq!((list.mass.si(), list.lines[0].mass), (0.0, None));
    // 132.4 m of worked-in line from new line that gains 5 %: 126.095 m, at 60 g/m 7.5657 kg.
    let new = LineToBring {
        bedding_in: 5.0.percent(),
        linear_density: Some(60.0.grams_per_meter()),
        ..bare.clone()
    };
    let list = lengths_to_bring(&[bare.clone(), new]).unwrap();
    close(list.lines[1].total.si(), 132.4 / 1.05, 1e-12);
    close(list.mass.si(), 132.4 / 1.05 * 0.06, 1e-12);
    close(list.total.si(), 132.4 + 132.4 / 1.05, 1e-12);
    let knot = Knot { name: "loop".to_owned(), length: (-1.0).meters(), count: 1 };
    let error = lengths_to_bring(&[bare.clone(), LineToBring { knots: vec![knot], ..bare }]);
    assert!(error.unwrap_err().to_string().starts_with("lines[1].knots[0].length is -1 m"));
}

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![any::<f64>(), -1e3..1e3_f64, Just(0.0), Just(f64::NAN), Just(1e300), Just(5e-324)]
}

proptest! {
    #[test]
    fn drawing_in_tightens(
        rise in -60.0..60.0_f64, ratio in 0.95..1.0_f64, w in 0.0..5.0_f64, ea in 4.0..7.0_f64,
    ) {
        let c = 100.0_f64.hypot(rise);
        let l = line(100.0, rise, ratio * c, w, 10.0_f64.powf(ea));
        let curve = pulled(l, 1.01 * c, LineEnd::Near, 12);
        for i in 1..12 {
            // Sums that nearly vanish aside.
            prop_assert!(curve.tension_near_n[i] >= curve.tension_near_n[i - 1]);
            prop_assert!(curve.stored_j[i] >= curve.stored_j[i - 1]);
            prop_assert!(curve.work_j[i] >= curve.work_j[i - 1]);
            prop_assert!(curve.through_m[i] >= curve.drawn_in_m[i]);
            prop_assert!(w == 0.0 || curve.sag_below_chord_m[i] < curve.sag_below_chord_m[i - 1]);
        }
        prop_assert!(curve.imbalance.si() < 1e-5, "{}", curve.imbalance.si());
    }

    #[test]
    fn any_number_gives_an_answer_or_an_error(
        a in number(), b in number(), c in number(), d in number(), n in 0_usize..40,
    ) {
        let far = Force::from_si(1e5);
        let stretch = Stretch::axial_rigidity(far).unwrap();
        let l = ElasticLine {
            span: a.meters(), rise: b.meters(), rest_length: c.meters(),
            weight: d.newtons_per_meter(), stretch,
        };
        let input = PullIn {
            line: l.clone(), from_length: (c * 1.1).meters(), end: LineEnd::Near, samples: n,
        };
        if let Ok(curve) = pull_in(&input) {
            let all = curve.work_j.iter().chain(&curve.lifted_j).chain(&curve.through_m);
            prop_assert!(all.chain(&curve.tension_far_n).all(|x| x.is_finite()));
        }
        let good = chain(&line(100.0, 2.0, 99.0, 0.7, 1e5), &[(40.0, 600.0)], 5);
        let condition = Condition {
            temperature_change: a.kelvins(), expansion: b.per_kelvin(), wet_change: c.ratio(),
            creep: d.ratio(), permanent_set: a.ratio(),
        };
        let far_moves = [b.meters(), c.meters(), d.meters()];
        for changes in [
            Changes { condition, ..Changes::default() },
            Changes { far_moves, ..Changes::default() },
        ] {
            for line in [&good, &chain(&l, &[(a, b)], 5)] {
                if let Ok(changed) = change_line(line, &changes) {
                    prop_assert!(changed.tension_change.si().is_finite());
                    prop_assert!(changed.rates.by_percent_longer.si().is_finite());
                }
            }
        }
        let cell = LoadCell {
            at: a.meters(), length: b.meters(), mass: c.kilograms(),
            axial_rigidity: Some(Force::from_si(d)),
        };
        if let Ok(seen) = load_cell_reading(&good, &cell) {
            prop_assert!(seen.reading.si().is_finite() && seen.greatest.si().is_finite());
        }
        let bring = LineToBring {
            name: String::new(), rest_length: a.meters(), near_tail: b.meters(), far_tail: c.meters(),
            wraps: vec![Wrap { name: String::new(), circumference: d.meters(), turns: a.ratio() }],
            knots: vec![], bedding_in: b.ratio(), marking_error: c.ratio(),
            linear_density: Some(d.kilograms_per_meter()),
        };
        if let Ok(list) = lengths_to_bring(&[bring]) {
            prop_assert!(list.total.si().is_finite() && list.mass.si().is_finite());
        }
    }
}
