//! Bad input.

use super::*;
use crate::anchor::AnchorError;
use crate::anchor::tests::number;

fn simple() -> AnchorSystem {
    AnchorSystem {
        fixed: vec![fixed("bolt", [0.0, 0.0, 1.0]), fixed("tree", [1.0, 0.0, 3.0])],
        junctions: vec![junction("knot", [0.5, 0.0, 0.5]), junction("master", [0.0, 0.0, 0.0])],
        legs: vec![
            strong(leg("a", "bolt", "knot", 1.0, 1e5), 9e3),
            strong(leg("b", "knot", "master", 1.0, 1e5), 9e3),
            strong(leg("c", "tree", "master", 4.0, 1e5), 9e3),
        ],
        pull_at: "master".to_owned(),
        pull: newtons([0.0, 0.0, -1000.0]),
        line: None,
    }
}

#[test]
fn each_mistake_has_its_error() {
    let with = |change: &dyn Fn(&mut AnchorSystem)| {
        let mut system = simple();
        change(&mut system);
        system_rest(&system).unwrap_err()
    };
    let unknown = with(&|s| s.legs[0].to = "nowhere".to_owned());
    assert_eq!(
        unknown,
        AnchorError::UnknownPoint { leg: "a".to_owned(), name: "nowhere".to_owned() }
    );
    assert!(matches!(with(&|s| s.pull_at = "bolt".to_owned()), AnchorError::UnknownPoint { .. }));
    assert!(matches!(with(&|s| s.legs[0].to = "bolt".to_owned()), AnchorError::NoWay { .. }));
    assert!(matches!(with(&|s| s.legs[0].to = "tree".to_owned()), AnchorError::NoWay { .. }));
    assert!(matches!(
        with(&|s| s.legs[0].parts[0].stiffness = None),
        AnchorError::NoStiffness { .. }
    ));
    assert!(matches!(
        with(&|s| s.legs[0].name = "bolt".to_owned()),
        AnchorError::DuplicateName { .. }
    ));
    assert!(matches!(with(&|s| s.pull = newtons([0.0; 3])), AnchorError::NoPull));
    assert!(matches!(with(&|s| s.legs.clear()), AnchorError::TooFew { .. }));
    assert!(matches!(with(&|s| s.fixed.clear()), AnchorError::TooFew { .. }));
    assert!(matches!(with(&|s| s.legs.truncate(1)), AnchorError::NoPath));
    let many = with(&|s| s.legs = vec![s.legs[0].clone(); 201]);
    assert!(matches!(many, AnchorError::DuplicateName { .. } | AnchorError::TooMany { .. }));
    let invalid = with(&|s| s.legs[1].rest_length = (-1.0).meters());
    assert!(invalid.to_string().contains("b.rest_length"), "{invalid}");
    let line = |k: f64, length: f64| {
        let line = PullLine { stiffness: Stiffness::from_si(k), length: Length::from_si(length) };
        with(&|s| s.line = Some(line)).to_string()
    };
    assert!(line(0.0, 60.0).contains("line.stiffness"));
    assert!(line(1e3, f64::NAN).contains("line.length"));
    let short = line(1e3, 0.9);
    assert!(short.contains("line.length") && short.contains("pull over stiffness"), "{short}");
    let part = with(&|s| s.legs[1].parts[0].strength = Some(0.0.newtons()));
    assert!(part.to_string().contains("b.sling.strength"), "{part}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]
    #[test]
    fn numbers_in_give_numbers_out(
        v in prop::collection::vec(number(), 8),
        which in 0..10_usize,
    ) {
        let mut system = simple();
        match which {
            0 => system.legs[0].rest_length = v[0].meters(),
            1 => system.legs[1].parts[0].stiffness = Some(Stiffness::from_si(v[0])),
            2 => system.pull = newtons([v[0], v[1], v[2]]),
            3 => system.fixed[0].position = point([v[0], v[1], v[2]]),
            4 => system.junctions[0].near = point([v[0], v[1], v[2]]),
            5 => system.legs[2].parts[0].strength = Some(v[0].newtons()),
            6 => system.fixed[1].strength = Some(v[0].newtons()),
            7 => system.legs[2].rest_length = v[0].meters(),
            _ => {
                let stiffness = Stiffness::from_si(v[0].abs());
                let length = if which == 8 { v[1].abs() } else { 1e5 }.meters();
                system.line = Some(PullLine { stiffness, length });
            }
        }
        let good = |r: &SystemRest| {
            r.legs.iter().all(|l| l.tension.si() >= 0.0 && l.tension.si().is_finite())
                && r.fixed.iter().all(|f| f.size.si().is_finite())
                && r.residual <= 1e-6
        };
        if let Ok(rest) = system_rest(&system) {
            prop_assert!(good(&rest));
        }
        if let Ok(losses) = system_losses(&system, true) {
            for loss in losses.single.iter().chain(&losses.double) {
                prop_assert!(loss.after.as_ref().is_none_or(good));
                prop_assert_eq!(loss.held, loss.after.is_some());
            }
        }
        let cone = PullCone {
            system: system.clone(),
            half_angle: v[3].degrees(),
            rings: 2,
            around: 4,
        };
        if let Ok(map) = pull_cone(&cone) {
            prop_assert!(map.worst_tension_n.iter().all(|t| t.is_finite()));
        }
        let run = SystemBreak {
            system,
            lost: vec!["a".to_owned()],
            mass: v[4].kilograms(),
            time: v[5].abs().min(0.1).seconds(),
        };
        if let Ok(broken) = break_in_time(&run) {
            prop_assert!(broken.peaks.iter().all(|p| p.tension.si().is_finite()));
            prop_assert!(broken.extension.si().is_finite() && broken.energy_drift.is_finite());
        }
    }
}
