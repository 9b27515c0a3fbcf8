//! The full model: its theory is on the page of this folder, joined to that of `swing`.

mod answer;
mod books;
mod fail;
mod fly;
mod grid;
mod hang;
mod mesh;
mod motion;
mod plan;
mod report;
mod rest;
mod ropes;
mod run;
mod slide;
mod slip;
mod springs;
mod table;
mod watch;

pub use answer::{
    FullBooks, FullFlight, FullLine, FullNote, FullRope, FullSeries, RopeClearance, Slid,
};
pub use fly::fly_full;
pub use mesh::{LineLoss, Mesh, MeshReport, Slide};

#[cfg(test)]
mod tests;
