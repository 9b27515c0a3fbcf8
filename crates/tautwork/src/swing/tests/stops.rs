//! Stops of the ring, anchors, and what is left below.

use super::super::course::{Course, run};
use super::super::figure::Figure;
use super::super::model::{self, BODY, Model, RING, RingMass, SPEED};
use super::super::rope;
use super::super::setup::set_up;
use super::super::support::{Nothing, Spring};
use super::*;

fn stop(name: &str, x: f64, travel: f64, response: Response) -> Stop {
    Stop { name: name.into(), anchor: at(x, -1.5), travel: travel.meters(), response }
}

/// The demo jump, its ring between two stops.
fn stopped(travel: f64) -> Jump {
    let mut jump = demo();
    jump.walls.clear();
    jump.follow.horizon = 20.0.seconds();
    let response = || Response::Solid {
        long_term: 20.0.kilonewtons(),
        arm: 20.0.kilonewtons(),
        relaxation_low: 0.02.seconds(),
        relaxation_high: 0.02.seconds(),
    };
    jump.stops = vec![
        stop("near stop", 0.0, travel, response()),
        stop("far stop", 130.0, travel, response()),
    ];
    jump
}

/// The same on lines that sag so much that the ring moves freely along the span, stops level with it.
fn sagging(travel: f64) -> Jump {
    let mut jump = stopped(travel);
    jump.lines.truncate(2);
    for line in &mut jump.lines {
        line.near_length += 4.0.meters();
        line.far_length += 4.0.meters();
    }
    // Damped, so that it shows how far it is pulled and not how it bounces.
    jump.ring_damping = Some(300.0.newton_seconds_per_meter());
    let level = fly(&Jump { stops: vec![], ..jump.clone() }).unwrap().ring.start.z;
    for stop in &mut jump.stops {
        stop.anchor.z = level;
    }
    jump
}

#[test]
fn a_stabiliser_keeps_the_ring_near_its_place() {
    let wide = |flight: &Flight| flight.ring.farthest.value.si() - flight.ring.nearest.value.si();
    let free = fly(&Jump { stops: vec![], ..sagging(0.1) }).unwrap();
    let (tight, loose) = (fly(&sagging(0.0)).unwrap(), fly(&sagging(0.1)).unwrap());
    println!("ring moves {:.2} {:.2} {:.2} m", wide(&tight), wide(&loose), wide(&free));
    assert!(wide(&tight) < wide(&loose) && wide(&loose) < wide(&free));
    for flight in [&tight, &loose] {
        assert!(flight.energy.drift.si() < 1e-6 && flight.energy.lost_in_ropes.si() > 0.0);
        assert!(flight.stops.iter().any(|s| s.tension.value.si() > 0.0));
        let taut = flight.events.iter().any(|e| matches!(e.what, Happening::StopTaut { .. }));
        assert!(taut && flight.series.stop_tension_n.iter().flatten().all(|t| *t >= 0.0));
    }
    // A stop that is never reached does nothing.
    let far = fly(&sagging(50.0)).unwrap();
    assert_eq!(far.stops[0].tension.value.si(), 0.0);
    assert!((far.resultant.value.si() / free.resultant.value.si() - 1.0).abs() < 1e-7);
    for (a, b) in far.series.x_m.iter().zip(&free.series.x_m) {
        assert!((a - b).abs() < 1e-5, "{a} {b}");
    }
    // A stop under tension holds up what hangs from the ring.
    let rest = |flight: &Flight| flight.rest.as_ref().unwrap().ring.z.si();
    assert!(rest(&tight) > rest(&free) + 5e-4, "{} {}", rest(&tight), rest(&free));
}

// A stop that is missing is a jump without it; one that fails pulls no more from then on.
#[test]
fn a_stop_may_be_missing_or_fail() {
    let mut jump = sagging(0.0);
    let whole = fly(&jump).unwrap();
    let pull = |i: &usize| whole.stops[*i].tension.value.si();
    let i = (0..2).max_by(|a, b| pull(a).total_cmp(&pull(b))).unwrap();
    let part = Part::Stop { name: whole.stops[i].name.clone() };
    let failing = |when| vec![Fault { part: part.clone(), when }];
    jump.faults = failing(When::BeforeExit);
    let missing = fly(&jump).unwrap();
    let mut without = Jump { faults: vec![], ..jump.clone() };
    without.stops.remove(i);
    let without = fly(&without).unwrap();
    assert_eq!(missing.stops[i].tension.value.si(), 0.0);
    assert!((missing.resultant.value.si() / without.resultant.value.si() - 1.0).abs() < 1e-6);
    assert!((missing.lowest.value.si() - without.lowest.value.si()).abs() < 1e-4);
    jump.faults = failing(When::PartPeak);
    let failed = fly(&jump).unwrap();
    let after = failed.after_fault.as_ref().unwrap();
    assert!((after.time.si() - whole.stops[i].tension.time.si()).abs() < 1e-3);
    let series = failed.series.t_s.iter().zip(&failed.series.stop_tension_n[i]);
    assert!(series.filter(|(t, _)| **t > after.time.si()).all(|(_, n)| *n == 0.0));
    // Of the other one the peak from then on, which no sample exceeds.
    let stops: Vec<_> = after.stops.iter().map(|stop| stop.tension.value.si()).collect();
    let sampled = |stop: usize| {
        let late = failed.series.t_s.iter().zip(&failed.series.stop_tension_n[stop]);
        late.filter(|(t, _)| **t > after.time.si()).map(|(_, n)| *n).fold(0.0, f64::max)
    };
    assert!(stops[i] == 0.0 && stops[1 - i] > 0.0 && stops[1 - i] > 0.999 * sampled(1 - i));
    assert!(failed.energy.failed.si() > 0.0 && failed.energy.drift.si() < 1e-6);
    jump.follow.horizon = 6.0.seconds();
    let mesh = Mesh { nodes_per_line: 8, nodes_per_rope: 8, ..Mesh::default() };
    let full = fly_full(&jump, &mesh).unwrap();
    let broke =
        full.events.iter().any(|e| matches!(&e.what, Happening::Failed { part: p } if *p == part));
    assert!(
        broke && full.energy.failed.si() > 0.0 && full.energy.drift.si() < 1e-3,
        "{:?}",
        full.energy
    );
    let after = full.after_fault.as_ref().unwrap();
    assert!(full.stops[i].tension.value.si() > 0.0 && after.stops[i].tension.value.si() == 0.0);
    assert!(after.stops[1 - i].tension.value <= full.stops[1 - i].tension.value);
    assert!(after.ring_lowest.is_some_and(|low| low.value >= full.ring.lowest.value));
    for (whole, after) in full.anchors.iter().zip(&after.anchors) {
        assert!(after.value.si() >= 0.0 && after.value <= whole.peak.value);
    }
    assert!(after.anchors.iter().any(|peak| peak.value.si() > 0.0));
    jump.faults = vec![Fault { part: Part::Stop { name: "no stop".into() }, when: When::BodyPeak }];
    let error = fly(&jump).unwrap_err().to_string();
    assert_eq!(error, "faults[0].part: no part is named \"no stop\"");
}

// ½ m v² = ½ k x²: a free ring that runs into a lossless stop pulls with v √(m k) at most, and comes back as
// fast; half a period π √(m / k) later.
#[test]
fn a_ring_that_runs_into_a_stop_comes_back() {
    let (m, v, k): (f64, f64, f64) = (8.0, 3.0, 20e3 / 50.0);
    let mut model = Model {
        ropes: vec![],
        stops: vec![model::Stop {
            anchor_m: [0.0; 3],
            rope: rope::Rope::new(50.0, 0.0, 20e3, 0.0, 1.0),
        }],
        body_kg: 80.0,
        low_kg: 80.0,
        ring: Some(RingMass { weighs_kg: 0.0, moves_kg: m, damping_n_s_per_m: 0.0 }),
        drag_kg_per_m: 0.0,
        wind_m_per_s: [0.0; 2],
        fold: Fold::Neglected,
        support: Spring { at_m: [0.0; 3], k_n_per_m: [0.0; 3] },
        failure: None,
    };
    let jump = plain(at(0.0, 0.0), 10.0, 1e4);
    let setup = set_up(&jump, Nothing, [0.0; 3]);
    let course = Course {
        stop_names: vec!["stop".into()],
        rope_names: vec![],
        horizon_s: 1.5,
        ..setup.unwrap().course
    };
    let mut start = vec![0.0; model.size()];
    start[BODY] = 500.0;
    start[RING] = 49.0;
    start[RING + SPEED] = v;
    let out = run(&mut model, &course, &start).unwrap();
    let most = out.watch.best(Figure::Stop(0)).unwrap();
    assert!((most.value / (v * (m * k).sqrt()) - 1.0).abs() < 1e-7, "{most:?}");
    assert!((out.end[RING + SPEED] + v).abs() < 1e-7);
    let at_s: Vec<f64> = out
        .events
        .iter()
        .filter(|e| matches!(e.2, Happening::StopTaut { .. } | Happening::StopSlack { .. }))
        .map(|e| e.0)
        .collect();
    assert_eq!(at_s.len(), 2);
    assert!((at_s[0] - 1.0 / v).abs() < 1e-9);
    assert!((at_s[1] - at_s[0] - core::f64::consts::PI * (m / k).sqrt()).abs() < 1e-7);
}

#[test]
fn mirrored_stops_do_the_mirrored_thing() {
    let one = fly(&stopped(0.2)).unwrap();
    let mut other = stopped(0.2);
    let flip = |p: &mut Place| p.x = 130.0.meters() - p.x;
    flip(&mut other.exit);
    other.exit_speed_x = -other.exit_speed_x;
    for line in &mut other.lines {
        flip(&mut line.near);
        flip(&mut line.far);
    }
    for stop in &mut other.stops {
        flip(&mut stop.anchor);
    }
    let two = fly(&other).unwrap();
    for (a, b) in one.stops.iter().zip(&two.stops) {
        assert!((a.tension.value.si() / b.tension.value.si() - 1.0).abs() < 1e-6);
    }
    assert!((one.resultant.value.si() / two.resultant.value.si() - 1.0).abs() < 1e-6);
}

#[test]
fn an_anchor_carries_the_sum_of_its_lines() {
    let mut jump = stopped(0.1);
    jump.lines[3].near = at(0.0, 5.0);
    let flight = fly(&jump).unwrap();
    let parts: Vec<Vec<&str>> =
        flight.anchors.iter().map(|a| a.parts.iter().map(String::as_str).collect()).collect();
    let far = ["main", "backup", "rope 1", "rope 2"].to_vec();
    let near = ["main", "backup", "rope 1"].to_vec();
    assert_eq!(parts, [near, far, vec!["rope 2"], vec!["near stop"], vec!["far stop"]]);
    // A single part is the anchor's force; a sum is at most that of its parts, which are not quite parallel.
    let s = &flight.series;
    let same = |a: &[f64], b: &[f64]| a.iter().zip(b).all(|(a, b)| (a - b).abs() < 1e-9 * a.abs());
    assert!(same(&s.line_near_tension_n[3], &s.anchor_force_n[2]));
    assert!(same(&s.stop_tension_n[1], &s.anchor_force_n[4]) || s.stop_tension_n[1].contains(&0.0));
    for k in 0..s.t_s.len() {
        let sum: f64 = s.line_far_tension_n.iter().map(|column| column[k]).sum();
        let anchor = s.anchor_force_n[1][k];
        assert!(anchor <= sum * (1.0 + 1e-12) && anchor > 0.9 * sum, "{anchor} {sum}");
        assert!(anchor <= flight.anchors[1].peak.value.si() * (1.0 + 1e-9));
    }
    let highest = s.anchor_force_n[1].iter().copied().fold(0.0, f64::max);
    assert!(highest > 0.99 * flight.anchors[1].peak.value.si());
    assert!((flight.anchors[1].standing.si() / s.anchor_force_n[1][0] - 1.0).abs() < 1e-9);
    // The ring takes what the jumper feels, and the pull of the lower half of the ropes.
    let share = (82.0 + 4.752) / 82.0;
    assert!((flight.ring.load.value.si() / flight.resultant.value.si() / share - 1.0).abs() < 1e-9);
}

#[test]
fn height_left_is_down_to_the_floor() {
    let mut jump = plain(at(1e-9, 0.0), 10.0, 20e3);
    assert_eq!(fly(&jump).unwrap().height_left, None);
    let wall = |name: &str, points: Vec<Place>| Wall::profile(name, points);
    jump.walls = vec![
        wall("floor", vec![at(-50.0, -30.0), at(50.0, -30.0)]),
        wall("beside", vec![at(4.0, 10.0), at(9.0, -25.0)]),
    ];
    let flight = fly(&jump).unwrap();
    let left = flight.height_left.unwrap().si();
    assert!((left - (30.0 + flight.lowest.value.si() - 0.9)).abs() < 1e-9, "{left}");
    assert_eq!(flight.events[0].what, Happening::LeavesEdge);
}

#[test]
fn wrong_stops_say_why() {
    let says = |change: &dyn Fn(&mut Jump), part: &str| {
        let mut jump = stopped(0.1);
        change(&mut jump);
        let error = fly(&jump).unwrap_err().to_string();
        assert!(error.contains(part), "{part} not in {error}");
    };
    says(&|j| j.stops[1].travel = (-1.0).meters(), "stops[1].travel is -1 m");
    says(&|j| j.stops[0].anchor.x = f64::NAN.meters(), "stops[0].anchor.x is NaN m");
    says(
        &|j| {
            j.lines.clear();
            j.fixed_ring = Some(at(0.0, 0.0));
        },
        "a fixed ring has no stops",
    );
}

// The rest after a fault is that of the parts that are left: a weight on the other of two ropes.
#[test]
fn the_rest_is_that_of_the_parts_that_are_left() {
    let mut jump = plain(at(1e-9, 0.0), 10.0, 20e3);
    jump.ropes.push(rope("longer", 12.0, 0.0, lossless(30e3)));
    let part = Part::Rope { name: "rope".into() };
    jump.faults = vec![Fault { part, when: When::BodyPeak }];
    let rest = fly(&jump).unwrap().rest.unwrap();
    let want = 12.0 * (1.0 + 80.0 * 9.81 / 30e3);
    assert!((rest.body.z.si() + want).abs() < 1e-9, "{rest:?}");
}
