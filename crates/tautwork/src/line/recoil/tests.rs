use proptest::prelude::*;

use super::*;
use crate::material::Stretch;
use crate::quantity::{Force, GRAVITY, Length, LinearDensity, Mass, Quantity, Ratio, Words};

fn line(stretch: Stretch) -> BrokenLine {
    BrokenLine {
        tension: 9.0.kilonewtons(),
        rest_length: 127.7.meters(),
        stretch,
        linear_density: 68.0.grams_per_meter(),
        end_mass: Some(Mass::from_si(1.1)),
        height: Some(20.0.meters()),
    }
}

#[test]
fn a_straight_rope_holds_half_of_tension_times_stretch() {
    let broken = recoil(&line(Stretch::axial_rigidity(250.0.kilonewtons()).unwrap())).unwrap();
    let exact = 9000.0_f64.powi(2) * 127.7 / (2.0 * 250e3);
    assert!((broken.energy.si() / exact - 1.0).abs() < 1e-14);
    assert!((broken.stretched_by.si() - 127.7 * 9.0 / 250.0).abs() < 1e-12);
    // The release wave: T / (μ c), c = √(EA / μ).
    let c = (250e3_f64 / 0.068).sqrt();
    assert!((broken.speed.si() / (9000.0 / (0.068 * c)) - 1.0).abs() < 1e-14);
    assert!(!broken.past_table && broken.reach.si() == 127.7);
}

// (O1) against a sum of T dε taken from the tension of the material model at small steps of strain.
#[test]
fn a_curve_holds_the_area_below_it() {
    let rows = [(2.0, 1.0), (5.0, 3.5), (10.0, 6.0)]
        .map(|(t, e): (f64, f64)| (t.kilonewtons(), e.percent()));
    let stretch = Stretch::table(rows.to_vec()).unwrap();
    let broken = recoil(&line(stretch.clone())).unwrap();
    let end = stretch.strain(9.0.kilonewtons()).unwrap().si();
    let steps = 200_000;
    let sum: f64 = (0..steps)
        .map(|i| {
            stretch
                .tension(Ratio::from_si(end * (f64::from(i) + 0.5) / f64::from(steps)))
                .unwrap()
                .si()
        })
        .sum::<f64>()
        * end
        / f64::from(steps);
    assert!((broken.energy.si() / (127.7 * sum) - 1.0).abs() < 1e-6);
    let past = BrokenLine { tension: 12.0.kilonewtons(), ..line(stretch) };
    assert!(recoil(&past).unwrap().past_table);
}

// (O5) against the best of many angles of a parabola.
#[test]
fn the_reach_of_a_thrown_mass_is_that_of_its_best_angle() {
    let broken = recoil(&line(Stretch::axial_rigidity(250.0.kilonewtons()).unwrap())).unwrap();
    let u = broken.thrown_speed.unwrap().si();
    assert!((0.5 * 1.1 * u * u / broken.energy.si() - 1.0).abs() < 1e-12);
    let best = (0..9000)
        .map(|i| {
            let angle = f64::from(i) * 1e-2_f64.to_radians();
            let up = u * angle.sin();
            u * angle.cos() * (up + (up * up + 2.0 * GRAVITY * 20.0).sqrt()) / GRAVITY
        })
        .fold(0.0, f64::max);
    assert!((broken.thrown_reach.unwrap().si() / best - 1.0).abs() < 1e-7);
}

proptest! {
    #[test]
    fn bad_numbers_are_refused_and_more_tension_holds_more(
        t in prop_oneof![1.0..1e5_f64, Just(f64::NAN), Just(0.0), Just(1e300), Just(-1.0)],
        l in prop_oneof![1.0..500.0_f64, Just(f64::INFINITY), Just(1e-300)],
        density in prop_oneof![0.01..0.2_f64, Just(0.0), Just(1e-308)],
    ) {
        let at = |t: f64| recoil(&BrokenLine {
            tension: Force::from_si(t),
            rest_length: Length::from_si(l),
            linear_density: LinearDensity::from_si(density),
            ..line(Stretch::axial_rigidity(250.0.kilonewtons()).unwrap())
        });
        if let (Ok(one), Ok(more)) = (at(t), at(1.5 * t)) {
            prop_assert!(one.energy.si().is_finite() && one.speed.si().is_finite());
            prop_assert!(more.energy >= one.energy && more.speed >= one.speed);
        }
    }
}
