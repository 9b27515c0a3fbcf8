//! Calls of `rig`.

use tautwork::rig::{Report, ReportFormat, RigError};

use crate::{Call, Failure, Kind};

pub(crate) const CALLS: &[Call] = &[
    call!(rig::plan_text(&text: String)),
    call!(rig::report_text(&plan: Report, format: ReportFormat) => Always),
    call!(rig::schema() => Always),
];

impl From<RigError> for Failure {
    fn from(error: RigError) -> Self {
        match &error {
            RigError::Document(mistakes) => {
                Self::new(Kind::DocumentError, &error).with("mistakes", mistakes)
            }
            RigError::Unsolved { what, .. } => Self::model(&error).with("what", what),
        }
    }
}
