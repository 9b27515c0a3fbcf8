//! From the jump and the mesh to chains of equal segments.

use super::super::model::Model;
use super::super::{Jump, SwingError};
use super::mesh::Mesh;
use crate::material::Law;
use crate::quantity::check::{between, non_negative, positive};
use crate::quantity::{Invalid, Length, Quantity, Time, Words};

/// Most moving masses.
const MOST_NODES: usize = 100_000;

/// What a chain ends at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum End {
    Anchor([f64; 3]),
    Ring,
    Body,
}

/// Spring of a segment: a long-term law, and an arm that relaxes.
#[derive(Debug, Clone)]
pub(super) struct Spring {
    pub law: Law,
    pub arm_n: f64,
    pub relaxation_s: f64,
}

/// Equal segments in a row: half a line, from its anchor to the ring, or a jump rope, from ring to body.
#[derive(Debug, Clone)]
pub(super) struct Strand {
    pub from: End,
    pub to: End,
    pub segments: usize,
    /// Rest length of one segment, m.
    pub rest_m: f64,
    /// Mass of one segment, kg.
    pub mass_kg: f64,
    pub spring: Spring,
    /// Drag coefficient times diameter, m.
    pub drag_m: f64,
}

impl Strand {
    fn new(ends: (End, End), length_m: f64, density: f64, segments: usize, spring: Spring) -> Self {
        let segments = if density > 0.0 { segments } else { 1 };
        let rest_m = length_m / segments as f64;
        let (from, to) = ends;
        Self { from, to, segments, rest_m, mass_kg: density * rest_m, spring, drag_m: 0.0 }
    }

    pub fn length_m(&self) -> f64 {
        self.rest_m * self.segments as f64
    }
}

/// Halves of the lines, two a line, then the jump ropes.
pub(super) fn strands<S>(
    jump: &Jump,
    mesh: &Mesh,
    model: &Model<S>,
) -> Result<Vec<Strand>, SwingError> {
    check(jump, mesh)?;
    let width = |name: &str, width: Option<Length>| {
        width.map_or(Ok(0.0), |w| non_negative(&format!("mesh.{name}"), w))
    };
    let line_drag_m = width("line_drag_width", mesh.line_drag_width)?;
    let rope_drag_m = width("rope_drag_width", mesh.rope_drag_width)?;
    let mut all = Vec::with_capacity(2 * jump.lines.len() + jump.ropes.len());
    for line in &jump.lines {
        let place = |p: super::super::Place| End::Anchor([p.x.si(), p.y.si(), p.z.si()]);
        let (near_m, far_m) = (line.near_length.si(), line.far_length.si());
        let total = mesh.nodes_per_line + 2;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between none and all of a bounded count"
        )]
        let near = (total as f64 * near_m / (near_m + far_m)).round() as usize;
        let near = near.clamp(1, total - 1);
        let loss = mesh.line_losses.iter().find(|loss| loss.line == line.name);
        let spring = Spring {
            law: line.stretch.law().clone(),
            arm_n: loss.map_or(0.0, |loss| loss.arm.si()),
            relaxation_s: loss.map_or(1.0, |loss| loss.relaxation.si()),
        };
        let density = line.linear_density.si();
        for (anchor, length_m, segments) in
            [(line.near, near_m, near), (line.far, far_m, total - near)]
        {
            let ends = (place(anchor), End::Ring);
            let half = Strand::new(ends, length_m, density, segments, spring.clone());
            all.push(Strand { drag_m: line_drag_m, ..half });
        }
    }
    for rope in &model.ropes {
        let spring = Spring {
            law: Law::Linear { ea_n: rope.long_n },
            arm_n: rope.arm_n,
            relaxation_s: rope.relaxation_s,
        };
        let density = rope.mass_kg / rope.rest_m;
        let segments = mesh.nodes_per_rope + 1;
        let whole = Strand::new((End::Ring, End::Body), rope.rest_m, density, segments, spring);
        all.push(Strand { drag_m: rope_drag_m, ..whole });
    }
    Ok(all)
}

fn check(jump: &Jump, mesh: &Mesh) -> Result<(), SwingError> {
    let counts = [
        ("nodes_per_line", mesh.nodes_per_line, jump.lines.len()),
        ("nodes_per_rope", mesh.nodes_per_rope, jump.ropes.len()),
    ];
    for (name, nodes, of) in counts {
        if nodes.checked_mul(of.max(1)).is_none_or(|all| all > MOST_NODES) {
            let allowed = format!("at most {MOST_NODES} moving masses in all");
            return Err(Invalid::new(format!("mesh.{name}"), nodes.to_string(), &allowed).into());
        }
    }
    between("mesh.step_share", mesh.step_share, 0.01.ratio(), 0.95.ratio())?;
    between("mesh.drift", mesh.drift, 1e-9.ratio(), 1.0.ratio())?;
    if !(1..=100_000_000).contains(&mesh.most_steps) {
        let problem = format!("{} is not from 1 to 100000000", mesh.most_steps);
        return Err(SwingError::contradiction("mesh.most_steps", &problem));
    }
    for (i, loss) in mesh.line_losses.iter().enumerate() {
        let key = format!("mesh.line_losses[{i}]");
        let within = |e: Invalid| e.within(&key);
        positive("arm", loss.arm).map_err(within)?;
        between("relaxation", loss.relaxation, Time::from_si(1e-9), Time::from_si(1e6))
            .map_err(within)?;
        let lines: Vec<_> = jump.lines.iter().filter(|line| line.name == loss.line).collect();
        let problem = match lines.as_slice() {
            [line] if matches!(line.stretch.law(), Law::Linear { .. }) => continue,
            [_] => "a line with a loss must have a linear stretch",
            [] => "no line has this name",
            _ => "more than one line has this name",
        };
        return Err(SwingError::contradiction(&format!("{key}.line"), problem));
    }
    Ok(())
}
