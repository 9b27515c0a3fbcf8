//! Raised frames.

use tautwork::anchor::Frame;

use crate::Call;

pub(crate) const CALLS: &[Call] = &[call!(anchor::frame_forces { &Frame })];
