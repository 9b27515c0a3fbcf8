//! Nearest points of a thing and a wall.

/// A point of the thing, one of the wall, and their distance.
#[expect(clippy::struct_field_names, reason = "each is in metres")]
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Near {
    pub away_m: f64,
    pub on_m: [f64; 3],
    pub wall_m: [f64; 3],
}

impl Near {
    pub fn nearer(self, other: Self) -> Self {
        if other.away_m < self.away_m { other } else { self }
    }
}
