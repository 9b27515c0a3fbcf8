//! Parts that break in flight.

use super::*;

fn fault(part: Part, when: When) -> Fault {
    Fault { part, when }
}

fn short() -> Jump {
    let mut jump = demo();
    jump.walls.clear();
    jump.lines.truncate(2);
    jump.follow.horizon = 7.0.seconds();
    jump
}

#[test]
fn a_rope_that_breaks_leaves_all_to_the_other() {
    let intact = fly_full(&short(), &mesh(20)).unwrap();
    let mut jump = short();
    let name = jump.ropes[0].name.clone();
    jump.faults = vec![fault(Part::Rope { name }, When::BodyPeak)];
    let flight = fly_full(&jump, &mesh(20)).unwrap();
    let after = flight.after_fault.as_ref().unwrap();
    assert_eq!(after.time.si(), intact.resultant.time.si());
    // Until then nothing differs.
    assert_eq!(flight.resultant.value, intact.resultant.value);
    assert!(flight.lowest.value < intact.lowest.value);
    assert!(flight.energy.failed.si() > 0.0 && flight.energy.drift.si() < 1e-3);
    // Broken before the catch, the other has to stop the jumper alone.
    jump.faults[0].when = When::Time { at: 1.0.seconds() };
    let alone = fly_full(&jump, &mesh(20)).unwrap();
    let half = intact.ropes[1].body_end.value.si();
    let whole = alone.after_fault.as_ref().unwrap().ropes[1].tension.value.si();
    println!("other rope {whole:.0} N, half before {half:.0} N");
    assert!(whole > 1.3 * half && whole < 2.0 * half);
    let failed = |e: &&Event| matches!(e.what, Happening::Failed { .. });
    assert_eq!(flight.events.iter().filter(failed).count(), 1);
}

#[test]
fn a_backup_takes_over_when_the_main_breaks() {
    let near = |part: fn(String) -> Part| {
        let mut jump = short();
        jump.faults = vec![fault(part("main".to_owned()), When::PartPeak)];
        fly_full(&jump, &mesh(20)).unwrap()
    };
    let intact = fly_full(&short(), &mesh(20)).unwrap();
    for flight in [
        near(|name| Part::Line { name }),
        near(|name| Part::NearAnchor { name }),
        near(|name| Part::FarAnchor { name }),
    ] {
        let after = flight.after_fault.as_ref().unwrap();
        let backup = after.lines_near[1].tension.value.si();
        println!("backup {backup:.0} N after, {:.0} before", intact.lines[1].near.value.si());
        assert!(backup > 2.0 * intact.lines[1].near.value.si());
        assert!(flight.ring.lowest.value < intact.ring.lowest.value);
        assert!(flight.energy.drift.si() < 1e-3);
    }
}

#[test]
fn a_fault_at_the_very_end_has_no_after() {
    let mut jump = short();
    jump.follow.horizon = 1.0.seconds();
    let name = jump.ropes[0].name.clone();
    jump.faults = vec![fault(Part::Rope { name }, When::Time { at: 1.0.seconds() })];
    let flight = fly_full(&jump, &mesh(8)).unwrap();
    let after = flight.after_fault.as_ref();
    assert!(after.is_none_or(|after| after.resultant.value.si().is_finite()));
    assert!(serde_json::to_string(&flight).unwrap().find("inf").is_none());
}

// An anchor of the line on which the ring slides: the line runs out of the ring.
#[test]
fn a_line_without_its_anchor_runs_out_of_the_ring() {
    let mut jump = short();
    let name = "main".to_owned();
    let part = Part::NearAnchor { name: name.clone() };
    jump.faults = vec![fault(part, When::Time { at: 1.0.seconds() })];
    jump.follow.horizon = 20.0.seconds();
    let slides = vec![Slide { line: name, friction: 0.0.ratio(), from: None, to: None }];
    let flight = fly_full(&jump, &Mesh { slides, ..mesh(16) }).unwrap();
    let last = flight.series.t_s.len() - 1;
    let left = flight.series.ring_on_line_m[0].iter().copied().fold(f64::INFINITY, f64::min);
    println!("left {left:.1} m, drift {:.1e}", flight.energy.drift.si());
    assert_eq!(flight.series.line_far_tension_n[0][last], 0.0);
    assert!(flight.energy.drift.si() < 1e-3);
}

#[test]
fn a_part_without_a_name_is_told() {
    let mut jump = short();
    jump.faults = vec![fault(Part::Rope { name: "none".into() }, When::BodyPeak)];
    let error = fly_full(&jump, &mesh(8)).unwrap_err().to_string();
    assert!(error.contains("faults[0].part"), "{error}");
}
