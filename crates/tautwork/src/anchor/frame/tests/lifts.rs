//! Frames through a lift.

use super::*;

fn place(load: [f64; 3], tension_n: f64) -> LiftPlace {
    LiftPlace { load: point(load), tension: tension_n.newtons() }
}

/// A bipod at an edge with two back guys, hauling in a load that hangs far out.
fn at_an_edge() -> Frame {
    let guys = [[-4.0, 2.0, 0.0], [-4.0, -2.0, 0.0]];
    let feet = [[-0.5, 1.0, 0.0], [-0.5, -1.0, 0.0]];
    let mut f = frame([0.5, 0.0, 2.5], &feet, &guys, [0.0; 3]);
    f.pulleys = vec![HeadPulley {
        name: "haul".to_owned(),
        load: point([30.0, 0.0, -30.0]),
        haul: point([-1.0, 0.0, 0.0]),
        tension: 0.0.newtons(),
        behind: 1.2.ratio(),
    }];
    f
}

#[test]
fn each_place_is_the_frame_there_and_the_worst_is_the_greatest() {
    let f = at_an_edge();
    let places: Vec<_> = (0..10)
        .map(|i| place([30.0 - 3.2 * f64::from(i), 0.0, -30.0], 200.0 + 60.0 * f64::from(i)))
        .collect();
    let lift = frame_lift(&f, "haul", &places).unwrap();
    assert!(lift.falls_at.is_none() && lift.margin.unwrap().si() > 0.0);
    for (i, step) in lift.steps.iter().enumerate() {
        let mut there = f.clone();
        (there.pulleys[0].load, there.pulleys[0].tension) = (places[i].load, places[i].tension);
        let forces = frame_forces(&there).unwrap();
        assert_eq!(step.forces.as_ref(), Some(&forces));
        assert_eq!(step.margin, frame_window(&there, "haul").unwrap().margin);
        for (worst, m) in lift.legs.iter().zip(&forces.legs) {
            assert!(worst.force >= m.force);
            assert!(worst.friction_needed >= m.friction_needed);
        }
    }
    for worst in lift.legs.iter().chain(&lift.guys) {
        let forces = lift.steps[worst.at].forces.as_ref().unwrap();
        let there = forces.legs.iter().chain(&forces.guys).find(|m| m.name == worst.name).unwrap();
        assert_eq!(worst.force, there.force);
    }
    // As the load comes in the resultant swings from out over the edge to back over the guys.
    let tilts: Vec<_> =
        lift.steps.iter().map(|s| s.tilt.si() * s.bearing.unwrap().si().cos()).collect();
    assert!(tilts.windows(2).all(|t| t[1] < t[0]), "{tilts:?}");
}

#[test]
fn a_place_where_it_falls_is_a_result() {
    let f = at_an_edge();
    let places = [place([0.5, 0.0, -20.0], 500.0), place([0.5, 40.0, 2.5], 500.0)];
    let lift = frame_lift(&f, "haul", &places).unwrap();
    assert_eq!(lift.falls_at, Some(1));
    assert!(lift.steps[1].forces.is_none() && lift.steps[1].margin.unwrap().si() < 0.0);
    assert_eq!(lift.legs[0].at, 0);
    // Without tension the rope has no window, and a frame without any load no forces.
    assert_eq!(frame_lift(&f, "haul", &[place([1.0; 3], 0.0)]), Err(AnchorError::NoPull));
    assert!(matches!(frame_lift(&f, "haul", &[]), Err(AnchorError::TooFew { .. })));
    assert!(matches!(frame_lift(&f, "rope", &places), Err(AnchorError::Unknown { .. })));
    let mut heavy = f;
    heavy.legs[0].mass = Some(10.0.kilograms());
    let lift = frame_lift(&heavy, "haul", &[place([1.0; 3], 0.0)]).unwrap();
    assert!(lift.margin.is_none() && lift.steps[0].bearing.is_none());
}
