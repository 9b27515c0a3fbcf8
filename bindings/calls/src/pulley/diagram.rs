//! Pictures of systems.

use tautwork::pulley::{Shown, System};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[call!(pulley::diagram(&system: System, load, shown: Shown))];
