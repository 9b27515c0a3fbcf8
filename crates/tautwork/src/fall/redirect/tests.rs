use proptest::prelude::*;

use super::*;
use crate::fall::{Edge, Fall, Slip, arrest, arrest_over_edge};
use crate::material::Stretch;
use crate::quantity::*;

fn linear(ea_n: f64) -> Stretch {
    Stretch::axial_rigidity(ea_n.newtons()).unwrap()
}

fn fall(height_m: f64, rope_m: f64) -> Fall {
    Fall {
        mass: 80.0.kilograms(),
        height: height_m.meters(),
        rope: rope_m.meters(),
        stretch: linear(20e3),
        span_stiffness: None,
    }
}

fn edge(belay_m: f64, wrap_deg: f64, mu: f64) -> Edge {
    Edge { belay_rope: belay_m.meters(), wrap: wrap_deg.degrees(), mu: mu.ratio() }
}

fn rope(rest_m: f64, ea_n: f64, slack_m: f64) -> SharedRope {
    SharedRope { rope: rest_m.meters(), stretch: linear(ea_n), slack: slack_m.meters() }
}

#[test]
fn one_edge_is_the_one_edge() {
    let edge = edge(8.0, 150.0, 0.25);
    let one = arrest_over_edge(&fall(4.0, 2.0), &edge).unwrap();
    let case = EdgesFall { fall: fall(4.0, 2.0), edges: vec![edge], belay: None };
    let many = arrest_over_edges(&case).unwrap();
    for (a, b) in
        [(&one.frictionless, &many.frictionless), (&one.full_friction, &many.full_friction)]
    {
        assert_eq!(a.arrest, b.arrest);
        assert!((a.belay_force.si() / b.belay_force.si() - 1.0).abs() < 1e-14);
        assert!((a.anchor_load.si() / b.edge_loads[0].si() - 1.0).abs() < 1e-14);
    }
    let none = EdgesFall { edges: Vec::new(), ..case };
    let none = arrest_over_edges(&none).unwrap();
    assert_eq!(none.full_friction.arrest, arrest(&fall(4.0, 2.0)).unwrap());
}

#[test]
fn edges_in_series_are_one_linear_rope() {
    let edges = vec![edge(3.0, 90.0, 0.2), edge(5.0, 60.0, 0.3), edge(1.0, 0.0, 0.5)];
    let case = EdgesFall { fall: fall(4.0, 2.0), edges, belay: None };
    let ends = arrest_over_edges(&case).unwrap();
    let (r1, r2) = (
        (0.2 * 90.0_f64.to_radians()).exp(),
        (0.2 * 90.0_f64.to_radians() + 0.3 * 60.0_f64.to_radians()).exp(),
    );
    let w = 80.0 * GRAVITY;
    let closed = |length: f64| w + (w * w + 2.0 * w * 20e3 * 4.0 / length).sqrt();
    let full = &ends.full_friction;
    let force = full.arrest.impact_force.si();
    assert!((force / closed(2.0 + 3.0 / r1 + 6.0 / r2) - 1.0).abs() < 1e-9);
    assert!((full.belay_force.si() * r2 / force - 1.0).abs() < 1e-12);
    // A quarter turn: both pulls at right angles. No wrap: no load.
    assert!((full.edge_loads[0].si() - force.hypot(force / r1)).abs() < 1e-8);
    assert!(full.edge_loads[2].si() < 1e-6 * force);
    let none = ends.frictionless.arrest.impact_force.si();
    assert!((none / closed(11.0) - 1.0).abs() < 1e-9 && none < force);
}

#[test]
fn a_belay_that_slips_caps_the_force() {
    let mut case = EdgesFall {
        fall: fall(4.0, 2.0),
        edges: vec![edge(3.0, 180.0, 0.15)],
        belay: Some(Slip { force: 2.0.kilonewtons(), travel: 10.0.meters() }),
    };
    let r = (0.15 * std::f64::consts::PI).exp();
    let ends = arrest_over_edges(&case).unwrap();
    assert!((ends.frictionless.arrest.impact_force.si() - 2e3).abs() < 1e-9);
    assert!((ends.full_friction.arrest.impact_force.si() / (2e3 * r) - 1.0).abs() < 1e-12);
    assert!((ends.full_friction.belay_force.si() - 2e3).abs() < 1e-9);
    assert!(ends.frictionless.belay_slip > ends.full_friction.belay_slip);
    assert!(ends.full_friction.belay_slip.si() > 0.0);
    case.belay = Some(Slip { force: 2.0.kilonewtons(), travel: 0.0.meters() });
    let fixed = arrest_over_edges(&EdgesFall { belay: None, ..case.clone() }).unwrap();
    let stuck = arrest_over_edges(&case).unwrap();
    assert_eq!(stuck.full_friction.arrest, fixed.full_friction.arrest);
    case.fall.span_stiffness = Some(1.0.kilonewtons_per_meter());
    assert!(arrest_over_edges(&case).is_err());
}

#[test]
fn ropes_side_by_side_are_springs_side_by_side() {
    let case = SharedFall {
        mass: 80.0.kilograms(),
        height: 3.0.meters(),
        ropes: vec![rope(10.0, 20e3, 0.0), rope(8.0, 24e3, 0.0)],
    };
    let stopped = arrest_shared(&case).unwrap();
    let (w, k) = (80.0 * GRAVITY, 2000.0 + 3000.0);
    let force = w + (w * w + 2.0 * w * k * 3.0_f64).sqrt();
    assert!((stopped.impact_force.si() / force - 1.0).abs() < 1e-9);
    assert!((stopped.ropes[0].share.si() - 0.4).abs() < 1e-9);
    // One rope is the plain fall.
    let one = SharedFall { ropes: vec![rope(10.0, 20e3, 0.0)], ..case };
    let plain = arrest(&fall(3.0, 10.0)).unwrap();
    let force = arrest_shared(&one).unwrap().impact_force;
    assert!((force.si() / plain.impact_force.si() - 1.0).abs() < 1e-9);
}

#[test]
fn slack_moves_the_load_to_the_other_rope() {
    let at = |slack: f64| {
        let case = SharedFall {
            mass: 80.0.kilograms(),
            height: 3.0.meters(),
            ropes: vec![rope(10.0, 20e3, 0.0), rope(10.0, 20e3, slack)],
        };
        arrest_shared(&case).unwrap()
    };
    let mut last = (0.0, 1.0);
    for slack in [0.0, 0.2, 0.5, 1.0, 5.0] {
        let stopped = at(slack);
        let [a, b] = [stopped.ropes[0].tension.si(), stopped.ropes[1].share.si()];
        assert!(a > last.0 && b < last.1, "{slack}");
        last = (a, b);
        // Two springs, one begun late: W (h + x) = k x² / 2 + k (x − c)² / 2.
        let x = stopped.drop.si() - 3.0;
        let late = (x - slack).max(0.0);
        let miss = 1000.0 * (x * x + late * late) - 784.8 * (3.0 + x);
        assert!(miss.abs() < 1e-8 * stopped.energy.si());
    }
    assert_eq!(last.1, 0.0);
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
    fn more_friction_is_never_softer(
        h in 0.0..8.0_f64, mu in 0.0..0.5_f64, more in 1.0..2.0_f64, wrap in 0.0..180.0_f64,
    ) {
        let force = |mu: f64| {
            let edges = vec![edge(3.0, wrap, mu), edge(4.0, 90.0, 0.1)];
            let case = EdgesFall { fall: fall(h, 4.0), edges, belay: None };
            arrest_over_edges(&case).unwrap().full_friction.arrest.impact_force.si()
        };
        prop_assert!(force(mu * more) >= force(mu) * (1.0 - 1e-9));
    }

    #[test]
    fn any_number_gives_an_answer_or_an_error(
        m in bad(), h in bad(), l in bad(), s in bad(), ea in bad(), mu in bad(),
    ) {
        let stretch = Stretch::axial_rigidity(ea.newtons()).unwrap_or(linear(1e4));
        let ropes = [l, s].map(|rest| SharedRope {
            rope: rest.meters(),
            stretch: stretch.clone(),
            slack: s.meters(),
        });
        let shared =
            SharedFall { mass: m.kilograms(), height: h.meters(), ropes: ropes.to_vec() };
        if let Ok(stopped) = arrest_shared(&shared) {
            prop_assert!(stopped.impact_force.si().is_finite() && stopped.residual <= 1e-9);
        }
        let belay = Some(Slip { force: ea.newtons(), travel: s.meters() });
        let edges = vec![edge(l, h, mu), edge(s, ea, mu)];
        let case = EdgesFall { fall: Fall { mass: m.kilograms(), stretch, ..fall(h, l) }, edges, belay };
        if let Ok(ends) = arrest_over_edges(&case) {
            prop_assert!(ends.full_friction.edge_loads.iter().all(|load| load.si().is_finite()));
        }
    }
}
