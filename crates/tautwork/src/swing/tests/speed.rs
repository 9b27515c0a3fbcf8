//! What a table and a jump cost, in work that is the same on every machine.

use super::*;

#[test]
fn a_jump_of_twenty_seconds_takes_a_thousand_steps_at_most() {
    let mut jump = demo();
    jump.walls.clear();
    jump.follow.horizon = 20.0.seconds();
    let jumps = Jumps::new(&jump.lines).unwrap();
    let report = jumps.report();
    let work = jumps.fly(&jump).unwrap().work;
    println!("{report:?} {work:?}");
    assert!(report.cells < 60_000 && report.solved_half_lines == 0);
    assert!(report.worst < report.bound);
    assert!(work.attempts < 1_000 && work.steps <= work.attempts);
}
