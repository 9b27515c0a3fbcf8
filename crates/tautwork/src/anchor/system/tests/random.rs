//! Random systems: SciPy, and properties.

use super::*;

#[derive(serde::Deserialize)]
struct Reference {
    rest: Vec<Case>,
    motion: Vec<Motion>,
}

#[derive(serde::Deserialize)]
struct Case {
    near_m: Vec<[f64; 3]>,
    fixed_m: Vec<[f64; 3]>,
    from: Vec<usize>,
    to: Vec<usize>,
    k_n_per_m: Vec<f64>,
    rest_m: Vec<f64>,
    pull_n: [f64; 3],
    tension_n: Vec<f64>,
}

#[derive(serde::Deserialize)]
struct Motion {
    case: usize,
    lost: usize,
    mass_kg: f64,
    time_s: f64,
    peak_n: Vec<f64>,
    end_m: [f64; 3],
}

impl Case {
    fn system(&self) -> AnchorSystem {
        let junctions = self.near_m.len();
        let name = |i: usize| {
            if i < junctions { format!("j{i}") } else { format!("f{}", i - junctions) }
        };
        let legs = (0..self.from.len()).map(|i| {
            let (from, to) = (name(self.from[i]), name(self.to[i]));
            leg(&format!("leg {i}"), &from, &to, self.rest_m[i], self.k_n_per_m[i])
        });
        AnchorSystem {
            fixed: (0..self.fixed_m.len())
                .map(|i| fixed(&format!("f{i}"), self.fixed_m[i]))
                .collect(),
            junctions: (0..junctions).map(|i| junction(&format!("j{i}"), self.near_m[i])).collect(),
            legs: legs.collect(),
            pull_at: "j0".to_owned(),
            pull: newtons(self.pull_n),
            line: None,
        }
    }
}

fn reference() -> Reference {
    serde_json::from_str(include_str!("../../../../../../tests/reference/system.json")).unwrap()
}

fn norm(v: [f64; 3]) -> f64 {
    v.iter().map(|c| c * c).sum::<f64>().sqrt()
}

/// SciPy: `minimize` of the tension-only energy, sharpened with `root`: tests/reference/system.py.
#[test]
fn rests_where_scipy_finds_the_least_energy() {
    let cases = reference().rest;
    assert_eq!(cases.len(), 300);
    for (i, case) in cases.iter().enumerate() {
        let rest = system_rest(&case.system()).unwrap();
        let pull = norm(case.pull_n);
        for (leg, t) in rest.legs.iter().zip(&case.tension_n) {
            // Tensions over the pull: shares to 1e-8.
            assert!((leg.tension.si() - t).abs() < 1e-8 * pull, "case {i}, {}", leg.name);
        }
        let shares: f64 = rest.legs.iter().filter_map(|l| l.share).map(Quantity::si).sum();
        assert!((shares - 1.0).abs() < 1e-8, "case {i}");
    }
}

#[derive(serde::Deserialize)]
struct LineRun {
    case: usize,
    lost: usize,
    stiffness_n_per_m: f64,
    length_m: f64,
    mass_kg: f64,
    time_s: f64,
    after_n: Vec<f64>,
    peak_n: Vec<f64>,
}

/// SciPy: least energy with the line, and `solve_ivp`: `tests/reference/system_line.py`.
#[test]
fn a_line_that_slackens_pulls_as_scipy_says() {
    let text = include_str!("../../../../../../tests/reference/system_line.json");
    let runs: Vec<LineRun> = serde_json::from_str(text).unwrap();
    assert_eq!(runs.len(), 40);
    let rest = reference().rest;
    for run in runs {
        let case = &rest[run.case];
        let pull_n = norm(case.pull_n);
        let line = PullLine {
            stiffness: Stiffness::from_si(run.stiffness_n_per_m),
            length: run.length_m.meters(),
        };
        let system = AnchorSystem { line: Some(line), ..case.system() };
        let losses = system_losses(&system, false).unwrap();
        let after = losses.single[run.lost].after.as_ref().unwrap();
        let left = |i: &usize| *i != run.lost;
        let found: Vec<f64> = (0..after.legs.len())
            .filter(left)
            .map(|i| after.legs[i].tension.si())
            .chain([norm(after.pull.map(Quantity::si))])
            .collect();
        for (found, want) in found.iter().zip(&run.after_n) {
            assert!((found - want).abs() < 1e-6 * pull_n, "{}: {found} {want}", run.case);
        }
        let shares: f64 = after.legs.iter().filter_map(|l| l.share).map(Quantity::si).sum();
        assert!(run.after_n.last() == Some(&0.0) || (shares - 1.0).abs() < 1e-6, "{}", run.case);
        let broken = break_in_time(&SystemBreak {
            system,
            lost: vec![format!("leg {}", run.lost)],
            mass: Mass::from_si(run.mass_kg),
            time: Time::from_si(run.time_s),
        })
        .unwrap();
        let peaks = (0..broken.peaks.len()).filter(left).map(|i| &broken.peaks[i]);
        let before = (0..case.tension_n.len()).filter(left).map(|i| case.tension_n[i]);
        for ((peak, before), want) in peaks.zip(before).zip(&run.peak_n) {
            let want = want.max(before);
            assert!((peak.tension.si() - want).abs() < 1e-3 * want.max(pull_n), "{}", run.case);
        }
        assert!(broken.energy_drift < 1e-5, "{}: {}", run.case, broken.energy_drift);
    }
}

/// SciPy: `solve_ivp`, DOP853 at 1e-11: tests/reference/system.py.
#[test]
fn moves_as_scipy_says_after_a_loss() {
    let Reference { rest, motion } = reference();
    assert_eq!(motion.len(), 24);
    for run in motion {
        let broken = break_in_time(&SystemBreak {
            system: rest[run.case].system(),
            lost: vec![format!("leg {}", run.lost)],
            mass: Mass::from_si(run.mass_kg),
            time: Time::from_si(run.time_s),
        })
        .unwrap();
        let before = rest[run.case].tension_n.iter();
        let left = broken.peaks.iter().zip(before).enumerate().filter(|(i, _)| *i != run.lost);
        for ((_, (peak, before)), reference) in left.zip(&run.peak_n) {
            // Ours begins before the loss. Both read the peak from samples.
            let reference = reference.max(*before);
            let most = reference.max(norm(rest[run.case].pull_n));
            assert!((peak.tension.si() - reference).abs() < 1e-3 * most, "{}", run.case);
        }
        assert!(broken.energy_drift < 1e-5, "{}: {}", run.case, broken.energy_drift);
        let from = system_rest(&rest[run.case].system()).unwrap().junctions[0].position;
        let pull = rest[run.case].pull_n;
        let way: f64 = (0..3).map(|i| (run.end_m[i] - from[i].si()) * pull[i] / norm(pull)).sum();
        assert!((broken.way_m.last().unwrap() - way).abs() < 1e-5, "{}", run.case);
    }
}

#[test]
fn forces_balance_and_legs_never_push() {
    for case in reference().rest {
        let rest = system_rest(&case.system()).unwrap();
        assert!(rest.legs.iter().all(|l| l.tension.si() >= 0.0));
        for axis in 0..3 {
            let sum: f64 = rest.fixed.iter().map(|f| f.force[axis].si()).sum();
            assert!((sum - case.pull_n[axis]).abs() < 1e-8 * norm(case.pull_n));
        }
    }
}

#[test]
fn a_turned_system_rests_turned() {
    let (s, c) = 0.7_f64.sin_cos();
    let turn = |v: [f64; 3]| [v[2], c * v[0] - s * v[1], s * v[0] + c * v[1]];
    for mut case in reference().rest.into_iter().take(60) {
        let before = system_rest(&case.system()).unwrap();
        case.pull_n = turn(case.pull_n);
        case.near_m.iter_mut().chain(&mut case.fixed_m).for_each(|p| *p = turn(*p));
        let after = system_rest(&case.system()).unwrap();
        for (a, b) in before.legs.iter().zip(&after.legs) {
            assert!((a.tension.si() - b.tension.si()).abs() < 1e-7 * norm(case.pull_n));
        }
    }
}

#[test]
fn a_slack_backup_changes_nothing() {
    for case in reference().rest.into_iter().take(60) {
        let mut system = case.system();
        let before = system_rest(&system).unwrap();
        system.fixed.push(fixed("tree", [0.0, 0.0, 9.0]));
        system.legs.push(leg("backup", "tree", "j0", 30.0, 1e6));
        let after = system_rest(&system).unwrap();
        assert!(after.legs.last().unwrap().slack);
        for (a, b) in before.legs.iter().zip(&after.legs) {
            assert!((a.tension.si() - b.tension.si()).abs() < 1e-7 * norm(case.pull_n));
        }
    }
}

// Least energy over fewer legs is less, so the energy set free is never below zero, and the pull never goes up.
#[test]
fn a_loss_frees_energy() {
    for case in reference().rest.into_iter().take(40) {
        let system = case.system();
        let losses = system_losses(&system, false).unwrap();
        for loss in losses.single.iter().filter(|l| l.held) {
            assert!(loss.energy_released.unwrap().si() >= 0.0);
            assert!(loss.extension.unwrap().si() > -1e-6);
            let after = loss.after.as_ref().unwrap();
            // The legs that are left take what was lost, unless it pulled against them.
            let of = |r: &SystemRest| -> f64 {
                let others = r.legs.iter().zip(&system.legs);
                let lost = |l: &SystemLeg| loss.lost.iter().any(|n| *n == l.name || *n == l.to);
                others
                    .filter(|(_, l)| !lost(l))
                    .filter_map(|(l, _)| l.share)
                    .map(Quantity::si)
                    .sum()
            };
            assert!(of(after) - of(&losses.before) > -1e-7 || of(&losses.before) > 1.0);
            let sum: f64 = after.legs.iter().filter_map(|l| l.share).map(Quantity::si).sum();
            assert!((sum - 1.0).abs() < 1e-7);
        }
    }
}

/// The greatest tension by integration is that by energy where the motion is along the straight way: one leg of two left.
#[test]
fn energy_and_motion_agree_where_the_way_is_straight() {
    for (k, slack_m) in [(1e5, 0.0), (3e5, 0.05), (2e4, 0.2)] {
        let system = AnchorSystem {
            fixed: vec![fixed("bolt", [0.0, 0.0, 1.0]), fixed("tree", [0.0, 0.0, 3.0])],
            junctions: vec![junction("master", [0.0; 3]), junction("between", [0.0, 0.0, 1.0])],
            legs: vec![
                leg("a", "bolt", "master", 1.0, 1e5),
                leg("b", "tree", "between", 1.0, k),
                leg("c", "between", "master", 2.0 + slack_m, 2.0 * k),
            ],
            pull_at: "master".to_owned(),
            pull: newtons([0.0, 0.0, -4000.0]),
            line: None,
        };
        let jerk = system_losses(&system, false).unwrap().single[0].overshoot.clone().unwrap();
        let run = SystemBreak {
            system,
            lost: vec!["a".to_owned()],
            mass: 30.0.kilograms(),
            time: 1.0.seconds(),
        };
        let broken = break_in_time(&run).unwrap();
        for (leg, peak) in jerk.peaks.iter().zip(&broken.peaks[1..]) {
            assert!((leg.tension / peak.tension).si() > 1.0 - 1e-9);
            assert!((leg.tension / peak.tension).si() < 1.0 + 1e-4, "{}", leg.name);
        }
        assert!((jerk.extension.si() / broken.extension.si() - 1.0).abs() < 1e-4);
        assert!(broken.energy_drift < 1e-6, "{}", broken.energy_drift);
    }
}
