//! What fails in flight, and the fold of slack rope.

use super::*;

fn failing(part: Part, when: When) -> Vec<Fault> {
    vec![Fault { part, when }]
}

fn named(name: &str) -> Part {
    Part::Rope { name: name.into() }
}

// Two ropes catch a drop; one fails at the lowest point, where nothing moves, with half of the force in
// it. The other holds its half, and if that is more than the weight, it never pulls harder.
#[test]
fn one_of_two_ropes_fails_at_the_peak() {
    let mut jump = plain(at(1e-9, 0.0), 10.0, 20e3);
    jump.ropes.push(rope("other", 10.0, 0.0, lossless(20e3)));
    let intact = fly(&jump).unwrap();
    jump.faults = failing(named("other"), When::BodyPeak);
    let flight = fly(&jump).unwrap();
    let after = flight.after_fault.as_ref().unwrap();
    assert!((after.time.si() - intact.resultant.time.si()).abs() < 1e-3);
    let half = 0.5 * intact.resultant.value.si();
    assert!((after.resultant.value.si() / half - 1.0).abs() < 1e-6, "{after:?}");
    // The steps of both runs differ from the fault on: equal to the tolerance of a step.
    assert!((flight.resultant.value.si() / intact.resultant.value.si() - 1.0).abs() < 1e-8);
    // Half of the stored energy went with the rope: all of the fall was in both.
    let fall = 80.0 * 9.81 * -intact.lowest.value.si();
    assert!((flight.energy.failed.si() / (0.5 * fall) - 1.0).abs() < 1e-6);
    assert!(flight.energy.drift.si() < 1e-6);
    let failed = flight.events.iter().any(|e| matches!(&e.what, Happening::Failed { .. }));
    assert!(failed);
}

// The rope fails at the lowest point; the body falls from rest onto a longer backup: F = W + sqrt(W² + 2 W k h)
// with h from there to the end of the backup (Wexler 1950, from memory).
#[test]
fn a_longer_backup_takes_over() {
    let mut jump = plain(at(1e-9, 0.0), 5.0, 20e3);
    jump.ropes.push(rope("backup", 12.0, 0.0, lossless(30e3)));
    jump.faults = failing(named("rope"), When::PartPeak);
    jump.follow.horizon = 6.0.seconds();
    let flight = fly(&jump).unwrap();
    let (w, k): (f64, f64) = (80.0 * 9.81, 20e3 / 5.0);
    let first = w + (w * w + 2.0 * w * k * 5.0).sqrt();
    let h = 12.0 - (5.0 + first / k);
    let second = w + (w * w + 2.0 * w * (30e3 / 12.0) * h).sqrt();
    let after = flight.after_fault.as_ref().unwrap();
    assert!((after.resultant.value.si() / second - 1.0).abs() < 1e-5, "{after:?} {second}");
    assert_eq!(after.ropes[0].tension.value.si(), 0.0);
    // Fault at a time of its own: before the ropes are taut, the backup catches the whole fall.
    jump.faults = failing(named("rope"), When::Time { at: 0.5.seconds() });
    let all = w + (w * w + 2.0 * w * (30e3 / 12.0) * 12.0).sqrt();
    let flight = fly(&jump).unwrap();
    assert!((flight.resultant.value.si() / all - 1.0).abs() < 1e-5);
}

#[test]
fn the_main_line_fails_at_its_peak_and_the_backups_take_over() {
    let mut jump = demo();
    jump.walls.clear();
    jump.follow.horizon = 20.0.seconds();
    let jumps = Jumps::new(&jump.lines).unwrap();
    let intact = jumps.fly(&jump).unwrap();
    let main = || "main".to_owned();
    let mut lows = Vec::new();
    for part in [
        Part::Line { name: main() },
        Part::NearAnchor { name: main() },
        Part::FarAnchor { name: main() },
    ] {
        jump.faults = failing(part.clone(), When::PartPeak);
        let flight = jumps.fly(&jump).unwrap();
        let after = flight.after_fault.as_ref().unwrap();
        let before: Vec<_> = intact.lines.iter().map(|l| l.near.value).collect();
        assert!(after.lines_near[1].tension.value > before[1], "{part:?}: backup not loaded");
        assert!(flight.lowest.value < intact.lowest.value);
        assert!(flight.energy.drift.si() < 1e-6, "{part:?}: {:?}", flight.energy);
        assert!(flight.energy.failed.si() > 0.0);
        lows.push(after.lowest.value.si());
    }
    jump.faults = failing(Part::Line { name: "none".into() }, When::BodyPeak);
    let error = jumps.fly(&jump).unwrap_err().to_string();
    assert!(error.contains("faults[0].part") && error.contains("none"), "{error}");
}

// A part that is missing before the jump is one that is left out of the rig.
#[test]
fn a_part_missing_before_the_jump_is_one_left_out() {
    let mut jump = demo();
    jump.walls.clear();
    jump.follow.horizon = 8.0.seconds();
    let jumps = Jumps::new(&jump.lines).unwrap();
    let without = |part: Part| {
        jumps.fly(&Jump { faults: failing(part, When::BeforeExit), ..jump.clone() }).unwrap()
    };
    let same = |a: &Flight, b: &Flight| {
        assert!((a.ring.start.z.si() - b.ring.start.z.si()).abs() < 1e-7);
        assert!((a.resultant.value.si() / b.resultant.value.si() - 1.0).abs() < 1e-5);
        assert!((a.lowest.value.si() - b.lowest.value.si()).abs() < 1e-4);
        assert!(a.after_fault.is_none() && a.energy.failed.si() == 0.0);
    };
    let mut bare = jump.clone();
    bare.lines.remove(0);
    same(&without(Part::Line { name: "main".into() }), &jumps.fly(&bare).unwrap());
    let mut bare = jump.clone();
    let rope = bare.ropes.remove(0);
    same(&without(Part::Rope { name: rope.name }), &jumps.fly(&bare).unwrap());
    // Without its near half, the main line draws the waiting ring to the far side, and the backups hold it.
    let near = without(Part::NearAnchor { name: "main".into() });
    let intact = jumps.fly(&jump).unwrap();
    assert!(near.ring.start.x > intact.ring.start.x && near.ring.start.z < intact.ring.start.z);
    assert_eq!(near.lines[0].near.value.si(), 0.0);
    assert!(near.lines[0].far.value.si() > 0.0);
    assert!(near.energy.drift.si() < 1e-6);
    // A second part may fail in the jump without the first.
    jump.faults = failing(Part::Line { name: "main".into() }, When::BeforeExit);
    jump.faults.push(Fault { part: Part::Line { name: "backup".into() }, when: When::PartPeak });
    let both = jumps.fly(&jump).unwrap();
    assert!(both.after_fault.as_ref().unwrap().ring_lowest.unwrap().value < near.ring.lowest.value);
    let error = fly_full(&jump, &Mesh::default()).unwrap_err().to_string();
    assert!(error.contains("faults[0].when"), "{error}");
}

// One rope longer than the other: the short one takes load first and carries more.
#[test]
fn the_shorter_of_two_ropes_carries_more() {
    let mut jump = plain(at(1e-9, 0.0), 10.0, 20e3);
    jump.ropes.push(rope("longer", 10.5, 0.0, lossless(20e3)));
    let flight = fly(&jump).unwrap();
    // Energy at the lowest point d below the ring: W d = Σ EA / 2 L (d − L)².
    let w = 80.0 * 9.81;
    let spare = |d: f64| {
        let stored = |l: f64| 0.5 * 20e3 / l * (d - l).max(0.0).powi(2);
        w * d - stored(10.0) - stored(10.5)
    };
    let (mut low, mut up) = (10.5, 20.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + up);
        if spare(middle) > 0.0 { low = middle } else { up = middle }
    }
    assert!((flight.lowest.value.si() + low).abs() < 1e-6);
    let tension = |l: f64| 20e3 * (low / l - 1.0);
    assert!((flight.ropes[0].tension.value.si() / tension(10.0) - 1.0).abs() < 1e-6);
    assert!((flight.ropes[1].tension.value.si() / tension(10.5) - 1.0).abs() < 1e-6);
}

// Kagan and Kott (1996): v² = g L (4 M + m) / (2 M) at the end of a rope that loses no energy (published
// equation, seen); free fall without a pull of the fold.
#[test]
fn the_fold_pulls_or_only_jerks_the_ring() {
    let mut jump = plain(at(1e-9, 0.0), 10.0, 1e6);
    jump.ropes[0].linear_density = 2.0.kilograms_per_meter();
    jump.follow.horizon = 2.0.seconds();
    let speed2 = |fold: Fold| {
        let flight = fly(&Jump { fold, ..jump.clone() }).unwrap();
        assert!(flight.energy.drift.si() < 1e-6);
        let speed = flight.catch.as_ref().unwrap().speed.si();
        (speed * speed, flight.energy.lost_at_fold.si())
    };
    let free = 2.0 * 9.81 * 10.0;
    let (neglected, none) = speed2(Fold::Neglected);
    let (conservative, gain) = speed2(Fold::Conservative);
    let (dissipative, _) = speed2(Fold::Dissipative);
    assert!((neglected / free - 1.0).abs() < 1e-8 && none == 0.0);
    assert!((dissipative / free - 1.0).abs() < 1e-8);
    let published = 9.81 * 10.0 * (4.0 * 80.0 + 20.0) / (2.0 * 80.0);
    assert!((conservative / published - 1.0).abs() < 1e-7, "{conservative} {published}");
    assert!(gain < 0.0);
    // The bound that is always given is this speed.
    let bound = fly(&jump).unwrap().fold.speed_excess.si();
    assert!((bound - ((published / free).sqrt() - 1.0)).abs() < 1e-6);
}
