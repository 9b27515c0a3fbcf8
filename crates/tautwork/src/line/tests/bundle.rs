use crate::line::bundle::Bundle;
use crate::line::*;
use crate::material::Stretch;
use crate::quantity::*;

/// The demo gear: main, backup and two backup ropes over 130 m, the far anchor 3 m lower.
fn demo(main_rest_m: f64) -> Vec<BundleLine> {
    let line = |name: &str, rest_m: f64, mass: f64, ea: f64| BundleLine {
        name: name.to_owned(),
        near: [0.0.meters(); 3],
        far: [130.0.meters(), 0.0.meters(), (-3.0).meters()],
        near_length: (0.5 * rest_m).meters(),
        far_length: (0.5 * rest_m).meters(),
        weight: (mass * GRAVITY).newtons_per_meter(),
        stretch: Stretch::axial_rigidity(ea.newtons()).unwrap(),
    };
    vec![
        line("main", main_rest_m, 0.068, 2.5e5),
        line("backup", 132.4, 0.060, 1e4 / 0.071),
        line("rope 1", 133.2, 0.072, 981.0 / 0.033),
        line("rope 2", 133.8, 0.072, 981.0 / 0.033),
    ]
}

fn down(n: f64) -> [Force; 3] {
    [0.0.newtons(), 0.0.newtons(), (-n).newtons()]
}

/// Rest position of two mirror-image elastic legs by bisection on the vertical balance, independent of
/// the solver.
#[test]
fn weightless_legs_match_a_bisection() {
    // LIN-03: two lines of 30 and 90 kN over 50 m, both at 2 kN, 1000 N in the middle: 2.6815 m
    // (derived, not published).
    let leg = |name: &str, ea: f64| BundleLine {
        name: name.to_owned(),
        near: [0.0.meters(); 3],
        far: [50.0.meters(), 0.0.meters(), 0.0.meters()],
        near_length: (25.0 / (1.0 + 2000.0 / ea)).meters(),
        far_length: (25.0 / (1.0 + 2000.0 / ea)).meters(),
        weight: 0.0.newtons_per_meter(),
        stretch: Stretch::axial_rigidity(ea.newtons()).unwrap(),
    };
    let lines = [leg("a", 3e4), leg("b", 9e4)];
    let solved = solve_bundle(&lines, down(1000.0)).unwrap();
    let balance = |d: f64| -> f64 {
        let length = f64::hypot(25.0, d);
        let up = |ea: f64| {
            let rest = 25.0 / (1.0 + 2000.0 / ea);
            2.0 * ea * (length / rest - 1.0) * d / length
        };
        up(3e4) + up(9e4) - 1000.0
    };
    let (mut low, mut high) = (0.0, 10.0);
    for _ in 0..100 {
        let mid = 0.5 * (low + high);
        if balance(mid) < 0.0 { low = mid } else { high = mid }
    }
    assert!((solved.ring[2].si() + low).abs() < 1e-9, "{:?} {low}", solved.ring);
}

/// The target of the invented demo rig, solved by independent planar scripts: within 10 %.
#[test]
fn the_demo_bundle_matches_its_target() {
    let main = solve_elastic(&ElasticLine {
        span: 130.0.meters(),
        rise: (-3.0).meters(),
        rest_length: 127.74.meters(),
        weight: (0.068 * GRAVITY).newtons_per_meter(),
        stretch: Stretch::axial_rigidity(2.5e5.newtons()).unwrap(),
    })
    .unwrap();
    assert!((main.tension_near.si() / 4500.0 - 1.0).abs() < 0.02, "{:?}", main.tension_near);
    // The target's sweep belongs to a main with 4 kN of standing tension.
    let lines = demo(128.07);
    let sweep = sweep_bundle(&lines, &[2e3, 4e3, 6e3].map(down)).unwrap();
    let want = [(-11.5, 7.0), (-15.1, 9.5), (-17.3, 11.4)];
    for (step, (z, main)) in sweep.iter().zip(want) {
        assert!((step.ring[2].si() / z - 1.0).abs() < 0.1, "{:?} {z}", step.ring);
        assert!((step.lines[0].tension_near.si() / (1e3 * main) - 1.0).abs() < 0.1);
        assert!(step.residual.si() < 1e-9);
    }
    // Common practice, no source: the tight main carries over 90 % of the catch.
    assert!(sweep[1].lines[0].share.si() > 0.9);
    let begins = bundle_engagement(&lines, 10.0.kilonewtons()).unwrap();
    // The target calls 2.5 kN "near the beginning" without a definition. Ours: halves drawn straight.
    let backup = begins[1].load.unwrap().in_kilonewtons();
    assert!((2.0..4.0).contains(&backup), "{backup}");
    assert!(sweep[0].lines[1].share.si() < 0.0 && sweep[1].lines[1].share.si() > 0.0);
    assert_eq!(begins[0].load, Some(0.0.newtons()));
    assert!(begins[1].load < begins[2].load && begins[2].load < begins[3].load);
}

/// The ring under 6 kN by SciPy's hybrid method on asinh catenaries (`bundle_sweep` of
/// `benches/python/line.py`).
#[test]
fn the_ring_rests_where_scipy_finds_it() {
    let mut lines = demo(127.74);
    for (line, ea) in lines.iter_mut().zip([2.5e5, 1.4e5, 3e4, 3e4]) {
        line.stretch = Stretch::axial_rigidity(ea.newtons()).unwrap();
    }
    let solved = solve_bundle(&lines, down(6000.0)).unwrap();
    assert!((solved.ring[0].si() - 64.654_142_37).abs() < 1e-7, "{:?}", solved.ring);
    assert!((solved.ring[2].si() + 17.003_532_95).abs() < 1e-7, "{:?}", solved.ring);
}

#[test]
fn lines_balance_load_and_weight() {
    let lines = demo(127.74);
    let load = [300.0.newtons(), (-200.0).newtons(), (-3000.0).newtons()];
    let solved = solve_bundle(&lines, load).unwrap();
    for (axis, force) in load.iter().enumerate() {
        let pull: f64 = solved.lines.iter().map(|l| l.pull_ring[axis].si()).sum();
        assert!((pull + force.si()).abs() < 1e-5);
        // Anchors carry the load and, downwards, the weight of the lines.
        let anchors: f64 =
            solved.lines.iter().map(|l| l.pull_near[axis].si() + l.pull_far[axis].si()).sum();
        let weight = 9.81 * (127.74 * 0.068 + 132.4 * 0.060 + (133.2 + 133.8) * 0.072);
        let want = force.si() - if axis == 2 { weight } else { 0.0 };
        assert!((anchors - want).abs() < 1e-5, "{axis}: {anchors} {want}");
    }
    let shares: f64 = solved.lines.iter().map(|l| l.share.si()).sum();
    assert!((shares - 1.0).abs() < 1e-12);
}

#[test]
fn stiffness_is_the_derivative_of_the_load() {
    let lines = demo(127.74);
    let at = |load: [f64; 3]| {
        let s = solve_bundle(&lines, load.map(Force::from_si)).unwrap();
        (s.ring.map(Quantity::si), s.stiffness)
    };
    let (_, k) = at([50.0, 30.0, -3500.0]);
    for j in 0..3 {
        let mut up = [50.0, 30.0, -3500.0];
        let mut low = up;
        up[j] += 0.5;
        low[j] -= 0.5;
        let (a, b) = (at(up).0, at(low).0);
        // K (dx) = dF: one newton in direction j.
        for (i, row) in k.iter().enumerate() {
            let force: f64 = (0..3).map(|c| row.0[c].si() * (a[c] - b[c])).sum();
            let want = if i == j { 1.0 } else { 0.0 };
            assert!((force - want).abs() < 1e-3, "{i} {j}: {force}");
        }
    }
}

#[test]
fn a_slack_backup_without_weight_changes_nothing() {
    let mut lines = demo(127.74);
    lines.truncate(1);
    let alone = solve_bundle(&lines, down(1500.0)).unwrap();
    let mut extra = lines[0].clone();
    extra.name = "spare".to_owned();
    extra.weight = 0.0.newtons_per_meter();
    extra.near_length = 70.0.meters();
    extra.far_length = 70.0.meters();
    lines.push(extra);
    let with = solve_bundle(&lines, down(1500.0)).unwrap();
    assert!((alone.ring[2].si() - with.ring[2].si()).abs() < 1e-8);
    assert_eq!(with.lines[1].tension_near.si(), 0.0);
}

/// Sag and lowest point of a loose line against a fine profile of it.
#[test]
fn sags_are_the_deepest_points_of_the_profile() {
    let lines = demo(127.74);
    let mut bundle = Bundle::new(&lines).unwrap();
    let solved = bundle.solve(down(900.0)).unwrap();
    for (i, line) in solved.lines.iter().enumerate() {
        let profile = bundle.profile_m(i, 4000);
        let (mut sag, mut low) = (0.0_f64, 0.0_f64);
        for p in profile {
            sag = sag.max(p.x * (-3.0 / 130.0) - p.z);
            low = low.min(p.z);
        }
        assert!((line.sag_below_chord.si() - sag).abs() < 1e-5, "{sag} {line:?}");
        assert!((line.sag_below_near.si() + low).abs() < 1e-5, "{low} {line:?}");
    }
}

#[test]
fn wrong_bundles_say_why() {
    let mut lines = demo(127.74);
    lines[2].far_length = 0.0.meters();
    let error = solve_bundle(&lines, down(1.0)).unwrap_err().to_string();
    assert_eq!(error, "lines[2].far_length is 0 m; it must be above zero");
    let nan = solve_bundle(&demo(127.74), down(f64::NAN)).unwrap_err().to_string();
    assert!(nan.starts_with("load is NaN N"), "{nan}");
    assert!(bundle_engagement(&demo(127.74), 0.0.newtons()).is_err());
}

/// Saddle net of crossing prestressed lines is the classic net problem; here the plane cross: the
/// cubic law of a flat weightless line with a central load, LIN-02 (Timoshenko, from memory).
#[test]
fn a_flat_line_without_tension_follows_the_cubic_law() {
    let (span, ea, load) = (30.0, 3e4, 800.0);
    let line = BundleLine {
        name: "line".to_owned(),
        near: [0.0.meters(); 3],
        far: [span.meters(), 0.0.meters(), 0.0.meters()],
        near_length: 15.0.meters(),
        far_length: 15.0.meters(),
        weight: 0.0.newtons_per_meter(),
        stretch: Stretch::axial_rigidity(ea.newtons()).unwrap(),
    };
    let solved = solve_bundle(std::slice::from_ref(&line), down(load)).unwrap();
    assert!((-solved.ring[2].si() - 4.582_89).abs() < 5e-6, "{:?}", solved.ring);
    assert!((solved.lines[0].tension_near.si() - 1368.96).abs() < 5e-3);
    // Leading order for a small load.
    let small = solve_bundle(&[line], down(0.01)).unwrap();
    let cubic = span * (0.01 / (8.0 * ea)).cbrt();
    assert!((-small.ring[2].si() / cubic - 1.0).abs() < 1e-3);
}
