//! The rig in winds: standing lines, the jump, and the largest wind for each clearance.

use super::flight::{Change, Site};
use super::lines::{Span, bundle};
use super::ratings::{contact, required_clearance};
use super::result::{LargestWind, StatePlan, WindPlan};
use super::states::state;
use crate::line::{Gust, bundle_in_wind, wind_load};
use crate::quantity::{Force, GRAVITY, Length, LineLoad, Quantity, Ratio, Speed, Words};
use crate::rig::{RigError, WindEntry};
use crate::swing::{Extreme, Flight, Limit, Outlook, Run, WindSweep, Winds, wind_sweep_by};

/// Winds from still air to the greatest, before the border of each wall is halved down.
const WINDS: usize = 6;

impl WindEntry {
    /// Its speed, m/s.
    pub(in crate::rig) fn speed_m_per_s(&self) -> f64 {
        self.velocity[0].si().hypot(self.velocity[1].si())
    }
}

/// Every wind of the document, each with the jump in it.
pub(super) fn winds(site: &Site<'_>) -> Result<Vec<(WindPlan, Outlook)>, RigError> {
    site.rig.wind.iter().map(|wind| one(site, wind)).collect()
}

/// Notes of all winds, each with its name.
pub(super) fn notes(winds: &[WindPlan]) -> Vec<String> {
    let of = |wind: &WindPlan| -> Vec<String> {
        wind.notes.iter().map(|note| format!("{}, {note}", wind.name)).collect()
    };
    winds.iter().flat_map(of).collect()
}

fn one(site: &Site<'_>, wind: &WindEntry) -> Result<(WindPlan, Outlook), RigError> {
    let change = Change { wind_m_per_s: wind.velocity.map(Quantity::si), ..Change::default() };
    let outlook = site.fly(&site.rig.jumper, change)?;
    let flights = [&outlook.stiff, &outlook.soft];
    let notes = flights.iter().filter_map(|flight| {
        let run = super::picture::run_name(flight);
        contact(flight)
            .map(|words| format!("{run} run: the jumper {words}; nothing is known after it"))
    });
    let mut plan = WindPlan {
        name: wind.name.clone(),
        velocity: [wind.velocity[0], wind.velocity[1], Speed::from_si(0.0)],
        states: standing(site, wind)?,
        body_force: outlook.body_force,
        lowest: outlook.lowest,
        leftmost: farthest(&outlook, |f| f.leftmost, 1.0),
        rightmost: farthest(&outlook, |f| f.rightmost, -1.0),
        exit_clearance: outlook.exit_clearance.clone(),
        clearances: outlook.clearances.clone(),
        largest: Vec::new(),
        notes: notes.collect(),
    };
    plan.largest = largest(site, wind)?;
    Ok((plan, outlook))
}

/// The farther of both runs, by its value times the sign.
fn farthest(jump: &Outlook, of: fn(&Flight) -> Extreme<Length>, sign: f64) -> Limit<Length> {
    let [stiff, soft] = [&jump.stiff, &jump.soft].map(|flight| {
        let run = flight.run;
        Limit { run, extreme: of(flight) }
    });
    let beyond = |limit: &Limit<Length>| sign * limit.extreme.value.si();
    if beyond(&stiff) > beyond(&soft) { stiff } else { soft }
}

/// Everything on in a wind, without the jumper and with their weight and drag at the ring.
fn standing(site: &Site<'_>, wind: &WindEntry) -> Result<Vec<StatePlan>, RigError> {
    let fail = |e: crate::line::LineError| RigError::unsolved(&format!("wind {}", wind.name), &e);
    let blown = site.spans.iter().map(|span| blown(site, span, wind).map_err(fail));
    let winds = blown.collect::<Result<Vec<_>, _>>()?;
    let lines = bundle(site.spans.iter());
    let jumper = &site.rig.jumper;
    let speed = wind.speed_m_per_s();
    let drag = 0.5 * site.defaults.air_density.si() * jumper.drag_area_or_default().si() * speed;
    let weight_n = jumper.mass.si() * GRAVITY;
    let push_n = wind.velocity.map(|v| drag * v.si());
    let ring_n = site.rig.ring.mass.si() * GRAVITY;
    let solve = |name: String, [x, y]: [f64; 2], weight_n: f64| {
        let load = [x, y, -weight_n - ring_n].map(Force::from_si);
        let solved = bundle_in_wind(&lines, &winds, load).map_err(fail)?;
        Ok(state(&name, x.hypot(y).hypot(weight_n), &solved))
    };
    Ok(vec![
        solve(format!("standing, {}", wind.name), [0.0; 2], 0.0)?,
        solve(format!("jumper at the ring, {}", wind.name), push_n, weight_n)?,
    ])
}

/// Force of a wind on a line, by its chord.
fn blown(
    site: &Site<'_>,
    span: &Span<'_>,
    wind: &WindEntry,
) -> Result<[LineLoad; 3], crate::line::LineError> {
    let Some(width) = span.cordage.width else { return Ok([LineLoad::from_si(0.0); 3]) };
    let gust = Gust {
        drag_coefficient: span.cordage.drag_coefficient_or_default(),
        width,
        air_density: site.defaults.air_density,
        velocity: [wind.velocity[0], wind.velocity[1], Speed::from_si(0.0)],
    };
    wind_load(&gust, span.chord())
}

/// The largest wind for each wall: the lesser of both runs.
fn largest(site: &Site<'_>, wind: &WindEntry) -> Result<Vec<LargestWind>, RigError> {
    let speed = wind.speed_m_per_s();
    let most = wind.most.map_or((2.0 * speed).min(100.0), Quantity::si).max(1e-3);
    let survey_m = site.defaults.survey_error.si();
    let required = |wall: &str| Length::from_si(required_clearance(site.rig, wall).si() + survey_m);
    let winds = Winds {
        most: most.meters_per_second(),
        count: WINDS,
        along: Ratio::from_si(wind.velocity[0].si() / speed),
        left: Ratio::from_si(wind.velocity[1].si() / speed),
        required: Length::from_si(0.0),
    };
    let jump = site.jump(&site.rig.jumper, Change { what_if: true, ..Change::default() })?;
    let sweep = |run: Run| -> Result<WindSweep, RigError> {
        let jump = crate::swing::Jump { run, ..jump.clone() };
        wind_sweep_by(&jump, &winds, required, |jump| site.run(jump))
            .map_err(|e| RigError::unsolved(&format!("wind {}", wind.name), &e))
    };
    let (stiff, soft) = (sweep(Run::Stiff)?, sweep(Run::Soft)?);
    let walls = stiff.walls.into_iter().zip(soft.walls);
    let each = walls.map(|(a, b)| LargestWind {
        required: required_clearance(site.rig, &a.wall),
        wall: a.wall,
        largest: match (a.largest, b.largest) {
            (Some(a), Some(b)) => Some(if a.si() < b.si() { a } else { b }),
            _ => None,
        },
        looked_up_to: winds.most,
    });
    Ok(each.collect())
}
