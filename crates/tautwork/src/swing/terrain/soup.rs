//! Triangles as they come from a file.

use super::super::space::{cross, from, size};
use super::error::TerrainError;

/// Corners of a triangle.
pub(in crate::swing) type Corners = [[f64; 3]; 3];

pub(super) const MOST_TRIANGLES: usize = 1_000_000;
/// Farthest coordinate, m: products of four of them stay exact enough.
pub(in super::super) const FARTHEST_M: f64 = 1e6;
/// Least height of a triangle over its longest side; less is a line to rounding.
const THINNEST: f64 = 1e-12;

/// Triangles in order of the file, and their lines in a text that has them.
#[derive(Debug, Default)]
pub(super) struct Soup {
    pub triangles: Vec<Corners>,
    pub lines: Vec<usize>,
}

impl Soup {
    /// Checks all triangles after their corners were placed.
    pub fn check(&self) -> Result<(), TerrainError> {
        if self.triangles.is_empty() {
            return Err(TerrainError::Empty);
        }
        if self.triangles.len() > MOST_TRIANGLES {
            let size = format!("more than {MOST_TRIANGLES} triangles");
            return Err(TerrainError::TooLarge { size, most: MOST_TRIANGLES.to_string() });
        }
        for (k, triangle) in self.triangles.iter().enumerate() {
            let Some(problem) = problem(triangle) else { continue };
            let problem = problem.to_owned();
            return Err(match self.lines.get(k) {
                Some(line) => TerrainError::Line { line: *line, problem },
                None => TerrainError::Triangle { triangle: k + 1, problem },
            });
        }
        Ok(())
    }
}

fn problem(triangle: &Corners) -> Option<&'static str> {
    let flat = triangle.as_flattened();
    if !flat.iter().all(|v| v.is_finite()) {
        return Some("a corner is not finite");
    }
    if !flat.iter().all(|v| v.abs() <= FARTHEST_M) {
        return Some("a corner is more than 1000 km from the origin");
    }
    let [a, b, c] = *triangle;
    let sides = [from(a, b), from(b, c), from(c, a)];
    let longest = sides.map(size).into_iter().fold(0.0, f64::max);
    let area2 = size(cross(sides[0], sides[1]));
    // Also where squares vanish.
    let flat = longest < 1e-12 || area2 <= THINNEST * longest * longest;
    flat.then_some("the corners of the triangle lie on one line")
}
