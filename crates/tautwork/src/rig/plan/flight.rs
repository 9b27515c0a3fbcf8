//! The jump of the document as an input of the jump model.

use super::gear::{Defaults, jump_rope};
use super::lines::Span;
use super::stops::stops;
use crate::quantity::{Force, Length, Quantity, Ratio, Speed, Time};
use crate::rig::{BodyEntry, MeshEntry, Rig, RigError, TerrainEntry, UpWord};
use crate::swing::{
    Extreme, Flight, Fold, Follow, FullFlight, Jump, Jumps, Line, Mesh, MeshFile, Outlook, Place,
    Placing, Run, SwingError, TerrainError, TerrainMesh, Up, Waiting, Wall, fly_full, waiting,
};

/// The rig of the document, its lines tabled once for all of its jumps.
pub(super) struct Site<'a> {
    pub rig: &'a Rig,
    pub spans: &'a [Span<'a>],
    pub defaults: &'a Defaults,
    /// Walls and ground, read once.
    walls: Vec<Wall>,
    jumps: Jumps,
}

impl<'a> Site<'a> {
    pub fn new(
        rig: &'a Rig,
        spans: &'a [Span<'a>],
        defaults: &'a Defaults,
    ) -> Result<Self, RigError> {
        let lines: Vec<Line> = spans.iter().map(line).collect();
        let jumps = Jumps::new(&lines).map_err(|e| RigError::unsolved("the lines", &e))?;
        Ok(Self { rig, spans, defaults, walls: terrain(rig)?, jumps })
    }

    /// Runs the jump of a body, stiff and soft.
    pub fn fly(&self, body: &BodyEntry, change: Change) -> Result<Outlook, RigError> {
        let jump = self.jump(body, change)?;
        self.jumps.outlook(&jump).map_err(|e| RigError::unsolved("the jump", &e))
    }

    /// Walls and ground.
    pub fn walls(&self) -> &[Wall] {
        &self.walls
    }

    /// The jumper and the loops of rope before the jump.
    pub fn waiting(&self) -> Result<Waiting, RigError> {
        waiting(&self.jump(&self.rig.jumper, Change::default())?)
            .map_err(|e| RigError::unsolved("waiting at the exit", &e))
    }

    /// Follows one run of a jump that is like [`Self::jump`].
    pub fn run(&self, jump: &Jump) -> Result<Flight, SwingError> {
        self.jumps.fly(jump)
    }

    /// Flies the jump of a body in the full model.
    pub fn fly_full(
        &self,
        body: &BodyEntry,
        run: Run,
        horizon: Time,
    ) -> Result<FullFlight, RigError> {
        let jump = self.jump(body, Change::default())?;
        let follow = Follow { horizon, ..jump.follow };
        fly_full(&Jump { run, follow, ..jump }, &Mesh::default())
            .map_err(|e| RigError::unsolved("the jump in the full model", &e))
    }
}

/// What is varied against the document.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Change {
    /// Added to the rest length of each jump rope.
    pub rope_longer_m: f64,
    /// Takes the place of the part of the lines' mass that moves with the ring.
    pub line_mass_fraction: Option<f64>,
    /// Velocity of the air, along the span and to the left.
    pub wind_m_per_s: [f64; 2],
    /// A question beside the plan: followed for a shorter time and less closely.
    pub what_if: bool,
}

/// Time for which a question beside the plan is followed, s: three swings of a long rope.
pub(super) const WHAT_IF_S: f64 = 60.0;
/// Its relative error in each step; peaks change by less than one part in ten thousand.
const WHAT_IF_TOLERANCE: f64 = 1e-6;

impl Site<'_> {
    /// The jump of a body.
    pub fn jump(&self, body: &BodyEntry, change: Change) -> Result<Jump, RigError> {
        let (rig, defaults) = (self.rig, self.defaults);
        let mut ropes = Vec::new();
        for rope in &rig.jump.rope {
            let mut rope = jump_rope(rig, rope)?;
            rope.rest_length = Length::from_si(rope.rest_length.si() + change.rope_longer_m);
            ropes.push(rope);
        }
        let fraction =
            change.line_mass_fraction.map_or(defaults.line_mass_fraction, Ratio::from_si);
        Ok(Jump {
            mass: body.mass,
            drag_area: body.drag_area_or_default(),
            exit: place(&rig.jump.exit),
            exit_speed_x: rig.jump.velocity[0],
            exit_speed_y: rig.jump.velocity[1],
            exit_speed_z: rig.jump.velocity[2],
            ropes,
            lines: self.spans.iter().map(line).collect(),
            stops: stops(rig)?,
            ring_mass: rig.ring.mass,
            fixed_ring: None,
            ring_at_exit: None,
            ring_damping: rig.ring.damping,
            line_mass_share: Some(fraction),
            rope_drag_area: Some(defaults.rope_drag_area),
            air_density: Some(defaults.air_density),
            wind: blows(change.wind_m_per_s[0]),
            wind_y: blows(change.wind_m_per_s[1]),
            fold: Fold::Neglected,
            faults: vec![],
            walls: self.walls.clone(),
            body_radius: body.radius_or_default(),
            body_length: body.length,
            launch_zone: Some(defaults.launch_radius),
            timed_forces: defaults.force_levels.clone(),
            run: Run::default(),
            follow: follow(defaults, change),
        })
    }
}

/// None of a component that is zero: it then is what the jump assumes.
fn blows(m_per_s: f64) -> Option<Speed> {
    (m_per_s != 0.0).then(|| Speed::from_si(m_per_s))
}

fn line(span: &Span<'_>) -> Line {
    Line {
        name: span.entry.name.clone(),
        near: place(&span.near),
        far: place(&span.far),
        near_length: span.near_length(),
        far_length: span.far_length(),
        linear_density: span.cordage.linear_density,
        stretch: span.stretch.clone(),
    }
}

fn follow(defaults: &Defaults, change: Change) -> Follow {
    let follow = Follow { horizon: defaults.horizon, ..Follow::default() };
    if !change.what_if {
        return follow;
    }
    Follow {
        horizon: Time::from_si(WHAT_IF_S.min(defaults.horizon.si())),
        tolerance: Ratio::from_si(WHAT_IF_TOLERANCE),
        ..follow
    }
}

/// Walls and ground of the document, meshes read.
fn terrain(rig: &Rig) -> Result<Vec<Wall>, RigError> {
    rig.terrain.iter().map(wall).collect()
}

fn wall(terrain: &TerrainEntry) -> Result<Wall, RigError> {
    if let Some(mesh) = &terrain.mesh {
        let what = format!("terrain {}", terrain.name);
        let mesh = triangles(mesh).map_err(|e| RigError::unsolved(&what, &e))?;
        return Ok(Wall::mesh(terrain.name.clone(), mesh));
    }
    let points = terrain.points.iter().map(|p| Place { x: p[0], y: Length::from_si(0.0), z: p[1] });
    Ok(Wall::profile(terrain.name.clone(), points.collect()))
}

/// A mesh of the document.
pub(super) fn triangles(mesh: &MeshEntry) -> Result<TerrainMesh, TerrainError> {
    let file = match (&mesh.obj, &mesh.stl) {
        (_, Some(text)) => MeshFile::StlText(text.clone()),
        (text, None) => MeshFile::Obj(text.clone().unwrap_or_default()),
    };
    let up = match mesh.up {
        Some(UpWord::Y) => Up::Y,
        _ => Up::Z,
    };
    let aligned = Placing::aligned(mesh.scale.unwrap_or(Length::from_si(1.0)), up);
    let placing = Placing {
        origin: mesh.origin.as_ref().map_or(aligned.origin, place),
        turn: mesh.turn.unwrap_or(aligned.turn),
        ..aligned
    };
    TerrainMesh::new(file, placing)
}

/// Number of an anchor of the document among those of a flight, which go by their places.
pub(super) fn anchor_at(flight: &Flight, rig: &Rig, anchor: usize) -> Option<usize> {
    let at = place(&rig.anchor[anchor].position);
    flight.anchors.iter().position(|found| found.place == at)
}

/// Peak force on an anchor of the document in a flight.
pub(super) fn anchor_in(flight: &Flight, rig: &Rig, anchor: usize) -> Option<Extreme<Force>> {
    anchor_at(flight, rig, anchor).map(|i| flight.anchors[i].peak)
}

pub(super) fn place(point: &[Length; 3]) -> Place {
    Place { x: point[0], y: point[1], z: point[2] }
}
