//! A terrain of triangles, as given and as used.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::super::jump::Place;
use super::error::TerrainError;
use super::form::Form;
use super::soup::Corners;
use super::surface::Surface;
use super::{obj, stl};
use crate::quantity::check::{finite, positive};
use crate::quantity::{Angle, Length, Quantity};

/// Largest file, bytes.
const MOST_BYTES: usize = 100_000_000;

/// The content of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MeshFile {
    /// Wavefront OBJ.
    Obj(String),
    /// STL as text.
    StlText(String),
    /// Binary STL.
    StlBinary(Vec<u8>),
}

/// Which axis of the file points up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Up {
    /// The second.
    Y,
    /// The third.
    Z,
}

/// How a file lies in the frame of the span, Eq. (T1).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placing {
    /// Length of one unit of the file.
    pub scale: Length,
    /// Axis of the file that points up.
    pub up: Up,
    /// Where the origin of the file lies.
    pub origin: Place,
    /// Turn of the file about the vertical, to the left as seen from above.
    pub turn: Angle,
}

impl Placing {
    /// A file whose origin and axes are those of the span.
    #[must_use]
    pub fn aligned(scale: Length, up: Up) -> Self {
        Self { scale, up, origin: Place::of_m([0.0; 3]), turn: Angle::from_si(0.0) }
    }

    /// Checks the figures, and gives what places a corner.
    fn place(&self) -> Result<impl Fn([f64; 3]) -> [f64; 3], TerrainError> {
        let scale = positive("scale", self.scale)?;
        let [x, y, z] = [
            finite("origin.x", self.origin.x)?,
            finite("origin.y", self.origin.y)?,
            finite("origin.z", self.origin.z)?,
        ];
        let (sin, cos) = finite("turn", self.turn)?.sin_cos();
        let up = self.up;
        Ok(move |f: [f64; 3]| {
            let [a, b, c] = match up {
                Up::Z => f,
                Up::Y => [f[0], -f[2], f[1]],
            }
            .map(|f| scale * f);
            [x + cos * a - sin * b, y + sin * a + cos * b, z + c]
        })
    }
}

/// Terrain as a mesh of triangles, placed in the frame of the span. Copies share it.
///
/// In a document `{ "obj": text, "scale": "1 m", "up": "z" }`, with `stl` or `stl_binary` (base64) in place of
/// `obj`, and optionally `origin` and `turn`.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(try_from = "Form", into = "Form")]
pub struct TerrainMesh(Arc<Kept>);

#[derive(Debug)]
struct Kept {
    given: (MeshFile, Placing),
    surface: Surface,
}

impl PartialEq for TerrainMesh {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0) || self.0.given == other.0.given
    }
}

impl TerrainMesh {
    /// Reads and places a file.
    ///
    /// # Errors
    /// [`TerrainError`] names the line or the triangle: text that cannot be read, bad indices, corners that are not
    /// finite, triangles without area; also files without a triangle or above the bounds, and a scale
    /// that is not above zero.
    ///
    /// # Example
    /// ```
    /// use tautwork::quantity::Words;
    /// use tautwork::swing::{MeshFile, Placing, TerrainMesh, Up};
    /// let square = "v 0 0 0\nv 2 0 0\nv 2 2 0\nv 0 2 0\nf 1 2 3 4";
    /// let placing = Placing::aligned(1.0.meters(), Up::Z);
    /// let mesh = TerrainMesh::new(MeshFile::Obj(square.to_owned()), placing)?;
    /// assert_eq!(mesh.triangles(), 2);
    /// let broken = MeshFile::Obj(square.replace("f 1 2 3 4", "f 1 2 9"));
    /// let error = TerrainMesh::new(broken, placing).unwrap_err();
    /// assert_eq!(error.to_string(), "line 5: face vertex index out of bounds");
    /// # Ok::<(), tautwork::swing::TerrainError>(())
    /// ```
    pub fn new(file: MeshFile, placing: Placing) -> Result<Self, TerrainError> {
        let bytes = match &file {
            MeshFile::Obj(text) | MeshFile::StlText(text) => text.len(),
            MeshFile::StlBinary(bytes) => bytes.len(),
        };
        if bytes > MOST_BYTES {
            let most = format!("{MOST_BYTES} bytes");
            return Err(TerrainError::TooLarge { size: format!("{bytes} bytes"), most });
        }
        let place = placing.place()?;
        let mut soup = match &file {
            MeshFile::Obj(text) => obj::read(text)?,
            MeshFile::StlText(text) => stl::read_text(text)?,
            MeshFile::StlBinary(bytes) => stl::read_binary(bytes)?,
        };
        for corner in soup.triangles.as_flattened_mut() {
            *corner = place(*corner);
        }
        soup.check()?;
        let surface = Surface::new(&soup.triangles);
        Ok(Self(Arc::new(Kept { given: (file, placing), surface })))
    }

    /// Number of triangles.
    #[must_use]
    pub fn triangles(&self) -> usize {
        self.0.surface.corners().count()
    }

    /// Pieces in which the plane across at y cuts it, each as two places [x, z], m.
    pub(crate) fn cut_m(&self, y_m: f64) -> Vec<[[f64; 2]; 2]> {
        let piece = |[a, b, c]: Corners| {
            let ends: Vec<[f64; 2]> = [(a, b), (b, c), (c, a)]
                .into_iter()
                .filter(|(p, q)| (p[1] < y_m) != (q[1] < y_m))
                .map(|(p, q)| {
                    let share = (y_m - p[1]) / (q[1] - p[1]);
                    [0, 2].map(|i: usize| p[i] + share * (q[i] - p[i]))
                })
                .collect();
            // A plane that meets one side of a triangle meets another.
            <[[f64; 2]; 2]>::try_from(ends).ok()
        };
        self.0.surface.corners().filter_map(piece).collect()
    }

    /// The file and how it lies, as given.
    pub(super) fn given(&self) -> &(MeshFile, Placing) {
        &self.0.given
    }

    /// Corners of its triangles, placed.
    pub(in crate::swing) fn corners(&self) -> impl Iterator<Item = Corners> {
        self.0.surface.corners()
    }

    pub(super) fn surface(&self) -> &Surface {
        &self.0.surface
    }
}
