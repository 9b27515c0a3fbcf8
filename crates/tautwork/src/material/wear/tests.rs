use proptest::prelude::*;

use super::*;
use crate::material::Viscoelastic;
use crate::quantity::{Energy, Quantity, Words};

fn rub(contact_n: Vec<f64>, travel_m: Vec<f64>) -> RubCase {
    RubCase { contact_n, travel_m, ..RubCase::default() }
}

// (E1) by hand: ∫ k s ds = k s² / 2, for which trapezoids are exact.
#[test]
fn force_times_travel_is_exact_for_straight_forces() {
    let travel: Vec<f64> = (0..=10).map(|i| 0.3 * f64::from(i)).collect();
    let rising =
        rub_wear(&rub(travel.iter().map(|s| 500.0 * s).collect(), travel.clone())).unwrap();
    assert!((rising.force_travel.si() - 500.0 * 9.0 / 2.0).abs() < 1e-9);
    assert!((rising.travel.si() - 3.0).abs() < 1e-12 && rising.greatest_contact.si() == 1500.0);
    // Work is that part of it that friction takes; a force without travel does none.
    let still =
        rub_wear(&RubCase { friction: Some(0.3.ratio()), ..rub(vec![1e4; 5], vec![1.0; 5]) });
    let still = still.unwrap();
    assert_eq!((still.force_travel.si(), still.work.unwrap().si()), (0.0, 0.0));
    assert_eq!(rub_wear(&rub(vec![], vec![])).unwrap().travel.si(), 0.0);
}

#[test]
fn the_rule_counts_whole_jumps() {
    let case = |limit: f64, done: f64| RubCase {
        retire_at: Some(Energy::from_si(limit)),
        done: Some(Energy::from_si(done)),
        ..rub(vec![100.0, 100.0], vec![0.0, 1.0])
    };
    for (limit, done, jumps) in
        [(1000.0, 0.0, 10), (999.0, 0.0, 9), (1000.0, 350.0, 6), (100.0, 500.0, 0)]
    {
        assert_eq!(
            rub_wear(&case(limit, done)).unwrap().jumps_left,
            Some(jumps),
            "{limit}, {done}"
        );
    }
    let nothing = RubCase { travel_m: vec![0.0, 0.0], ..case(1.0, 0.0) };
    assert_eq!(rub_wear(&nothing).unwrap().jumps_left, None);
}

#[test]
fn odd_series_are_refused_by_name() {
    for (n, s, part) in [
        (vec![1.0], vec![], "travel_m"),
        (vec![-1.0, 1.0], vec![0.0, 1.0], "contact_n[0]"),
        (vec![1.0, f64::NAN], vec![0.0, 1.0], "contact_n[1]"),
        (vec![1.0, 1.0], vec![1.0, 0.0], "travel_m[1]"),
        (vec![1.0, 1.0], vec![0.0, f64::INFINITY], "travel_m[1]"),
        (vec![1e308, 1e308], vec![0.0, 1e300], "overflow"),
    ] {
        let error = rub_wear(&rub(n, s)).unwrap_err().to_string();
        assert!(error.contains(part) || error.contains("leaves the range"), "{error}");
    }
}

// (E6) against Euler steps of (E4) at T = 0, which are first order: 1e-5 steps to 1e-4.
#[test]
fn recovery_follows_the_standard_linear_solid() {
    let solid = Viscoelastic {
        long_term: 9.2.kilonewtons(),
        arm: 13.0.kilonewtons(),
        relaxation_time: 0.4.seconds(),
    };
    let answer =
        rope_recovery(&Recovery { solid, strain: 20.0.percent(), left: 0.5.percent() }).unwrap();
    let (slow, arm, tau) = (9200.0, 13000.0, 0.4);
    let (mut viscous, mut t) = (0.2, 0.0);
    let step = 1e-5;
    let strain = |viscous: f64| viscous * arm / (slow + arm);
    assert!((answer.at_once.si() - strain(viscous)).abs() < 1e-12);
    while strain(viscous) > 0.005 {
        viscous += step * (strain(viscous) - viscous) / tau;
        t += step;
    }
    assert!((t / answer.time.si() - 1.0).abs() < 1e-4, "{t} s, {} s", answer.time.si());
    // Nothing to wait for where less is left at once.
    let little =
        rope_recovery(&Recovery { solid, strain: 0.1.percent(), left: 0.5.percent() }).unwrap();
    assert_eq!(little.time.si(), 0.0);
}

proptest! {
    #[test]
    fn nothing_panics_and_more_rub_never_leaves_more_jumps(
        n in proptest::collection::vec(prop_oneof![0.0..1e5_f64, Just(f64::NAN), Just(1e300)], 0..8),
        s in proptest::collection::vec(prop_oneof![0.0..10.0_f64, Just(-1.0)], 0..8),
        limit in 1.0..1e6_f64,
    ) {
        let case = RubCase { retire_at: Some(Energy::from_si(limit)), ..rub(n, s) };
        if let Ok(once) = rub_wear(&case) {
            let twice = RubCase { contact_n: case.contact_n.iter().map(|n| 2.0 * n).collect(), ..case };
            if let Ok(twice) = rub_wear(&twice) {
                prop_assert!(twice.jumps_left <= once.jumps_left);
            }
        }
    }
}
