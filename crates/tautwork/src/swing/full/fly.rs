//! One run of a jump in the full model.

use super::super::SwingError;
use super::super::course::Course;
use super::super::jump::Jump;
use super::super::lines::Lines;
use super::super::model::{BODY, Model, RING, SPEED};
use super::super::setup::{Setup, set_up};
use super::super::space::{from, size, three};
use super::super::support::Nothing;
use super::super::table::Table;
use super::answer::FullFlight;
use super::fail::faults;
use super::grid::Grid;
use super::mesh::{Mesh, MeshReport};
use super::motion::{Lump, Motion, stable_s, step_s};
use super::plan::{End, Spring, Strand, strands};
use super::report::{Before, report};
use super::rest::{Settled, Still};
use super::run::{Outcome, Pace, Run};
use super::slide::Slider;
use crate::material::Law;
use crate::quantity::{GRAVITY, Quantity, Time, print};

/// Follows a jump with lines and ropes as rows of masses: waves, snap loads of slack lines and the fold of
/// slack rope are in it.
///
/// Full model in space, Eq. (F1) to (F25). Valid for waves longer than a few segments; the
/// [`Mesh`] says how long those are. [`fly`](crate::swing::fly) answers the same question a hundred times
/// faster where it is valid.
///
/// # Errors
/// [`SwingError`]: as `fly`, and [`SwingError::MeshBudget`] if the mesh asks for more steps than allowed.
///
/// # Example
/// ```
/// use tautwork::quantity::{ReadForce, Words};
/// use tautwork::swing::{Fold, Follow, Jump, Mesh, Place, Response, Rope, Run, fly_full};
/// let at = |x: f64, z: f64| Place { x: x.meters(), y: 0.0.meters(), z: z.meters() };
/// // Straight down on a light lossless rope: F = W + sqrt(W² + 2 W EA f) with f = 1, 6.44 kN.
/// let jump = Jump {
///     mass: 80.0.kilograms(),
///     drag_area: 0.0.square_meters(),
///     exit: at(0.0, 0.0),
///     exit_speed_x: 0.0.meters_per_second(),
///     exit_speed_y: 0.0.meters_per_second(),
///     exit_speed_z: 0.0.meters_per_second(),
///     ropes: vec![Rope {
///         name: "rope".to_owned(),
///         rest_length: 10.0.meters(),
///         linear_density: 0.0.grams_per_meter(),
///         response: Response::Pair {
///             stiff: 20.0.kilonewtons(),
///             soft: 10.0.kilonewtons(),
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
///     follow: Follow { horizon: 4.0.seconds(), ..Follow::default() },
/// };
/// let flight = fly_full(&jump, &Mesh::default())?;
/// assert!((flight.resultant.value.in_kilonewtons() - 6.442).abs() < 1e-2);
/// let mesh = Mesh { most_steps: 10, ..Mesh::default() };
/// assert!(fly_full(&jump, &mesh).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn fly_full(jump: &Jump, mesh: &Mesh) -> Result<FullFlight, SwingError> {
    if jump.fixed_ring.is_some() {
        let setup = set_up(jump, Nothing, [0.0; 3])?;
        follow(jump, mesh, setup, |_| None)
    } else {
        // Asked at the samples only: not worth a table.
        let (lines, hang_m) = Table::bare_lines(&jump.lines)?;
        let setup = set_up(jump, lines, hang_m)?;
        follow(jump, mesh, setup, Some)
    }
}

fn follow<S>(
    jump: &Jump,
    mesh: &Mesh,
    setup: Setup<S>,
    lines: impl FnOnce(S) -> Option<Lines>,
) -> Result<FullFlight, SwingError> {
    let strands = strands(jump, mesh, &setup.model)?;
    let (ring, body) = lumps(jump, mesh, &setup, &strands)?;
    let held = Lump { held: true, ..body };
    let at_exit = Lump { held: ring.held || jump.ring_at_exit.is_some(), ..ring };
    let waiting = Still::find(&strands, &at_exit, &held, [0.0; 3], "waiting")?;
    // Rings that slide have found their place.
    let strands: Vec<Strand> = waiting.chains.iter().map(|c| c.strand.clone()).collect();
    let ring = Lump { at_m: waiting.ring_m, ..ring };
    let (strands, points_m) =
        with_stops(strands, waiting.points_m(), &setup.model, jump, ring.at_m);
    let grid = Grid::new(&strands, &points_m, air_kg_per_m3(jump));
    let rest = rest(jump, &strands, &ring, &body, &setup);
    let stable_s = stable_s(&strands, &grid, &ring, &body);
    let near = (0..2 * jump.lines.len()).step_by(2);
    let sliders = near.filter_map(|near| Slider::new(&strands, &grid, near)).collect();
    let mut motion = Motion::new(grid, sliders, ring, body, wind_m_per_s(&setup.model));
    let mut standing_n = vec![0.0; strands.len()];
    for (tension_n, chain) in standing_n.iter_mut().zip(&motion.grid.chains) {
        *tension_n = motion.grid.tension_n[chain.first];
    }
    let Setup { model, mut course, mut assumed, .. } = setup;
    let stops_from = 2 * jump.lines.len() + jump.ropes.len();
    motion.anchors = course
        .anchors
        .iter()
        .map(|anchor| {
            let ends = anchor.ends.iter().map(|(line, end)| 2 * line + end);
            ends.chain(anchor.stops.iter().map(|stop| stops_from + stop)).collect()
        })
        .collect();
    let standing_anchors_n =
        motion.anchors.iter().map(|anchor| size(motion.grid.pull_on_n(anchor))).collect();
    assumed.retain(|a| a.parameter != "line_mass_share");
    let ropes = &strands[2 * jump.lines.len()..][..jump.ropes.len()];
    let first = Attempt {
        sample_s: course.sample_s.min(course.horizon_s),
        horizon_s: course.horizon_s,
        ropes_m: ropes.iter().map(Strand::length_m).collect(),
        jumper_kg: model.body_kg,
        steps_left: mesh.most_steps,
        halvings: 0,
    };
    let lines = lines(model.support);
    let fly = |course: &Course, pace: Pace| {
        let mut motion = motion.clone();
        motion.grid.set_step(&strands, pace.dt_s);
        Run::new(motion, course, pace, lines.clone()).fly()
    };
    let intact = || Ok(first.clone().fly(mesh, stable_s, |pace| fly(&course, pace))?.0);
    course.faults = faults(jump, intact)?;
    let (out, dt_s, spent) = first.fly(mesh, stable_s, |pace| fly(&course, pace))?;
    let report_of_mesh = MeshReport {
        nodes: strands.iter().map(|s| s.segments - 1).sum::<usize>() + usize::from(!ring.held) + 1,
        segments: strands.iter().map(|s| s.segments).sum(),
        step: Time::from_si(dt_s),
        longest_stable_step: Time::from_si(stable_s.min(1e9)),
        steps: out.steps,
        all_steps: spent,
    };
    let before = Before {
        jump,
        course: &course,
        ring_m: ring.at_m,
        standing_n,
        standing_anchors_n,
        rest,
        mesh: report_of_mesh,
        assumed,
        drift: mesh.drift.si(),
    };
    Ok(report(before, out))
}

/// The stops of the ring, each one segment without mass that is slack by its travel.
fn with_stops<S>(
    mut strands: Vec<Strand>,
    mut points_m: Vec<Vec<[f64; 3]>>,
    model: &Model<S>,
    jump: &Jump,
    ring_m: [f64; 3],
) -> (Vec<Strand>, Vec<Vec<[f64; 3]>>) {
    for (stop, asked) in model.stops.iter().zip(&jump.stops) {
        let rope = &stop.rope;
        let law = Law::Linear { ea_n: rope.long_n };
        let spring = Spring { law, arm_n: rope.arm_n, relaxation_s: rope.relaxation_s };
        let length_m = size(from(stop.anchor_m, ring_m)) + asked.travel.si();
        let ends = (End::Anchor(stop.anchor_m), End::Ring);
        strands.push(Strand::new(ends, length_m, 0.0, 1, spring));
        points_m.push(vec![stop.anchor_m, ring_m]);
    }
    (strands, points_m)
}

/// Runs with ever shorter steps, until the energy books close well enough.
#[derive(Clone)]
struct Attempt {
    sample_s: f64,
    horizon_s: f64,
    ropes_m: Vec<f64>,
    jumper_kg: f64,
    steps_left: usize,
    halvings: i32,
}

impl Attempt {
    /// The record, its step, and the steps of all attempts.
    fn fly(
        mut self,
        mesh: &Mesh,
        stable_s: f64,
        run: impl Fn(Pace) -> Result<Outcome, SwingError>,
    ) -> Result<(Outcome, f64, usize), SwingError> {
        let mut pace = self.pace(mesh, stable_s)?;
        loop {
            self.halvings += 1;
            self.steps_left -= pace.steps;
            // The last that can be afforded is flown to its end.
            let next = self.pace(mesh, stable_s).ok();
            pace.drift = if next.is_some() { mesh.drift.si() } else { f64::INFINITY };
            let dt_s = pace.dt_s;
            let unused = |out: &Outcome| pace.steps - out.steps;
            match (run(pace.clone()), next) {
                (Ok(out), Some(next)) if out.off_j > mesh.drift.si() * out.fall_j => {
                    self.steps_left += unused(&out);
                    pace = next;
                }
                (Err(SwingError::Stalled { .. }), Some(next)) => pace = next,
                (out, _) => {
                    let out = out?;
                    let spent = mesh.most_steps - self.steps_left - unused(&out);
                    return Ok((out, dt_s, spent));
                }
            }
        }
    }

    fn pace(&self, mesh: &Mesh, stable_s: f64) -> Result<Pace, SwingError> {
        let budget = |step: String, needed: String| SwingError::MeshBudget {
            needed,
            step,
            horizon: print(Time::from_si(self.horizon_s)),
            allowed: mesh.most_steps,
        };
        let share = mesh.step_share.si();
        let Some((sample_every, dt_s)) = step_s(stable_s, share, self.halvings, self.sample_s)
        else {
            return Err(budget("no length".to_owned(), "endless".to_owned()));
        };
        let steps = (self.horizon_s / dt_s).round();
        if steps > self.steps_left as f64 {
            return Err(budget(print(Time::from_si(dt_s)), format!("{steps}")));
        }
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "checked")]
        let steps = steps as usize;
        let (ropes_m, jumper_kg) = (self.ropes_m.clone(), self.jumper_kg);
        Ok(Pace { dt_s, steps, sample_every, ropes_m, jumper_kg, drift: mesh.drift.si() })
    }
}

fn wind_m_per_s<S>(model: &Model<S>) -> [f64; 3] {
    let [x, y] = model.wind_m_per_s;
    [x, y, 0.0]
}

fn air_kg_per_m3(jump: &Jump) -> f64 {
    jump.air_density.map_or(1.2, Quantity::si)
}

/// Ring and body at exit, with half a segment of every chain that ends there.
fn lumps<S>(
    jump: &Jump,
    mesh: &Mesh,
    setup: &Setup<S>,
    strands: &[Strand],
) -> Result<(Lump, Lump), SwingError> {
    let half = |end: End| {
        let at = strands.iter().filter(|s| s.from == end || s.to == end);
        at.map(|s| 0.5 * s.mass_kg).sum::<f64>()
    };
    let (start, model) = (&setup.start, &setup.model);
    let mut area = jump.drag_area.si();
    if mesh.rope_drag_width.is_none() {
        area += jump.rope_drag_area.map_or(0.0, Quantity::si);
    }
    let body = Lump {
        at_m: three(start, BODY),
        v_m_per_s: three(start, BODY + SPEED),
        mass_kg: model.body_kg + half(End::Body),
        held: false,
        drag_kg_per_m: 0.5 * air_kg_per_m3(jump) * area,
        damping_n_s_per_m: 0.0,
    };
    let ring = Lump {
        at_m: three(start, RING),
        v_m_per_s: [0.0; 3],
        mass_kg: jump.ring_mass.si() + half(End::Ring),
        held: jump.fixed_ring.is_some(),
        drag_kg_per_m: 0.0,
        damping_n_s_per_m: jump.ring_damping.map_or(0.0, Quantity::si),
    };
    if !ring.held && ring.mass_kg == 0.0 {
        let problem = "without mass at the ring its motion has no answer";
        return Err(SwingError::contradiction("ring_mass", problem));
    }
    Ok((ring, body))
}

/// Ring and body at rest after the jump; none without ropes.
fn rest<S>(
    jump: &Jump,
    strands: &[Strand],
    ring: &Lump,
    body: &Lump,
    setup: &Setup<S>,
) -> Option<Settled> {
    if jump.ropes.is_empty() {
        return None;
    }
    let w = wind_m_per_s(&setup.model);
    let blow = body.drag_kg_per_m * size(w);
    let body_n = [blow * w[0], blow * w[1], -body.mass_kg * GRAVITY];
    // From where the reduced model comes to rest.
    let (ring_m, body_m) = match &setup.rest {
        Some(Ok(places)) => *places,
        _ => return None,
    };
    let (ring, body) = (Lump { at_m: ring_m, ..*ring }, Lump { at_m: body_m, ..*body });
    let found = Still::find(strands, &ring, &body, body_n, "at rest");
    Some(found.map(|still| (still.ring_m, still.body_m)))
}
