//! A rope over an edge.

use tautwork::swing::RopeEdgeCase;

use crate::Call;

pub(crate) const CALLS: &[Call] = &[call!(swing::rope_on_edge { &RopeEdgeCase })];
