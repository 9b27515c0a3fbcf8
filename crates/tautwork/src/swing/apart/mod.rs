//! What comes near what: its theory is on the page of this folder, joined to that of `swing`.

mod in_flight;
mod least;
mod loops;
mod scene;

pub use in_flight::apart_in_flight;
pub use least::least_apart;
pub(super) use scene::check_times;
pub use scene::{Apart, LoopCrossing, PairApart, Scene, Thing, Track};

#[cfg(test)]
mod tests;
