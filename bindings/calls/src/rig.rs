//! Calls of `rig`.

use std::ops::ControlFlow;

use ciborium::Value;
use tautwork::rig::{self, KitList, LossOptions, LossProgress, Report, ReportFormat, RigError};

use crate::{Call, Failure, Kind, args};

pub(crate) const CALLS: &[Call] = &[
    call!(rig::kit_check(&kit: KitList, &inventory: String)),
    call!(rig::loss_table_text(&text: String, options: LossOptions)),
    call!(rig::plan_text(&text: String)),
    call!(rig::report_text(&plan: Report, format: ReportFormat) => Always),
    call!(rig::schema() => Always),
];

/// The loss table of a document, with a caller who hears of each case and says whether to go on.
///
/// # Errors
/// As the call `rig.loss_table_text`; also when the caller has had enough.
pub fn loss_table(
    text: &str,
    pairs: bool,
    heard: &mut dyn FnMut(LossProgress) -> bool,
) -> Result<Value, Failure> {
    let mut progress = |progress| {
        if heard(progress) { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
    };
    let rig = rig::parse(text)?;
    args::answer(&rig::loss_table(&rig, LossOptions { pairs }, &mut progress)?)
}

impl From<RigError> for Failure {
    fn from(error: RigError) -> Self {
        match &error {
            RigError::Document(mistakes) | RigError::Inventory(mistakes) => {
                Self::new(Kind::DocumentError, &error).with("mistakes", mistakes)
            }
            RigError::Unsolved { what, .. } => Self::model(&error).with("what", what),
            RigError::Stopped { done, .. } => Self::model(&error).with("done", done),
        }
    }
}
