//! Rings that slide.

use tautwork::line::{RingLine, ring_losses, solve_rings, sweep_rings};

use super::solve::Vector;
use crate::args::{Args, answer};
use crate::{Call, Failure, Value};

pub(crate) const CALLS: &[Call] = &[
    Call { name: "line.solve_rings", arguments: Some(&["lines", "load"]), run: rings },
    Call { name: "line.sweep_rings", arguments: Some(&["lines", "loads"]), run: sweep },
    Call { name: "line.ring_losses", arguments: Some(&["lines", "load"]), run: losses },
];

fn rings(args: &mut Args) -> Result<Value, Failure> {
    let lines: Vec<RingLine> = args.plain("lines")?;
    let load: Vector = args.plain("load")?;
    answer(&solve_rings(&lines, load.map(|part| part.0))?)
}

fn sweep(args: &mut Args) -> Result<Value, Failure> {
    let lines: Vec<RingLine> = args.plain("lines")?;
    let loads: Vec<Vector> = args.plain("loads")?;
    let loads: Vec<_> = loads.into_iter().map(|load| load.map(|part| part.0)).collect();
    answer(&sweep_rings(&lines, &loads)?)
}

fn losses(args: &mut Args) -> Result<Value, Failure> {
    let lines: Vec<RingLine> = args.plain("lines")?;
    let load: Vector = args.plain("load")?;
    answer(&ring_losses(&lines, load.map(|part| part.0))?)
}
