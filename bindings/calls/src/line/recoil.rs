//! A line that breaks.

use tautwork::line::BrokenLine;

use crate::Call;

pub(crate) const CALLS: &[Call] = &[call!(line::recoil { &BrokenLine })];
