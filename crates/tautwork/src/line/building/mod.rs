//! Building and striking: the states on the way, strokes, release, hardware that gives.

mod release;
mod slip;
mod stages;
mod strokes;

pub use release::{SoftRelease, SoftReleaseCurve, soft_release};
pub use slip::{GivingHardware, GivingLine, HardwareGives, HardwareKind, SlipNote, hardware_gives};
pub use stages::{
    BuildingStage, GoingOut, Place, RingedStage, StageKind, StageLine, StageState, Trailing,
    building_states,
};
pub use strokes::{StrokeList, Strokes, StrokesEnd, tension_by_strokes};

#[cfg(test)]
mod tests;
