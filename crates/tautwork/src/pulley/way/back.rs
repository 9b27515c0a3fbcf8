//! Places on the way, each at rest.

use nalgebra::{Vector2, Vector3};
use serde::{Deserialize, Serialize};

use super::super::PulleyError;
use crate::line::{BundleLine, Net, NetLine, NetSolution, Node, solve_net};
use crate::material::Stretch;
use crate::quantity::check::{count, finite, non_negative, positive};
use crate::quantity::{
    Energy, Force, GRAVITY, Invalid, Length, LineLoad, Mass, MaybeText, Quantity, Ratio, Text,
    Triple, print,
};
use crate::swing::{Wall, ready_walls};

/// Nearest that a body comes to the pulley, m.
const CLOSEST_M: f64 = 0.5;
/// The first rope over the straight way.
const LOOSE: f64 = 1.03;
const RING: &str = "ring";
const BODY: &str = "body";
const PULLEY: &str = "pulley";

/// A jump rope from the ring to the jumper.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WayRope {
    /// Name.
    pub name: String,
    /// Rest length.
    #[serde(with = "Text::<Length>")]
    pub rest_length: Length,
    /// Weight per rest length.
    #[serde(with = "Text::<LineLoad>")]
    pub weight: LineLoad,
    /// Long-term stretch.
    pub stretch: Stretch,
}

/// A jumper who is to be drawn in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WayBack {
    /// Lines that hold the ring; without any the ring does not move.
    pub lines: Vec<BundleLine>,
    /// Mass of the ring.
    #[serde(with = "Text::<Mass>")]
    pub ring_mass: Mass,
    /// Jump ropes.
    pub ropes: Vec<WayRope>,
    /// Mass of jumper and gear.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
    /// The ring about where the jumper hangs; where the search starts.
    #[serde(with = "Triple::<Length>")]
    pub ring: [Length; 3],
    /// The jumper there.
    #[serde(with = "Triple::<Length>")]
    pub body: [Length; 3],
    /// Where the haul rope leaves for the jumper: the pulley of a raised frame, or an anchor.
    #[serde(with = "Triple::<Length>")]
    pub pulley: [Length; 3],
    /// The lip.
    #[serde(with = "Triple::<Length>")]
    pub lip: [Length; 3],
    /// Friction of the rope on the lip.
    #[serde(with = "Text::<Ratio>")]
    pub lip_friction: Ratio,
    /// Weight of the haul rope per rest length.
    #[serde(with = "Text::<LineLoad>")]
    pub haul_weight: LineLoad,
    /// Stretch of the haul rope.
    pub haul_stretch: Stretch,
    /// Walls, for the clearance of the body.
    #[serde(default)]
    pub walls: Vec<Wall>,
    /// Radius of the body, taken off the clearance.
    #[serde(with = "Text::<Length>")]
    pub body_radius: Length,
    /// Places on the way, from 2 to 1000.
    pub steps: usize,
}

/// The way; the arrays go together, from far out to the lip.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct WayPlaces {
    /// Haul rope out, from the pulley to the body.
    pub rope_out_m: Vec<f64>,
    /// Tension of the haul rope at its upper end, before the lip.
    pub pull_n: Vec<f64>,
    /// Tension behind the lip, Eq. (Y3).
    pub behind_lip_n: Vec<f64>,
    /// Angle by which the lip turns the rope; zero without contact.
    pub lip_turn_rad: Vec<f64>,
    /// Angle of the rope below level where it leaves for the body.
    pub below_level_rad: Vec<f64>,
    /// Body along the span.
    pub x_m: Vec<f64>,
    /// Body to the left.
    pub y_m: Vec<f64>,
    /// Body up.
    pub z_m: Vec<f64>,
    /// Ring along the span.
    pub ring_x_m: Vec<f64>,
    /// Ring to the left.
    pub ring_y_m: Vec<f64>,
    /// Ring up.
    pub ring_z_m: Vec<f64>,
    /// Size of the pull of all jump ropes on the body.
    pub jump_ropes_n: Vec<f64>,
    /// From the surface of the body to the nearest wall; empty without walls.
    pub clearance_m: Vec<f64>,
    /// Greatest tension behind the lip.
    #[serde(with = "Text::<Force>")]
    pub greatest: Force,
    /// Haul rope out there.
    #[serde(with = "Text::<Length>")]
    pub greatest_at: Length,
    /// Haul rope out at the first place at which the straight way from ring to body is shorter than every jump
    /// rope: they hang slack. None if some stay taut.
    #[serde(with = "MaybeText::<Length>")]
    pub slack_from: Option<Length>,
    /// Work behind the lip, Eq. (Y4).
    #[serde(with = "Text::<Energy>")]
    pub work: Energy,
}

/// The way of a jumper who is drawn in, place by place, Eq. (Y1) to (Y4).
///
/// # Errors
/// [`PulleyError::Invalid`] for values out of range; [`PulleyError::Line`] where the net has no rest.
///
/// # Example
/// ```
/// use tautwork::line::BundleLine;
/// use tautwork::material::Stretch;
/// use tautwork::pulley::{WayBack, WayRope, way_back};
/// use tautwork::quantity::{ReadForce, Words};
/// let at = |x: f64, z: f64| [x.meters(), 0.0.meters(), z.meters()];
/// let stiff = Stretch::axial_rigidity(1e6.kilonewtons())?;
/// // 100 kg on a light rope of 50 m under a ring that two stiff lines hold, 30 m from the lip.
/// let way = WayBack {
///     lines: vec![BundleLine {
///         name: "main".to_owned(),
///         near: at(-70.0, 40.0),
///         far: at(130.0, 40.0),
///         near_length: 107.7.meters(),
///         far_length: 107.7.meters(),
///         weight: 0.0.newtons_per_meter(),
///         stretch: stiff.clone(),
///     }],
///     ring_mass: 1.0.kilograms(),
///     ropes: vec![WayRope {
///         name: "jump rope".to_owned(),
///         rest_length: 50.0.meters(),
///         weight: 0.0.newtons_per_meter(),
///         stretch: stiff.clone(),
///     }],
///     mass: 100.0.kilograms(),
///     ring: at(30.0, 0.0),
///     body: at(30.0, -50.0),
///     pulley: at(0.0, 2.0),
///     lip: at(0.5, 0.0),
///     lip_friction: 0.2.ratio(),
///     haul_weight: 0.0.newtons_per_meter(),
///     haul_stretch: stiff,
///     walls: vec![],
///     body_radius: 0.5.meters(),
///     steps: 20,
/// };
/// let places = way_back(&way)?;
/// assert!(places.pull_n[0] < 1.0 && places.slack_from.is_some());
/// // At the lip the whole weight hangs on the haul rope.
/// assert!((places.greatest.in_newtons() / 981.0 - 1.0).abs() < 0.1);
/// assert!(way_back(&WayBack { mass: 0.0.kilograms(), ..way }).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn way_back(way: &WayBack) -> Result<WayPlaces, PulleyError> {
    let radius_m = non_negative("body_radius", way.body_radius)?;
    let mu = non_negative("lip_friction", way.lip_friction)?;
    positive("mass", way.mass)?;
    non_negative("ring_mass", way.ring_mass)?;
    count("steps", way.steps, 2, 1000)?;
    let [pulley, lip, rest] =
        [("pulley", way.pulley), ("lip", way.lip), ("body", way.body)].map(|(n, p)| point(n, &p));
    let (pulley, lip, rest) = (pulley?, lip?, rest?);
    let walls = ready_walls(&way.walls).map_err(|e| PulleyError::Swing(Box::new(e)))?;
    let straight_m = (rest - pulley).norm();
    let from_m = LOOSE * straight_m;
    let out = (rest - pulley).xy();
    let out = if out.norm() > 0.0 { out.normalize() } else { out };
    // A lip in front of the pulley keeps the body there; else it ends level with the lip.
    let in_front = (lip - pulley).xy().dot(&out) > 0.0;
    let last_m = if in_front { (lip - pulley).norm() } else { pulley.z - lip.z - CLOSEST_M };
    let to_m = (last_m.max(0.0) + CLOSEST_M).min(0.5 * from_m);
    let edge = Edge { pulley, lip, out };
    let mut over = false;
    if from_m <= CLOSEST_M {
        let value = print(Length::from_si(straight_m));
        let allowed = format!("more than {CLOSEST_M} m from the pulley");
        return Err(Invalid::new("body", value, allowed).into());
    }
    let mut net = net(way);
    let mut places = WayPlaces::default();
    for i in 0..way.steps {
        let out_m = from_m + (to_m - from_m) * i as f64 / (way.steps - 1) as f64;
        let (solved, turn) = edge.rest_at(&mut net, out_m, &mut over)?;
        let end = &solved.lines[solved.lines.len() - 1];
        let pull = Vector3::from(end.pull_from.map(Quantity::si));
        let [ring, body] = [RING, BODY].map(|name| place(&solved, name));
        let ropes = &solved.lines[2 * way.lines.len()..solved.lines.len() - 1];
        let left: Vector3<f64> =
            ropes.iter().map(|l| Vector3::from(l.pull_to.map(Quantity::si))).sum();
        let behind_n = pull.norm() * (mu * turn).exp();
        let slack = way.ropes.iter().all(|rope| (body - ring).norm() < rope.rest_length.si());
        if slack && places.slack_from.is_none() {
            places.slack_from = Some(Length::from_si(out_m));
        } else if !slack {
            places.slack_from = None;
        }
        if behind_n > places.greatest.si() {
            places.greatest = Force::from_si(behind_n);
            places.greatest_at = Length::from_si(out_m);
        }
        if let (Some(before_m), Some(before_n)) =
            (places.rope_out_m.last(), places.behind_lip_n.last())
        {
            let gained_j = 0.5 * (before_n + behind_n) * (before_m - out_m);
            places.work = Energy::from_si(places.work.si() + gained_j);
        }
        places.rope_out_m.push(out_m);
        places.pull_n.push(pull.norm());
        places.behind_lip_n.push(behind_n);
        places.lip_turn_rad.push(turn);
        places.below_level_rad.push((-pull.z).atan2(pull.x.hypot(pull.y)));
        for (to, value) in [
            (&mut places.x_m, body.x),
            (&mut places.y_m, body.y),
            (&mut places.z_m, body.z),
            (&mut places.ring_x_m, ring.x),
            (&mut places.ring_y_m, ring.y),
            (&mut places.ring_z_m, ring.z),
            (&mut places.jump_ropes_n, left.norm()),
        ] {
            to.push(value);
        }
        let nearest = walls.iter().map(|wall| wall.away_m([body.x, body.y, body.z]));
        places.clearance_m.extend(nearest.reduce(f64::min).map(|m| m - radius_m));
    }
    finite("work", places.work)?;
    Ok(places)
}

fn point(name: &str, at: &[Length; 3]) -> Result<Vector3<f64>, Invalid> {
    let axis = |i: usize, axis: &str| finite(&format!("{name}.{axis}"), at[i]);
    Ok(Vector3::new(axis(0, "x")?, axis(1, "y")?, axis(2, "z")?))
}

fn place(solved: &NetSolution, name: &str) -> Vector3<f64> {
    let node = solved.nodes.iter().find(|node| node.name == name);
    node.map_or_else(Vector3::zeros, |node| Vector3::from(node.position.map(Quantity::si)))
}

/// Pulley and lip, and the level direction out to the jumper.
struct Edge {
    pulley: Vector3<f64>,
    lip: Vector3<f64>,
    out: Vector2<f64>,
}

impl Edge {
    /// The rest with a length of rope out, over the lip where it lies on it, and the angle there, Eq. (Y2).
    /// `over` says whether it lay on the lip before.
    fn rest_at(
        &self,
        net: &mut Net,
        out_m: f64,
        over: &mut bool,
    ) -> Result<(NetSolution, f64), PulleyError> {
        let solved = self.solve(net, out_m, *over)?;
        let body = place(&solved, BODY);
        if self.touches(body) == *over {
            return Ok((solved, if *over { self.turn(body) } else { 0.0 }));
        }
        *over = !*over;
        let solved = self.solve(net, out_m, *over)?;
        let body = place(&solved, BODY);
        // Where neither agrees the rope just leaves the lip, and the turn is next to nothing.
        Ok((solved, if *over { self.turn(body) } else { 0.0 }))
    }

    fn solve(&self, net: &mut Net, out_m: f64, over: bool) -> Result<NetSolution, PulleyError> {
        let start = if over { self.lip } else { self.pulley };
        let rest_m = (out_m - (start - self.pulley).norm()).max(1e-3);
        for node in net.nodes.iter_mut().filter(|node| node.name == PULLEY) {
            node.position = [start.x, start.y, start.z].map(Length::from_si);
        }
        if let Some(rope) = net.lines.last_mut() {
            rope.rest_length = Length::from_si(rest_m);
        }
        let solved = solve_net(net).map_err(PulleyError::Line)?;
        for node in net.nodes.iter_mut().filter(|node| !node.fixed) {
            if let Some(found) = solved.nodes.iter().find(|found| found.name == node.name) {
                node.position = found.position;
            }
        }
        Ok(solved)
    }

    /// Whether a rope to the body turns down over a lip in front of the pulley.
    fn touches(&self, body: Vector3<f64>) -> bool {
        let (a, b) = (self.lip - self.pulley, body - self.lip);
        let (a_out, b_out) = (a.xy().dot(&self.out), b.xy().dot(&self.out));
        a_out > 0.0 && a_out * b.z - a.z * b_out < 0.0
    }

    fn turn(&self, body: Vector3<f64>) -> f64 {
        let (a, b) = (self.lip - self.pulley, body - self.lip);
        let size = a.norm() * b.norm();
        if size > 0.0 { (a.dot(&b) / size).clamp(-1.0, 1.0).acos() } else { 0.0 }
    }
}

fn net(way: &WayBack) -> Net {
    let node = |name: &str, position, fixed, kg: f64| Node {
        name: name.to_owned(),
        position,
        fixed,
        load: [0.0, 0.0, -kg * GRAVITY].map(Force::from_si),
    };
    let mut nodes = vec![
        node(RING, way.ring, way.lines.is_empty(), way.ring_mass.si()),
        node(BODY, way.body, false, way.mass.si()),
        node(PULLEY, way.pulley, true, 0.0),
    ];
    let mut lines = Vec::new();
    for (i, line) in way.lines.iter().enumerate() {
        let sides = [("near", line.near, line.near_length), ("far", line.far, line.far_length)];
        for (side, anchor, rest_length) in sides {
            let name = format!("lines[{i}].{side}");
            nodes.push(node(&name, anchor, true, 0.0));
            lines.push(NetLine {
                name: name.clone(),
                from: name,
                to: RING.to_owned(),
                rest_length,
                weight: line.weight,
                stretch: line.stretch.clone(),
            });
        }
    }
    for (i, rope) in way.ropes.iter().enumerate() {
        lines.push(NetLine {
            name: format!("ropes[{i}]"),
            from: RING.to_owned(),
            to: BODY.to_owned(),
            rest_length: rope.rest_length,
            weight: rope.weight,
            stretch: rope.stretch.clone(),
        });
    }
    lines.push(NetLine {
        name: "haul".to_owned(),
        from: PULLEY.to_owned(),
        to: BODY.to_owned(),
        rest_length: Length::from_si(1.0),
        weight: way.haul_weight,
        stretch: way.haul_stretch.clone(),
    });
    Net { nodes, lines }
}
