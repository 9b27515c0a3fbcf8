//! Drawing a line in, and what changes its tension afterwards.

use tautwork::line::{Chain, Changes, LineToBring, LoadCell, PullIn};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(line::pull_in { &PullIn }),
    call!(line::change_line(&line: Chain, &changes: Changes)),
    call!(line::load_cell_reading(&line: Chain, &cell: LoadCell)),
    call!(line::lengths_to_bring(&lines: Vec<LineToBring>)),
];
