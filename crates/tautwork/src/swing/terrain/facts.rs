//! What became of a file.

use serde::{Deserialize, Serialize};

use super::super::jump::Place;
use super::mesh::{MeshFile, TerrainMesh};
use super::triangle::{area_m2, sides_m};
use crate::quantity::{Area, Length, Quantity, Text};

/// What became of a file: look at it before any clearance from it is believed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct TerrainFacts {
    /// Number of triangles.
    pub triangles: usize,
    /// Least x, y and z of any corner.
    pub low: Place,
    /// Greatest x, y and z of any corner.
    pub high: Place,
    /// Area of all triangles.
    #[serde(with = "Text::<Area>")]
    pub area: Area,
    /// Longest side of any triangle.
    #[serde(with = "Text::<Length>")]
    pub longest_side: Length,
    /// Greatest rounding of a coordinate by the format: STL has single precision.
    #[serde(with = "Text::<Length>")]
    pub rounding: Length,
}

/// Size and place of a terrain, to see that scale, up axis and placing are right.
///
/// # Errors
/// None; the file was checked when it was read.
///
/// # Example
/// ```
/// use tautwork::quantity::Words;
/// use tautwork::swing::{MeshFile, Placing, TerrainMesh, Up, terrain_facts};
/// // A triangle of 3 by 4 feet, upright in a file whose y is up.
/// let file = MeshFile::Obj("v 0 0 0\nv 3 0 0\nv 0 4 0\nf 1 2 3".to_owned());
/// let facts = terrain_facts(&TerrainMesh::new(file, Placing::aligned(1.0.feet(), Up::Y))?);
/// assert!((facts.high.z.value - 4.0 * 0.3048).abs() < 1e-12);
/// assert!((facts.area.value - 6.0 * 0.3048 * 0.3048).abs() < 1e-12);
/// let empty = MeshFile::Obj(String::new());
/// assert!(TerrainMesh::new(empty, Placing::aligned(1.0.feet(), Up::Y)).is_err());
/// # Ok::<(), tautwork::swing::TerrainError>(())
/// ```
#[must_use]
pub fn terrain_facts(mesh: &TerrainMesh) -> TerrainFacts {
    let mut low = [f64::INFINITY; 3];
    let mut high = [f64::NEG_INFINITY; 3];
    let (mut all_m2, mut longest_m) = (0.0, 0.0_f64);
    for triangle in mesh.surface().corners() {
        for corner in triangle {
            low = [0, 1, 2].map(|i| low[i].min(corner[i]));
            high = [0, 1, 2].map(|i| high[i].max(corner[i]));
        }
        all_m2 += area_m2(triangle);
        longest_m = sides_m(triangle).into_iter().fold(longest_m, f64::max);
    }
    let (file, placing) = mesh.given();
    let epsilon = match file {
        MeshFile::Obj(_) => 0.5 * f64::EPSILON,
        MeshFile::StlText(_) | MeshFile::StlBinary(_) => 0.5 * f64::from(f32::EPSILON),
    };
    // Before it was placed.
    let origin = placing.origin.m();
    let far_m = (0..3).map(|i| (low[i] - origin[i]).abs().max((high[i] - origin[i]).abs()));
    let far_m = far_m.fold(0.0, f64::max);
    TerrainFacts {
        triangles: mesh.triangles(),
        low: Place::of_m(low),
        high: Place::of_m(high),
        area: Area::from_si(all_m2),
        longest_side: Length::from_si(longest_m),
        rounding: Length::from_si(epsilon * far_m),
    }
}
