use proptest::prelude::*;

use super::*;
use crate::quantity::{Area, GRAVITY, Length, Mass, Quantity, Speed, Words};

fn thing(height_m: f64, speed: f64) -> DroppedThing {
    DroppedThing {
        height: Length::from_si(height_m),
        speed: Some(Speed::from_si(speed)),
        wind: None,
        mass: None,
        drag_area: None,
        air_density: None,
    }
}

fn in_air(height_m: f64, speed: f64, wind: f64, mass_kg: f64, area_m2: f64) -> DroppedThing {
    DroppedThing {
        wind: Some(Speed::from_si(wind)),
        mass: Some(Mass::from_si(mass_kg)),
        drag_area: Some(Area::from_si(area_m2)),
        ..thing(height_m, speed)
    }
}

#[test]
fn without_air_the_search_meets_the_closed_form() {
    for (h, v) in [(0.0, 5.0), (90.0, 3.0), (20.0, 30.0), (500.0, 0.1)] {
        let zone = dropped(&thing(h, v)).unwrap();
        let closed = v / GRAVITY * (v * v + 2.0 * GRAVITY * h).sqrt();
        assert!((zone.radius.si() / closed - 1.0).abs() < 1e-7, "{h}, {v}: {zone:?}");
        assert!((zone.impact_speed.si() - (v * v + 2.0 * GRAVITY * h).sqrt()).abs() < 1e-9);
    }
    // From level ground farthest at 45 degrees.
    let level = dropped(&thing(0.0, 5.0)).unwrap();
    assert!((level.elevation.si() - std::f64::consts::FRAC_PI_4).abs() < 1e-3);
    assert_eq!(dropped(&thing(90.0, 0.0)).unwrap().radius.si(), 0.0);
}

// v² = v_t² (1 − exp(−2 k h)) for the straight fall with quadratic drag.
#[test]
fn a_straight_fall_has_the_textbook_speed() {
    let zone = dropped(&in_air(90.0, 0.0, 0.0, 0.25, 0.004)).unwrap();
    let k = 1.2 * 0.004 / (2.0 * 0.25);
    let exact = (GRAVITY / k * (1.0 - (-2.0 * k * 90.0_f64).exp())).sqrt();
    assert!(
        (zone.impact_speed.si() / exact - 1.0).abs() < 1e-7,
        "{} {exact}",
        zone.impact_speed.si()
    );
    let energy = 0.5 * 0.25 * exact * exact;
    assert!((zone.impact_energy.unwrap().si() / energy - 1.0).abs() < 1e-6);
}

// SciPy 1.16 solve_ivp (RK45, rtol 1e-11) with the event at z = −h and a bounded search of the elevation.
#[test]
fn a_throw_in_wind_lands_where_scipy_lands_it() {
    let zone = dropped(&in_air(90.0, 3.0, 10.0, 0.25, 0.004)).unwrap();
    assert!((zone.radius.si() - 24.651_524_844).abs() < 1e-5, "{}", zone.radius.si());
    assert!((zone.elevation.si() - 0.141_624).abs() < 2e-3);
    assert!((zone.time.si() - 4.994_930).abs() < 1e-2);
}

// What is light goes with the wind nearly from the start, and cannot outrun it.
#[test]
fn a_feather_drifts_with_the_wind() {
    let zone = dropped(&in_air(50.0, 0.0, 4.0, 0.002, 0.02)).unwrap();
    let drift = 4.0 * zone.time.si();
    assert!(zone.radius.si() < drift && zone.radius.si() > 0.97 * drift, "{zone:?}");
}

#[test]
fn what_is_missing_is_named() {
    let wind = DroppedThing { wind: Some(5.0.meters_per_second()), ..thing(10.0, 1.0) };
    assert!(dropped(&wind).unwrap_err().to_string().contains("drag_area is missing"));
    let area = DroppedThing { drag_area: Some(Area::from_si(0.1)), ..thing(10.0, 1.0) };
    assert!(dropped(&area).unwrap_err().to_string().contains("mass is missing"));
    assert!(dropped(&thing(-1.0, 0.0)).unwrap_err().to_string().contains("height"));
    assert!(dropped(&in_air(100.0, 0.0, 0.0, 1e-12, 1e3)).is_err(), "it hardly falls");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]
    #[test]
    fn farther_from_higher_faster_and_in_more_wind(
        h in 1.0..200.0_f64, v in 0.1..20.0_f64, w in 0.0..20.0_f64, m in 0.05..5.0_f64, a in 0.0..0.05_f64,
    ) {
        let radius = |h, v, w| dropped(&in_air(h, v, w, m, a)).unwrap().radius.si();
        let here = radius(h, v, w);
        prop_assert!(radius(1.5 * h, v, w) >= here * (1.0 - 1e-6));
        prop_assert!(radius(h, 1.5 * v, w) >= here * (1.0 - 1e-6));
        prop_assert!(radius(h, v, w + 5.0) >= here * (1.0 - 1e-6));
    }

    #[test]
    fn bad_numbers_are_refused(
        h in prop_oneof![Just(f64::NAN), Just(-1.0), Just(1e5), Just(f64::INFINITY), 0.0..100.0_f64],
        v in prop_oneof![Just(f64::NAN), Just(-1.0), Just(1e5), 0.0..100.0_f64],
        m in prop_oneof![Just(0.0), Just(1e-300), Just(1e300), 0.1..10.0_f64],
    ) {
        if let Ok(zone) = dropped(&in_air(h, v, 3.0, m, 0.01)) {
            prop_assert!(zone.radius.si().is_finite() && zone.impact_speed.si().is_finite());
        }
    }
}
