use proptest::prelude::*;

use super::super::*;
use crate::quantity::*;

fn turn(mu: f64, turns: f64) -> LowerStep {
    let friction = Friction::Capstan { mu: mu.ratio() };
    LowerStep::Turn { name: "turn".to_owned(), friction, wrap: turns.turns() }
}

fn hand(name: &str, grip: f64) -> LowerStep {
    LowerStep::Hand { name: name.to_owned(), grip: grip.newtons() }
}

fn plan(load: f64, steps: Vec<LowerStep>) -> Lowering {
    Lowering { load: load.newtons(), steps }
}

/// Beer & Johnston, *Statics*, Sample Problem 8.7 (from memory): μ = 0.311, three turns, 150 N hold 52.7 kN.
#[test]
fn hawser_on_a_bollard() {
    let most = lowering(&plan(1000.0, vec![turn(0.311, 3.0), hand("one", 150.0)])).unwrap();
    assert!((most.holds_up_to.in_kilonewtons() - 52.7).abs() < 0.05);
    let wrap = wrap_to_hold(52.7.kilonewtons(), 150.0.newtons(), 0.311.ratio()).unwrap();
    assert!((wrap.in_turns() - 3.0).abs() < 1e-3);
}

#[test]
fn a_second_hand_takes_over() {
    // 2 kN, a device that leaves e^-2.5 of it: 164 N for a hand of 200 N, with a second of 200 N behind.
    let steps =
        vec![turn(2.5 / std::f64::consts::TAU, 1.0), hand("one", 200.0), hand("two", 200.0)];
    let both = lowering(&plan(2000.0, steps.clone())).unwrap();
    assert!(both.holds && both.left.si() == 0.0);
    assert!((both.steps[1].arrives.si() - 2000.0 * (-2.5_f64).exp()).abs() < 1e-9);
    assert_eq!(both.steps[2].arrives.si(), 0.0);
    assert!(both.without.iter().all(|w| w.holds));
    // A heavier load needs both.
    let heavy = lowering(&plan(3000.0, steps.clone())).unwrap();
    assert!(heavy.holds && heavy.without.iter().all(|w| !w.holds));
    // And a still heavier one runs.
    let most = heavy.holds_up_to.si();
    assert!((most - 400.0 * 2.5_f64.exp()).abs() < 1e-9);
    let runs = lowering(&plan(most * 1.01, steps)).unwrap();
    assert!(!runs.holds && (runs.left.si() - 4.0).abs() < 1e-9);
    // Nobody holds nothing.
    let nobody = lowering(&plan(100.0, vec![turn(0.3, 3.0)])).unwrap();
    assert!(!nobody.holds && nobody.holds_up_to.si() == 0.0);
}

#[test]
fn a_hand_strong_enough_needs_no_turn() {
    let none = wrap_to_hold(100.0.newtons(), 150.0.newtons(), 0.3.ratio()).unwrap();
    assert_eq!(none.si(), 0.0);
    let bad = lowering(&plan(100.0, vec![hand("one", f64::NAN)])).unwrap_err().to_string();
    assert!(bad.starts_with("steps[0].grip is"), "{bad}");
}

proptest! {
    #[test]
    fn the_greatest_load_just_holds(
        mus in prop::collection::vec(0.0..0.5_f64, 1..4), grips in prop::collection::vec(1.0..300.0_f64, 1..4),
    ) {
        let mut steps: Vec<_> = mus.iter().map(|&mu| turn(mu, 1.0)).collect();
        steps.extend(grips.iter().map(|&g| hand("hand", g)));
        let most = lowering(&plan(1.0, steps.clone())).unwrap().holds_up_to.si();
        prop_assert!(lowering(&plan(most * (1.0 - 1e-9), steps.clone())).unwrap().holds);
        let over = lowering(&plan(most * (1.0 + 1e-6), steps)).unwrap();
        prop_assert!(!over.holds);
    }

    #[test]
    fn all_of_the_load_becomes_heat(load in 1.0..5000.0_f64, mu in 0.0..0.5_f64) {
        // The hands let run just what they are asked for.
        let answer = lowering(&plan(load, vec![turn(mu, 1.5), turn(0.1, 0.25), hand("one", 1e6)])).unwrap();
        let heat: f64 = answer.steps.iter().map(|s| s.heat_j_per_m).sum();
        prop_assert!((heat / load - 1.0).abs() < 1e-12);
    }

    #[test]
    fn any_number_gives_an_answer_or_an_error(
        load in any::<f64>(), mu in any::<f64>(), turns in any::<f64>(), grip in any::<f64>(),
    ) {
        if let Ok(answer) = lowering(&plan(load, vec![turn(mu, turns), hand("one", grip)])) {
            prop_assert!(answer.holds_up_to.si().is_finite() && answer.factor.si().is_finite());
        }
        if let Ok(wrap) = wrap_to_hold(load.newtons(), grip.newtons(), mu.ratio()) {
            prop_assert!(wrap.si() >= 0.0 && wrap.si().is_finite());
        }
    }
}
