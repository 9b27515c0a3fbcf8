//! Raise, hold and lower a load through given pulleys.

use nalgebra::Vector3;

use super::super::loss::far_from_half_turn;
use super::super::{Interval, PulleyError};
use super::layout::{Grab, Layout, Strand, triple};
use super::motion::{Motion, motion};
use super::statics::{STANDS, Sense, Tensions, held, pull, tensions};
use super::{BodyForce, Note, PartTension, Solution, State, System, Throw, Towards, Travel, Turn};
use crate::quantity::check::positive;
use crate::quantity::{Angle, Force, Length, Quantity, Ratio};

/// Solves a pulley system for a load that resists along its direction of travel with `load`.
///
/// Eqs. (1) to (10). Valid for the geometry given: see the module page.
///
/// # Errors
/// See [`PulleyError`]: an input out of range, a rope to an unknown body, bodies that no rope holds,
/// ropes that lock, a rope that would have to push.
///
/// # Example
/// ```
/// use tautwork::pulley::{Friction, Ordinary, ordinary, solve};
/// use tautwork::quantity::{ReadForce, ReadRatio, Words};
///
/// // Z-shaped 3:1 without friction: a third of the load, two thirds on the anchor.
/// let system = ordinary(Ordinary::ThreeToOne, Friction::Fixed { efficiency: 1.0.ratio() });
/// let result = solve(&system, 900.0.newtons())?;
/// assert!((result.ideal_advantage.in_ratio() - 3.0).abs() < 1e-12);
/// assert!((result.raising.hand.in_newtons() - 300.0).abs() < 1e-9);
/// assert!((result.raising.bodies[0].resultant.in_newtons() - 600.0).abs() < 1e-9);
/// assert!(solve(&system, 0.0.newtons()).is_err());
/// # Ok::<(), tautwork::pulley::PulleyError>(())
/// ```
pub fn solve(system: &System, load: Force) -> Result<Solution, PulleyError> {
    let load_n = positive("load", load)?;
    let layout = Layout::new(system)?;
    let (holding, strands, moved, up) = raise(system, &layout, load_n)?;
    let raised = moved.travel[layout.load];
    let run = |sense| tensions(&layout, &strands, &moved, load_n, sense);
    let ideal = checked(run(Sense::Ideal).map_err(|f| f.named(&system.ropes))?)?;
    // A system whose losses hold the load has no equilibrium with every rope running back.
    let down = run(Sense::Lowering).ok().map(checked).transpose()?;
    let held = hands_off(&layout, load_n).map(checked).transpose()?;
    let actual = load_n / up.hand_n;
    let residual = [Some(&ideal), Some(&up), down.as_ref(), held.as_ref()]
        .into_iter()
        .flatten()
        .fold(moved.residual, |m, t| m.max(t.residual));
    let results = [1.0 / raised, actual, actual * raised, up.hand_n, ideal.hand_n];
    if results.iter().any(|r| !r.is_finite()) {
        return Err(PulleyError::Overflow { result: "advantage" });
    }
    let raising = state(system, &layout, &up)?;
    let mut notes = Vec::new();
    let turns = turns(system, &layout, &moved, holding, &mut notes);
    aside(system, &layout, &raising, load_n, &mut notes);
    if down.is_none() {
        notes.push(Note::HoldsItself);
    }
    Ok(Solution {
        ideal_advantage: Ratio::from_si(1.0 / raised),
        actual_advantage: Ratio::from_si(actual),
        efficiency: Ratio::from_si(actual * raised),
        hold: Interval {
            low: Force::from_si(down.as_ref().map_or(0.0, |t| t.hand_n)),
            high: Force::from_si(up.hand_n),
        },
        frictionless: Force::from_si(ideal.hand_n),
        raising,
        lowering: down.map(|t| state(system, &layout, &t)).transpose()?,
        held: held.map(|t| state(system, &layout, &t)).transpose()?,
        travel: system
            .bodies
            .iter()
            .zip(&moved.travel)
            .map(|(b, &v)| Travel { name: b.name.clone(), per_hand: Ratio::from_si(v) })
            .collect(),
        turns,
        throw: throw(system, &layout, &moved),
        residual,
        notes,
    })
}

/// The motion that raises the load, and which grabs hold in it, Eq. (9).
fn raise(
    system: &System,
    layout: &Layout,
    load_n: f64,
) -> Result<(u32, Vec<Strand>, Motion, Tensions), PulleyError> {
    // Grabs on what moves pull, grabs on anchors let the rope come: the usual case, and the one whose
    // mistake is worth telling.
    let mut usual = 0;
    for (i, grab) in layout.grabs.iter().enumerate() {
        let body = layout.paths[grab.path].stops[grab.stop];
        usual |= u32::from(layout.column[body].is_some()) << i;
    }
    let others = (0..1_u32 << layout.grabs.len()).filter(|&m| m != usual);
    let mut first = None;
    for holding in std::iter::once(usual).chain(others) {
        match rises(system, layout, holding, load_n) {
            Ok((strands, moved, up)) => return Ok((holding, strands, moved, up)),
            Err(error) => first = first.or(Some(error)),
        }
    }
    Err(first.unwrap_or(PulleyError::FrictionLocks))
}

/// One way of holding, if the load rises in it as every grab allows.
fn rises(
    system: &System,
    layout: &Layout,
    holding: u32,
    load_n: f64,
) -> Result<(Vec<Strand>, Motion, Tensions), PulleyError> {
    let strands = layout.strands(holding);
    let moved = motion(system, layout, &strands)?;
    let raised = moved.travel[layout.load];
    // A load that hangs still while the hand runs has a travel of rounding size.
    if raised <= STANDS {
        return Err(PulleyError::LoadNotRaised { travel: raised });
    }
    let up = tensions(layout, &strands, &moved, load_n, Sense::Raising)
        .map_err(|f| f.named(&system.ropes))?;
    let up = checked(up)?;
    for (i, grab) in layout.grabs.iter().enumerate() {
        let sign = match grab.holds {
            Towards::Start => 1.0,
            Towards::End => -1.0,
        };
        let tension = &up.parts_n[grab.path];
        let held = holding >> i & 1 == 1;
        let goes = if held {
            sign * (tension[grab.stop - 1] - tension[grab.stop]) >= -1e-9 * load_n
        } else {
            sign * moved.flow[grab.path][grab.stop - 1] >= -1e-9
        };
        if !goes {
            let rope = &system.ropes[grab.path];
            let on = rope.over[grab.stop - 1].on.clone();
            return Err(PulleyError::GrabAgainst { rope: rope.name.clone(), on, held });
        }
    }
    Ok((strands, moved, up))
}

/// What the grabs hold alone: most of them, if several ways would do.
fn hands_off(layout: &Layout, load_n: f64) -> Option<Tensions> {
    let all = (1_u32 << layout.grabs.len()) - 1;
    let mut ways: Vec<u32> = (1..=all).collect();
    ways.sort_by_key(|w| std::cmp::Reverse(w.count_ones()));
    ways.into_iter().find_map(|holding| {
        let tensions = held(layout, &layout.strands(holding), load_n)?;
        let pulled = |(i, grab): (usize, &Grab)| {
            let t = &tensions.parts_n[grab.path];
            let more = t[grab.stop - 1] - t[grab.stop];
            let more = if grab.holds == Towards::Start { more } else { -more };
            holding >> i & 1 == 0 || more >= -1e-9 * load_n
        };
        layout.grabs.iter().enumerate().all(pulled).then_some(tensions)
    })
}

fn checked(tensions: Tensions) -> Result<Tensions, PulleyError> {
    let finite = tensions.parts_n.iter().flatten().all(|t| t.is_finite());
    if !finite || !tensions.lost_n.is_finite() {
        return Err(PulleyError::Overflow { result: "tension" });
    }
    // Written so that NaN fails too.
    if tensions.residual <= 1e-9 {
        Ok(tensions)
    } else {
        Err(PulleyError::Residual { balance: "power", residual: tensions.residual })
    }
}

/// Every turn, and what to know about it.
fn turns(
    system: &System,
    layout: &Layout,
    moved: &Motion,
    holding: u32,
    notes: &mut Vec<Note>,
) -> Vec<Turn> {
    let mut turns = Vec::with_capacity(layout.paths.iter().map(|path| path.eta.len()).sum());
    let mut grabs = 0;
    for (r, rope) in system.ropes.iter().enumerate() {
        let path = &layout.paths[r];
        for (i, sheave) in rope.over.iter().enumerate() {
            let (name, on) = (&rope.name, &sheave.on);
            let holds = sheave.grab.is_some() && holding >> grabs & 1 == 1;
            grabs += u32::from(sheave.grab.is_some());
            let (wrap_rad, stands) = (path.wrap_rad[i], moved.flow[r][i].abs() <= STANDS);
            if sheave.grab.is_some() && !holds && !stands {
                notes.push(Note::OpenToLower { rope: name.clone(), on: on.clone() });
            }
            // Where no rope passes, the figure is not used at all.
            if !holds && stands {
                notes.push(Note::SheaveStands { rope: name.clone(), on: on.clone() });
            } else if !holds && far_from_half_turn(sheave.friction, wrap_rad) {
                notes.push(Note::FarFromHalfTurn { rope: name.clone(), on: on.clone() });
            }
            turns.push(Turn {
                rope: name.clone(),
                on: on.clone(),
                wrap: Angle::from_si(wrap_rad),
                efficiency: Ratio::from_si(path.eta[i]),
                holds,
            });
        }
    }
    turns
}

/// Names the bodies that ropes pull out of their way.
fn aside(system: &System, layout: &Layout, up: &State, load_n: f64, notes: &mut Vec<Note>) {
    for &b in &layout.unknown {
        let force = Vector3::from(up.bodies[b].force.map(Quantity::si));
        let across = force - layout.travel[b] * layout.travel[b].dot(&force);
        let across_n = across.x.hypot(across.y).hypot(across.z);
        if across_n > 0.01 * load_n {
            let body = system.bodies[b].name.clone();
            notes.push(Note::Aside { body, force: Force::from_si(across_n) });
        }
    }
}

/// The part between two bodies that is used up first, Eq. (10).
fn throw(system: &System, layout: &Layout, moved: &Motion) -> Option<Throw> {
    let mut least: Option<(f64, usize, usize)> = None;
    for (r, path) in layout.paths.iter().enumerate() {
        for (j, (&growth, &length_m)) in moved.growth[r].iter().zip(&path.length_m).enumerate() {
            let to_hand = path.stops[j] == layout.hand || path.stops[j + 1] == layout.hand;
            let hand_m = -length_m / growth;
            let shorter = least.is_none_or(|l| hand_m < l.0);
            if growth < -STANDS && !to_hand && hand_m.is_finite() && shorter {
                least = Some((hand_m, r, j));
            }
        }
    }
    let (hand_m, r, j) = least?;
    let load_m = hand_m * moved.travel[layout.load];
    let name = |stop: usize| system.bodies[layout.paths[r].stops[stop]].name.clone();
    load_m.is_finite().then(|| Throw {
        hand: Length::from_si(hand_m),
        load: Length::from_si(load_m),
        rope: system.ropes[r].name.clone(),
        from: name(j),
        to: name(j + 1),
    })
}

fn state(system: &System, layout: &Layout, tensions: &Tensions) -> Result<State, PulleyError> {
    let mut forces = vec![Vector3::zeros(); system.bodies.len()];
    let mut parts = Vec::with_capacity(layout.paths.iter().map(|path| path.along.len()).sum());
    for (r, path) in layout.paths.iter().enumerate() {
        let tension = &tensions.parts_n[r];
        for (j, &body) in path.stops.iter().enumerate() {
            forces[body] += pull(layout, r, j, tension);
        }
        for (pair, &tension_n) in path.stops.windows(2).zip(tension) {
            parts.push(PartTension {
                rope: system.ropes[r].name.clone(),
                from: system.bodies[pair[0]].name.clone(),
                to: system.bodies[pair[1]].name.clone(),
                tension: Force::from_si(tension_n),
            });
        }
    }
    let mut bodies = Vec::with_capacity(system.bodies.len());
    for (body, force) in system.bodies.iter().zip(forces) {
        let resultant = force.x.hypot(force.y).hypot(force.z);
        if !resultant.is_finite() {
            return Err(PulleyError::Overflow { result: "resultant" });
        }
        bodies.push(BodyForce {
            name: body.name.clone(),
            force: triple(force),
            resultant: Force::from_si(resultant),
        });
    }
    Ok(State { hand: Force::from_si(tensions.hand_n), parts, bodies })
}
