//! Devices that slip.

use tautwork::fall::{Fall, Slip};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[call!(fall::arrest_with_slip(&fall: Fall, &slips: Vec<Slip>))];
