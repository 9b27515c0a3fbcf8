//! Random systems: stages of tackle on one another with their blocks out of line, and bad numbers.

use super::*;

/// Shape of one stage: rope parts on what it hauls, and where its blocks stand out of line.
#[derive(Debug, Clone)]
struct Stage {
    parts: usize,
    aside: [f64; 2],
    eta: Vec<f64>,
}

fn stage() -> impl Strategy<Value = Stage> {
    (1..5_usize, [-3.0..3.0_f64, -3.0..3.0_f64], prop::collection::vec(0.5..1.0_f64, 5))
        .prop_map(|(parts, aside, eta)| Stage { parts, aside, eta })
}

fn system(stages: &[Stage], lossless: bool) -> System {
    let mut system = tackle(&stages.iter().map(|s| s.parts).collect::<Vec<_>>(), true, fixed(1.0))
        .expect("few stages");
    for (i, stage) in stages.iter().enumerate() {
        for (sheave, &eta) in system.ropes[i].over.iter_mut().zip(&stage.eta) {
            sheave.friction = fixed(if lossless { 1.0 } else { eta });
        }
        // The hand stands aside by the first stage, the blocks by their own.
        let [x, y] = stage.aside;
        let b = system.bodies.len() - 1 - i;
        system.bodies[b].position[0] = x.meters();
        system.bodies[b].position[1] = y.meters();
    }
    system
}

proptest! {
    #[test]
    fn without_friction_force_and_travel_ratio_cancel(
        stages in prop::collection::vec(stage(), 1..4), load in 1.0..1e4_f64,
    ) {
        let r = solve(&system(&stages, true), load.newtons()).unwrap();
        prop_assert!((r.actual_advantage.si() / r.ideal_advantage.si() - 1.0).abs() < 1e-9);
        prop_assert!((r.hold.high.si() / r.hold.low.si() - 1.0).abs() < 1e-9);
    }

    #[test]
    fn friction_only_takes(stages in prop::collection::vec(stage(), 1..4), load in 1.0..1e4_f64) {
        let r = solve(&system(&stages, false), load.newtons()).unwrap();
        prop_assert!(r.actual_advantage.si() <= r.ideal_advantage.si() * (1.0 + 1e-9));
        prop_assert!(r.hold.low.si() <= r.frictionless.si() * (1.0 + 1e-9));
        prop_assert!(r.frictionless.si() <= r.hold.high.si() * (1.0 + 1e-9));
        // One sheave more lossy: raising only gets harder, and holding only easier.
        let mut worse = stages.clone();
        worse[0].eta[0] *= 0.9;
        let w = solve(&system(&worse, false), load.newtons()).unwrap();
        prop_assert!(w.hold.high.si() >= r.hold.high.si() * (1.0 - 1e-9));
        prop_assert!(w.hold.low.si() <= r.hold.low.si() * (1.0 + 1e-9));
    }

    #[test]
    fn forces_of_the_ropes_cancel_and_power_balances(
        stages in prop::collection::vec(stage(), 1..4), load in 1.0..1e4_f64,
    ) {
        let system = system(&stages, false);
        let r = solve(&system, load.newtons()).unwrap();
        for state in [Some(&r.raising), r.lowering.as_ref()].into_iter().flatten() {
            for axis in 0..3 {
                let sum: f64 = state.bodies.iter().map(|b| b.force[axis].si()).sum();
                prop_assert!(sum.abs() < 1e-9 * load * 64.0);
            }
        }
        // Work of the hand, from tensions and travel alone, covers the load's and no more is lost
        // than the efficiency says.
        let v_load = r.travel.iter().find(|t| t.name == "load").unwrap().per_hand.si();
        prop_assert!((r.raising.hand.si() * r.efficiency.si() / (load * v_load) - 1.0).abs() < 1e-9);
        prop_assert!(r.residual < 1e-9);
    }

    #[test]
    fn with_parallel_ropes_anchors_carry_load_and_hand(
        parts in prop::collection::vec(1..5_usize, 1..4), eta in 0.3..1.0_f64, down in any::<bool>(),
    ) {
        let r = solve(&tackle(&parts, down, fixed(eta)).unwrap(), 1000.0.newtons()).unwrap();
        // The hand adds its force when it pulls down from a redirect and takes it off otherwise.
        let hand = r.raising.hand.si() * if down { 1.0 } else { -1.0 };
        let anchor = -r.raising.bodies[0].force[2].si();
        prop_assert!((anchor - 1000.0 - hand).abs() < 1e-9 * 1e4);
    }

    #[test]
    fn any_number_gives_an_answer_or_an_error(
        x in any::<f64>(), z in any::<f64>(), n in any::<f64>(), load in any::<f64>(), law in 0..3,
    ) {
        let friction = match law {
            0 => fixed(n),
            1 => Friction::Axle { efficiency_180: n.ratio() },
            _ => Friction::Capstan { mu: n.ratio() },
        };
        let mut s = ordinary(Ordinary::NineToOne, friction);
        s.bodies[1].position[0] = x.meters();
        s.bodies[3].position[2] = z.meters();
        s.bodies[3].travel = Some([x, n, z]);
        if let Ok(r) = solve(&s, load.newtons()) {
            prop_assert!(r.hold.high.si().is_finite() && r.actual_advantage.si().is_finite());
        }
        if let Ok(hold) = capstan_hold(load.newtons(), n.ratio(), x.radians()) {
            prop_assert!(hold.high.si().is_finite() && hold.low.si() <= hold.high.si());
        }
        if let Ok(mu) = implied_mu(n.ratio(), x.radians()) {
            prop_assert!(mu.si().is_finite());
        }
    }
}
