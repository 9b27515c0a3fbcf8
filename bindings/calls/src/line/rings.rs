//! Rings that slide.

use tautwork::line::{RingLine, sweep_rings};

use super::solve::loads;
use crate::args::{Args, answer};
use crate::{Call, Failure, Value};

pub(crate) const CALLS: &[Call] = &[
    call!(line::solve_rings(&lines: Vec<RingLine>, [load])),
    Call { name: "line.sweep_rings", arguments: Some(&["lines", "loads"]), run: sweep },
    call!(line::ring_losses(&lines: Vec<RingLine>, [load])),
];

fn sweep(args: &mut Args) -> Result<Value, Failure> {
    let lines: Vec<RingLine> = args.plain("lines")?;
    answer(&sweep_rings(&lines, &loads(args)?)?)
}
