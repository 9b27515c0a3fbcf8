//! Lines, jump ropes and the haul rope on edges of rock.

use super::flight::{Site, place};
use super::gear::{rigidities, stretch};
use super::picture::run_name;
use super::result::{EdgePlan, HaulStep, StatePlan};
use crate::material::Stretch;
use crate::quantity::{Angle, AxialRigidity, Force, Length, LineLoad, Quantity, Ratio, show};
use crate::rig::{EdgeEntry, PadEntry, Rig, RigError};
use crate::swing::{
    Flight, Outlook, Place, RockEdge, RopeEdgeCase, RopeMeshCase, RopeOnEdge, SwingError,
    TerrainMesh, Track, Waiting, rope_on_edge, rope_on_mesh,
};

pub(super) const HAUL_ROPE: &str = "haul rope";
/// Meshes of more triangles are not looked at for ropes on their edges.
const MOST_TRIANGLES: usize = 20_000;
/// Edges of a mesh that fold by less count as round, rad.
const LEAST_FOLD: f64 = 0.35;

/// A touch and how it rubs.
pub(super) struct Touch {
    pub plan: EdgePlan,
    /// Force on the edge and travel, sample by sample, where it moves.
    pub rub: Option<Rub>,
}

/// A motion over an edge for the model of wear.
pub(super) struct Rub {
    pub contact_n: Vec<f64>,
    pub travel_m: Vec<f64>,
    pub done: Option<crate::quantity::Energy>,
    pub from: String,
}

/// A straight piece of cordage in motion.
struct Piece {
    part: String,
    from: String,
    t_s: Vec<f64>,
    start: Track,
    end: Track,
    tension_n: Vec<f64>,
    rigidity: Option<AxialRigidity>,
}

/// Every touch, and where the model has no answer.
#[derive(Default)]
pub(super) struct Touches {
    pub all: Vec<Touch>,
    pub notes: Vec<String>,
}

/// Everything of the plan that may lie on an edge.
pub(super) struct Over<'a> {
    pub states: [&'a [StatePlan]; 2],
    pub waiting: &'a Waiting,
    pub jump: &'a Outlook,
    pub haul: Option<&'a [HaulStep]>,
}

/// All touches of the plan: of each part and edge the greatest force and the greatest rub.
pub(super) fn touches(site: &Site<'_>, over: &Over<'_>) -> Result<Touches, RigError> {
    let rig = site.rig;
    let mut found = Touches::default();
    let mut pieces = Vec::new();
    if !rig.edge.is_empty() {
        for (what, states) in ["standing", "jumper at the ring"].iter().zip(over.states) {
            lines_at_rest(site, what, states, &mut pieces);
        }
        for flight in [&over.jump.stiff, &over.jump.soft] {
            lines_in_flight(site, flight, &mut pieces);
        }
        waiting(rig, over.waiting, &mut pieces);
    }
    let ropes = ropes_in_flight(rig, over.jump)?;
    for edge in &rig.edge {
        for piece in pieces.iter().chain(&ropes) {
            found.look(rig, edge, piece);
        }
    }
    if let Some(steps) = over.haul {
        haul_rope(rig, steps, &mut found)?;
    }
    // One path for all jump ropes.
    for piece in
        ropes.iter().filter(|piece| rig.jump.rope.first().is_some_and(|r| r.name == piece.part))
    {
        terrain(site, piece, &mut found);
    }
    Ok(found)
}

/// The friction, radius and pad of a part on an edge.
fn on<'a>(edge: &'a EdgeEntry, part: &str) -> (Option<&'a PadEntry>, Ratio, Option<Length>) {
    let pad = edge.pad.iter().find(|pad| pad.under.iter().any(|name| name == part));
    let friction = pad.map_or(edge.friction, |pad| pad.friction);
    (pad, friction, pad.and_then(|pad| pad.radius).or(edge.radius))
}

/// Whether a straight piece passes under an edge that lies between its ends: it then lies on the edge.
fn starts_over(piece: &Piece, edge_m: [f64; 3]) -> bool {
    let (a, b) = (piece.start.at_m(0), piece.end.at_m(0));
    let share = (edge_m[0] - a[0]) / (b[0] - a[0]);
    share > 0.0 && share < 1.0 && a[2] + share * (b[2] - a[2]) < edge_m[2]
}

impl Piece {
    fn case(&self, edge: RockEdge, mu: Ratio, starts_over: bool) -> RopeEdgeCase {
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

impl Touches {
    fn look(&mut self, rig: &Rig, edge: &EdgeEntry, piece: &Piece) {
        let (pad, friction, radius) = on(edge, &piece.part);
        let at = RockEdge::Corner { at: place(&edge.position) };
        let case = piece.case(at, friction, starts_over(piece, edge.position.map(Quantity::si)));
        match longest(&case) {
            Ok((rope, stopped)) => {
                if let Some(error) = stopped {
                    self.unclear(&edge.name, piece, &error);
                }
                let pad = pad.map(|pad| (pad.name.clone(), pad.done));
                let done = pad.as_ref().map_or(rig.wear.as_ref().and_then(|w| w.done), |p| p.1);
                let where_ = (edge.name.as_str(), pad.map(|p| p.0), Some(friction), radius);
                self.take(where_, piece, &rope, done);
            }
            Err(error) => self.unclear(&edge.name, piece, &error),
        }
    }

    fn unclear(&mut self, edge: &str, piece: &Piece, error: &SwingError) {
        let Piece { part, from, .. } = piece;
        self.notes.push(format!("{part} on the {edge}, {from}: no answer from then on: {error}"));
    }

    /// Takes a rope that touches into the list: the greatest of each figure over all parts of the plan.
    fn take(
        &mut self,
        (edge, pad, friction, radius): (&str, Option<String>, Option<Ratio>, Option<Length>),
        piece: &Piece,
        rope: &RopeOnEdge,
        done: Option<crate::quantity::Energy>,
    ) {
        let (Some(turn), Some(force)) = (rope.greatest_turn, rope.greatest_force) else { return };
        let highest = |n: &[f64]| n.iter().copied().fold(0.0, f64::max);
        let tension_n = highest(&rope.behind_high_n);
        let mu = friction.map_or(0.0, Quantity::si);
        let plan = EdgePlan {
            edge: edge.to_owned(),
            part: piece.part.clone(),
            pad,
            friction,
            turn: turn.value,
            contact: force.value,
            from: piece.from.clone(),
            capstan_ratio: Ratio::from_si((mu * turn.value.si()).exp()),
            behind: Force::from_si(tension_n),
            pressure: radius.map(|radius| LineLoad::from_si(tension_n / radius.si())),
            travel: rope.rub,
        };
        let moves = piece.t_s.len() > 1;
        let rub = moves.then(|| Rub {
            contact_n: rope.force_most_n.clone(),
            travel_m: rope.rub_m.clone(),
            done,
            from: piece.from.clone(),
        });
        self.add(Touch { plan, rub });
    }

    fn add(&mut self, new: Touch) {
        let same = |t: &&mut Touch| t.plan.edge == new.plan.edge && t.plan.part == new.plan.part;
        let Some(known) = self.all.iter_mut().find(same) else {
            self.all.push(new);
            return;
        };
        let (a, b) = (&mut known.plan, new.plan);
        if b.contact > a.contact {
            (a.contact, a.from) = (b.contact, b.from);
        }
        if b.capstan_ratio > a.capstan_ratio {
            a.capstan_ratio = b.capstan_ratio;
        }
        a.turn = if b.turn > a.turn { b.turn } else { a.turn };
        a.behind = if b.behind > a.behind { b.behind } else { a.behind };
        a.pressure = if b.pressure > a.pressure { b.pressure } else { a.pressure };
        a.travel = if b.travel > a.travel { b.travel } else { a.travel };
        let product = |rub: &Option<Rub>| rub.as_ref().map_or(-1.0, Rub::force_travel_j);
        if product(&new.rub) > product(&known.rub) {
            known.rub = new.rub;
        }
    }
}

impl Rub {
    /// Force times travel, J.
    fn force_travel_j(&self) -> f64 {
        let steps = self.travel_m.windows(2).zip(self.contact_n.windows(2));
        steps.map(|(x, f)| 0.5 * (f[0] + f[1]) * (x[1] - x[0])).sum()
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
fn lines_at_rest(site: &Site<'_>, what: &str, states: &[StatePlan], out: &mut Vec<Piece>) {
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

fn lines_in_flight(site: &Site<'_>, flight: &Flight, out: &mut Vec<Piece>) {
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
fn waiting(rig: &Rig, still: &Waiting, out: &mut Vec<Piece>) {
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

fn ropes_in_flight(rig: &Rig, jump: &Outlook) -> Result<Vec<Piece>, RigError> {
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

/// The haul rope from the pulley to the jumper. It is drawn over the edge: what comes in rubs.
fn haul_rope(rig: &Rig, steps: &[HaulStep], found: &mut Touches) -> Result<(), RigError> {
    let Some(piece) = haul_piece(rig, steps)? else { return Ok(()) };
    for edge in &rig.edge {
        let before = found.all.len();
        found.look(rig, edge, &piece);
        let Some(touch) = found.all.get_mut(before) else { continue };
        let Some(rub) = &mut touch.rub else { continue };
        let mut travel_m = vec![0.0; steps.len()];
        for i in 1..steps.len() {
            let drawn_m = (steps[i - 1].rope_out.si() - steps[i].rope_out.si()).abs();
            let over = rub.contact_n[i - 1] > 0.0 || rub.contact_n[i] > 0.0;
            travel_m[i] = travel_m[i - 1] + if over { drawn_m } else { 0.0 };
        }
        touch.plan.travel = Length::from_si(travel_m.last().copied().unwrap_or(0.0));
        rub.travel_m = travel_m;
    }
    Ok(())
}

fn haul_piece(rig: &Rig, steps: &[HaulStep]) -> Result<Option<Piece>, RigError> {
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

/// What the edges do to the pull of the haul at a step: the product of their capstan ratios.
pub(super) fn haul_ratio(rig: &Rig, steps: &[HaulStep], step: usize) -> Result<Ratio, RigError> {
    let Some(piece) = haul_piece(rig, steps)? else { return Ok(Ratio::from_si(1.0)) };
    let mut exponent = 0.0;
    for edge in &rig.edge {
        let (_, friction, _) = on(edge, HAUL_ROPE);
        let over = starts_over(&piece, edge.position.map(Quantity::si));
        let at = RockEdge::Corner { at: place(&edge.position) };
        if let Ok(rope) = rope_on_edge(&piece.case(at, friction, over)) {
            exponent += friction.si() * rope.turn_rad.get(step).copied().unwrap_or(0.0);
        }
    }
    Ok(Ratio::from_si(exponent.exp()))
}

/// A jump rope on the corners of profiles and the ridges of meshes, beyond the edges that are named: of each terrain
/// the one that it touches first, since nothing is known of the motion after that.
fn terrain(site: &Site<'_>, piece: &Piece, found: &mut Touches) {
    for wall in site.walls() {
        let edges = match &wall.mesh {
            None => {
                let named = |point: &&Place| {
                    let at = |edge: &EdgeEntry| {
                        edge.position[0] == point.x && edge.position[2] == point.z
                    };
                    site.rig.edge.iter().any(at)
                };
                let corners = wall.points.iter().filter(|point| !named(point));
                corners.map(|at| RockEdge::Corner { at: *at }).collect()
            }
            Some(mesh) if mesh.triangles() > MOST_TRIANGLES => {
                let many = mesh.triangles();
                let note = format!(
                    "jump ropes on edges of the {}: not looked at, {many} triangles",
                    wall.name
                );
                if !found.notes.contains(&note) {
                    found.notes.push(note);
                }
                continue;
            }
            Some(mesh) => match ridges(piece, mesh) {
                Ok(edges) => edges,
                Err(error) => {
                    found.unclear(&wall.name, piece, &error);
                    continue;
                }
            },
        };
        let touched = edges.into_iter().filter_map(|edge| {
            let none = Ratio::from_si(0.0);
            // A rope that starts on a corner starts in contact, which the jump refuses.
            let rope = longest(&piece.case(edge, none, false)).ok()?.0;
            Some((rope.first_touch?, rope))
        });
        let first = touched.min_by(|a, b| a.0.si().total_cmp(&b.0.si()));
        if let Some((_, rope)) = first {
            let name = corner(&wall.name, rope.touches.first().map(|touch| touch.place));
            found.take((&name, None, None, None), piece, &rope, None);
        }
    }
}

/// Edges of a mesh that a rope touches, or of which that is not clear.
fn ridges(piece: &Piece, mesh: &TerrainMesh) -> Result<Vec<RockEdge>, SwingError> {
    let on = rope_on_mesh(&RopeMeshCase {
        t_s: piece.t_s.clone(),
        anchor: piece.start.clone(),
        body: piece.end.clone(),
        tension_n: piece.tension_n.clone(),
        mesh: mesh.clone(),
        least_fold: Angle::from_si(LEAST_FOLD),
        valleys: false,
        mu: Ratio::from_si(0.0),
        axial_rigidity: piece.rigidity,
    })?;
    let touched = on.touched.into_iter().map(|touch| touch.edge.edge);
    Ok(touched.chain(on.unclear.into_iter().map(|unclear| unclear.edge.edge)).collect())
}

/// The answer for as much of a motion as has one, and what ends it.
fn longest(case: &RopeEdgeCase) -> Result<(RopeOnEdge, Option<SwingError>), SwingError> {
    let error = match rope_on_edge(case) {
        Ok(rope) => return Ok((rope, None)),
        Err(error) => error,
    };
    let cut = |samples: usize| {
        let column = |values: &[f64]| values[..samples.min(values.len())].to_vec();
        let track =
            |t: &Track| Track { x_m: column(&t.x_m), y_m: column(&t.y_m), z_m: column(&t.z_m) };
        rope_on_edge(&RopeEdgeCase {
            t_s: column(&case.t_s),
            anchor: track(&case.anchor),
            body: track(&case.body),
            tension_n: column(&case.tension_n),
            ..case.clone()
        })
    };
    let (mut good, mut bad) = (1, case.t_s.len());
    let mut rope = cut(good)?;
    while bad - good > 1 {
        let middle = usize::midpoint(good, bad);
        match cut(middle) {
            Ok(longer) => (rope, good) = (longer, middle),
            Err(_) => bad = middle,
        }
    }
    Ok((rope, Some(error)))
}

fn corner(wall: &str, at: Option<Place>) -> String {
    at.map_or_else(
        || wall.to_owned(),
        |p| format!("{wall} at x {}, z {}", show(p.x, "m", 1), show(p.z, "m", 1)),
    )
}
