//! Clearance of the jump ropes, at the samples.

use super::super::space::size;
use super::super::terrain::Wall;
use super::grid::{Chain, Grid};

/// Nearest approach of any rope to one wall.
#[derive(Debug, Clone, Copy)]
pub(super) struct RopeApproach {
    pub least_m: f64,
    pub rope: usize,
    pub t_s: f64,
    pub at_m: [f64; 3],
    pub crossed: bool,
    /// No rope can come nearer than ever before this time, s.
    due_s: f64,
}

#[derive(Debug, Clone)]
pub(super) struct RopeWatch {
    pub walls: Vec<RopeApproach>,
}

impl RopeWatch {
    pub fn new(walls: usize) -> Self {
        let none = RopeApproach {
            least_m: f64::INFINITY,
            rope: 0,
            t_s: 0.0,
            at_m: [0.0; 3],
            crossed: false,
            due_s: 0.0,
        };
        Self { walls: vec![none; walls] }
    }

    pub fn look(&mut self, grid: &Grid, ropes: &[Chain], walls: &[Wall], t_s: f64) {
        for (seen, wall) in self.walls.iter_mut().zip(walls) {
            if t_s < seen.due_s || seen.crossed {
                continue;
            }
            let (mut nearest, mut fastest) = (f64::INFINITY, 0.0_f64);
            for (rope, chain) in ropes.iter().enumerate() {
                for i in chain.points() {
                    fastest = fastest.max(size(grid.v_m_per_s(i)));
                    if i == chain.last_point() {
                        continue;
                    }
                    let near = wall.near_segment(grid.at_m(i), grid.at_m(i + 1), nearest);
                    let Some(near) = near else { continue };
                    seen.crossed |= near.away_m == 0.0;
                    nearest = near.away_m;
                    if near.away_m < seen.least_m {
                        (seen.least_m, seen.at_m) = (near.away_m, near.on_m);
                        (seen.rope, seen.t_s) = (rope, t_s);
                    }
                }
            }
            // Three times the speed: it grows between samples.
            let spare_s = (nearest - seen.least_m) / (3.0 * fastest + 1.0);
            seen.due_s = t_s + spare_s;
        }
    }
}
