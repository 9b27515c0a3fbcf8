#![doc = include_str!("README.md")]
#![doc = include_str!("full/README.md")]
#![doc = include_str!("before/README.md")]
#![doc = include_str!("apart/README.md")]
#![doc = include_str!("terrain/README.md")]
#![doc = include_str!("edge/README.md")]

mod apart;
mod beat;
mod before;
mod books;
mod branch;
mod course;
mod dop853;
mod edge;
mod eighth;
mod envelope;
mod error;
mod fault;
mod figure;
mod flight;
mod fly;
mod fold;
mod full;
mod grid;
mod half;
mod inside;
mod jump;
mod jumps;
mod lines;
mod look;
mod model;
mod note;
mod outlook;
mod patch;
mod record;
mod report;
mod rest;
mod rope;
mod seek;
mod setup;
mod space;
mod step;
mod support;
mod table;
mod terrain;
mod walk;
mod watch;

pub use apart::{
    Apart, LoopCrossing, PairApart, Scene, Thing, Track, apart_in_flight, least_apart,
};
pub use before::{
    LoopClearance, StepOff, Tether, Tethered, Waiting, WaitingRope, step_off, waiting,
};
pub use edge::{
    EdgeTouch, Meet, MeshEdge, MeshTouch, RockEdge, RopeEdgeCase, RopeMeshCase, RopeOnEdge,
    RopeOnMesh, TouchEnd, UnclearEdge, mesh_edges, rope_on_edge, rope_on_mesh,
};
pub use envelope::{Envelope, Spread, envelope};
pub use error::SwingError;
pub use fault::{AfterFault, Fault, Part, When};
pub use flight::{
    AnchorResult, Assumed, Catch, Clearance, Ending, EnergyBooks, Event, Extreme, Flight,
    FoldBound, Happening, LineResult, Rest, RingResult, RopeResult, Series, TimeAbove, Work,
};
pub use fly::fly;
pub use fold::Fold;
pub use full::{
    FullBooks, FullFlight, FullLine, FullNote, FullRope, FullSeries, LineLoss, Mesh, MeshReport,
    RopeClearance, Slid, Slide, fly_full,
};
pub use jump::{Follow, Jump, Line, Place, Response, Rope, Run, Stop, Wall};
pub use jumps::{Jumps, TableReport};
pub use note::Note;
pub use outlook::{Limit, NamedForce, Outlook, WallLimit, outlook};
pub(crate) use seek::wind_sweep_by;
pub use seek::{
    EdgeStretch, ExitPlaces, HighestExit, RopeLengths, WallWind, WindSweep, Winds,
    exits_that_clear, highest_exit_for_peak, rope_length_for_lowest, wind_sweep,
};
pub(crate) use terrain::walls as ready_walls;
pub use terrain::{
    ClearanceCase, ClearanceHistory, MeshFile, Placing, RopeClearanceCase, RopeClearanceHistory,
    RopeHistory, TerrainError, TerrainFacts, TerrainMesh, Up, WallHistory, clearance_history,
    rope_clearance_history, terrain_facts,
};

#[cfg(test)]
mod tests;
