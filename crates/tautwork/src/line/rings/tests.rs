use proptest::prelude::*;

use crate::line::*;
use crate::material::Stretch;
use crate::quantity::*;

fn line(name: &str, halves_m: [f64; 2], far_m: [f64; 3], mass: f64, ea_n: f64) -> BundleLine {
    BundleLine {
        name: name.to_owned(),
        near: [0.0.meters(); 3],
        far: far_m.map(Words::meters),
        near_length: halves_m[0].meters(),
        far_length: halves_m[1].meters(),
        weight: (mass * GRAVITY).newtons_per_meter(),
        stretch: Stretch::axial_rigidity(ea_n.newtons()).unwrap(),
    }
}

fn slides(line: BundleLine, friction: f64) -> RingLine {
    RingLine { line, hold: RingHold::Slides { friction: friction.ratio(), from: None, to: None } }
}

fn tied(line: BundleLine) -> RingLine {
    RingLine { line, hold: RingHold::Tied }
}

fn load(x: f64, y: f64, z: f64) -> [Force; 3] {
    [x, y, z].map(Words::newtons)
}

/// The demo gear with the main tied and the rest running through the ring.
fn demo(friction: f64) -> Vec<RingLine> {
    let far = [130.0, 0.0, -3.0];
    let half = |l: f64, off: f64| [0.5 * l + off, 0.5 * l - off];
    vec![
        tied(line("main", half(127.74, 0.0), far, 0.068, 2.5e5)),
        slides(line("backup", half(132.4, 0.6), far, 0.060, 1.4e5), friction),
        slides(line("rope 1", half(133.2, -0.8), far, 0.072, 3e4), friction),
        tied(line("rope 2", half(133.8, 0.0), far, 0.072, 3e4)),
    ]
}

fn ring(state: &RingsState) -> [f64; 3] {
    state.bundle.ring.map(Quantity::si)
}

/// A loop that hardly stretches: both sides make one angle with the vertical, sin φ = span / length
/// (statics of a pulley on a rope, textbook geometry).
#[test]
fn a_free_pulley_makes_equal_angles() {
    let (span, rise, length) = (6.0, 1.5, 10.0);
    for start in [2.0, 5.0, 8.5] {
        let lines = [slides(line("l", [start, length - start], [span, 0.0, rise], 0.0, 1e9), 0.0)];
        let here = solve_rings(&lines, load(0.0, 0.0, -1000.0)).unwrap().here;
        let cos = (1.0 - (span / length) * (span / length)).sqrt();
        let near = 0.5 * (length - rise / cos);
        assert!((here.holds[0].near_length.si() - near).abs() < 1e-5, "{start} {here:?}");
        assert!((ring(&here)[2] + near * cos).abs() < 1e-5);
        let tension = 1000.0 / (2.0 * cos);
        assert!((here.bundle.lines[0].tension_near.si() / tension - 1.0).abs() < 1e-6);
        assert_eq!(here.holds[0].kind, RingHoldKind::Limit);
    }
}

/// At the ends of the range the tensions stand as e^(μθ), with θ from the place of the ring.
#[test]
fn friction_ends_at_the_capstan_ratio() {
    let mu = 0.15;
    let lines = [slides(line("l", [5.0, 5.0], [6.0, 0.0, 0.0], 0.0, 1e9), mu)];
    let solved = solve_rings(&lines, load(0.0, 0.0, -1000.0)).unwrap();
    assert_eq!(solved.here.holds[0].kind, RingHoldKind::Friction);
    for (state, sign) in [(&solved.toward_near, 1.0), (&solved.toward_far, -1.0)] {
        let [x, _, z] = ring(state);
        let theta = std::f64::consts::PI - (x / -z).atan() - ((6.0 - x) / -z).atan();
        let l = &state.bundle.lines[0];
        let ratio = (l.tension_ring_near.si() / l.tension_ring_far.si()).ln();
        assert!((ratio - sign * mu * theta).abs() < 1e-7, "{ratio} {theta}");
        // Horizontal balance of a weight on the ring.
        let across = l.tension_near.si() * x / x.hypot(z);
        assert!((across - l.tension_far.si() * (6.0 - x) / (6.0 - x).hypot(z)).abs() < 1e-4);
    }
    let (near, far) = (ring(&solved.toward_near), ring(&solved.toward_far));
    assert!(near[0] < 3.0 && (near[0] + far[0] - 6.0).abs() < 1e-6);
    assert!((solved.range.si() - (far[0] - near[0])).abs() < 1e-6);
}

#[test]
fn without_friction_there_is_one_rest_and_the_start_does_not_matter() {
    let lines = demo(0.0);
    let solved = solve_rings(&lines, load(100.0, 50.0, -3000.0)).unwrap();
    assert!(solved.range.si() < 1e-5, "{:?}", solved.range);
    for l in [1, 2] {
        let state = &solved.here.bundle.lines[l];
        let (near, far) = (state.tension_ring_near.si(), state.tension_ring_far.si());
        assert!((near / far - 1.0).abs() < 1e-6, "{near} {far}");
    }
    let mut moved = lines.clone();
    moved[1].line.near_length += 3.0.meters();
    moved[1].line.far_length -= 3.0.meters();
    let again = solve_rings(&moved, load(100.0, 50.0, -3000.0)).unwrap();
    for axis in 0..3 {
        assert!((ring(&again.here)[axis] - ring(&solved.here)[axis]).abs() < 1e-5);
    }
}

#[test]
fn much_friction_holds_like_a_knot() {
    let lines = demo(50.0);
    let plain: Vec<_> = lines.iter().map(|l| l.line.clone()).collect();
    let force = load(200.0, -100.0, -4000.0);
    let here = solve_rings(&lines, force).unwrap().here;
    let knot = solve_bundle(&plain, force).unwrap();
    assert_eq!(here.bundle.ring, knot.ring);
    assert_eq!(here.holds[1].kind, RingHoldKind::Friction);
}

#[test]
fn friction_widens_the_range() {
    let range = |mu: f64| solve_rings(&demo(mu), load(0.0, 0.0, -3000.0)).unwrap().range.si();
    let all = [0.0, 0.05, 0.1, 0.2].map(range);
    assert!(all.is_sorted_by(|a, b| a < b), "{all:?}");
}

/// A ring that runs freely on one line only is held by its stops.
#[test]
fn stops_take_what_friction_does_not() {
    let (near, far) = (4.9.meters(), 5.2.meters());
    let hold = RingHold::Slides { friction: 0.05.ratio(), from: Some(near), to: Some(far) };
    let lines = [RingLine { line: line("l", [5.0, 5.0], [6.0, 0.0, 0.0], 0.0, 1e9), hold }];
    for (x, kind, at) in
        [(-800.0, RingHoldKind::NearStop, near), (800.0, RingHoldKind::FarStop, far)]
    {
        let solved = solve_rings(&lines, load(x, 0.0, -1000.0)).unwrap();
        let hold = &solved.here.holds[0];
        assert_eq!((hold.kind, hold.near_length), (kind, at));
        let l = &solved.here.bundle.lines[0];
        let (tn, tf) = (l.tension_ring_near.si(), l.tension_ring_far.si());
        let rest = tn.max(tf) * (-0.05 * hold.wrap.si()).exp() - tn.min(tf);
        assert!(rest > 100.0 && (hold.stop_force.si() - rest).abs() < 1e-6);
    }
    let middle = solve_rings(&lines, load(0.0, 0.0, -1000.0)).unwrap();
    assert_eq!(middle.here.holds[0].stop_force.si(), 0.0);
    // Stops bound the range, too.
    let steep = [slides(lines[0].line.clone(), 0.5)];
    let free = solve_rings(&steep, load(0.0, 0.0, -1000.0)).unwrap().range;
    assert!(middle.range < free);
}

/// Ring and lines pulled a little: the stiffness of Eq. (R6) tells where the ring goes.
#[test]
fn sliding_stiffness_is_the_slope() {
    let lines = demo(0.0);
    let at = |f: [f64; 3]| {
        let state = solve_rings(&lines, load(150.0 + f[0], 80.0 + f[1], -3000.0 + f[2])).unwrap();
        state.here
    };
    let k = at([0.0; 3]).stiffness_sliding;
    let held = at([0.0; 3]).bundle.stiffness;
    assert!(k[0].0[0] < held[0].0[0]);
    for axis in 0..3 {
        let mut step = [0.0; 3];
        step[axis] = 1.0;
        let (plus, minus) = (ring(&at(step)), ring(&at(step.map(|f| -f))));
        let moved: Vec<f64> = (0..3).map(|i| 0.5 * (plus[i] - minus[i])).collect();
        for (i, row) in k.iter().enumerate() {
            let force: f64 = (0..3).map(|j| row.0[j].si() * moved[j]).sum();
            assert!((force - step[i]).abs() < 2e-3, "{axis} {i}: {force}");
        }
    }
}

#[test]
fn a_sweep_remembers_where_the_ring_was_drawn() {
    let mut lines = demo(0.1);
    lines[0] = slides(lines[0].line.clone(), 0.1);
    let down = load(0.0, 0.0, -2000.0);
    let steps = sweep_rings(&lines, &[down, load(1500.0, 0.0, -2000.0), down]).unwrap();
    let back = ring(&steps[2])[0] - ring(&steps[0])[0];
    let range = solve_rings(&lines, down).unwrap();
    assert!(back > 0.1, "{back}");
    let [near, far] = [&range.toward_near, &range.toward_far].map(|s| ring(s)[0]);
    assert!(ring(&steps[2])[0] <= far + 1e-6 && ring(&steps[2])[0] >= near - 1e-6);
}

#[test]
fn the_loss_of_a_line_never_unloads_the_rest() {
    let lines = demo(0.1);
    let found = ring_losses(&lines, load(0.0, 0.0, -4000.0)).unwrap();
    // Common practice, no source: a tight main carries over nine tenths of the catch.
    assert!(found.whole.bundle.lines[0].share.si() > 0.9);
    let without_main = found.losses[0].after.as_ref().unwrap();
    assert!(found.losses[0].drop.si() > 1.0);
    assert!(without_main.bundle.lines[0].share.si() > 0.5);
    for loss in &found.losses {
        let after = loss.after.as_ref().unwrap();
        // A slack line hangs from the ring: without its 10 N the ring rises by 10 N over 760 N/m.
        assert!(loss.drop.si() > -0.02, "{loss:?}");
        let up: f64 = after.bundle.lines.iter().map(|l| l.pull_ring[2].si()).sum();
        assert!((up - 4000.0).abs() < 1e-4);
    }
    // A slack line that is not reached changes next to nothing but its own weight.
    assert!(found.losses[3].drop.si().abs() < 0.1);
}

proptest! {
    #[test]
    fn any_ring_gives_an_answer_or_an_error(
        friction in prop_oneof![0.0..0.5_f64, Just(-1.0), Just(f64::NAN), Just(1e300)],
        near in prop_oneof![1.0..100.0, Just(0.0), Just(f64::NAN), Just(1e-300)],
        far in prop_oneof![1.0..100.0, Just(f64::INFINITY), Just(1e300)],
        stop in prop_oneof![Just(None), (0.0..120.0).prop_map(Some), Just(Some(f64::NAN))],
        mass in prop_oneof![Just(0.0), 0.01..0.2, Just(f64::NAN)],
        down in prop_oneof![0.0..5e3_f64, Just(f64::NAN), Just(1e308)],
    ) {
        let to = stop.map(|x: f64| x.meters());
        let hold = RingHold::Slides { friction: friction.ratio(), from: None, to };
        let l = line("l", [near, far], [60.0, 0.0, -2.0], mass, 5e4);
        let lines = [RingLine { line: l.clone(), hold }, tied(line("m", [31.0, 31.0], [60.0, 0.0, -2.0], 0.05, 2e5))];
        if let Ok(solved) = solve_rings(&lines, load(0.0, 0.0, -down)) {
            for state in [&solved.here, &solved.toward_near, &solved.toward_far] {
                prop_assert!(ring(state).iter().all(|x| x.is_finite()));
            }
        }
    }
}
