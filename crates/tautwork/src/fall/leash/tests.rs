use proptest::prelude::*;

use super::*;
use crate::fall::{Fall, FallError, FallNote, arrest};
use crate::line::{Chain, ChainPiece};
use crate::material::Stretch;
use crate::quantity::*;

fn linear(ea_n: f64) -> Stretch {
    Stretch::axial_rigidity(ea_n.newtons()).unwrap()
}

/// A level line of 100 m, pulled `pull` shorter.
fn case(ea_n: f64, weight: f64, pull: f64) -> LeashFall {
    LeashFall {
        line: Chain {
            near: [0.0.meters(); 3],
            far: [100.0.meters(), 0.0.meters(), 0.0.meters()],
            pieces: vec![ChainPiece::new(
                (100.0 * (1.0 - pull)).meters(),
                weight.newtons_per_meter(),
                linear(ea_n),
            )],
            loads: Vec::new(),
            samples: 2,
        },
        at: (50.0 * (1.0 - pull)).meters(),
        mass: 80.0.kilograms(),
        leash: 2.0.meters(),
        leash_stretch: linear(20e3),
        tie_in_above: 1.0.meters(),
        body_below: 1.0.meters(),
    }
}

/// A weightless line pressed at mid-span: both halves stretch to √(50² + y²). With 5 m of leash there is
/// a free fall; with 2 m the leash holds the rising line first.
#[test]
fn a_weightless_line_has_a_closed_form() {
    let ea = 60e3;
    let rest = 94.0_f64;
    let stretched = |y: f64| 2.0 * 50.0_f64.hypot(y);
    let tension = |y: f64| ea * (stretched(y) / rest - 1.0);
    let force = |y: f64| 2.0 * tension(y) * y / 50.0_f64.hypot(y);
    let stored = |y: f64| 0.5 * ea * rest * (stretched(y) / rest - 1.0).powi(2);
    let find = |f: &dyn Fn(f64) -> f64| {
        let (mut low, mut high) = (0.0, 40.0);
        for _ in 0..100 {
            let mid = 0.5 * (low + high);
            if f(mid) < 0.0 { low = mid } else { high = mid }
        }
        low
    };
    let w = 80.0 * GRAVITY;
    let stand = find(&|y| force(y) - w);
    for leash in [2.0, 5.0] {
        let mut fall = case(ea, 0.0, 0.06);
        fall.leash = leash.meters();
        let stopped = leash_fall(&fall).unwrap();
        let stretch = |y: f64| leash * force(y) / 20e3;
        let free = 1.0 + leash - stand;
        let start = if free < 0.0 { find(&|y| y + stretch(y) + free) } else { 0.0 };
        assert_eq!(start > 0.0, leash == 2.0);
        let taken = |y: f64| stored(y) + 0.5 * stretch(y) * force(y);
        let lowest = find(&|y| {
            if force(y) < w {
                return -1.0;
            }
            let drop = free.max(0.0) + y + stretch(y) - start - stretch(start);
            taken(y) - taken(start) - w * drop
        });
        let near = |x: f64, y: f64, off: f64| assert!((x - y).abs() < off, "{leash}: {x} {y}");
        near(stopped.standing_depth.si(), stand, 1e-8);
        near(stopped.free_fall.si(), free.max(0.0), 1e-8);
        near(stopped.start_force.si(), force(start), 1e-6);
        near(stopped.ring_depth.si(), lowest, 1e-7);
        near(stopped.leash_force.si(), force(lowest), 1e-4);
        near(stopped.tension_near.si(), tension(lowest), 1e-4);
        near(stopped.line_energy.si(), stored(lowest) - stored(start), 1e-4);
        let below = lowest - stand + leash + stretch(lowest) + 1.0;
        near(stopped.lowest_below_line.si(), below, 1e-6);
        // Without weight no wave is late.
        assert_eq!(stopped.wave_time.si(), 0.0);
        assert!(stopped.notes.is_empty());
    }
}

/// A wave runs along half of the line and back at √(T / μ); a heavy slack line answers late.
#[test]
fn a_line_that_answers_late_is_noted() {
    let mut fall = case(1e5, 0.7, 0.03);
    let quick = leash_fall(&fall).unwrap();
    let tension = 1e5 * 0.03 / 0.97;
    let exact = 2.0 * 48.5 / (tension * GRAVITY / 0.7_f64).sqrt();
    assert!((quick.wave_time.si() / exact - 1.0).abs() < 5e-3, "{exact} {:?}", quick.wave_time);
    fall.line.pieces[0].weight = 12.0.newtons_per_meter();
    let late = leash_fall(&fall).unwrap();
    assert!(late.notes.contains(&FallNote::LineAnswersLate));
}

#[test]
fn a_stiff_line_is_a_rigid_anchor() {
    let stopped = leash_fall(&case(1e12, 0.0, 0.01)).unwrap();
    let plain = Fall {
        mass: 80.0.kilograms(),
        height: 3.0.meters(),
        rope: 2.0.meters(),
        stretch: linear(20e3),
        span_stiffness: None,
    };
    let force = arrest(&plain).unwrap().impact_force;
    assert!((stopped.leash_force.si() / force.si() - 1.0).abs() < 1e-4);
}

#[test]
fn softer_lines_pull_less_and_let_one_fall_lower() {
    let mut last = (f64::MAX, 0.0);
    for ea in [4e5, 2e5, 1e5, 5e4] {
        let mut fall = case(ea, 0.7, 0.0);
        // The same rest length, so that the softer line is the slacker one too.
        fall.line.pieces[0].rest_length = 99.0.meters();
        fall.at = 49.5.meters();
        let stopped = leash_fall(&fall).unwrap();
        let now = (stopped.leash_force.si(), stopped.ring_depth.si());
        assert!(now.0 < last.0 && now.1 > last.1, "{ea}: {now:?}");
        assert!(now.0 > 784.8 && stopped.residual < 1e-8);
        assert!(stopped.tension_near > stopped.standing_tension_near);
        assert!((stopped.tension_near.si() / stopped.tension_far.si() - 1.0).abs() < 1e-9);
        last = now;
    }
    let force = |mass: f64, above: f64| {
        let mut fall = case(1e5, 0.7, 0.02);
        fall.mass = mass.kilograms();
        fall.tie_in_above = above.meters();
        leash_fall(&fall).unwrap().leash_force.si()
    };
    assert!(force(90.0, 1.0) > force(80.0, 1.0) && force(80.0, 1.2) > force(80.0, 1.0));
}

#[test]
fn the_leash_may_hold_the_line_that_rises() {
    let mut fall = case(1e5, 0.7, 0.0);
    fall.leash = 0.5.meters();
    fall.tie_in_above = 0.0.meters();
    // The leash holds the rising line: a drop smaller than what the walker pressed it down.
    let held = leash_fall(&fall).unwrap();
    assert!(held.start_force.si() > 0.0 && held.start_force.si() < 784.8);
    assert!(held.free_fall.si() == 0.0 && held.leash_force.si() < 2.0 * 784.8);
    fall.at = 200.0.meters();
    assert!(matches!(leash_fall(&fall), Err(FallError::Line(_))));
    let text = serde_json::to_string(&case(1e5, 0.7, 0.02)).unwrap();
    assert_eq!(serde_json::from_str::<LeashFall>(&text).unwrap(), case(1e5, 0.7, 0.02));
    assert!(serde_json::from_str::<LeashFall>(&text.replace("\"leash\"", "\"lead\"")).is_err());
}

/// A plausible number in most draws, so that one bad number among good ones is met too.
fn bad() -> impl Strategy<Value = f64> {
    prop_oneof![
        12 => 0.01..50.0_f64,
        2 => any::<f64>(),
        1 => Just(f64::NAN),
        1 => Just(f64::INFINITY),
        1 => Just(1e300),
        1 => Just(1e-308),
        1 => Just(0.0),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn any_number_gives_an_answer_or_an_error(
        m in bad(), l in bad(), c in bad(), at in -1.0..120.0_f64,
        ea in (0.0..12.0_f64).prop_map(|x| 10.0_f64.powf(x)), weight in 0.0..50.0_f64, pull in -0.5..0.5_f64,
    ) {
        for (m, c) in [(m, c), (80.0, l)] {
            let mut fall = case(ea, weight, pull);
            fall.mass = m.kilograms();
            fall.leash = l.meters();
            fall.tie_in_above = c.meters();
            fall.at = at.meters();
            if let Ok(stopped) = leash_fall(&fall) {
                prop_assert!(stopped.leash_force.si().is_finite() && stopped.residual <= 1e-8);
            }
        }
    }
}
