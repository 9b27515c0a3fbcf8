//! Rings that slide along lines.

use super::*;
use crate::line::{BundleLine, RingHold, RingLine, solve_rings};

fn slide(line: &str, friction: f64) -> Slide {
    Slide { line: line.into(), friction: friction.ratio(), from: None, to: None }
}

/// A heavy ring alone on a level line of 20.4 m over 20 m, with a body that falls elsewhere.
fn bead(density: f64, near: f64) -> Jump {
    let mut jump = plain(at(50.0, 1e6), 1.0, 1.0);
    jump.fixed_ring = None;
    jump.ring_mass = 100.0.kilograms();
    jump.ropes.clear();
    jump.lines = vec![Line {
        name: "line".into(),
        near: at(-10.0, 0.0),
        far: at(10.0, 0.0),
        near_length: near.meters(),
        far_length: (20.4 - near).meters(),
        linear_density: density.kilograms_per_meter(),
        stretch: crate::material::Stretch::axial_rigidity(2.0.meganewtons()).unwrap(),
    }];
    jump.follow.sample_every = 1e-3.seconds();
    jump
}

// A bead on a light line that does not stretch runs on an ellipse with the anchors as its foci; about its
// lowest point it swings at ω² = g b / a² (curvature b / a² of the ellipse there; derived).
#[test]
fn a_bead_swings_on_its_ellipse() {
    let mesh = |friction: f64, nodes| Mesh { slides: vec![slide("line", friction)], ..mesh(nodes) };
    let mut jump = bead(0.0, 10.2);
    jump.follow.horizon = 1e-3.seconds();
    let rest = fly_full(&jump, &mesh(0.0, 1)).unwrap().ring.start;
    let a = 10.2 * (1.0 + 100.0 * 9.81 / (2.0 * 2e6 * (rest.z.si().abs() / 10.2)));
    let b = (a * a - 100.0_f64).sqrt();
    assert!((rest.z.si() + b).abs() < 1e-3 && rest.x.si().abs() < 1e-6);
    let exact = 2.0 * core::f64::consts::PI * (a * a / (9.81 * b)).sqrt();
    let aside = 0.2;
    jump.ring_at_exit = Some(at(aside, -b * (1.0 - (aside / a) * (aside / a)).sqrt()));
    jump.follow.horizon = 40.0.seconds();
    for (density, nodes) in [(0.0, 1), (0.05, 16)] {
        jump.lines[0].linear_density = density.kilograms_per_meter();
        let flight = fly_full(&jump, &mesh(0.0, nodes)).unwrap();
        let passes = rises(&flight.series.t_s, &flight.series.ring_x_m, 0.0);
        let period = (passes[passes.len() - 1] - passes[0]) / (passes.len() - 1) as f64;
        println!("{density} kg/m: period {period:.4} s, ellipse {exact:.4} s");
        assert!((period / exact - 1.0).abs() < 5e-3);
        let slid = flight.lines[0].slid.as_ref().unwrap();
        assert!(slid.travel.si() > 6.0 * aside && slid.lost.si() == 0.0);
        assert!(flight.energy.drift.si() < 1e-3);
    }
}

// The rest of the full model is that of the static solver, with friction as without.
#[test]
fn a_sliding_ring_rests_where_statics_has_it() {
    for (friction, near) in [(0.0, 6.0), (0.15, 6.0), (0.15, 10.0), (0.1, 15.0)] {
        let jump = bead(0.1, near);
        let l = &jump.lines[0];
        let ring_line = RingLine {
            line: BundleLine {
                name: "line".into(),
                near: [l.near.x, l.near.y, l.near.z],
                far: [l.far.x, l.far.y, l.far.z],
                near_length: l.near_length,
                far_length: l.far_length,
                weight: (0.1 * 9.81).newtons_per_meter(),
                stretch: l.stretch.clone(),
            },
            hold: RingHold::Slides { friction: friction.ratio(), from: None, to: None },
        };
        let load = [0.0, 0.0, -981.0].map(Words::newtons);
        let want = solve_rings(&[ring_line], load).unwrap().here.bundle.ring;
        let off = [20, 80].map(|nodes| {
            let mut jump = jump.clone();
            jump.follow.horizon = 1e-3.seconds();
            let mesh = Mesh { slides: vec![slide("line", friction)], ..mesh(nodes) };
            let got = fly_full(&jump, &mesh).unwrap().ring.start;
            (got.x.si() - want[0].si()).hypot(got.z.si() - want[2].si())
        });
        println!("friction {friction} from {near} m: off by {off:?} m");
        assert!(off[0] < 0.06 && off[1] < 0.02, "{off:?}");
    }
}

// Friction takes all of the motion, and leaves the ring where it holds it: T₁ / T₂ within e^(μ θ).
#[test]
fn friction_stops_the_ring_within_its_cone() {
    let mut jump = bead(0.0, 10.2);
    let (a, b) = (10.2_f64, (10.2_f64 * 10.2 - 100.0).sqrt());
    jump.ring_at_exit = Some(at(4.0, -b * (1.0 - (4.0 / a) * (4.0 / a)).sqrt()));
    // Some damping stills the bounce on the line, which would hide what friction does.
    jump.ring_damping = Some(300.0.newton_seconds_per_meter());
    jump.follow.horizon = 30.0.seconds();
    let mesh = Mesh { slides: vec![slide("line", 0.05)], ..mesh(1) };
    let flight = fly_full(&jump, &mesh).unwrap();
    let line = &flight.lines[0];
    let s = &flight.series;
    let last = s.t_s.len() - 1;
    let (near, far) = (s.line_near_tension_n[0][last], s.line_far_tension_n[0][last]);
    let (x, z) = (s.ring_x_m[last], s.ring_z_m[last]);
    let turn = (-z / (x + 10.0)).atan() + (-z / (10.0 - x)).atan();
    println!("rests at {x:.3} m with {near:.0} and {far:.0} N, turn {turn:.3}");
    assert!((near / far).ln().abs() <= 0.05 * turn + 1e-2);
    let lost = line.slid.as_ref().unwrap().lost.si();
    let (free, held) = (flight.energy.from_height.si(), flight.energy.lost_to_friction.si());
    assert!(lost == held && lost > 10.0, "{lost} {free}");
    assert!(flight.energy.drift.si() < 1e-3);
}

/// The demo rig with its main line running through the ring.
fn sliding(friction: f64, nodes: usize) -> FullFlight {
    let mut jump = demo();
    jump.walls.clear();
    jump.lines.truncate(2);
    jump.follow.horizon = 6.0.seconds();
    let mesh = Mesh { slides: vec![slide("main", friction)], ..mesh(nodes) };
    fly_full(&jump, &mesh).unwrap()
}

#[test]
fn much_friction_is_a_knot() {
    let held = sliding(10.0, 30);
    let mut jump = demo();
    jump.walls.clear();
    jump.lines.truncate(2);
    jump.follow.horizon = 6.0.seconds();
    let tied = fly_full(&jump, &mesh(30)).unwrap();
    assert_eq!(held.lines[0].slid.as_ref().unwrap().travel.si(), 0.0);
    assert!((held.resultant.value.si() / tied.resultant.value.si() - 1.0).abs() < 1e-3);
    assert!((held.lowest.value.si() - tied.lowest.value.si()).abs() < 0.02);
}

// The bead runs over many masses of a line that is not light: what they lose in passing falls with the mesh.
#[test]
fn masses_that_pass_lose_less_on_a_finer_mesh() {
    let mut jump = bead(0.5, 10.2);
    let (a, b) = (10.2_f64, (10.2_f64 * 10.2 - 100.0).sqrt());
    jump.ring_at_exit = Some(at(5.0, -b * (1.0 - (5.0 / a) * (5.0 / a)).sqrt() - 1e-3));
    jump.follow.horizon = 15.0.seconds();
    let lost = [20, 40, 80].map(|nodes| {
        let mesh = Mesh { slides: vec![slide("line", 0.0)], ..mesh(nodes) };
        let flight = fly_full(&jump, &mesh).unwrap();
        let slid = flight.lines[0].slid.as_ref().unwrap();
        assert!(slid.greatest.si() - slid.least.si() > 5.0, "{slid:?}");
        let swing_j =
            100.0 * 9.81 * (flight.ring.highest.value.si() - flight.ring.lowest.value.si());
        let first = &flight.series.ring_x_m;
        let back = first.iter().rev().take(5000).fold(0.0_f64, |m, x| m.max(*x));
        println!(
            "{nodes} nodes: lost {:.3} of {swing_j:.1} J, back to {back:.3} m, drift {:.1e}",
            flight.energy.lost_in_passing.si(),
            flight.energy.drift.si()
        );
        flight.energy.lost_in_passing.si().abs() / swing_j
    });
    assert!(lost[2] < lost[0] && lost[2] < 0.02, "{lost:?}");
}

// The figures of a ring that slides settle with the mesh.
#[test]
fn a_ring_that_slides_settles_with_the_mesh() {
    let flights = [20, 40, 80].map(|nodes| sliding(0.0, nodes));
    let travel = flights.each_ref().map(|f| f.lines[0].slid.as_ref().unwrap().travel.si());
    let passed =
        flights.each_ref().map(|f| f.energy.lost_in_passing.si() / f.energy.from_height.si());
    let peak = flights.each_ref().map(|f| f.resultant.value.si());
    let low = flights.each_ref().map(|f| f.lowest.value.si());
    println!("travel {travel:?} m, passed {passed:?}, peak {peak:?} N, lowest {low:?} m");
    assert!(travel[2] > 1.0);
    assert!(passed[2].abs() < 5e-3, "{passed:?}");
    assert!((peak[1] / peak[2] - 1.0).abs() < 0.01 && (low[1] - low[2]).abs() < 0.1);
}

#[test]
fn a_stop_keeps_the_ring() {
    let mut jump = bead(0.0, 10.2);
    jump.ring_at_exit = Some(at(3.0, -1.9));
    jump.follow.horizon = 10.0.seconds();
    let from = Some(9.0.meters());
    let mesh = Mesh { slides: vec![Slide { from, ..slide("line", 0.0) }], ..mesh(1) };
    let flight = fly_full(&jump, &mesh).unwrap();
    let slid = flight.lines[0].slid.as_ref().unwrap();
    assert!((slid.least.si() - 9.0).abs() < 1e-9, "{slid:?}");
    assert!(flight.series.ring_x_m.iter().any(|x| *x < -0.5));
}

#[test]
fn wrong_slides_say_why() {
    let says = |slides: Vec<Slide>, part: &str| {
        let error =
            fly_full(&bead(0.1, 10.0), &Mesh { slides, ..mesh(8) }).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    };
    says(vec![slide("no", 0.0)], "mesh.slides[0].line: no line has this name");
    says(vec![slide("line", f64::NAN)], "mesh.slides[0].friction is NaN");
    says(vec![slide("line", 0.0), slide("line", 0.0)], "mesh.slides[1].line");
    let to = Some(8.0.meters());
    says(vec![Slide { to, ..slide("line", 0.0) }], "between the stops");
}
