//! From the jump and the mesh to chains of equal segments.

use super::super::model::Model;
use super::super::{Jump, Line, SwingError};
use super::mesh::{Mesh, Slide};
use crate::material::Law;
use crate::quantity::check::{between, non_negative, positive};
use crate::quantity::{Invalid, Length, Quantity, Time, Words};

/// The ring comes no nearer to a mass of a line that it slides along, in segments: it takes that mass up
/// and sets down the one behind it. A little less than half, so that it does not go to and fro.
pub(super) const NEAREST: f64 = 0.4;

/// Most moving masses.
const MOST_NODES: usize = 100_000;

/// What a chain ends at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum End {
    Anchor([f64; 3]),
    Ring,
    Body,
}

/// How the ring slides along a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Hold {
    pub mu: f64,
    /// Least and largest rest length on the near side, m, and whether an anchor sets it.
    pub stops_m: [f64; 2],
    pub anchors: [bool; 2],
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
    /// Rest length of the last segment, m: another one where the ring slides.
    pub last_m: f64,
    /// How the ring slides along the line.
    pub hold: Option<Hold>,
    /// Most segments the ring may leave on this side.
    pub room: usize,
    /// Mass of one segment, kg.
    pub mass_kg: f64,
    pub spring: Spring,
    /// Drag coefficient times diameter, m.
    pub drag_m: f64,
}

impl Strand {
    pub fn new(
        ends: (End, End),
        length_m: f64,
        density: f64,
        segments: usize,
        spring: Spring,
    ) -> Self {
        let segments = if density > 0.0 { segments } else { 1 };
        let rest_m = length_m / segments as f64;
        let (from, to) = ends;
        Self {
            from,
            to,
            segments,
            rest_m,
            last_m: rest_m,
            hold: None,
            room: segments,
            mass_kg: density * rest_m,
            spring,
            drag_m: 0.0,
        }
    }

    pub fn length_m(&self) -> f64 {
        self.rest_m * (self.segments - 1) as f64 + self.last_m
    }

    /// Rest length of a segment, m.
    pub fn segment_m(&self, i: usize) -> f64 {
        if i + 1 == self.segments { self.last_m } else { self.rest_m }
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
        let (near_m, far_m) = (line.near_length.si(), line.far_length.si());
        let total = mesh.nodes_per_line + 2;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between none and all of a bounded count"
        )]
        let near = (total as f64 * near_m / (near_m + far_m)).round() as usize;
        let near = near.clamp(1, total - 1);
        let slide = mesh.slides.iter().find(|slide| slide.line == line.name);
        let loss = mesh.line_losses.iter().find(|loss| loss.line == line.name);
        let spring = Spring {
            law: line.stretch.law().clone(),
            arm_n: loss.map_or(0.0, |loss| loss.arm.si()),
            relaxation_s: loss.map_or(1.0, |loss| loss.relaxation.si()),
        };
        let density = line.linear_density.si();
        let mut halves = [(line.near, near_m, near), (line.far, far_m, total - near)].map(|half| {
            let (anchor, length_m, segments) = half;
            let ends = (End::Anchor(anchor.m()), End::Ring);
            let half = Strand::new(ends, length_m, density, segments, spring.clone());
            Strand { drag_m: line_drag_m, ..half }
        });
        if let Some(slide) = slide {
            let total = if density > 0.0 { total } else { 2 };
            slidable(&mut halves, near_m, far_m, total, slide)
                .map_err(|problem| SwingError::contradiction(&line.name, problem))?;
        }
        all.extend(halves);
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

/// Divides both halves by the same segments, with the ring inside of two of them, Eq. (F20).
fn slidable(
    halves: &mut [Strand; 2],
    near_m: f64,
    far_m: f64,
    total: usize,
    slide: &Slide,
) -> Result<(), &'static str> {
    let rest_m = (near_m + far_m) / total as f64;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between none and all of a bounded count"
    )]
    let near = (near_m / rest_m).round() as usize;
    let near = near.clamp(1, total - 1);
    let least_m = NEAREST * rest_m;
    let hold = Hold {
        mu: slide.friction.si(),
        stops_m: [
            slide.from.map_or(least_m, |from| from.si().max(least_m)),
            slide.to.map_or(near_m + far_m - least_m, |to| to.si().min(near_m + far_m - least_m)),
        ],
        anchors: [slide.from.is_none(), slide.to.is_none()],
    };
    if near_m < hold.stops_m[0] || near_m > hold.stops_m[1] {
        return Err(
            "the ring does not start between the stops, or too near an anchor for this mesh",
        );
    }
    let density = halves[0].mass_kg / halves[0].rest_m;
    for (half, (segments, length_m)) in
        halves.iter_mut().zip([(near, near_m), (total - near, far_m)])
    {
        half.segments = segments;
        half.rest_m = rest_m;
        half.last_m = length_m - (segments - 1) as f64 * rest_m;
        half.mass_kg = density * rest_m;
        half.hold = Some(hold);
        half.room = total - 1;
    }
    Ok(())
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
        let line = one_line(jump, &loss.line, &key)?;
        if !matches!(line.stretch.law(), Law::Linear { .. }) {
            let problem = "a line with a loss must have a linear stretch";
            return Err(SwingError::contradiction(&format!("{key}.line"), problem));
        }
    }
    for (i, slide) in mesh.slides.iter().enumerate() {
        let key = format!("mesh.slides[{i}]");
        let within = |e: Invalid| e.within(&key);
        between("friction", slide.friction, 0.0.ratio(), 10.0.ratio()).map_err(within)?;
        for (name, stop) in [("from", slide.from), ("to", slide.to)] {
            stop.map_or(Ok(0.0), |stop| non_negative(name, stop)).map_err(within)?;
        }
        one_line(jump, &slide.line, &key)?;
        let named = |name: &String| *name == slide.line;
        let problem = if mesh.line_losses.iter().any(|loss| named(&loss.line)) {
            "a line that the ring slides along has no loss of its own"
        } else if mesh.slides[..i].iter().any(|before| named(&before.line)) {
            "the line is listed before"
        } else {
            continue;
        };
        return Err(SwingError::contradiction(&format!("{key}.line"), problem));
    }
    Ok(())
}

/// The only line of a name.
fn one_line<'a>(jump: &'a Jump, name: &str, key: &str) -> Result<&'a Line, SwingError> {
    let mut lines = jump.lines.iter().filter(|line| line.name == name);
    let problem = match (lines.next(), lines.next()) {
        (Some(line), None) => return Ok(line),
        (Some(_), Some(_)) => "more than one line has this name",
        (None, _) => "no line has this name",
    };
    Err(SwingError::contradiction(&format!("{key}.line"), problem))
}
