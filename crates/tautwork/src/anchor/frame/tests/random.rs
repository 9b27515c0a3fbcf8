//! Properties of random frames.

use super::*;

/// Displacement under which every force is Eq. (F1), the energy of Eq. (F4) there.
fn energy(f: &Frame, load: Vector3<f64>, u: Vector3<f64>) -> f64 {
    let head = si(f.head);
    let legs = f.legs.iter().map(|l| (-1.0, l.foot, l.axial_rigidity, 0.0));
    let guys = f
        .guys
        .iter()
        .map(|g| (1.0, g.foot, g.axial_rigidity, g.pretension.map_or(0.0, Quantity::si)));
    let stored = legs.chain(guys).map(|(side, foot, ea, t0)| {
        let way = si(foot) - head;
        let k = ea.si() / way.norm();
        let force = (t0 - k * side * way.normalize().dot(&u)).max(0.0);
        0.5 * force * force / k
    });
    stored.sum::<f64>() - load.dot(&u)
}

/// Both guys pull to one side, where no leg stands against them: before the rope pulls they go slack.
#[test]
fn pretension_that_no_leg_takes_up_goes_slack() {
    let legs = [[-0.1, 1.7, 0.1], [-0.3, -0.4, 0.0], [-1.3, 1.1, 0.0]];
    for turn in 0..64 {
        let (s, c) = (0.1 * f64::from(turn)).sin_cos();
        let around = |[x, y, z]: [f64; 3]| [c * x - s * y, s * x + c * y, z];
        let guys = [[-1.8, 2.4, 0.0], [5.3, 4.9, -0.3]].map(around);
        let mut f = frame([0.0, 0.0, 4.5], &legs.map(around), &guys, [0.0, 0.0, -100.0]);
        for guy in &mut f.guys {
            guy.pretension = Some(1.0.newtons());
        }
        let found = frame_forces(&f).unwrap();
        let before = found.legs.iter().chain(&found.guys).map(|m| m.before.unwrap().si());
        assert!(before.sum::<f64>() < 1e-9);
    }
}

proptest! {
    /// What the ground takes is the load and the other half of the legs' weight.
    #[test]
    fn the_ground_takes_the_load(f in some_frame()) {
        let Ok(r) = frame_forces(&f) else { return Ok(()) };
        let ground: Vector3<f64> = r.legs.iter().chain(&r.guys).map(|m| si(m.on_ground)).sum();
        let half: f64 = f.legs.iter().filter_map(|l| l.mass).map(|m| 0.5 * m.si() * GRAVITY).sum();
        let missing = ground - si(r.load) + Vector3::z() * half;
        let size = all(&r).into_iter().fold(1.0, f64::max);
        prop_assert!(missing.norm() < 1e-8 * size && r.residual < 1e-8);
        prop_assert!(all(&r).iter().all(|&n| n >= 0.0) && r.iterations < 20);
    }

    /// Eq. (F4): no displacement has less energy; and idle members are as far from acting as they say.
    #[test]
    fn the_energy_is_least(
        f in some_frame(), other in [-1.0..1.0_f64, -1.0..1.0_f64, -1.0..1.0_f64],
    ) {
        let Ok(r) = frame_forces(&f) else { return Ok(()) };
        let (u, load) = (si(r.displacement), si(r.load));
        let least = energy(&f, load, u);
        for size in [1e-4, 1e-2, 1.0] {
            let there = energy(&f, load, u + Vector3::from(other) * size * u.norm());
            prop_assert!(there >= least - 1e-9 * least.abs(), "{there} {least}");
        }
        for m in r.legs.iter().chain(&r.guys) {
            prop_assert_eq!(m.idle, m.force.si() == 0.0);
            prop_assert_eq!(m.gap.is_some(), m.idle);
            prop_assert!(m.gap.is_none_or(|g| g.si() >= 0.0));
        }
    }

    /// Clapeyron: without pretension the work of the load is twice the energy stored.
    #[test]
    fn work_of_the_load_is_twice_the_energy(mut f in some_frame()) {
        for guy in &mut f.guys {
            guy.pretension = None;
        }
        let Ok(r) = frame_forces(&f) else { return Ok(()) };
        let (u, load) = (si(r.displacement), si(r.load));
        let least = energy(&f, load, u);
        prop_assert!(near(load.dot(&u), -2.0 * least, 1e-9));
    }

    /// Without pretension forces grow with the load, and stand or fall with its direction alone.
    #[test]
    fn forces_grow_with_the_load(mut f in some_frame(), times in 0.01..100.0_f64) {
        for guy in &mut f.guys {
            guy.pretension = None;
        }
        for leg in &mut f.legs {
            leg.mass = None;
        }
        let one = frame_forces(&f);
        f.ropes[0].tension *= times;
        let other = frame_forces(&f);
        prop_assert_eq!(one.is_ok(), other.is_ok());
        if let (Ok(one), Ok(other)) = (one, other) {
            let size = all(&other).into_iter().fold(0.0, f64::max);
            for (a, b) in all(&one).iter().zip(all(&other)) {
                prop_assert!((a * times - b).abs() < 1e-8 * size);
            }
        }
    }

    /// Taking an idle guy without pretension away changes no force.
    #[test]
    fn a_slack_guy_changes_nothing(f in some_frame()) {
        let Ok(r) = frame_forces(&f) else { return Ok(()) };
        let size = all(&r).into_iter().fold(1.0, f64::max);
        for i in (0..f.guys.len()).filter(|&i| r.guys[i].idle) {
            let mut without = f.clone();
            without.guys.remove(i);
            let left = frame_forces(&without).unwrap();
            let mut kept = all(&r);
            kept.remove(f.legs.len() + i);
            for (a, b) in all(&left).iter().zip(kept) {
                prop_assert!((a - b).abs() < 1e-8 * size, "{a} {b}");
            }
        }
    }

    /// Turning everything about the vertical turns the answer.
    #[test]
    fn rotation_turns_the_answer(f in some_frame(), angle in 0.0..TAU) {
        let turn = |p: [Length; 3]| {
            let [x, y, z] = p.map(Quantity::si);
            let (s, c) = angle.sin_cos();
            point([c * x - s * y, s * x + c * y, z])
        };
        let mut turned = f.clone();
        turned.head = turn(f.head);
        turned.legs.iter_mut().for_each(|l| l.foot = turn(l.foot));
        turned.guys.iter_mut().for_each(|g| g.foot = turn(g.foot));
        turned.ropes[0].towards = turn(f.ropes[0].towards);
        let (one, other) = (frame_forces(&f), frame_forces(&turned));
        prop_assert!(one.is_ok() == other.is_ok(), "{:?} {:?}", one.err(), other.err());
        if let (Ok(one), Ok(other)) = (one, other) {
            let size = all(&one).into_iter().fold(0.0, f64::max);
            for (a, b) in all(&one).iter().zip(all(&other)) {
                prop_assert!((a - b).abs() < 1e-7 * size, "{a} {b}");
            }
        }
    }

    /// Pretension does not decide whether a frame stands.
    #[test]
    fn pretension_has_no_say_in_standing(mut f in some_frame(), tight in 1.0..2000.0_f64) {
        let loose = frame_forces(&f) == Err(AnchorError::CannotStand);
        for guy in &mut f.guys {
            guy.pretension = Some(tight.newtons());
        }
        prop_assert_eq!(frame_forces(&f) == Err(AnchorError::CannotStand), loose);
    }
}
