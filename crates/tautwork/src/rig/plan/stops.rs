//! Stops of the ring as the jump takes them, and what they carry in it.

use super::flight::place;
use super::gear::{rigidities, stretch};
use super::lines::distance_m;
use super::result::StopPlan;
use crate::material::Law;
use crate::quantity::{AxialRigidity, Length, Quantity};
use crate::rig::{End, Rig, RigError, StopEntry};
use crate::swing::{Limit, Outlook, Response, Stop};

impl StopEntry {
    /// Name of the anchor where it is tied; the document is checked, so the line is there.
    pub(super) fn anchor<'a>(&self, rig: &'a Rig) -> &'a str {
        let line = rig.line.iter().find(|line| line.name == self.line);
        line.map_or("", |line| if self.end == End::Near { &line.from } else { &line.to })
    }
}

/// The stops of the document.
pub(super) fn stops(rig: &Rig) -> Result<Vec<Stop>, RigError> {
    rig.stop.iter().map(|entry| stop(rig, entry)).collect()
}

fn stop(rig: &Rig, entry: &StopEntry) -> Result<Stop, RigError> {
    let cordage = rig.cordage_named(&entry.cordage)?;
    let both = cordage.stretch.en892_impact_force.is_some();
    let (soft, stiff) = if both {
        rigidities(cordage)?
    } else {
        let curved = || RigError::unsolved(&entry.name, &"the stretch of a stop is one rigidity");
        let stretch = stretch(&cordage.stretch)?;
        let Law::Linear { ea_n } = stretch.law() else { return Err(curved()) };
        (AxialRigidity::from_si(*ea_n), AxialRigidity::from_si(*ea_n))
    };
    let relaxation = cordage.relaxation.filter(|_| both).map(|range| range.low);
    Ok(Stop {
        name: entry.name.clone(),
        anchor: place(&rig.anchor_at(entry.anchor(rig))?),
        travel: entry.travel,
        response: Response::Pair { stiff, soft, relaxation },
    })
}

/// What each stop carries in the jump.
pub(super) fn in_jump(
    rig: &Rig,
    ring: [Length; 3],
    jump: &Outlook,
) -> Result<Vec<StopPlan>, RigError> {
    let each = rig.stop.iter().enumerate().map(|(i, entry)| {
        let anchor = entry.anchor(rig);
        let [stiff, soft] = [&jump.stiff, &jump.soft]
            .map(|flight| Limit { run: flight.run, extreme: flight.stops[i].tension });
        let more = soft.extreme.value > stiff.extreme.value;
        let away_m = distance_m(&rig.anchor_at(anchor)?, &ring);
        Ok(StopPlan {
            name: entry.name.clone(),
            anchor: anchor.to_owned(),
            travel: entry.travel,
            length: Length::from_si(away_m + entry.travel.si()),
            tension: if more { soft } else { stiff },
        })
    });
    each.collect()
}
