//! Systems by hand.

use super::*;
use crate::anchor::{Anchor, AnchorError, Leg, equilibrium};

/// Two pairs of fixed points, each pair to a knot, both knots to the master point.
fn two_levels() -> AnchorSystem {
    AnchorSystem {
        fixed: vec![
            fixed("1", [-1.0, 0.0, 3.0]),
            fixed("2", [-1.0, 0.0, 3.0]),
            fixed("3", [1.0, 0.0, 3.0]),
            fixed("4", [1.0, 0.0, 3.0]),
        ],
        junctions: vec![
            junction("master", [0.0, 0.0, 0.0]),
            junction("left", [-1.0, 0.0, 2.0]),
            junction("right", [1.0, 0.0, 2.0]),
        ],
        legs: vec![
            leg("a", "1", "left", 1.0, 1e9),
            leg("b", "2", "left", 1.0, 1e9),
            leg("c", "3", "right", 1.0, 1e9),
            leg("d", "4", "right", 1.0, 1e9),
            leg("e", "left", "master", 1.0, 1e9),
            leg("f", "right", "master", 1.0, 1e9),
        ],
        pull_at: "master".to_owned(),
        pull: newtons([0.0, 0.0, -3000.0]),
        line: None,
    }
}

// Both halves hang straight from fixed points 2 m apart and 2 m long: 60° between them, 1732 N in each; side by side, half
// of that in each leg above.
#[test]
fn two_levels_share_by_hand() {
    let rest = system_rest(&two_levels()).unwrap();
    let half = 3000.0 / 3.0_f64.sqrt();
    for (leg, t) in rest.legs.iter().zip([0.5, 0.5, 0.5, 0.5, 1.0, 1.0]) {
        assert!((leg.tension.si() - t * half).abs() < 1e-3, "{}", leg.name);
        assert_eq!(leg.share.is_some(), leg.name.as_str() < "e");
    }
    let shares: f64 = rest.legs.iter().filter_map(|l| l.share).map(Quantity::si).sum();
    assert!((shares - 1.0).abs() < 1e-9);
    assert!(rest.least_factor.is_none() && rest.weakest.is_none());
    assert!((rest.junctions[0].position[2].si() - (3.0 - 3.0_f64.sqrt())).abs() < 1e-5);
}

#[test]
fn one_level_is_the_anchor_of_one_master_point() {
    let at = [[-1.0, 0.2, 2.0], [0.4, -0.3, 2.5], [1.2, 0.9, 2.2]];
    let legs: Vec<Leg> = at
        .iter()
        .enumerate()
        .map(|(i, p)| Leg {
            name: i.to_string(),
            fixing: point(*p),
            rest_length: 2.0.meters(),
            stiffness: Some(Stiffness::from_si(5e4 * (1.0 + i as f64))),
            axial_rigidity: None,
            strength: None,
        })
        .collect();
    let pull = newtons([300.0, 100.0, -4000.0]);
    let single = equilibrium(&Anchor { legs, pull }).unwrap();
    let system = AnchorSystem {
        fixed: at.iter().enumerate().map(|(i, p)| fixed(&format!("f{i}"), *p)).collect(),
        junctions: vec![junction("master", [0.0, 0.0, 0.0])],
        legs: (0..3)
            .map(|i| {
                leg(&i.to_string(), "master", &format!("f{i}"), 2.0, 5e4 * (1.0 + f64::from(i)))
            })
            .collect(),
        pull_at: "master".to_owned(),
        pull,
        line: None,
    };
    let rest = system_rest(&system).unwrap();
    for (a, b) in single.legs.iter().zip(&rest.legs) {
        assert!((a.tension.si() - b.tension.si()).abs() < 1e-6);
        assert!((a.share.si() - b.share.unwrap().si()).abs() < 1e-9);
    }
}

// Springs one behind the other: 1 / k = 1 / 100 + 1 / 300, and the weaker part governs.
#[test]
fn parts_of_a_leg_are_springs_in_a_row() {
    let mut chain = leg("leg", "bolt", "master", 1.0, 1e5);
    chain.parts[0].strength = Some(22.0.kilonewtons());
    chain.parts.push(LegPart {
        name: "cord".to_owned(),
        stiffness: Some(Stiffness::from_si(3e5)),
        strength: Some(9.0.kilonewtons()),
    });
    chain.parts.push(LegPart {
        name: "connector".to_owned(),
        stiffness: None,
        strength: Some(20.0.kilonewtons()),
    });
    let system = AnchorSystem {
        fixed: vec![FixedPoint {
            strength: Some(12.0.kilonewtons()),
            ..fixed("bolt", [0.0, 0.0, 1.0])
        }],
        junctions: vec![junction("master", [0.0, 0.0, 0.0])],
        legs: vec![chain],
        pull_at: "master".to_owned(),
        pull: newtons([0.0, 0.0, -3000.0]),
        line: None,
    };
    let rest = system_rest(&system).unwrap();
    assert!((rest.junctions[0].position[2].si() + 3000.0 / 75e3).abs() < 1e-9);
    assert_eq!(rest.legs[0].governed_by.as_deref(), Some("cord"));
    assert!((rest.legs[0].factor.unwrap().si() - 3.0).abs() < 1e-9);
    assert!((rest.fixed[0].factor.unwrap().si() - 4.0).abs() < 1e-9);
    assert_eq!(rest.weakest.as_deref(), Some("leg"));
}

/// Three legs side by side of 4, 5 and 8.9 kN under 9 kN.
fn weak() -> AnchorSystem {
    let side = |name: &str, strength| strong(leg(name, "bolt", "master", 1.0, 1e6), strength);
    AnchorSystem {
        fixed: vec![fixed("bolt", [0.0, 0.0, 1.0])],
        junctions: vec![junction("master", [0.0, 0.0, 0.0])],
        legs: vec![side("a", 4e3), side("b", 5e3), side("c", 8.9e3)],
        pull_at: "master".to_owned(),
        pull: newtons([0.0, 0.0, -9000.0]),
        line: None,
    }
}

// 3 kN each; without c 4.5 kN each: a breaks at 4, then b would carry 9 and breaks at 5.
#[test]
fn a_cascade_runs_to_its_end() {
    let losses = system_losses(&weak(), false).unwrap();
    let c = &losses.single[2];
    assert_eq!(c.lost, ["c"]);
    let stages: Vec<_> = c.stages.iter().map(|s| s.broke.join(" ")).collect();
    assert_eq!(stages, ["a", "b"]);
    assert!(!c.held && c.after.is_none() && !losses.redundant);
    // Without a: 4.5 kN each, both hold; 1.5 kN more on 1 MN/m.
    let a = &losses.single[0];
    assert!(a.held && a.stages.is_empty());
    assert!((a.extension.unwrap().si() - 1.5e-3).abs() < 1e-9);
    // The fixed point that holds all.
    assert_eq!(losses.single[3].lost, ["bolt"]);
    assert!(!losses.single[3].held && losses.single[3].stages.is_empty());
    assert!(losses.double.is_empty());
}

#[test]
fn a_backup_takes_over_when_its_slack_is_gone() {
    let mut system = weak();
    system.fixed.push(fixed("tree", [0.0, 0.0, 4.0]));
    system.legs.push(strong(leg("backup", "tree", "master", 4.5, 1e6), 20e3));
    let losses = system_losses(&system, true).unwrap();
    let c = &losses.single[2];
    assert!(c.held && c.stages.len() == 2);
    // 0.5 m of slack, and 9 kN on 1 MN/m, against 3 kN on 1 MN/m before: z −0.509 from −0.003.
    assert!((c.extension.unwrap().si() - 0.506).abs() < 1e-6);
    // b breaks last, from where it carried all: the pull falls through what is left of the slack, then as a falling
    // weight into the backup.
    let jerk = c.overshoot.as_ref().unwrap();
    let peak_n = 9e3 + (9e3_f64.powi(2) + 2.0 * 9e3 * 1e6 * (0.5 - 9e-3)).sqrt();
    assert!((jerk.peaks[0].tension.si() / peak_n - 1.0).abs() < 1e-6);
    assert!((jerk.least_factor.unwrap().si() - 20e3 / peak_n).abs() < 1e-6);
    assert_eq!(jerk.weakest.as_deref(), Some("backup"));
    assert_eq!(c.after.as_ref().unwrap().legs[3].tension.si().round(), 9000.0);
    let both = losses.double.iter().find(|l| l.lost == ["backup", "bolt"]).unwrap();
    assert!(!both.held);
    // 6 parts, 15 pairs.
    assert_eq!((losses.single.len(), losses.double.len()), (6, 15));
}

// Two springs, one lost: half the pull more, and as far beyond (suddenly applied load). The mass sets the period only.
#[test]
fn a_jerk_overshoots_by_what_was_missing() {
    for mass in [5.0, 50.0] {
        let mut system = weak();
        system.legs.truncate(2);
        for leg in &mut system.legs {
            leg.parts[0].strength = None;
        }
        let run = SystemBreak {
            system,
            lost: vec!["a".to_owned()],
            mass: Mass::from_si(mass),
            time: Time::from_si(core::f64::consts::TAU * (mass / 1e6_f64).sqrt()),
        };
        let broken = break_in_time(&run).unwrap();
        assert!(broken.held && broken.events.is_empty());
        assert!((broken.peaks[1].tension.si() / 13.5e3 - 1.0).abs() < 1e-4);
        let half_s = core::f64::consts::PI * (mass / 1e6_f64).sqrt();
        assert!((broken.peaks[1].at.si() / half_s - 1.0).abs() < 0.05);
        assert!((broken.extension.si() / 9e-3 - 1.0).abs() < 1e-4);
        let speed = 4.5e3 / (mass * 1e6_f64).sqrt();
        assert!((broken.speed.si() / speed - 1.0).abs() < 1e-3);
        assert!(broken.energy_drift < 1e-6);
        // And back to where it was after a period.
        assert!(broken.way_m.last().unwrap().abs() < 1e-6);
    }
}

// Slow: 4.5 kN each, which both hold at 4.6 kN. With the jerk from 3 kN to 6 kN both break, and it falls.
#[test]
fn a_jerk_breaks_what_a_slow_loss_does_not() {
    let mut system = weak();
    for leg in &mut system.legs {
        leg.parts[0].strength = Some(4.6.kilonewtons());
    }
    let slow = system_losses(&system, false).unwrap();
    assert!(slow.single[0].held);
    let run = SystemBreak {
        system,
        lost: vec!["a".to_owned()],
        mass: 20.0.kilograms(),
        time: 1.0.seconds(),
    };
    let broken = break_in_time(&run).unwrap();
    let events: Vec<_> = broken.events.iter().map(|e| e.broke.as_str()).collect();
    assert_eq!(events, ["b", "c"]);
    assert!(!broken.held);
    assert!((broken.peaks[1].tension.si() - 4.6e3).abs() < 1.0);
}

// Into the slack of a backup: m g-like pull 9 kN through 0.5 m, then as F = P + √(P² + 2 P k h) (falling weight).
#[test]
fn a_fall_into_a_backup_is_a_falling_weight() {
    let mut system = weak();
    system.legs.truncate(1);
    system.legs[0].parts[0].strength = None;
    system.fixed.push(fixed("tree", [0.0, 0.0, 4.0]));
    system.legs.push(leg("backup", "tree", "master", 4.5, 1e6));
    let run = SystemBreak {
        system,
        lost: vec!["a".to_owned()],
        mass: 100.0.kilograms(),
        time: 0.2.seconds(),
    };
    let broken = break_in_time(&run).unwrap();
    let (p, k, h) = (9e3_f64, 1e6, 0.5 - 9e-3);
    let peak = p + (p * p + 2.0 * p * k * h).sqrt();
    assert!((broken.peaks[1].tension.si() / peak - 1.0).abs() < 1e-4);
    assert!(broken.energy_drift < 1e-6);
}

#[test]
fn a_cone_is_worst_where_one_leg_carries_all() {
    // Legs 90° apart, pulled between them: 0.707 each; pulled along one of them, that one carries all.
    let at = 1.0 / 2.0_f64.sqrt();
    let system = AnchorSystem {
        fixed: vec![fixed("l", [-at, 0.0, at]), fixed("r", [at, 0.0, at])],
        junctions: vec![junction("master", [0.0, 0.0, 0.0])],
        legs: ["l", "r"]
            .map(|f| strong(leg(&format!("leg {f}"), f, "master", 1.0, 1e9), 10e3))
            .to_vec(),
        pull_at: "master".to_owned(),
        pull: newtons([0.0, 0.0, -1000.0]),
        line: None,
    };
    let cone = PullCone { system, half_angle: 45.0.degrees(), rings: 3, around: 8 };
    let map = pull_cone(&cone).unwrap();
    assert!((map.worst_tension_n[0] - 707.107).abs() < 0.1);
    assert!((map.least_factor.unwrap().si() - 10.0).abs() < 0.01);
    let worst = map.direction[map.worst_at];
    assert!((worst[0].abs() - at).abs() < 1e-9 && (worst[2] + at).abs() < 1e-9);
    assert_eq!(map.off_rad.len(), 25);
    // In the middle both carry half of it, at 45 degrees to it; along a leg that one has all.
    let share = |i: usize| map.legs.iter().map(move |l| l.share.as_ref().unwrap()[i]);
    assert!(share(0).all(|s| (s - 0.5).abs() < 1e-6));
    assert!(share(map.worst_at).any(|s| (s - 1.0).abs() < 1e-3));
    // From the left as from the right.
    let i = map.direction.iter().position(|d| d[0] > 0.7).unwrap();
    let j = map.direction.iter().position(|d| d[0] < -0.7).unwrap();
    assert!((map.worst_tension_n[i] - map.worst_tension_n[j]).abs() < 1e-3);
}

#[test]
fn a_pull_without_a_path_is_refused() {
    let mut system = two_levels();
    system.legs.retain(|l| !["e", "f"].contains(&l.name.as_str()));
    assert_eq!(system_rest(&system), Err(AnchorError::NoPath));
}

// Two springs side by side under a line of stiffness K, one lost: k x = P - K (x - x0) at rest, and as far beyond it
// as it came; k + K with the mass sets the period. A line without give would be the whole pull.
#[test]
fn a_line_that_slackens_pulls_less() {
    let (k, line_k, pull_n) = (1e6, 4e5, 9e3);
    let mut system = weak();
    system.legs.truncate(2);
    for leg in &mut system.legs {
        leg.parts[0].strength = Some(20.0.kilonewtons());
    }
    system.line = Some(PullLine { stiffness: Stiffness::from_si(line_k), length: 60.0.meters() });
    let x0 = pull_n / (2.0 * k);
    let x = (pull_n + line_k * x0) / (k + line_k);
    let loss = &system_losses(&system, false).unwrap().single[0];
    let after = loss.after.as_ref().unwrap();
    assert!((after.legs[1].tension.si() / (k * x) - 1.0).abs() < 1e-9);
    assert!((after.pull[2].si() / (-k * x) - 1.0).abs() < 1e-9);
    assert!((after.legs[1].share.unwrap().si() - 1.0).abs() < 1e-9);
    assert!((loss.extension.unwrap().si() - (x - x0)).abs() < 1e-9);
    let jerk = loss.overshoot.as_ref().unwrap();
    let peak_n = k * (2.0 * x - x0);
    assert!((jerk.peaks[0].tension.si() / peak_n - 1.0).abs() < 1e-6, "{jerk:?}");
    assert!(
        (loss.energy_released.unwrap().si() / (0.5 * (k + line_k) * (x - x0).powi(2)) - 1.0).abs()
            < 1e-6
    );
    let run = SystemBreak {
        system: system.clone(),
        lost: vec!["a".to_owned()],
        mass: Mass::from_si(8.0),
        time: 0.05.seconds(),
    };
    let broken = break_in_time(&run).unwrap();
    assert!((broken.peaks[1].tension.si() / peak_n - 1.0).abs() < 1e-4);
    assert!(broken.energy_drift < 1e-6);
    // With everything on, and as the line gets softer, the pull is the whole pull.
    assert_eq!(system_rest(&system).unwrap().pull, system.pull);
    let peak = |line| {
        let losses = system_losses(&AnchorSystem { line, ..system.clone() }, false).unwrap();
        losses.single[0].overshoot.as_ref().unwrap().peaks[0].tension.si()
    };
    let mut last = peak(None);
    for stiffness in [1e3, 1e4, 1e5, 1e6, 1e7] {
        let length = 60.0.meters();
        let less = peak(Some(PullLine { stiffness: Stiffness::from_si(stiffness), length }));
        assert!(less < last, "{stiffness}: {less} {last}");
        last = less;
    }
    let soft = PullLine { stiffness: Stiffness::from_si(200.0), length: 1e4.meters() };
    assert!((peak(Some(soft)) / peak(None) - 1.0).abs() < 1e-3);
    // A slack backup 50 mm off: the line of 22.5 mm of stretch has gone slack before.
    system.legs[1].rest_length = 1.05.meters();
    let loss = &system_losses(&system, false).unwrap().single[0];
    assert!(loss.held && loss.after.as_ref().unwrap().pull[2].si().abs() < 1e-3, "{loss:?}");
}
