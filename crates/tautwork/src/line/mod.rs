#![doc = include_str!("README.md")]
#![doc = include_str!("rings/README.md")]
#![doc = include_str!("tensioning/README.md")]
#![doc = include_str!("walk/README.md")]
#![doc = include_str!("vibration/README.md")]
#![doc = include_str!("rules/README.md")]
#![doc = include_str!("tables/README.md")]
#![doc = include_str!("derivatives/README.md")]
#![doc = include_str!("building/README.md")]
#![doc = include_str!("recoil/README.md")]

mod batch;
mod building;
mod bundle;
mod catenary;
mod chain;
mod chain_at;
mod chain_state;
mod course;
mod derivatives;
mod drag;
mod elastic;
mod engagement;
mod error;
mod follow;
mod inverse;
mod links;
mod net;
mod note;
mod planar;
mod recoil;
#[allow(dead_code, reason = "jumps are computed in it")]
mod ring;
mod rings;
mod rules;
mod segment;
mod shape;
mod standing;
mod strand;
mod sweep;
mod tables;
mod tangle;
mod tensioning;
mod together;
mod vibration;
mod walk;

pub use building::{
    BuildingStage, GivingHardware, GivingLine, GoingOut, HardwareGives, HardwareKind, Place,
    RingedStage, SlipNote, SoftRelease, SoftReleaseCurve, StageKind, StageLine, StageState,
    StrokeList, Strokes, StrokesEnd, Trailing, building_states, hardware_gives, soft_release,
    tension_by_strokes,
};
pub use bundle::{BundleLine, BundleLineState, BundleSolution, StiffnessRow, solve_bundle};
#[allow(unused_imports, reason = "the plan draws the lines of a bundle")]
pub(crate) use bundle::{bundle_in_wind, bundle_profiles};
pub use catenary::{Catenary, catenary, catenary_from_sag};
pub use chain::{Chain, ChainLoad, ChainPiece, solve_chain};
pub use chain_at::{chain_at, chain_at_x};
pub use chain_state::{ChainLoadState, ChainPieceState, ChainProfile, ChainSolution};
pub use derivatives::{
    ChainDerivatives, ElasticDerivatives, ForceByChain, ForceByLine, LengthByChain, LengthByLine,
    chain_derivatives, elastic_derivatives,
};
pub use drag::{Gust, wind_load};
pub use elastic::{
    ElasticArrays, ElasticBatch, ElasticLine, ElasticSolution, solve_elastic, solve_elastic_batch,
};
pub use engagement::{BundleEngagement, bundle_engagement};
pub use error::LineError;
pub use inverse::{
    LineEnd, rest_length_for_mid_load_sag, rest_length_for_sag, rest_length_for_tension,
};
pub(crate) use inverse::{root, try_root};
pub use net::{Net, NetLine, NetLineState, NetSolution, Node, NodeState, solve_net};
pub use note::LineNote;
pub(crate) use planar::{Chord, Planar, Stop};
#[allow(unused_imports, reason = "jumps are computed in it")]
pub(crate) use ring::{HalfLine, RingField};
pub(crate) use segment::Uniform;
pub(crate) use strand::Strand as LineStrand;

pub use recoil::{BrokenLine, Recoil, recoil};
pub use rings::{
    RingHold, RingHoldKind, RingHoldState, RingLine, RingLoss, RingLosses, RingsSolution,
    RingsState, ring_losses, solve_rings, sweep_rings,
};
pub use rules::{RuleChart, RuleErrors, RuleOfThumb, rules_chart, rules_of_thumb};
pub use standing::bundle_rest_length_for_tension;
pub use sweep::{BundleArrays, BundleLineArrays, BundleLoads, sweep_bundle, sweep_bundle_batch};
pub use vibration::{
    Bounce, BounceReading, BounceTension, BouncedLine, CableModes, ChainModes, FirstInPlane,
    IrvineCaughey, ModeShape, PluckPlane, PluckReading, PluckTension, PluckedLine, StringModes,
    VibratingChain, bounce, cable_modes, chain_modes, irvine_caughey, string_modes,
    tension_from_bounce, tension_from_pluck,
};

pub use tables::{
    AngleRow, LineTable, ListedTension, MidLoadRow, SagCase, SagRow, TableFormat, TableStyle,
    angle_table, mid_load_table, sag_table, table_text,
};
pub use walk::{
    RollRange, RollRest, Walk, WalkEnvelope, WalkMode, WalkPlace, WalkState, roll, roll_rests,
    stand, walk_envelope,
};

pub use tensioning::{
    BringItem, BringLine, ChangeRates, ChangedLine, Changes, Knot, LengthsToBring, LineToBring,
    LoadCell, LoadCellReading, PullIn, PullInCurve, StandingLine, Wrap, change_line,
    lengths_to_bring, load_cell_reading, pull_in,
};

#[cfg(test)]
mod tests;
