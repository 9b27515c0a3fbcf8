//! The loop of rope at the waiting jumper.

use nalgebra::Vector3;
use serde::{Deserialize, Serialize};

use super::super::model::Model;
use super::super::setup::set_up;
use super::super::support::{Nothing, Support};
use super::super::table::Table;
use super::super::terrain::Wall;
use super::super::{Jump, Place, SwingError};
use crate::line::{LineStrand, Net, NetLine, Node, solve_net};
use crate::material::{Law, Stretch};
use crate::quantity::{
    AxialRigidity, Force, GRAVITY, Length, LineLoad, MaybeText, Quantity, Ratio, Text, Triple,
};

/// Pieces through which a loop is drawn.
const PIECES: usize = 200;

/// One rope of the loop.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WaitingRope {
    /// Name of the rope.
    pub name: String,
    /// Its pull on the harness: along the span, to the left, up.
    #[serde(with = "Triple::<Force>")]
    pub pull: [Force; 3],
    /// Tension at the harness.
    #[serde(with = "Text::<Force>")]
    pub tension: Force,
    /// Lowest point of the loop.
    pub lowest: Place,
    /// How far that is below the body.
    #[serde(with = "Text::<Length>")]
    pub below_body: Length,
    /// The loop from ring to harness, along the span.
    pub x_m: Vec<f64>,
    /// To the left.
    pub y_m: Vec<f64>,
    /// Up.
    pub z_m: Vec<f64>,
}

/// Nearest approach of the loops to one wall.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LoopClearance {
    /// Name of the wall.
    pub wall: String,
    /// Name of the rope.
    pub rope: String,
    /// Distance; zero where the loop would lie on the wall.
    #[serde(with = "Text::<Length>")]
    pub least: Length,
}

/// The jumper, the ring and the loops between them before the jump.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Waiting {
    /// The ring.
    pub ring: Place,
    /// Each rope; one that is slack and without weight hangs straight and pulls nothing.
    pub ropes: Vec<WaitingRope>,
    /// Pull of all ropes on the harness: along the span, to the left, up.
    #[serde(with = "Triple::<Force>")]
    pub pull: [Force; 3],
    /// Its level part.
    #[serde(with = "Text::<Force>")]
    pub level_pull: Force,
    /// Friction under the feet that holds it, Eq. (L2); none where the ropes carry the whole jumper.
    #[serde(with = "MaybeText::<Ratio>")]
    pub friction_needed: Option<Ratio>,
    /// Nearest approach of the loops to each wall.
    pub clearances: Vec<LoopClearance>,
}

/// What the loops of rope do to the jumper who waits at the exit, Eq. (L1) and (L2).
///
/// # Errors
/// [`SwingError`]: as [`fly`](crate::swing::fly).
///
/// # Example
/// ```
/// use tautwork::quantity::{Quantity, ReadForce, Words};
/// use tautwork::swing::{Fold, Follow, Jump, Place, Response, Rope, Run, waiting};
/// let at = |x: f64, z: f64| Place { x: x.meters(), y: 0.0.meters(), z: z.meters() };
/// // A level loop over 20 m with 6 m of sag: 24.188 m of a rope of 5 N/m pull level with 45.94 N and
/// // down with half their weight, 60.47 N.
/// let jump = Jump {
///     mass: 80.0.kilograms(),
///     drag_area: 0.0.square_meters(),
///     exit: at(20.0, 0.0),
///     exit_speed_x: 0.0.meters_per_second(),
///     exit_speed_y: 0.0.meters_per_second(),
///     exit_speed_z: 0.0.meters_per_second(),
///     ropes: vec![Rope {
///         name: "rope".to_owned(),
///         rest_length: 24.188.meters(),
///         linear_density: (5.0 / 9.81).kilograms_per_meter(),
///         response: Response::Pair {
///             stiff: 1e6.kilonewtons(),
///             soft: 1e6.kilonewtons(),
///             relaxation: None,
///         },
///     }],
///     lines: vec![],
///     stops: vec![],
///     ring_mass: 0.0.kilograms(),
///     fixed_ring: Some(at(0.0, 0.0)),
///     ring_at_exit: None,
///     ring_damping: None,
///     line_mass_share: None,
///     rope_drag_area: None,
///     air_density: None,
///     wind: None,
///     wind_y: None,
///     fold: Fold::Neglected,
///     faults: vec![],
///     walls: vec![],
///     body_radius: 1.0.meters(),
///     body_length: None,
///     launch_zone: None,
///     timed_forces: vec![],
///     run: Run::Stiff,
///     follow: Follow::default(),
/// };
/// let still = waiting(&jump)?;
/// assert!((still.level_pull.in_newtons() - 45.94).abs() < 0.01);
/// assert!((still.friction_needed.unwrap().si() - 45.94 / (784.8 + 60.47)).abs() < 1e-4);
/// assert!(waiting(&Jump { mass: 0.0.kilograms(), ..jump }).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn waiting(jump: &Jump) -> Result<Waiting, SwingError> {
    if jump.fixed_ring.is_some() {
        let setup = set_up(jump, Nothing, [0.0; 3])?;
        loops(jump, &setup.model, &setup.course.walls)
    } else {
        let (lines, hang_m) = Table::bare_lines(&jump.lines)?;
        let setup = set_up(jump, lines, hang_m)?;
        loops(jump, &setup.model, &setup.course.walls)
    }
}

fn loops<S: Support>(jump: &Jump, model: &Model<S>, walls: &[Wall]) -> Result<Waiting, SwingError> {
    let solved = solve_net(&net(jump, model)?)
        .map_err(|e| SwingError::contradiction("ropes", &e.to_string()))?;
    let ring_m: [f64; 3] = solved.nodes[0].position.map(Quantity::si);
    let body_m = jump.exit.m();
    let states = &solved.lines[2 * jump.lines.len()..];
    let mut ropes = Vec::with_capacity(jump.ropes.len());
    let mut sum = Vector3::zeros();
    for ((rope, asked), state) in model.ropes.iter().zip(&jump.ropes).zip(states) {
        let pull = Vector3::from(state.pull_to.map(Quantity::si));
        sum += pull;
        let law = Law::Linear { ea_n: rope.long_n };
        let weight_n_per_m = GRAVITY * rope.mass_kg / rope.rest_m;
        let points = drawn(rope.rest_m, weight_n_per_m, law, ring_m, body_m)?;
        let at = |axis: usize| points.iter().map(|p| p[axis]).collect::<Vec<f64>>();
        let lowest = state.lowest.map(Quantity::si);
        ropes.push(WaitingRope {
            name: asked.name.clone(),
            pull: state.pull_to,
            tension: state.tension_to,
            lowest: Place::of_m(lowest),
            below_body: Length::from_si((body_m[2] - lowest[2]).max(0.0)),
            x_m: at(0),
            y_m: at(1),
            z_m: at(2),
        });
    }
    let level_n = sum.x.hypot(sum.y);
    let on_feet_n = model.body_kg * GRAVITY - sum.z;
    Ok(Waiting {
        ring: Place::of_m(ring_m),
        clearances: walls.iter().filter_map(|wall| nearest(wall, &ropes)).collect(),
        ropes,
        pull: [sum.x, sum.y, sum.z].map(Force::from_si),
        level_pull: Force::from_si(level_n),
        friction_needed: (on_feet_n > 0.0).then(|| Ratio::from_si(level_n / on_feet_n)),
    })
}

/// The ring first, then the body and both anchors of each line; both halves of each line, then the ropes.
fn net<S: Support>(jump: &Jump, model: &Model<S>) -> Result<Net, SwingError> {
    let none = [Force::from_si(0.0); 3];
    let node = |name: String, at: Place, fixed: bool| Node {
        name,
        position: [at.x, at.y, at.z],
        fixed,
        load: none,
    };
    let weight = Force::from_si(-jump.ring_mass.si() * GRAVITY);
    let ring_at = jump.fixed_ring.or(jump.ring_at_exit);
    let guess = match ring_at {
        Some(place) => place,
        None => Place::of_m(Table::bare_lines(&jump.lines)?.1),
    };
    let mut nodes = vec![
        Node { load: [none[0], none[1], weight], ..node("ring".into(), guess, ring_at.is_some()) },
        node("body".into(), jump.exit, true),
    ];
    let mut lines = Vec::new();
    for (i, line) in jump.lines.iter().enumerate() {
        for (side, at, length) in
            [("near", line.near, line.near_length), ("far", line.far, line.far_length)]
        {
            let name = format!("{side} {i}");
            nodes.push(node(name.clone(), at, true));
            lines.push(NetLine {
                name: name.clone(),
                from: name,
                to: "ring".to_owned(),
                rest_length: length,
                weight: LineLoad::from_si(line.linear_density.si() * GRAVITY),
                stretch: line.stretch.clone(),
            });
        }
    }
    for (i, rope) in model.ropes.iter().enumerate() {
        let stretch = Stretch::axial_rigidity(AxialRigidity::from_si(rope.long_n))
            .map_err(|e| SwingError::contradiction(&format!("ropes[{i}]"), &e.to_string()))?;
        lines.push(NetLine {
            name: format!("rope {i}"),
            from: "ring".to_owned(),
            to: "body".to_owned(),
            rest_length: Length::from_si(rope.rest_m),
            weight: LineLoad::from_si(GRAVITY * rope.mass_kg / rope.rest_m),
            stretch,
        });
    }
    Ok(Net { nodes, lines })
}

/// Points of a loop from the ring to the body.
fn drawn(
    rest_m: f64,
    weight_n_per_m: f64,
    law: Law,
    ring_m: [f64; 3],
    body_m: [f64; 3],
) -> Result<Vec<[f64; 3]>, SwingError> {
    let (ring, body) = (Vector3::from(ring_m), Vector3::from(body_m));
    let chord = body - ring;
    let mut strand = LineStrand::new(rest_m, Vector3::new(0.0, 0.0, -weight_n_per_m), law);
    let stop = |stop| SwingError::contradiction("ropes", &format!("{stop:?}"));
    let hangs = strand.solve(&chord).map_err(stop)?;
    let each = (0..=PIECES).map(|k| {
        let share = k as f64 / PIECES as f64;
        // Without weight and slack it has no shape: the straight way.
        let from_ring = if hangs { strand.place_m(share * rest_m, &chord) } else { chord * share };
        (ring + from_ring).into()
    });
    Ok(each.collect())
}

/// The rope that comes nearest to a wall.
fn nearest(wall: &Wall, ropes: &[WaitingRope]) -> Option<LoopClearance> {
    let each = ropes.iter().map(|rope| {
        let at = |k: usize| [rope.x_m[k], rope.y_m[k], rope.z_m[k]];
        let least_m = (1..rope.x_m.len()).fold(f64::INFINITY, |least_m, k| {
            wall.near_segment(at(k - 1), at(k), least_m).map_or(least_m, |near| near.away_m)
        });
        (rope, least_m)
    });
    let (rope, least_m) = each.min_by(|a, b| a.1.total_cmp(&b.1))?;
    Some(LoopClearance {
        wall: wall.name.clone(),
        rope: rope.name.clone(),
        least: Length::from_si(least_m),
    })
}
