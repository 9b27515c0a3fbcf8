//! Both ends of the ropes' stretch, and each limit from the right one.

use serde::{Deserialize, Serialize};

use super::SwingError;
use super::flight::{Clearance, Extreme, Flight};
use super::fly::on_fixed_ring;
use super::jump::{Jump, Response, Run};
use super::jumps::Jumps;
use super::note::Note;
use crate::quantity::{Force, Length, Quantity};

/// An extreme and the run that gave it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(bound = "")]
pub struct Limit<Q: Quantity> {
    /// The run.
    pub run: Run,
    /// The extreme.
    pub extreme: Extreme<Q>,
}

/// A force limit of a named rope or line end.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct NamedForce {
    /// Name of the rope or line.
    pub name: String,
    /// Greatest force.
    pub force: Limit<Force>,
}

/// Clearance limit of a wall.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WallLimit {
    /// Name of the wall.
    pub wall: String,
    /// Least distance of the body's surface.
    pub least: Limit<Length>,
}

/// A jump with stiff and with soft ropes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Outlook {
    /// The stiff run.
    pub stiff: Flight,
    /// The soft run.
    pub soft: Flight,
    /// Greatest resultant force on the body.
    pub body_force: Limit<Force>,
    /// Greatest tension of each rope.
    pub ropes: Vec<NamedForce>,
    /// Greatest tension of each line at its near anchor.
    pub lines_near: Vec<NamedForce>,
    /// Greatest tension of each line at its far anchor.
    pub lines_far: Vec<NamedForce>,
    /// Lowest point of the body.
    pub lowest: Limit<Length>,
    /// Least clearance on the way out.
    pub exit_clearance: Option<WallLimit>,
    /// Least clearance of each wall in flight.
    pub clearances: Vec<WallLimit>,
    /// Limits for which the other run is worse than the one that the rule names.
    pub notes: Vec<Note>,
}

/// Runs a jump with stiff and with soft ropes and takes each limit from the right run.
///
/// With a pair of linear ropes, forces come from the stiff run and clearances from the soft one; a note
/// names each limit for which the other run is worse, and the worse value is the limit. With a standard
/// linear solid, each limit is the worse of the two ends of its relaxation time.
///
/// # Errors
/// As [`fly`](super::fly()).
///
/// # Example
/// ```
/// use tautwork::quantity::Words;
/// # use tautwork::swing::{Fold, Follow, Jump, Place, Response, Rope, Run, outlook};
/// # let at = |x: f64, z: f64| Place { x: x.meters(), y: 0.0.meters(), z: z.meters() };
/// # let jump = Jump {
/// #     mass: 80.0.kilograms(), drag_area: 0.0.square_meters(), exit: at(0.0, 0.0),
/// #     exit_speed_x: 0.0.meters_per_second(), exit_speed_y: 0.0.meters_per_second(),
/// #     exit_speed_z: 0.0.meters_per_second(),
/// #     ropes: vec![Rope {
/// #         name: "rope".to_owned(), rest_length: 10.0.meters(),
/// #         linear_density: 0.0.grams_per_meter(),
/// #         response: Response::Pair {
/// #             stiff: 20.0.kilonewtons(), soft: 10.0.kilonewtons(), relaxation: None,
/// #         },
/// #     }],
/// #     lines: vec![], stops: vec![], ring_mass: 0.0.kilograms(), fixed_ring: Some(at(0.0, 0.0)),
/// #     ring_at_exit: None, ring_damping: None, line_mass_share: None, rope_drag_area: None,
/// #     air_density: None, wind: None, wind_y: None, fold: Fold::Neglected,
/// #     faults: vec![], walls: vec![], body_radius: 1.0.meters(),
/// #     body_length: None,
/// #     launch_zone: None, timed_forces: vec![], run: Run::Stiff,
/// #     follow: Follow { horizon: 4.0.seconds(), ..Follow::default() },
/// # };
/// // `jump` as in the example of `fly`: a fall of 10 m on 10 m of rope.
/// let both = outlook(&jump)?;
/// assert_eq!((both.body_force.run, both.lowest.run), (Run::Stiff, Run::Soft));
/// assert!(outlook(&Jump { mass: 0.0.kilograms(), ..jump }).is_err());
/// # Ok::<(), tautwork::swing::SwingError>(())
/// ```
pub fn outlook(jump: &Jump) -> Result<Outlook, SwingError> {
    if jump.fixed_ring.is_some() {
        return both(jump, on_fixed_ring);
    }
    Jumps::new(&jump.lines)?.outlook(jump)
}

/// Both runs of a jump, and each limit from the right one.
pub(super) fn both(
    jump: &Jump,
    fly: impl Fn(&Jump) -> Result<Flight, SwingError>,
) -> Result<Outlook, SwingError> {
    let with = |run| fly(&Jump { run, ..jump.clone() });
    let (stiff, soft) = (with(Run::Stiff)?, with(Run::Soft)?);
    let named = jump.ropes.iter().any(|r| matches!(r.response, Response::Pair { .. }));
    let mut notes = Vec::new();
    let body_force =
        most(&mut notes, named, "body_force", stiff.resultant, soft.resultant, Sense::Force);
    let lowest = most(&mut notes, named, "lowest", stiff.lowest, soft.lowest, Sense::Distance);
    let mut forces = |what: &str, pick: Pick| {
        let pairs = pick(&stiff).into_iter().zip(pick(&soft));
        let named_force = |((name, a), (_, b)): (Peak, Peak)| {
            let limit = format!("{what} {name}");
            NamedForce { force: most(&mut notes, named, &limit, a, b, Sense::Force), name }
        };
        pairs.map(named_force).collect::<Vec<_>>()
    };
    let ropes = forces("rope", |f| f.ropes.iter().map(|r| (r.name.clone(), r.tension)).collect());
    let lines_near =
        forces("near end of", |f| f.lines.iter().map(|l| (l.name.clone(), l.near)).collect());
    let lines_far =
        forces("far end of", |f| f.lines.iter().map(|l| (l.name.clone(), l.far)).collect());
    let mut clearance = |a: Option<&Clearance>, b: Option<&Clearance>| {
        let (wall, least) = match (a, b) {
            (Some(a), Some(b)) => {
                let limit = format!("clearance {}", b.wall);
                let least = most(&mut notes, named, &limit, a.least, b.least, Sense::Distance);
                (if least.run == Run::Stiff { &a.wall } else { &b.wall }, least)
            }
            (Some(a), None) => (&a.wall, Limit { run: Run::Stiff, extreme: a.least }),
            (None, Some(b)) => (&b.wall, Limit { run: Run::Soft, extreme: b.least }),
            (None, None) => return None,
        };
        Some(WallLimit { wall: wall.clone(), least })
    };
    let exit_clearance = clearance(stiff.exit_clearance.as_ref(), soft.exit_clearance.as_ref());
    let of = |flight: &'_ Flight, wall: &str| -> Option<Clearance> {
        flight.clearances.iter().find(|c| c.wall == wall).cloned()
    };
    let walls = jump
        .walls
        .iter()
        .filter_map(|w| clearance(of(&stiff, &w.name).as_ref(), of(&soft, &w.name).as_ref()));
    let clearances = walls.collect();
    Ok(Outlook {
        stiff,
        soft,
        body_force,
        ropes,
        lines_near,
        lines_far,
        lowest,
        exit_clearance,
        clearances,
        notes,
    })
}

/// Name and peak of a rope or line end, and how to list them.
type Peak = (String, Extreme<Force>);
type Pick = fn(&Flight) -> Vec<Peak>;

/// Which way is worse, and which run the rule names.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Sense {
    /// More is worse, from the stiff run.
    Force,
    /// Less is worse, from the soft run.
    Distance,
}

/// The worse of two runs; a note where a rule names the other one.
fn most<Q: Quantity>(
    notes: &mut Vec<Note>,
    named: bool,
    limit: &str,
    stiff: Extreme<Q>,
    soft: Extreme<Q>,
    sense: Sense,
) -> Limit<Q> {
    let (by_rule, other, rule_run, other_run) = match sense {
        Sense::Force => (stiff, soft, Run::Stiff, Run::Soft),
        Sense::Distance => (soft, stiff, Run::Soft, Run::Stiff),
    };
    let other_worse = match sense {
        Sense::Force => other.value > by_rule.value,
        Sense::Distance => other.value < by_rule.value,
    };
    if !other_worse {
        return Limit { run: rule_run, extreme: by_rule };
    }
    if named {
        notes.push(Note::OtherRunWorse { limit: limit.to_owned(), run: other_run });
    }
    Limit { run: other_run, extreme: other }
}
