use proptest::prelude::*;

use super::*;
use crate::fall::{Fall, FallNote, arrest};
use crate::material::Stretch;
use crate::quantity::*;

fn fall(height_m: f64, ea_n: f64) -> Fall {
    Fall {
        mass: 100.0.kilograms(),
        height: height_m.meters(),
        rope: 2.0.meters(),
        stretch: Stretch::axial_rigidity(ea_n.newtons()).unwrap(),
        span_stiffness: None,
    }
}

fn slip(force_kn: f64, travel_m: f64) -> Slip {
    Slip { force: force_kn.kilonewtons(), travel: travel_m.meters() }
}

#[test]
fn a_constant_brake_on_a_stiff_rope() {
    // s = W h / (F − W): any textbook of mechanics.
    let stopped = arrest_with_slip(&fall(4.0, 1e12), &[slip(5.0, 3.0)]).unwrap();
    let exact = 981.0 * 4.0 / (5000.0 - 981.0);
    assert!((stopped.slips[0].slipped.si() - exact).abs() < 1e-6);
    assert!((stopped.slips[0].energy.si() - 5000.0 * exact).abs() < 1e-2);
    assert!(!stopped.slips[0].at_end);
    assert!((stopped.arrest.drop.si() - 4.0 - exact).abs() < 1e-6);
}

#[test]
fn a_device_that_does_not_slip_changes_nothing() {
    let case = fall(2.0, 20e3);
    let plain = arrest(&case).unwrap();
    for slips in [vec![], vec![slip(50.0, 1.0)]] {
        let stopped = arrest_with_slip(&case, &slips).unwrap();
        assert_eq!(stopped.arrest, plain);
        assert!(stopped.slips.iter().all(|s| s.slipped.si() == 0.0 && !s.at_end));
    }
}

#[test]
fn a_device_at_its_end_holds() {
    let case = fall(4.0, 20e3);
    let plain = arrest(&case).unwrap().impact_force;
    let stopped = arrest_with_slip(&case, &[slip(4.0, 0.2), slip(2.0, 0.1)]).unwrap();
    assert!(stopped.slips.iter().all(|s| s.at_end));
    assert!((stopped.slips[0].slipped.si() - 0.2).abs() < 1e-12);
    let force = stopped.arrest.impact_force;
    assert!(force.in_kilonewtons() > 4.0 && force < plain);
    // F² L / (2 EA) + 1000 J = W (h + 0.3 m + F L / EA).
    let (a, w) = (2.0 / 20e3, 981.0_f64);
    let exact = w + (w * w + 2.0 / a * (w * 4.3 - 1000.0)).sqrt();
    assert!((force.si() / exact - 1.0).abs() < 1e-9);
    // One that cannot hold the weight runs to its end.
    let weak = arrest_with_slip(&case, &[slip(0.5, 0.3)]).unwrap();
    assert!(weak.slips[0].at_end && weak.arrest.drop > arrest(&case).unwrap().drop);
}

#[test]
fn only_those_below_the_peak_slip() {
    let stopped =
        arrest_with_slip(&fall(4.0, 20e3), &[slip(6.0, 5.0), slip(3.0, 0.1), slip(9.0, 1.0)])
            .unwrap();
    assert_eq!(stopped.arrest.impact_force.in_kilonewtons(), 6.0);
    assert!(stopped.slips[1].at_end && !stopped.slips[0].at_end);
    assert!(stopped.slips[0].slipped.si() > 0.0);
    assert_eq!(stopped.slips[2].slipped.si(), 0.0);
    let taken: f64 = stopped.slips.iter().map(|s| s.energy.si()).sum();
    let rope = 0.5 * 6000.0_f64.powi(2) * 2.0 / 20e3;
    assert!((taken + rope - stopped.arrest.energy.si()).abs() < 1e-6);
    let mut long = fall(40.0, 20e3);
    long.rope = 2.0.meters();
    let noted = arrest_with_slip(&long, &[slip(6.0, 50.0)]).unwrap();
    assert_eq!(noted.arrest.notes, vec![FallNote::FactorAboveTwo]);
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
    #[test]
    fn more_travel_and_less_force_are_softer(
        h in 0.0..10.0_f64, f in 1.5..10.0_f64, s in 0.0..3.0_f64, more in 1.0..2.0_f64,
    ) {
        let peak = |f: f64, s: f64| {
            arrest_with_slip(&fall(h, 25e3), &[slip(f, s)]).unwrap().arrest.impact_force.si()
        };
        let plain = arrest(&fall(h, 25e3)).unwrap().impact_force.si();
        prop_assert!(peak(f, s) <= plain * (1.0 + 1e-9));
        prop_assert!(peak(f, s * more) <= peak(f, s) * (1.0 + 1e-9));
    }

    #[test]
    fn any_number_gives_an_answer_or_an_error(
        m in bad(), h in bad(), f in bad(), s in bad(),
    ) {
        for (f, s) in [(f, s), (f.abs() * 1e3, s.abs())] {
            let mut case = fall(h, 20e3);
            case.mass = m.kilograms();
            let slips = [Slip { force: f.newtons(), travel: s.meters() }];
            if let Ok(stopped) = arrest_with_slip(&case, &slips) {
                prop_assert!(stopped.arrest.impact_force.si().is_finite());
                prop_assert!(stopped.slips[0].energy.si().is_finite());
                prop_assert!(stopped.arrest.residual <= 1e-9);
            }
        }
    }
}
