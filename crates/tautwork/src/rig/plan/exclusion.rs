//! Where a dropped thing may land, and what a broken line reaches.

use super::gear::stretch;
use super::lines::Span;
use super::result::{BreakPlan, DropPlan, WavePlan};
use super::wear::height_above_ground;
use crate::fall::{DroppedThing, dropped};
use crate::line::{BrokenLine, recoil};
use crate::quantity::{Force, Length, Quantity, Words};
use crate::rig::{Rig, RigError};
use crate::swing::Outlook;

/// Zones of what may be dropped from the exit, the anchors and the ring.
pub(super) fn drops(rig: &Rig, ring: [Length; 3]) -> Result<Vec<DropPlan>, RigError> {
    let Some(entry) = &rig.exclusion else { return Ok(Vec::new()) };
    let mut places = vec![("exit", rig.jump.exit), ("ring", ring)];
    places.extend(rig.anchor.iter().map(|anchor| (anchor.name.as_str(), anchor.position)));
    let throw = entry.throw.unwrap_or_else(|| 3.0.meters_per_second());
    let mut list = Vec::new();
    for (place, at) in places {
        let Some(height) = height_above_ground(rig, at[2].si()) else { continue };
        let mut add = |name: &str, thing: &DroppedThing| {
            let what = format!("{name} dropped from the {place}");
            let zone = dropped(thing).map_err(|e| RigError::unsolved(&what, &e))?;
            let thing = name.to_owned();
            list.push(DropPlan { thing, place: place.to_owned(), height, zone });
            Ok(())
        };
        // Whatever it is, if the air does not carry it.
        let anything = DroppedThing {
            height,
            speed: Some(throw),
            wind: None,
            mass: None,
            drag_area: None,
            air_density: None,
        };
        add("anything small and heavy", &anything)?;
        for thing in &entry.thing {
            let wind = thing.drag_area.and(entry.wind);
            let air_density = rig.air.as_ref().and_then(|air| air.density);
            let one = DroppedThing {
                wind,
                mass: Some(thing.mass),
                drag_area: thing.drag_area,
                air_density,
                ..anything
            };
            add(&thing.name, &one)?;
        }
    }
    Ok(list)
}

/// Every line, broken at either side of the ring or at an anchor, and every jump rope, at their greatest tension.
pub(super) fn breaks(
    rig: &Rig,
    spans: &[Span<'_>],
    jump: &Outlook,
    waves: Option<&WavePlan>,
) -> Result<Vec<BreakPlan>, RigError> {
    let Some(entry) = &rig.exclusion else { return Ok(Vec::new()) };
    let mut list = Vec::new();
    let mut add = |line: &str, at: &str, towards: &str, z_m: f64, broken: BrokenLine| {
        if broken.tension.si() <= 0.0 {
            return Ok(());
        }
        let broken = BrokenLine { height: height_above_ground(rig, z_m), ..broken };
        let recoil = recoil(&broken)
            .map_err(|e| RigError::unsolved(&format!("break of {line} at the {at}"), &e))?;
        let (at, towards) = (at.to_owned(), towards.to_owned());
        list.push(BreakPlan {
            line: line.to_owned(),
            at,
            towards,
            tension: broken.tension,
            recoil,
        });
        Ok(())
    };
    for span in spans {
        let name = span.entry.name.as_str();
        let cordage = rig.cordage_named(&span.entry.cordage)?;
        let ends = [
            (&span.entry.from, span.near_length(), span.near, End::Near),
            (&span.entry.to, span.far_length(), span.far, End::Far),
        ];
        for (anchor, rest_length, place, end) in ends {
            let broken = BrokenLine {
                tension: greatest(jump, waves, name, end),
                rest_length,
                stretch: span.stretch.clone(),
                linear_density: cordage.linear_density,
                end_mass: entry.end_mass,
                height: None,
            };
            add(name, "ring", anchor, place[2].si(), broken.clone())?;
            add(name, anchor, "ring", place[2].si(), broken)?;
        }
    }
    for (i, rope) in rig.jump.rope.iter().enumerate() {
        let cordage = rig.cordage_named(&rope.cordage)?;
        let peak = |flight: &crate::swing::Flight| {
            flight.ropes.get(i).map_or(Force::from_si(0.0), |rope| rope.tension.value)
        };
        let broken = BrokenLine {
            tension: larger(peak(&jump.stiff), peak(&jump.soft)),
            rest_length: rope.rest_length,
            // The softer stretch holds more energy.
            stretch: stretch(&cordage.stretch)?,
            linear_density: cordage.linear_density,
            end_mass: entry.end_mass,
            height: None,
        };
        add(&rope.name, "ring", "jumper", rig.jump.exit[2].si(), broken)?;
    }
    Ok(list)
}

/// An end of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
enum End {
    Near,
    Far,
}

fn larger(a: Force, b: Force) -> Force {
    if a.si() >= b.si() { a } else { b }
}

/// Greatest tension of a line at an end in the jump, waves included.
fn greatest(jump: &Outlook, waves: Option<&WavePlan>, name: &str, end: End) -> Force {
    let limits = match end {
        End::Near => &jump.lines_near,
        End::Far => &jump.lines_far,
    };
    let still = limits.iter().find(|limit| limit.name == name);
    let wave = waves.and_then(|w| w.lines.iter().find(|l| l.line == name));
    let wave = wave.map(|line| match end {
        End::Near => line.near.extreme.value,
        End::Far => line.far.extreme.value,
    });
    let zero = Force::from_si(0.0);
    larger(still.map_or(zero, |limit| limit.force.extreme.value), wave.unwrap_or(zero))
}
