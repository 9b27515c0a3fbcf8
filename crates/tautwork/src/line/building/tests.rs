use proptest::prelude::*;

use crate::line::*;
use crate::material::Stretch;
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

fn chain(l: &ElasticLine, loads: &[(f64, f64)], samples: usize) -> Chain {
    let zero = 0.0.meters();
    let load = |(at, down): &(f64, f64)| ChainLoad {
        at: at.meters(),
        force: [0.0, 0.0, -down].map(Force::from_si),
    };
    Chain {
        near: [zero; 3],
        far: [l.span, zero, l.rise],
        pieces: vec![ChainPiece::new(l.rest_length, l.weight, l.stretch.clone())],
        loads: loads.iter().map(load).collect(),
        samples,
    }
}

fn main_line() -> ElasticLine {
    line(130.0, -3.0, 127.74, 0.667, 2.5e5)
}

fn close(got: f64, want: f64, rel: f64) {
    assert!((got - want).abs() <= rel * want.abs().max(1e-9), "{got} instead of {want}");
}

fn tackle(line: ElasticLine, wanted: f64) -> Strokes {
    Strokes {
        line,
        end: LineEnd::Near,
        wanted: wanted.newtons(),
        throw: 1.0.meters(),
        mechanical_advantage: 5.0.ratio(),
        efficiency: 0.6.ratio(),
        people: 3,
        pull_each: 400.0.newtons(),
        back_slip: 0.0.meters(),
        most_strokes: 50,
    }
}

// A straight line over D draws in a L / D in a stroke: L = D (1 - a/D)^k, T = EA (D/L - 1). The reset
// gives b L / D back: (1 - a/D)(1 + b/D) in all.
#[test]
fn strokes_of_a_straight_line_are_a_geometric_row() {
    let ea = 1e5;
    for slip in [0.0, 0.2] {
        let input =
            Strokes { back_slip: slip.meters(), ..tackle(line(80.0, 60.0, 100.0, 0.0, ea), 3.1e3) };
        let s = tension_by_strokes(&input).unwrap();
        assert_eq!(s.outcome, StrokesEnd::Reached);
        let n = s.tension_n.len();
        for k in 0..n - 1 {
            let before = (0.99_f64 * (1.0 + slip / 100.0)).powf(k as f64);
            let peak = ea * (1.0 / (before * 0.99) - 1.0);
            close(s.peak_tension_n[k], peak, 1e-9);
            close(s.hand_force_n[k], peak / 3.0, 1e-9);
            let after = before * 0.99 * (1.0 + slip / 100.0);
            close(s.tension_n[k], ea * (1.0 / after - 1.0), 1e-9);
            close(s.drawn_in_m[k], 100.0 * (1.0 - after), 1e-9);
            close(s.rope_pulled_m[k], 5.0, 1e-12);
        }
        // The last stroke is a part of one.
        close(s.tension.si(), 3.1e3, 1e-8);
        assert!(s.rope_pulled_m[n - 1] < 5.0);
        close(s.rest_length.si(), 100.0 / 1.031, 1e-9);
    }
}

#[test]
fn strokes_say_why_they_end() {
    let l = line(100.0, 0.0, 100.0, 0.0, 1e5);
    // 3 · 400 N · 5 · 0.6 = 3.6 kN.
    let stalled = tension_by_strokes(&tackle(l.clone(), 4e3)).unwrap();
    assert_eq!(stalled.outcome, StrokesEnd::PullReached);
    close(stalled.tension.si(), 3.6e3, 1e-8);
    close(stalled.hand_force_n.last().unwrap() / 3.0, 400.0, 1e-8);
    close(stalled.pull_limit.si(), 3.6e3, 1e-12);
    // The reset then takes some back.
    let slips = Strokes { back_slip: 0.2.meters(), ..tackle(l.clone(), 4e3) };
    let slips = tension_by_strokes(&slips).unwrap();
    assert_eq!(slips.outcome, StrokesEnd::PullReached);
    close(*slips.peak_tension_n.last().unwrap(), 3.6e3, 1e-8);
    assert!(slips.tension.si() < 3.6e3 - 150.0);
    let no_gain = Strokes { back_slip: 1.2.meters(), ..tackle(l.clone(), 3e3) };
    assert_eq!(tension_by_strokes(&no_gain).unwrap().outcome, StrokesEnd::NoGain);
    let few = Strokes { most_strokes: 2, ..tackle(l.clone(), 3e3) };
    let few = tension_by_strokes(&few).unwrap();
    assert_eq!((few.outcome, few.tension_n.len()), (StrokesEnd::StrokesUsedUp, 2));
    let there = tension_by_strokes(&tackle(line(101.0, 0.0, 100.0, 0.0, 1e5), 1e3)).unwrap();
    assert_eq!((there.outcome, there.tension_n.len()), (StrokesEnd::Reached, 0));
    let long = Strokes { throw: 100.0.meters(), ..tackle(l.clone(), 3e3) };
    assert!(matches!(tension_by_strokes(&long), Err(LineError::Unreachable { .. })));
    assert!(tension_by_strokes(&Strokes { people: 0, ..tackle(l, 3e3) }).is_err());
    // The main line of the demo, from loose.
    let start = ElasticLine { rest_length: 131.0.meters(), ..main_line() };
    let s = tension_by_strokes(&Strokes { people: 4, ..tackle(start, 4.5e3) }).unwrap();
    assert_eq!(s.outcome, StrokesEnd::Reached);
    close(s.rest_length.si(), 127.74, 1e-4);
    assert!(s.tension_n.windows(2).all(|w| w[1] > w[0]));
    assert!(s.sag_below_chord_m.windows(2).all(|w| w[1] < w[0]));
}

fn release(line: ElasticLine, to: Option<f64>) -> SoftRelease {
    SoftRelease {
        line,
        end: LineEnd::Near,
        to: to.map(Force::from_si),
        capstan_ratio: (0.5 * core::f64::consts::TAU).exp().ratio(),
        samples: 41,
    }
}

// T² L / 2 EA by hand; one turn at a friction of 0.5 holds 0.0432 of the tension (CAP-06, a table of
// bollard forces).
#[test]
fn a_straight_line_is_let_go_by_hand() {
    let c = soft_release(&release(line(101.0, 0.0, 100.0, 0.0, 1e5), None)).unwrap();
    close(c.stored.si(), 500.0, 1e-9);
    close(c.stored_if_even.si(), 500.0, 1e-9);
    close(c.released.si(), 500.0, 1e-9);
    close(c.work.si(), 500.0, 1e-8);
    close(c.paid_out.si(), 1.0, 1e-12);
    close(*c.through_m.last().unwrap(), 101.0 * 1.01_f64.ln(), 1e-9);
    assert!((c.hand_force.si() - 43.2).abs() < 0.05);
    assert!(c.tension_n.last().unwrap().abs() < 1e-6);
    // Down to half the tension: three quarters of T², on 100.4975 m.
    let half = soft_release(&release(line(101.0, 0.0, 100.0, 0.0, 1e5), Some(500.0))).unwrap();
    close(half.rest_length.si(), 101.0 / 1.005, 1e-9);
    close(half.released.si(), 500.0 - 500.0 * 500.0 * (101.0 / 1.005) / 2e5, 1e-7);
}

#[test]
fn releasing_balances_and_is_the_pull_in_backwards() {
    let rows = vec![(2.0.kilonewtons(), 1.2.percent()), (10.0.kilonewtons(), 4.0.percent())];
    let tape = ElasticLine { stretch: Stretch::table(rows).unwrap(), ..main_line() };
    for l in [main_line(), tape, line(100.0, 60.0, 115.0, 5.0, 1e5)] {
        let c = soft_release(&release(l.clone(), None)).unwrap();
        close(c.work.si(), c.released.si() + c.let_down.si(), 1e-6);
        assert!(c.imbalance.si() < 1e-6 && c.let_down.si() > 0.0);
        assert!(c.tension_n.windows(2).all(|w| w[1] < w[0]));
        assert!(c.hand_force_n.iter().all(|h| *h <= c.hand_force.si()));
        let back = PullIn { line: l, from_length: c.rest_length, end: LineEnd::Near, samples: 41 };
        close(pull_in(&back).unwrap().work.si(), c.work.si(), 1e-8);
    }
    // A weight keeps a tension: it cannot be let down to nothing.
    let nothing = soft_release(&release(main_line(), Some(1.0)));
    assert!(matches!(nothing, Err(LineError::Unreachable { .. })));
    assert!(soft_release(&release(main_line(), Some(1e6))).is_err());
    let loose = ElasticLine { rest_length: 133.0.meters(), ..main_line() };
    assert!(soft_release(&release(loose, None)).is_err());
}

fn giving(line: Chain, at: f64, kind: HardwareKind) -> GivingLine {
    GivingLine { line, hardware: GivingHardware { at: at.meters(), kind } }
}

fn absorbs(force: f64, length: f64) -> HardwareKind {
    HardwareKind::Absorbs { force: force.newtons(), length: length.meters() }
}

fn slips(force: f64, hold: f64, length: f64) -> HardwareKind {
    HardwareKind::Slips { force: force.newtons(), hold: hold.newtons(), length: length.meters() }
}

fn overshoot(gives: &HardwareGives) -> Option<(f64, f64)> {
    gives.notes.iter().find_map(|note| match note {
        SlipNote::DynamicOvershoot { energy, most_slip } => Some((energy.si(), most_slip.si())),
        _ => None,
    })
}

// Straight line: L = D / (1 + F/EA); the energy EA (D - L)² / 2 L before less after is let off.
#[test]
fn an_absorber_in_a_straight_line_tears_by_hand() {
    let (d, ea) = (105.0, 1e5);
    let c = chain(&line(d, 0.0, 100.0, 0.0, ea), &[], 2);
    let stored = |l: f64| ea * (d - l) * (d - l) / (2.0 * l);
    for at in [0.0, 40.0, 100.0] {
        let g = hardware_gives(&giving(c.clone(), at, absorbs(4e3, 3.0))).unwrap();
        let new = d / 1.04;
        assert!(g.acts);
        close(g.slip.si(), new - 100.0, 1e-8);
        close(g.tension_before.si(), 5e3, 1e-9);
        close(g.tension_after.unwrap().si(), 4e3, 1e-9);
        close(g.let_off.si(), stored(100.0) - stored(new), 1e-7);
        let taken = 4e3 * 1.04 - 4e3 * 4e3 / (2.0 * ea);
        close(g.dissipated.si(), taken * g.slip.si(), 1e-8);
        let (energy, most) = overshoot(&g).unwrap();
        close(energy, g.let_off.si() - g.dissipated.si(), 1e-6);
        // The energies meet again at most_slip; near twice the slip.
        close(stored(100.0) - stored(100.0 + most), taken * most, 1e-6);
        assert!((most / g.slip.si() - 2.0).abs() < 0.05, "{most}");
    }
    // Too short: all of it is torn and the line stands above the force.
    let g = hardware_gives(&giving(c.clone(), 0.0, absorbs(4e3, 0.5))).unwrap();
    close(g.slip.si(), 0.5, 1e-12);
    close(g.tension_after.unwrap().si(), ea * (d / 100.5 - 1.0), 1e-9);
    assert!(g.notes.contains(&SlipNote::RanOut) && overshoot(&g).unwrap().1 == 0.5);
    // Not enough: nothing happens.
    let g = hardware_gives(&giving(c.clone(), 0.0, absorbs(5.1e3, 3.0))).unwrap();
    assert!(!g.acts && g.notes.is_empty() && g.after == Some(g.before.clone()));
    assert_eq!((g.slip.si(), g.let_off.si()), (0.0, 0.0));
    // A weak spot: on to the loop behind it, or parted.
    let breaks = |l: Option<f64>| HardwareKind::Breaks {
        force: 4.5.kilonewtons(),
        backup_length: l.map(Length::from_si),
    };
    let g = hardware_gives(&giving(c.clone(), 0.0, breaks(Some(2.0)))).unwrap();
    close(g.tension_after.unwrap().si(), ea * (d / 102.0 - 1.0), 1e-9);
    close(g.let_off.si(), stored(100.0) - stored(102.0), 1e-7);
    assert_eq!(g.dissipated.si(), 0.0);
    let g = hardware_gives(&giving(c, 0.0, breaks(None))).unwrap();
    assert!(g.after.is_none() && g.tension_after.is_none());
    assert_eq!(g.notes, [SlipNote::Parted]);
}

/// Elastic energy and weight times height of a chain, by the trapezoidal rule along its profile.
fn energy(c: &Chain, ea: f64, q: f64) -> f64 {
    let s = solve_chain(c).unwrap();
    let p = &s.profile;
    let density = |i: usize| p.tension_n[i] * p.tension_n[i] / (2.0 * ea) + q * p.z_m[i];
    let along: f64 = (1..p.s_m.len())
        .map(|i| (p.s_m[i] - p.s_m[i - 1]) * 0.5 * (density(i) + density(i - 1)))
        .sum();
    let loads: f64 = s
        .loads
        .iter()
        .zip(&c.loads)
        .map(|(l, load)| -load.force[2].si() * l.position[2].si())
        .sum();
    along + loads
}

#[test]
fn a_lock_slips_under_a_person() {
    let l = main_line();
    let c = chain(&l, &[(60.0, 1500.0)], 4001);
    let g = hardware_gives(&giving(c.clone(), 0.0, slips(5e3, 4.5e3, 5.0))).unwrap();
    assert!(g.acts && g.tension_before.si() > 5e3);
    close(g.tension_after.unwrap().si(), 4.5e3, 1e-9);
    let after = g.after.clone().unwrap();
    close(after.tension_near.si(), 4.5e3, 1e-9);
    assert!(after.sag_below_chord > g.before.sag_below_chord);
    // At the near anchor, from which heights count, the energy let off is that of line and load.
    let mut new = c.clone();
    new.pieces[0].rest_length += g.slip;
    new.loads[0].at += g.slip;
    let (ea, q) = (2.5e5, 0.667);
    close(g.let_off.si(), energy(&c, ea, q) - energy(&new, ea, q), 1e-4);
    assert!(g.dissipated.si() < g.let_off.si() && overshoot(&g).is_some());
    // Beyond the person the load does not move along the cordage.
    let far = hardware_gives(&giving(c.clone(), 100.0, slips(5e3, 4.5e3, 5.0))).unwrap();
    close(far.tension_after.unwrap().si(), 4.5e3, 1e-9);
    // The tension falls as the stated force to hold falls.
    let lower = hardware_gives(&giving(c.clone(), 0.0, slips(5e3, 3.5e3, 8.0))).unwrap();
    assert!(lower.slip > g.slip && lower.dissipated < lower.let_off);
    let alone = hardware_gives(&giving(chain(&l, &[], 3), 0.0, slips(5e3, 4.5e3, 5.0))).unwrap();
    assert!(!alone.acts);
    assert!(hardware_gives(&giving(c.clone(), 0.0, slips(5e3, 5.1e3, 1.0))).is_err());
    assert!(hardware_gives(&giving(c, 200.0, slips(5e3, 4e3, 1.0))).is_err());
}

fn trailing(name: &str) -> Trailing {
    Trailing {
        name: name.to_owned(),
        anchor: [0.0.meters(), 0.0.meters(), (-0.5).meters()],
        slack: 4.0.percent(),
        weight: 0.7.newtons_per_meter(),
        stretch: Stretch::axial_rigidity(1.4e5.newtons()).unwrap(),
    }
}

#[test]
fn stages_are_what_their_parts_say() {
    let out = |at: &[f64], trailing: Vec<Trailing>| GoingOut {
        main: main_line(),
        person: 850.0.newtons(),
        at: at.iter().map(|m| m.meters()).collect(),
        trailing,
    };
    let half = |rest: f64, ea: f64, name: &str| BundleLine {
        name: name.to_owned(),
        near: [0.0.meters(); 3],
        far: [130.0.meters(), 0.0.meters(), (-3.0).meters()],
        near_length: (0.5 * rest).meters(),
        far_length: (0.5 * rest).meters(),
        weight: 0.667.newtons_per_meter(),
        stretch: Stretch::axial_rigidity(ea.newtons()).unwrap(),
    };
    let lines = vec![half(127.74, 2.5e5, "main"), half(132.4, 1.4e5, "backup")];
    let load = [0.0, 0.0, -850.0].map(Force::from_si);
    let stage = |name: &str, rig| BuildingStage { name: name.to_owned(), rig };
    let stages = [
        stage("main alone", StageKind::Line(chain(&main_line(), &[], 11))),
        stage("out", StageKind::GoingOut(out(&[20.0, 64.0, 110.0], vec![]))),
        stage("in tow", StageKind::GoingOut(out(&[20.0, 64.0, 110.0], vec![trailing("backup")]))),
        stage("all", StageKind::Ringed(RingedStage { lines: lines.clone(), load })),
    ];
    let states = building_states(&stages).unwrap();
    assert_eq!(states.len(), 8);
    let empty = solve_elastic(&main_line()).unwrap();
    close(states[0].lines[0].greatest.si(), empty.tension_near.si(), 1e-9);
    close(states[0].lines[0].sag_below_chord.unwrap().si(), empty.sag_below_chord.si(), 1e-9);
    for (k, at) in [20.0, 64.0, 110.0].into_iter().enumerate() {
        // Nothing in tow: the chain with the person on it. The net finds the same place.
        let by_chain = solve_chain(&chain(&main_line(), &[(at, 850.0)], 3)).unwrap();
        let (bare, tow) = (&states[1 + k], &states[4 + k]);
        close(bare.lines[0].tension_near.si(), by_chain.tension_near.si(), 1e-9);
        let place = bare.load_point.unwrap().0;
        for axis in [0, 2] {
            let want = by_chain.loads[0].position[axis].si();
            assert!((place[axis].si() - want).abs() < 1e-6, "{axis} {}", place[axis].si());
        }
        close(bare.lowest.si(), by_chain.lowest[2].si(), 1e-6);
        // The line in tow pulls back and down: more on the far side of the main, and it hangs lower.
        assert_eq!((tow.lines.len(), tow.lines[1].name.as_str()), (2, "backup"));
        assert!(tow.lines[0].tension_far > bare.lines[0].tension_far);
        assert!(tow.lines[1].greatest < tow.lines[0].greatest);
        assert!(tow.lowest < bare.lowest && tow.at == bare.at);
        let place = tow.load_point.unwrap().0[2].si();
        assert!(tow.lowest.si() <= place && tow.lines[0].lowest.si() <= place + 1e-6);
    }
    let ringed = solve_bundle(&lines, load).unwrap();
    assert_eq!(states[7].lines[1].tension_near, ringed.lines[1].tension_near);
    assert_eq!(states[7].load_point, Some(Place(ringed.ring)));
    // Striking: the same the other way round.
    let mut back = stages.to_vec();
    back.reverse();
    let back = building_states(&back).unwrap();
    assert_eq!((&back[0], &back[7]), (&states[7], &states[0]));
    let off = stage("off", StageKind::GoingOut(out(&[128.0], vec![])));
    let error = building_states(&[stages[0].clone(), off]).unwrap_err();
    assert!(error.to_string().starts_with("at index 1: at is 128 m"), "{error}");
}

#[test]
fn documents_are_read() {
    let kind: HardwareKind =
        serde_json::from_str(r#"{"absorbs":{"force":"4 kN","length":"1 m"}}"#).unwrap();
    assert_eq!(kind, absorbs(4e3, 1.0));
    assert!(
        serde_json::from_str::<HardwareKind>(r#"{"absorbs":{"force":"4 kN","len":"1 m"}}"#)
            .is_err()
    );
    let breaks: HardwareKind = serde_json::from_str(r#"{"breaks":{"force":"4 kN"}}"#).unwrap();
    assert!(matches!(breaks, HardwareKind::Breaks { backup_length: None, .. }));
}

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![any::<f64>(), -1e3..1e3_f64, Just(0.0), Just(f64::NAN), Just(1e300), Just(5e-324)]
}

proptest! {
    #[test]
    fn a_lock_holds_at_its_tension(
        at in 0.0..127.0_f64, p in 1000.0..4000.0_f64, hold in 0.7..1.0_f64, share in 0.1..0.9_f64,
    ) {
        let c = chain(&main_line(), &[(share * 127.74, p)], 2);
        let kind = slips(4e3, hold * 4e3, 30.0);
        let g = hardware_gives(&giving(c, at, kind)).unwrap();
        if g.acts {
            let after = g.tension_after.unwrap().si() / (hold * 4e3);
            // A load near the lock keeps a tension that no length takes away.
            if g.notes.contains(&SlipNote::RanOut) {
                prop_assert!(after > 1.0 && g.slip.si() == 30.0);
            } else {
                prop_assert!((after - 1.0).abs() < 1e-7);
            }
            prop_assert!(g.let_off.si() >= g.dissipated.si() && g.dissipated.si() > 0.0);
            let (_, most) = overshoot(&g).unwrap();
            prop_assert!(most >= g.slip.si());
        }
    }

    #[test]
    fn any_number_gives_an_answer_or_an_error(
        a in number(), b in number(), c in number(), d in number(), n in 0_u32..5,
    ) {
        let odd = |d: f64| {
            let stretch = Stretch::axial_rigidity(1e5.newtons()).unwrap();
            ElasticLine {
                span: a.meters(), rise: b.meters(), rest_length: c.meters(),
                weight: d.newtons_per_meter(), stretch,
            }
        };
        let good = || line(100.0, 1.0, 99.0, 0.7, 1e5);
        for l in [odd(d), good()] {
            let strokes = Strokes {
                line: l.clone(), end: LineEnd::Far, wanted: d.newtons(), throw: a.meters(),
                mechanical_advantage: b.ratio(), efficiency: 0.5.ratio(), people: n,
                pull_each: c.newtons(), back_slip: d.meters(), most_strokes: n,
            };
            if let Ok(s) = tension_by_strokes(&strokes) {
                prop_assert!(s.tension.si().is_finite() && s.rope_pulled.si().is_finite());
            }
            let soft = SoftRelease {
                line: l, end: LineEnd::Near, to: Some(a.newtons()), capstan_ratio: b.ratio(),
                samples: n as usize,
            };
            for soft in [&soft, &SoftRelease { to: None, ..soft.clone() }] {
                if let Ok(r) = soft_release(soft) {
                    prop_assert!(r.work.si().is_finite() && r.hand_force.si().is_finite());
                }
            }
        }
        for kind in [absorbs(a, b), slips(a, c, b)] {
            for c in [chain(&odd(d), &[(a, b)], 2), chain(&good(), &[(40.0, 900.0)], 2)] {
                if let Ok(g) = hardware_gives(&giving(c, d, kind)) {
                    prop_assert!(g.let_off.si().is_finite() && g.slip.si().is_finite());
                }
            }
        }
        let tow = Trailing { slack: b.ratio(), weight: c.newtons_per_meter(), ..trailing("t") };
        for main in [odd(d), good()] {
            let out = GoingOut {
                main, person: a.newtons(), at: vec![d.meters()], trailing: vec![tow.clone()],
            };
            let stage = BuildingStage { name: String::new(), rig: StageKind::GoingOut(out) };
            if let Ok(states) = building_states(&[stage]) {
                prop_assert!(states[0].lines.iter().all(|l| l.greatest.si().is_finite()));
            }
        }
    }
}
