//! What a table and a jump cost; printed, not judged.

use std::time::Instant;

use super::*;

#[test]
fn cost_of_table_and_jump() {
    let mut jump = demo();
    jump.walls.clear();
    jump.follow.horizon = 20.0.seconds();
    let start = Instant::now();
    let jumps = Jumps::new(&jump.lines).unwrap();
    println!("table {:?} {:?}", start.elapsed(), jumps.report());
    for walls in [false, true] {
        let jump = Jump { walls: if walls { demo().walls } else { vec![] }, ..jump.clone() };
        let mut best = f64::INFINITY;
        let mut steps = 0;
        for _ in 0..10 {
            let start = Instant::now();
            let flight = jumps.fly(&jump).unwrap();
            steps = flight.work.steps;
            best = best.min(start.elapsed().as_secs_f64());
        }
        println!("walls {walls}: {:.3} ms for {steps} steps", 1e3 * best);
    }
}
