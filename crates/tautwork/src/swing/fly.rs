//! One run of a jump, from exit to rest.

use super::SwingError;
use super::course::{Loss, Outcome, run};
use super::fault::{Part, When};
use super::figure::Figure;
use super::flight::Flight;
use super::jump::Jump;
use super::jumps::Jumps;
use super::model::RING;
use super::report::{Standing, report, standing};
use super::rest::hanging;
use super::setup::{Setup, set_up};
use super::space::three;
use super::support::{Nothing, Support};
use crate::quantity::check::non_negative;

/// Follows a jump with the ropes of one run, stiff or soft, over its whole history.
///
/// Reduced model in space, Eq. (1) to (18): valid while the lines answer as if at rest (a
/// note says for which line that fails) and while rope mass is small against the jumper.
///
/// # Errors
/// [`SwingError`]: inputs out of range or in contradiction, a start in contact with a wall, a ring
/// without equilibrium, or more steps than allowed.
///
/// # Example
/// ```
/// use tautwork::quantity::{ReadForce, Words};
/// use tautwork::swing::{Fold, Follow, Jump, Place, Response, Rope, Run, fly};
/// let at = |x: f64, z: f64| Place { x: x.meters(), y: 0.0.meters(), z: z.meters() };
/// // Straight down from the ring on a lossless rope: F = W + sqrt(W² + 2 W EA f) with f = 1.
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
/// let flight = fly(&jump)?;
/// assert!((flight.resultant.value.in_kilonewtons() - 6.442).abs() < 1e-3);
/// assert!(fly(&Jump { mass: 0.0.kilograms(), ..jump }).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn fly(jump: &Jump) -> Result<Flight, SwingError> {
    if jump.fixed_ring.is_some() {
        return on_fixed_ring(jump);
    }
    Jumps::new(&jump.lines)?.fly(jump)
}

/// A jump from a ring that does not move.
pub(super) fn on_fixed_ring(jump: &Jump) -> Result<Flight, SwingError> {
    finish(jump, set_up(jump, Nothing, [0.0; 3])?)
}

/// Runs a jump that is set up, with its faults.
pub(super) fn finish<S: Support + Clone>(
    jump: &Jump,
    mut setup: Setup<S>,
) -> Result<Flight, SwingError> {
    let standing: Vec<Standing> = standing(&mut setup.model, &setup.start, jump.lines.len())?;
    setup.course.faults = faults(jump, &setup)?;
    let out = run(&mut setup.model, &setup.course, &setup.start)?;
    if out.after.is_some() {
        let ring = three(&out.end, RING);
        setup.rest = hanging(&mut setup.model, ring);
    }
    report(jump, setup, &standing, out)
}

/// When each fault happens. Peaks are those of the jump in which nothing fails.
fn faults<S: Support + Clone>(
    jump: &Jump,
    setup: &Setup<S>,
) -> Result<Vec<(f64, Loss)>, SwingError> {
    let mut faults = Vec::new();
    let mut intact: Option<Outcome> = None;
    for (i, fault) in jump.faults.iter().enumerate() {
        let key = format!("faults[{i}]");
        let index = fault.part.index(jump, &key)?;
        if fault.when == When::BeforeExit {
            continue;
        }
        let at_s = if let When::Time { at } = fault.when {
            non_negative(&format!("{key}.when.at"), at)?
        } else {
            if intact.is_none() {
                let mut model = setup.model.clone();
                intact = Some(run(&mut model, &setup.course, &setup.start)?);
            }
            let figure = match (&fault.when, &fault.part) {
                (When::PartPeak, Part::Rope { .. }) => Figure::Rope(index),
                (When::PartPeak, Part::Stop { .. }) => Figure::Stop(index),
                (When::PartPeak, Part::NearAnchor { .. } | Part::Line { .. }) => {
                    Figure::LineEnd(index, 0)
                }
                (When::PartPeak, Part::FarAnchor { .. }) => Figure::LineEnd(index, 1),
                _ => Figure::Resultant,
            };
            intact.as_ref().and_then(|out| out.watch.best(figure)).map_or(0.0, |best| best.t_s)
        };
        faults.push((at_s, Loss { part: fault.part.clone(), index }));
    }
    faults.sort_by(|a, b| a.0.total_cmp(&b.0));
    Ok(faults)
}
