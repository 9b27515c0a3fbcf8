//! From a system to its picture.

use serde::{Deserialize, Serialize};

use super::super::{BodyKind, Note, PulleyError, Solution, State, System, solve};
use super::draw::draw;
use super::{columns, space};
use crate::quantity::{Force, Length, Quantity, show};

/// Which forces a picture shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Shown {
    /// While the load rises.
    Raising,
    /// While it runs back.
    Lowering,
    /// Hands off, held by grabs.
    Held,
}

/// A picture of a system as SVG: every rope part with its force, every body with what it carries.
///
/// Ropes that are all within a sixth of a turn of one line are drawn as columns in the order in which the rope runs,
/// not to scale; others as seen level from the side from which they spread the most, the turn of each written beside it.
///
/// # Errors
/// Those of [`solve`], and [`PulleyError::NothingShown`] for a state that the system does not have.
///
/// # Example
/// ```
/// use tautwork::pulley::{Friction, Ordinary, Shown, diagram, ordinary};
/// use tautwork::quantity::Words;
/// let z = ordinary(Ordinary::ThreeToOne, Friction::Fixed { efficiency: 0.83.ratio() });
/// let svg = diagram(&z, 1.0.kilonewtons(), Shown::Raising)?;
/// // 1 kN / 2.5189 in the hand.
/// assert!(svg.starts_with("<svg") && svg.contains("0.40"));
/// // Nothing holds it when the hand lets go: this one has no grab.
/// assert!(diagram(&z, 1.0.kilonewtons(), Shown::Held).is_err());
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
pub fn diagram(system: &System, load: Force, shown: Shown) -> Result<String, PulleyError> {
    let solved = solve(system, load)?;
    let (state, word) = match shown {
        Shown::Raising => (Some(&solved.raising), "raising"),
        Shown::Lowering => (solved.lowering.as_ref(), "lowering"),
        Shown::Held => (solved.held.as_ref(), "held"),
    };
    let state = state.ok_or(PulleyError::NothingShown { state: word })?;
    let columns = columns::parallel(system);
    let mut scene = if columns {
        columns::place(system, &solved, state)
    } else {
        space::place(system, &solved, state)
    };
    scene.title = match shown {
        Shown::Raising => format!("{} raises {}", kn(state.hand), kn(load)),
        Shown::Lowering => format!("{} runs back against {}", kn(load), kn(state.hand)),
        Shown::Held => format!("{} held, hands off", kn(load)),
    };
    scene.below = below(&solved, shown, columns);
    Ok(draw(&scene))
}

/// What stands under the picture.
fn below(solved: &Solution, shown: Shown, columns: bool) -> Vec<String> {
    let mut lines = Vec::new();
    if shown != Shown::Held {
        let (ideal, actual) = (solved.ideal_advantage.si(), solved.actual_advantage.si());
        lines.push(format!("advantage {actual:.2} of {ideal:.2} ideal"));
        lines.push(format!("hold with {} to {}", kn(solved.hold.low), kn(solved.hold.high)));
    }
    lines
        .push(format!("{ideal:.2} m of rope for 1 m of lift", ideal = solved.ideal_advantage.si()));
    if let Some(throw) = &solved.throw {
        lines.push(format!(
            "one stroke: {} of rope, {} of lift",
            show::<Length>(throw.hand, "m", 1),
            show::<Length>(throw.load, "m", 1)
        ));
    }
    for note in &solved.notes {
        match note {
            Note::Aside { body, force } => {
                lines.push(format!("{body} is pulled aside by {}", kn(*force)));
            }
            Note::OpenToLower { on, .. } => lines.push(format!("to lower, open the grab on {on}")),
            _ => {}
        }
    }
    let drawn = if columns { "a scheme, not to scale" } else { "seen from the side, drawn apart" };
    lines.push(format!("forces in kN; {drawn}"));
    lines
}

/// A force in words.
pub(super) fn kn(force: Force) -> String {
    show(force, "kN", 2)
}

/// A force as a bare number in kN.
pub(super) fn bare(force: Force) -> String {
    format!("{:.2}", force.si() / 1000.0)
}

/// Labels of bodies: name, force on it, travel.
pub(super) fn about(system: &System, solved: &Solution, state: &State, body: usize) -> Vec<String> {
    let one = &system.bodies[body];
    let mut lines = vec![one.name.clone()];
    match one.kind {
        BodyKind::Hand => lines.push(format!("pull {}", bare(state.hand))),
        BodyKind::Anchor => lines.push(format!("carries {}", bare(state.bodies[body].resultant))),
        // What the ropes on a block add up to is nothing but what pulls it aside.
        BodyKind::Moving | BodyKind::Load => {
            let per_load = solved.travel[body].per_hand.si() * solved.ideal_advantage.si();
            if one.kind == BodyKind::Load {
                lines.push(format!("pulls {}", bare(state.bodies[body].resultant)));
            } else {
                let back = if per_load < 0.0 { " back" } else { "" };
                lines.push(format!("{:.1} m{back} per m lift", per_load.abs()));
            }
        }
    }
    let angles = solved.turns.iter().filter(|t| t.on == one.name).map(|t| t.wrap.si().to_degrees());
    let angles: Vec<String> = angles
        .filter(|degrees| *degrees > 15.0 && (degrees - 180.0).abs() > 5.0)
        .map(|degrees| format!("{degrees:.0}°"))
        .collect();
    if !angles.is_empty() {
        lines.push(format!("turn {}", angles.join(", ")));
    }
    lines
}
