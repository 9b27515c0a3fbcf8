use super::*;
use crate::quantity::*;
use crate::swing::tests::{at, demo, lossless, plain, rope};
use crate::swing::*;

mod agree;
mod books;
mod demo_rig;
mod exact;
mod faults;
mod limits;
mod rest;
mod slide;
mod space;
mod waves;

fn mesh(nodes: usize) -> Mesh {
    Mesh { nodes_per_line: nodes, nodes_per_rope: nodes, ..Mesh::default() }
}

/// A body hung from a fixed ring on a massive rope, at rest, and then struck downwards.
fn hung(rest: f64, density: f64, ea: f64, nodes: usize, speed: f64) -> Jump {
    let mut jump = plain(at(0.0, -0.9 * rest), rest, ea);
    jump.ropes = vec![rope("rope", rest, density, lossless(ea))];
    jump.follow.horizon = 1e-3.seconds();
    let still = fly_full(&jump, &mesh(nodes)).unwrap().rest.unwrap();
    jump.exit = still.body;
    jump.exit_speed_z = (-speed).meters_per_second();
    jump
}

/// Times at which a series passes a level upwards, between samples by a straight line.
fn rises(t_s: &[f64], y: &[f64], level: f64) -> Vec<f64> {
    let pairs = t_s.windows(2).zip(y.windows(2));
    pairs
        .filter(|(_, y)| y[0] < level && y[1] >= level)
        .map(|(t, y)| t[0] + (t[1] - t[0]) * (level - y[0]) / (y[1] - y[0]))
        .collect()
}
