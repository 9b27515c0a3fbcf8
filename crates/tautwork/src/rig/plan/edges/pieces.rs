//! What may come to lie on an edge: straight pieces of cordage in motion.

use super::super::flight::{Site, place};
use super::super::gear::{rigidities, stretch};
use super::super::picture::run_name;
use super::super::result::{HaulStep, StatePlan};
use crate::material::Stretch;
use crate::quantity::{AxialRigidity, Force, Quantity, Ratio};
use crate::rig::{HAUL_ROPE, Rig, RigError};
use crate::swing::{Flight, Outlook, RockEdge, RopeEdgeCase, Track, Waiting};

/// A straight piece of cordage in motion.
pub(super) struct Piece {
    pub part: String,
    pub from: String,
    pub t_s: Vec<f64>,
    pub start: Track,
    pub end: Track,
    pub tension_n: Vec<f64>,
    pub rigidity: Option<AxialRigidity>,
}

/// Whether a straight piece passes under an edge that lies between its ends: it then lies on the edge.
pub(super) fn starts_over(piece: &Piece, edge_m: [f64; 3]) -> bool {
    let (a, b) = (piece.start.at_m(0), piece.end.at_m(0));
    let share = (edge_m[0] - a[0]) / (b[0] - a[0]);
    share > 0.0 && share < 1.0 && a[2] + share * (b[2] - a[2]) < edge_m[2]
}

impl Piece {
    pub fn case(&self, edge: RockEdge, mu: Ratio, starts_over: bool) -> RopeEdgeCase {
        RopeEdgeCase {
            t_s: self.t_s.clone(),
            anchor: self.start.clone(),
            body: self.end.clone(),
            tension_n: self.tension_n.clone(),
            edge,
            starts_over,
            mu,
            axial_rigidity: self.rigidity,
        }
    }
}

/// Rigidity of a stretch as one figure: its secant to a tension; none where it does not give.
fn secant(stretch: &Stretch, most: Force) -> Option<AxialRigidity> {
    let strain = stretch.strain(most).ok().filter(|strain| strain.si() > 0.0)?;
    Some(AxialRigidity::from_si(most.si() / strain.si()))
}

/// The ring and the body of a flight on their ways.
fn ways(flight: &Flight) -> [Track; 2] {
    let s = &flight.series;
    let track = |x: &Vec<f64>, y: &Vec<f64>, z: &Vec<f64>| Track {
        x_m: x.clone(),
        y_m: y.clone(),
        z_m: z.clone(),
    };
    [track(&s.ring_x_m, &s.ring_y_m, &s.ring_z_m), track(&s.x_m, &s.y_m, &s.z_m)]
}

/// Both halves of each line that is on, from its anchor to the ring.
pub(super) fn lines_at_rest(
    site: &Site<'_>,
    what: &str,
    states: &[StatePlan],
    out: &mut Vec<Piece>,
) {
    for state in states {
        for line in &state.lines {
            let Some(span) = site.spans.iter().find(|s| s.entry.name == line.name) else {
                continue;
            };
            for (anchor, tension) in [(span.near, line.tension_near), (span.far, line.tension_far)]
            {
                out.push(Piece {
                    part: line.name.clone(),
                    from: format!("{what}, {}", state.name),
                    t_s: vec![0.0],
                    start: Track::still(place(&anchor)),
                    end: Track::still(place(&state.ring)),
                    tension_n: vec![tension.si()],
                    rigidity: None,
                });
            }
        }
    }
}

pub(super) fn lines_in_flight(site: &Site<'_>, flight: &Flight, out: &mut Vec<Piece>) {
    let s = &flight.series;
    let [ring, _] = ways(flight);
    for (i, span) in site.spans.iter().enumerate() {
        let ends = [(span.near, &s.line_near_tension_n), (span.far, &s.line_far_tension_n)];
        for (anchor, tension_n) in ends {
            let tension_n = tension_n[i].clone();
            let most = Force::from_si(tension_n.iter().copied().fold(0.0, f64::max));
            out.push(Piece {
                part: span.entry.name.clone(),
                from: format!("jump, {} run", run_name(flight)),
                t_s: s.t_s.clone(),
                start: Track::still(place(&anchor)),
                end: ring.clone(),
                tension_n,
                rigidity: secant(&span.stretch, most),
            });
        }
    }
}

/// The loops of rope of the waiting jumper, straight from the harness to their lowest point.
pub(super) fn waiting(rig: &Rig, still: &Waiting, out: &mut Vec<Piece>) {
    let exit = Track::still(place(&rig.jump.exit));
    for rope in &still.ropes {
        out.push(Piece {
            part: rope.name.clone(),
            from: "waiting at the exit".to_owned(),
            t_s: vec![0.0],
            start: Track::still(rope.lowest),
            end: exit.clone(),
            tension_n: vec![rope.tension.si()],
            rigidity: None,
        });
    }
}

pub(super) fn ropes_in_flight(rig: &Rig, jump: &Outlook) -> Result<Vec<Piece>, RigError> {
    let mut pieces = Vec::new();
    for flight in [&jump.stiff, &jump.soft] {
        let s = &flight.series;
        let [ring, body] = ways(flight);
        for (i, rope) in rig.jump.rope.iter().enumerate() {
            let (soft, stiff) = rigidities(rig.cordage_named(&rope.cordage)?)?;
            let named_soft = flight.run == crate::swing::Run::Soft;
            pieces.push(Piece {
                part: rope.name.clone(),
                from: format!("jump, {} run", run_name(flight)),
                t_s: s.t_s.clone(),
                start: ring.clone(),
                end: body.clone(),
                tension_n: s.rope_tension_n[i].clone(),
                rigidity: Some(if named_soft { soft } else { stiff }),
            });
        }
    }
    Ok(pieces)
}

pub(super) fn haul_piece(rig: &Rig, steps: &[HaulStep]) -> Result<Option<Piece>, RigError> {
    let Some(haul) = &rig.haul else { return Ok(None) };
    let pulley = rig.frame.as_ref().map(|frame| frame.head).or(haul.pulley);
    let Some(pulley) = pulley.filter(|_| !steps.is_empty()) else { return Ok(None) };
    let column = |i: usize| steps.iter().map(|step| step.body[i].si()).collect();
    let most = steps
        .iter()
        .map(|step| step.pull)
        .fold(Force::from_si(0.0), |a, b| if b > a { b } else { a });
    let cordage = rig.cordage_named(&haul.cordage)?;
    Ok(Some(Piece {
        part: HAUL_ROPE.to_owned(),
        from: "haul".to_owned(),
        t_s: (0..steps.len()).map(|i| i as f64).collect(),
        start: Track::still(place(&pulley)),
        end: Track { x_m: column(0), y_m: column(1), z_m: column(2) },
        tension_n: steps.iter().map(|step| step.pull.si()).collect(),
        rigidity: secant(&stretch(&cordage.stretch)?, most),
    }))
}
