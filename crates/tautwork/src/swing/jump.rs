//! What is asked: the jump, its rig, its terrain and how it is followed.

use serde::{Deserialize, Serialize};

use super::fault::Fault;
use super::fold::Fold;
use super::terrain::TerrainMesh;
use crate::material::Stretch;
use crate::quantity::{
    Area, AxialRigidity, Damping, Density, Force, Length, LinearDensity, Mass, MaybeText, Quantity,
    Ratio, Speed, Text, Texts, Time,
};

/// A point: x along the span from the near anchor, y to its left, z up.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Place {
    /// Along the span.
    #[serde(with = "Text::<Length>")]
    pub x: Length,
    /// To the left of the span; zero if left out.
    #[serde(with = "Text::<Length>", default = "in_plane")]
    pub y: Length,
    /// Up.
    #[serde(with = "Text::<Length>")]
    pub z: Length,
}

fn in_plane() -> Length {
    Length::from_si(0.0)
}

impl Place {
    /// From x, y and z in metres.
    pub(super) fn of_m(p: [f64; 3]) -> Self {
        let [x, y, z] = p.map(Length::from_si);
        Self { x, y, z }
    }

    /// x, y and z in metres.
    pub(super) fn m(self) -> [f64; 3] {
        [self.x.si(), self.y.si(), self.z.si()]
    }
}

/// How a jump rope stretches. Both kinds have a stiff and a soft end; see [`Run`]. Rigidities from 1 mN to
/// 1e12 N, relaxation times from 1 ns to 1e6 s.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "model", rename_all = "snake_case", deny_unknown_fields)]
pub enum Response {
    /// Standard linear solid, with the relaxation time as a range.
    Solid {
        /// Rigidity of the long-term spring.
        #[serde(with = "Text::<AxialRigidity>")]
        long_term: AxialRigidity,
        /// Rigidity of the spring in the viscous arm; zero for a rope without loss.
        #[serde(with = "Text::<AxialRigidity>")]
        arm: AxialRigidity,
        /// Shortest relaxation time: the soft end.
        #[serde(with = "Text::<Time>")]
        relaxation_low: Time,
        /// Longest relaxation time: the stiff end.
        #[serde(with = "Text::<Time>")]
        relaxation_high: Time,
    },
    /// Two linear ropes, a stiff and a soft one, each with a viscous arm for its loss.
    Pair {
        /// Rigidity in the stiff run.
        #[serde(with = "Text::<AxialRigidity>")]
        stiff: AxialRigidity,
        /// Rigidity in the soft run.
        #[serde(with = "Text::<AxialRigidity>")]
        soft: AxialRigidity,
        /// Relaxation time of the viscous arm, which is as stiff as the rope. None for a rope without
        /// loss.
        #[serde(with = "MaybeText::<Time>", default)]
        relaxation: Option<Time>,
    },
}

/// Which end of the ropes' stretch is flown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Run {
    /// The stiff rope of a pair, the longest relaxation time of a solid.
    #[default]
    Stiff,
    /// The soft rope of a pair, the shortest relaxation time of a solid.
    Soft,
}

/// A rope from the ring to the jumper.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rope {
    /// Name, for the results.
    pub name: String,
    /// Rest length from tie-in to tie-in, from 1 mm to 1000 km.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// Mass per rest length, up to 1000 kg/m; zero for a massless rope.
    #[serde(with = "Text::<LinearDensity>")]
    pub linear_density: LinearDensity,
    /// How it stretches.
    pub response: Response,
}

/// A line from the near anchor over the ring, which it is tied to, to the far anchor.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Line {
    /// Name, for the results.
    pub name: String,
    /// Near anchor.
    pub near: Place,
    /// Far anchor.
    pub far: Place,
    /// Rest length from the near anchor to the ring.
    #[serde(with = "Text::<Length>")]
    pub near_length: Length,
    /// Rest length from the ring to the far anchor.
    #[serde(with = "Text::<Length>")]
    pub far_length: Length,
    /// Mass per rest length.
    #[serde(with = "Text::<LinearDensity>")]
    pub linear_density: LinearDensity,
    /// How it stretches.
    pub stretch: Stretch,
}

/// A rope without weight from an anchor to the ring, slack by some travel: the ring is stopped when it has
/// moved that much away from the anchor. Two of them, from both sides, are a stabiliser.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stop {
    /// Name, for the results.
    pub name: String,
    /// Where it is anchored.
    pub anchor: Place,
    /// Slack in it while the jumper waits and the ring is at rest; it does nothing there.
    #[serde(with = "Text::<Length>")]
    pub travel: Length,
    /// How it stretches.
    pub response: Response,
}

/// A named wall, floor or ledge: either a profile of straight pieces in the plane of the span (y zero), the
/// same for every y, or a mesh.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wall {
    /// Name, for the results.
    pub name: String,
    /// Corners of a profile in order, at least two; empty with a mesh.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub points: Vec<Place>,
    /// Terrain as triangles.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mesh: Option<TerrainMesh>,
}

impl Wall {
    /// A profile.
    #[must_use]
    pub fn profile(name: impl Into<String>, points: Vec<Place>) -> Self {
        Self { name: name.into(), points, mesh: None }
    }

    /// A mesh.
    #[must_use]
    pub fn mesh(name: impl Into<String>, mesh: TerrainMesh) -> Self {
        Self { name: name.into(), points: Vec::new(), mesh: Some(mesh) }
    }
}

/// A jump from an edge on ropes that are tied to a ring on a span.
///
/// A line or rope that is absent is left out of its list. Every value left out is assumed and listed
/// in the result.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Jump {
    /// Mass of jumper and gear, from 1 g to 1000 t.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
    /// Drag area of the jumper: drag coefficient times frontal area.
    #[serde(with = "Text::<Area>")]
    pub drag_area: Area,
    /// Where the ropes are tied to the body at exit: its centre, if it is a ball.
    pub exit: Place,
    /// Velocity along x at exit.
    #[serde(with = "Text::<Speed>")]
    pub exit_speed_x: Speed,
    /// Velocity to the left at exit; zero if left out.
    #[serde(with = "Text::<Speed>", default = "still")]
    pub exit_speed_y: Speed,
    /// Velocity up at exit.
    #[serde(with = "Text::<Speed>")]
    pub exit_speed_z: Speed,
    /// Ropes from ring to jumper.
    pub ropes: Vec<Rope>,
    /// Lines that hold the ring; empty with a fixed ring.
    #[serde(default)]
    pub lines: Vec<Line>,
    /// Stops of a ring on lines.
    #[serde(default)]
    pub stops: Vec<Stop>,
    /// Mass of the ring with its connectors.
    #[serde(with = "Text::<Mass>")]
    pub ring_mass: Mass,
    /// A ring that does not move, such as one on a bridge; then there are no lines.
    #[serde(default)]
    pub fixed_ring: Option<Place>,
    /// Where the ring is at exit; the rest state of lines, ring and waiting ropes if left out.
    #[serde(default)]
    pub ring_at_exit: Option<Place>,
    /// Viscous damping of the ring; zero if left out.
    #[serde(with = "MaybeText::<Damping>", default)]
    pub ring_damping: Option<Damping>,
    /// Share of the mass of the lines that are taut before the jump that moves with the ring; one third
    /// if left out. Slack lines follow too late to add to it.
    #[serde(with = "MaybeText::<Ratio>", default)]
    pub line_mass_share: Option<Ratio>,
    /// Drag area of the jump ropes, as an equivalent at the body; zero if left out.
    #[serde(with = "MaybeText::<Area>", default)]
    pub rope_drag_area: Option<Area>,
    /// Density of air; 1.2 kg/m³ if left out.
    #[serde(with = "MaybeText::<Density>", default)]
    pub air_density: Option<Density>,
    /// Wind along x; zero if left out.
    #[serde(with = "MaybeText::<Speed>", default)]
    pub wind: Option<Speed>,
    /// Wind along y; zero if left out. It blows on the body, not on the lines.
    #[serde(with = "MaybeText::<Speed>", default)]
    pub wind_y: Option<Speed>,
    /// What slack rope that falls beside the body does.
    #[serde(default)]
    pub fold: Fold,
    /// What fails in flight.
    #[serde(default)]
    pub faults: Vec<Fault>,
    /// Walls and ground.
    #[serde(default)]
    pub walls: Vec<Wall>,
    /// Radius of the body, taken off every clearance.
    #[serde(with = "Text::<Length>")]
    pub body_radius: Length,
    /// Length of the body as a capsule that hangs from the tie-in, Eq. (T4), at least twice the radius. Left
    /// out, the body is a ball about the tie-in.
    #[serde(with = "MaybeText::<Length>", default)]
    pub body_length: Option<Length>,
    /// Radius of the launch zone around the exit, within which clearance counts as exit clearance; 3 m
    /// if left out.
    #[serde(with = "MaybeText::<Length>", default)]
    pub launch_zone: Option<Length>,
    /// Resultant forces whose exceedance is timed; 2, 3 and 4 kN if left out.
    #[serde(with = "Texts::<Force>", default = "usual_forces")]
    pub timed_forces: Vec<Force>,
    /// Which end of the ropes' stretch [`fly`](super::fly) takes.
    #[serde(default)]
    pub run: Run,
    /// How the motion is followed.
    #[serde(default)]
    pub follow: Follow,
}

fn still() -> Speed {
    Speed::from_si(0.0)
}

fn usual_forces() -> Vec<Force> {
    use crate::quantity::Words;
    vec![2.0.kilonewtons(), 3.0.kilonewtons(), 4.0.kilonewtons()]
}

/// How far and how closely the motion is followed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Follow {
    /// Time after which the integration stops at the latest; at most one hour.
    #[serde(with = "Text::<Time>")]
    pub horizon: Time,
    /// Error allowed in each step over the size of the motion, from 1e-12 to 1e-3.
    #[serde(with = "Text::<Ratio>")]
    pub tolerance: Ratio,
    /// Spacing of the series.
    #[serde(with = "Text::<Time>")]
    pub sample_every: Time,
    /// Most steps tried before giving up, at most ten million.
    pub most_steps: usize,
    /// Settled: greatest speed of body and ring.
    #[serde(with = "Text::<Speed>")]
    pub settled_speed: Speed,
    /// Settled: greatest difference between the rope force and the weight, over the weight.
    #[serde(with = "Text::<Ratio>")]
    pub settled_force: Ratio,
    /// Settled: time without a break for which both must hold. At least half a swing, since a swing
    /// stands still at its ends.
    #[serde(with = "Text::<Time>")]
    pub settled_for: Time,
}

impl Default for Follow {
    fn default() -> Self {
        use crate::quantity::Words;
        Self {
            horizon: 120.0.seconds(),
            tolerance: 1e-8.ratio(),
            sample_every: 0.05.seconds(),
            most_steps: 400_000,
            settled_speed: 1.0.meters_per_second(),
            settled_force: 0.05.ratio(),
            settled_for: 15.0.seconds(),
        }
    }
}
