//! From the record of a run to its answer.

use super::super::course::Course;
use super::super::fault::AfterFault;
use super::super::flight::{
    AnchorResult, Assumed, Catch, Clearance, Ending, Event, Extreme, Happening, Rest, RingResult,
    RopeResult, TimeAbove,
};
use super::super::jump::{Jump, Place};
use super::super::terrain::Wall;
use super::answer::{FullBooks, FullFlight, FullLine, FullNote, FullRope, RopeClearance, Slid};
use super::books::Energies;
use super::hang::past_table;
use super::mesh::MeshReport;
use super::rest::Settled;
use super::run::Outcome;
use super::slide::Slider;
use super::watch::{Approach, Best, Watch};
use crate::quantity::{Energy, Force, GRAVITY, Length, Quantity, Ratio, Speed, Time};

/// What is known before the first step.
pub(super) struct Before<'a> {
    pub jump: &'a Jump,
    pub course: &'a Course,
    pub ring_m: [f64; 3],
    /// Tension at the first point of each chain.
    pub standing_n: Vec<f64>,
    /// Pull on each anchor, N.
    pub standing_anchors_n: Vec<f64>,
    pub rest: Option<Settled>,
    pub mesh: MeshReport,
    pub assumed: Vec<Assumed>,
    /// Greatest drift that raises no note.
    pub drift: f64,
}

pub(super) fn report(before: Before<'_>, out: Outcome) -> FullFlight {
    let Before { jump, course, ring_m, standing_n, standing_anchors_n, rest, mesh, assumed, drift } =
        before;
    let mut notes = notes(jump, &out);
    let rest = match rest {
        None => None,
        Some(Ok((ring, body))) => Some(Rest { ring: Place::of_m(ring), body: Place::of_m(body) }),
        Some(Err(problem)) => {
            notes.push(FullNote::NoRest { problem: problem.to_string() });
            None
        }
    };
    let clearance = |approach: &Approach, wall: String| {
        let b = approach.nearest;
        let value = Length::from_si((-b.value - course.body.radius_m).max(0.0));
        b.seen().then(|| Clearance { wall, least: Extreme { value, ..at_body(&b, 1.0) } })
    };
    let exit_clearance = clearance(&out.watch.exit, nearest_wall(course, &out.watch.exit));
    let walls = course.walls.iter().zip(&out.watch.walls);
    let clearances: Vec<Clearance> =
        walls.filter_map(|(w, approach)| clearance(approach, w.name.clone())).collect();
    let weight_n = jump.mass.si() * GRAVITY;
    let energy = books(&out);
    if energy.drift.si() > drift {
        notes.push(FullNote::CoarseStep);
    }
    FullFlight {
        run: jump.run,
        ending: out.ending,
        duration: Time::from_si(out.t_s),
        events: events(&out, &clearances),
        catch: catch(&out),
        resultant: at_body(&out.watch.resultant, 1.0),
        tension_over_weight: Ratio::from_si(out.watch.resultant.value / weight_n),
        time_above: time_above(jump, &out),
        lowest: at_body(&out.watch.low, -1.0),
        first_lowest: out.risen.map(|(t_s, p)| Extreme {
            value: Length::from_si(p[2]),
            time: Time::from_si(t_s),
            place: Place::of_m(p),
        }),
        top_speed: at_body(&out.watch.speed, 1.0),
        ropes: ropes(jump, &out),
        lines: line_results(jump, &out, &standing_n),
        stops: stops(jump, &out.watch),
        anchors: anchors(jump, course, &out, &standing_anchors_n),
        ring: RingResult {
            start: Place::of_m(ring_m),
            load: at_ring(&out.watch.load, 1.0),
            lowest: at_ring(&out.watch.ring[0], -1.0),
            highest: at_ring(&out.watch.ring[1], 1.0),
            nearest: at_ring(&out.watch.ring[2], -1.0),
            farthest: at_ring(&out.watch.ring[3], 1.0),
        },
        exit_clearance,
        clearances,
        rope_clearances: rope_clearances(jump, &out),
        rest,
        settled: out.settled_s.map(Time::from_si),
        after_fault: after_fault(jump, &out),
        energy,
        mesh,
        notes,
        assumed,
        series: out.series,
    }
}

fn nearest_wall(course: &Course, approach: &Approach) -> String {
    let axis = approach.nearest.axis(&course.body);
    let away = |w: &Wall| course.body.away_m(w, axis);
    let nearest = course.walls.iter().min_by(|a, b| away(a).total_cmp(&away(b)));
    nearest.map_or_else(String::new, |w| w.name.clone())
}

fn extreme<Q: Quantity>(b: &Best, p: [f64; 3], scale: f64) -> Extreme<Q> {
    Extreme {
        value: Q::from_si(scale * b.value),
        time: Time::from_si(b.t_s),
        place: Place::of_m(p),
    }
}

fn at_body<Q: Quantity>(b: &Best, scale: f64) -> Extreme<Q> {
    extreme(b, b.body_m, scale)
}

fn at_ring<Q: Quantity>(b: &Best, scale: f64) -> Extreme<Q> {
    extreme(b, b.ring_m, scale)
}

fn catch(out: &Outcome) -> Option<Catch> {
    let peak = &out.watch.first_peak;
    out.caught.map(|c| Catch {
        time: Time::from_si(c.t_s),
        drop: Length::from_si(c.drop_m),
        speed: Speed::from_si(c.speed_m_per_s),
        rise_time: (out.risen.is_some() && peak.seen()).then(|| Time::from_si(peak.t_s - c.t_s)),
    })
}

fn time_above(jump: &Jump, out: &Outcome) -> Vec<TimeAbove> {
    let each = jump.timed_forces.iter().zip(&out.watch.above_s);
    let weight_n = jump.mass.si() * GRAVITY;
    let timed = each.map(|(force, s)| TimeAbove {
        force: *force,
        over_weight: Ratio::from_si(force.si() / weight_n),
        duration: Time::from_si(*s),
    });
    timed.collect()
}

fn ropes(jump: &Jump, out: &Outcome) -> Vec<FullRope> {
    let peaks = &out.watch.chains[2 * jump.lines.len()..];
    let each = jump.ropes.iter().zip(peaks);
    each.map(|(rope, [ring, body])| FullRope {
        name: rope.name.clone(),
        body_end: at_body(body, 1.0),
        ring_end: at_ring(ring, 1.0),
    })
    .collect()
}

/// A stop is one segment, which pulls alike at both ends.
fn stops(jump: &Jump, watch: &Watch) -> Vec<RopeResult> {
    let peaks = &watch.chains[2 * jump.lines.len() + jump.ropes.len()..];
    let each = jump.stops.iter().zip(peaks);
    each.map(|(stop, [peak, _])| RopeResult {
        name: stop.name.clone(),
        tension: at_ring(peak, 1.0),
    })
    .collect()
}

fn line_results(jump: &Jump, out: &Outcome, standing: &[f64]) -> Vec<FullLine> {
    let each = jump.lines.iter().enumerate().map(|(i, line)| {
        let [near, far] = [2 * i, 2 * i + 1].map(|k| &out.watch.chains[k]);
        let quasi_static_n = out.quasi_static_n[i];
        let over = near[0].value.max(far[0].value) / quasi_static_n;
        let slider = out.sliders.iter().find(|slider| slider.is_of(2 * i));
        let tied = slider.is_none();
        FullLine {
            name: line.name.clone(),
            near_standing: Force::from_si(standing[2 * i]),
            far_standing: Force::from_si(standing[2 * i + 1]),
            near: at_ring(&near[0], 1.0),
            far: at_ring(&far[0], 1.0),
            ring_near: at_ring(&near[1], 1.0),
            ring_far: at_ring(&far[1], 1.0),
            quasi_static: tied.then(|| Force::from_si(quasi_static_n)),
            over_quasi_static: (tied && over.is_finite()).then(|| Ratio::from_si(over)),
            slid: slider.map(slid),
        }
    });
    each.collect()
}

fn anchors(jump: &Jump, course: &Course, out: &Outcome, standing_n: &[f64]) -> Vec<AnchorResult> {
    let each = course.anchors.iter().zip(&out.watch.anchors).zip(standing_n);
    each.map(|((anchor, peak), standing_n)| AnchorResult {
        place: Place::of_m(anchor.at_m),
        parts: anchor.parts(jump),
        standing: Force::from_si(*standing_n),
        peak: at_ring(peak, 1.0),
    })
    .collect()
}

fn slid(slider: &Slider) -> Slid {
    Slid {
        start: Length::from_si(slider.start_m),
        least: Length::from_si(slider.range_m[0]),
        greatest: Length::from_si(slider.range_m[1]),
        travel: Length::from_si(slider.travel_m),
        lost: Energy::from_si(slider.lost_j),
    }
}

/// Peaks from the first fault on.
fn after_fault(jump: &Jump, out: &Outcome) -> Option<AfterFault> {
    // A fault at the very end has no after.
    let (t_s, watch) = out.after.as_ref().filter(|(_, watch)| watch.resultant.seen())?;
    let line = |half: usize| {
        jump.lines.iter().enumerate().map(move |(i, line)| RopeResult {
            name: line.name.clone(),
            tension: at_ring(&watch.chains[2 * i + half][0], 1.0),
        })
    };
    let ropes = jump.ropes.iter().zip(&watch.chains[2 * jump.lines.len()..]);
    Some(AfterFault {
        time: Time::from_si(*t_s),
        resultant: at_body(&watch.resultant, 1.0),
        ropes: ropes
            .map(|(rope, ends)| RopeResult {
                name: rope.name.clone(),
                tension: at_body(&ends[1], 1.0),
            })
            .collect(),
        stops: stops(jump, watch),
        lines_near: line(0).collect(),
        lines_far: line(1).collect(),
        anchors: watch.anchors.iter().map(|best| at_ring(best, 1.0)).collect(),
        lowest: at_body(&watch.low, -1.0),
        ring_lowest: Some(at_ring(&watch.ring[0], -1.0)),
        clearances: Vec::new(),
    })
}

fn rope_clearances(jump: &Jump, out: &Outcome) -> Vec<RopeClearance> {
    let each = jump.walls.iter().zip(&out.ropes.walls).filter(|(_, a)| a.least_m.is_finite());
    each.map(|(wall, a)| RopeClearance {
        wall: wall.name.clone(),
        rope: jump.ropes[a.rope].name.clone(),
        least: Length::from_si(a.least_m),
        time: Time::from_si(a.t_s),
        place: Place::of_m(a.at_m),
    })
    .collect()
}

fn notes(jump: &Jump, out: &Outcome) -> Vec<FullNote> {
    let mut notes = Vec::new();
    if out.caught.is_none() {
        notes.push(FullNote::NeverTaut);
    }
    if !jump.walls.is_empty() && !out.left_zone {
        notes.push(FullNote::LaunchZoneNotLeft);
    }
    match (out.ending, out.events.last()) {
        (Ending::Contact, Some((_, _, Happening::Contact { wall, speed }))) => {
            notes.push(FullNote::Contact { wall: wall.clone(), speed: *speed });
        }
        (Ending::Horizon, _) => notes.push(FullNote::NotSettled),
        _ => {}
    }
    for (i, line) in jump.lines.iter().enumerate() {
        if out.sliders.iter().any(|slider| slider.is_of(2 * i) && slider.ran_to_anchor) {
            notes.push(FullNote::RanToAnchor { line: line.name.clone() });
        }
    }
    for (wall, seen) in jump.walls.iter().zip(&out.ropes.walls).filter(|(_, a)| a.crossed) {
        let rope = jump.ropes[seen.rope].name.clone();
        notes.push(FullNote::RopeCrossedWall { rope, wall: wall.name.clone() });
    }
    for (line, ends) in jump.lines.iter().zip(out.watch.chains.chunks(2)) {
        let most_n = ends.iter().flatten().map(|b| b.value).fold(0.0, f64::max);
        if past_table(line.stretch.law(), most_n) {
            notes.push(FullNote::PastTable { line: line.name.clone() });
        }
    }
    notes
}

/// Eq. (F17).
fn books(out: &Outcome) -> FullBooks {
    let (a, b): (&Energies, &Energies) = (&out.at_exit, &out.at_end);
    FullBooks {
        kinetic_at_exit: Energy::from_si(a.kinetic),
        stored_at_exit: Energy::from_si(a.in_ropes + a.in_lines),
        from_height: Energy::from_si(a.height - b.height),
        kinetic: Energy::from_si(b.kinetic),
        stored_in_ropes: Energy::from_si(b.in_ropes),
        stored_in_lines: Energy::from_si(b.in_lines),
        lost_in_material: Energy::from_si(b.material),
        lost_to_drag: Energy::from_si(b.drag),
        lost_at_ring: Energy::from_si(b.ring),
        lost_to_friction: Energy::from_si(b.friction),
        lost_in_passing: Energy::from_si(b.passed),
        failed: Energy::from_si(b.failed),
        drift: Ratio::from_si(out.off_j / out.fall_j),
    }
}

fn events(out: &Outcome, clearances: &[Clearance]) -> Vec<Event> {
    let mut events = Vec::new();
    let mut at = |b: &Best, what| {
        events.push(Event { time: Time::from_si(b.t_s), place: Place::of_m(b.body_m), what });
    };
    at(&out.watch.low, Happening::Lowest);
    if out.watch.resultant.value > 0.0 {
        at(&out.watch.resultant, Happening::Peak);
    }
    for c in clearances {
        let what = Happening::NearestApproach { wall: c.wall.clone() };
        events.push(Event { time: c.least.time, place: c.least.place, what });
    }
    // The sort keeps equal times in order: what ends the run comes last.
    events.extend(out.events.iter().map(|(t_s, p, what)| Event {
        time: Time::from_si(*t_s),
        place: Place::of_m(*p),
        what: what.clone(),
    }));
    let end =
        |t_s: f64, what| Event { time: Time::from_si(t_s), place: Place::of_m(out.end_m), what };
    match out.ending {
        Ending::Settled => {
            events.push(end(out.settled_s.unwrap_or(out.t_s), Happening::Settled));
        }
        Ending::Horizon => events.push(end(out.t_s, Happening::Horizon)),
        Ending::Contact => {}
    }
    events.sort_by(|a, b| a.time.si().total_cmp(&b.time.si()));
    events
}
