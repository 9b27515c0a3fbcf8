//! Walls as a jump sees them.

use super::super::SwingError;
use super::super::jump;
use super::super::setup::point;
use super::mesh::TerrainMesh;
use super::near::Near;
use super::profile::Profile;

/// A named profile or mesh.
#[derive(Debug, Clone)]
pub(crate) struct Wall {
    pub name: String,
    shape: Shape,
}

#[derive(Debug, Clone)]
enum Shape {
    Profile(Profile),
    Mesh(TerrainMesh),
}

impl Wall {
    /// Least distance from a point, m.
    pub fn away_m(&self, p: [f64; 3]) -> f64 {
        match &self.shape {
            Shape::Profile(profile) => profile.distance_m([p[0], p[2]]),
            Shape::Mesh(mesh) => mesh.surface().nearest_point(p).away_m,
        }
    }

    /// The nearest point of the wall.
    pub fn near(&self, p: [f64; 3]) -> Near {
        match &self.shape {
            Shape::Profile(profile) => profile.near(p, p),
            Shape::Mesh(mesh) => mesh.surface().nearest_point(p),
        }
    }

    /// Nearest points of the wall and the segment from p to q, if they are nearer than `most_m`.
    pub fn near_segment(&self, p: [f64; 3], q: [f64; 3], most_m: f64) -> Option<Near> {
        match &self.shape {
            Shape::Profile(profile) => Some(profile.near(p, q)).filter(|n| n.away_m < most_m),
            Shape::Mesh(mesh) => mesh.surface().nearest_to_segment(p, q, most_m),
        }
    }

    /// Distance straight down to the wall below a point, m; none if there is none.
    pub fn below_m(&self, p: [f64; 3]) -> Option<f64> {
        match &self.shape {
            Shape::Profile(profile) => profile.below_m(p),
            Shape::Mesh(mesh) => mesh.surface().below_m(p),
        }
    }

    /// Whether the straight path from `p` to `q` meets the wall.
    pub fn crossed(&self, p: [f64; 3], q: [f64; 3]) -> bool {
        self.first_crossing(p, q).is_some()
    }

    /// Where the straight path from `p` to `q` first meets the wall, as a share of it.
    pub fn first_crossing(&self, p: [f64; 3], q: [f64; 3]) -> Option<f64> {
        match &self.shape {
            Shape::Profile(profile) => profile.first_crossing(p, q),
            Shape::Mesh(mesh) => mesh.surface().first_crossing(p, q),
        }
    }
}

/// Checks walls and makes them ready.
pub(crate) fn walls(given: &[jump::Wall]) -> Result<Vec<Wall>, SwingError> {
    let each = given.iter().enumerate().map(|(i, wall)| {
        let shape = match (&wall.mesh, wall.points.is_empty()) {
            (None, _) => Shape::Profile(profile(wall, &format!("walls[{i}].points"))?),
            (Some(mesh), true) => Shape::Mesh(mesh.clone()),
            (Some(_), false) => {
                let problem = "a wall is a profile or a mesh, not both";
                return Err(SwingError::contradiction(&format!("walls[{i}]"), problem));
            }
        };
        Ok(Wall { name: wall.name.clone(), shape })
    });
    each.collect()
}

fn profile(wall: &jump::Wall, key: &str) -> Result<Profile, SwingError> {
    let mut corners_m: Vec<[f64; 2]> = Vec::new();
    for (k, place) in wall.points.iter().enumerate() {
        let [x, y, z] = point(&format!("{key}[{k}]"), *place)?;
        if y != 0.0 {
            return Err(SwingError::contradiction(key, "a wall is a profile: its y is zero"));
        }
        let corner = [x, z];
        if corners_m.last() == Some(&corner) {
            return Err(SwingError::contradiction(key, "two points in a row are the same"));
        }
        corners_m.push(corner);
    }
    if corners_m.len() < 2 {
        return Err(SwingError::contradiction(key, "a wall needs at least two points"));
    }
    Ok(Profile { corners_m })
}
