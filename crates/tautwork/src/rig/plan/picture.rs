//! The rig and the flight, drawn to one scale; and the force on the body over time.

use serde::{Deserialize, Serialize};

use super::flight::triangles;
use super::lines::{Span, bundle};
use super::svg::{Drawing, Extent, INK, QUIET};
use crate::line::bundle_profiles;
use crate::quantity::Quantity;
use crate::rig::{Rig, RigError};
use crate::swing::{Flight, Run};

/// Drawings of a plan as SVG texts.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Pictures {
    /// Side view of gap, lines, flight paths and nearest approaches.
    pub side_view: String,
    /// Force on the body over time.
    pub force: String,
    /// The haul system with the force in every part at the greatest pull; none without a haul.
    #[serde(default)]
    pub haul: Option<String>,
}

/// Points of a line in the plane of the span.
pub(super) type Profile = Vec<(f64, f64)>;

/// What the side view shows besides the document itself.
#[derive(Debug)]
pub(super) struct Scene<'a> {
    pub rig: &'a Rig,
    /// Lines before the jump, in the order of the document.
    pub standing: Vec<Profile>,
    /// Lines when the ring is lowest.
    pub caught: Vec<Profile>,
    /// The run that the clearances come from.
    pub person: &'a Flight,
    /// The run that the forces come from.
    pub forces: &'a Flight,
    pub bag: Option<&'a Flight>,
}

const PERSON: &str = r##"stroke="#c2410c" stroke-width="2.4""##;
const FORCES: &str = r##"stroke="#c2410c" stroke-width="1.1" stroke-opacity="0.55""##;
const BAG: &str = r##"stroke="#0f766e" stroke-width="1.6" stroke-dasharray="5 4""##;
const STANDING: &str = r##"stroke="#1e3a8a" stroke-width="1.8""##;
const CAUGHT: &str = r##"stroke="#1e3a8a" stroke-width="1" stroke-dasharray="2 3""##;
const GROUND: &str = r##"fill="#e2dccd" stroke="none""##;
const WALL: &str = r##"stroke="#6b5f4b" stroke-width="1.6""##;
const REACH: &str = r##"fill="#c2410c" fill-opacity="0.16" stroke="#c2410c" stroke-width="1.2""##;
const DOT: &str = r##"fill="#1d2a33""##;

impl Scene<'_> {
    pub fn side_view(&self) -> String {
        let walls = self.walls();
        let bodies = [Some(self.person), Some(self.forces), self.bag];
        let paths = bodies.into_iter().flatten().map(|f| &f.series);
        let mut xs: Vec<f64> = walls.iter().flatten().map(|p| p.0).collect();
        let mut zs: Vec<f64> = walls.iter().flatten().map(|p| p.1).collect();
        for series in paths {
            xs.extend(&series.x_m);
            zs.extend(&series.z_m);
        }
        for &(x, z) in self.standing.iter().flatten().chain(self.caught.iter().flatten()) {
            xs.push(x);
            zs.push(z);
        }
        let mut draw =
            Drawing::to_scale(Extent::of(xs).padded(0.02), Extent::of(zs).padded(0.04), 420.0);
        for wall in &walls {
            draw.ground(wall, GROUND);
        }
        draw.axes("x along the span, m", "z up, m");
        for wall in &walls {
            draw.line(wall, WALL);
        }
        for profile in &self.caught {
            draw.line(profile, CAUGHT);
        }
        for profile in &self.standing {
            draw.line(profile, STANDING);
        }
        self.frame(&mut draw);
        if let Some(bag) = self.bag {
            draw.line(&path(bag), BAG);
        }
        draw.line(&path(self.forces), FORCES);
        draw.line(&path(self.person), PERSON);
        self.marks(&mut draw);
        let about = "Side view to one scale: gap, lines before the jump and with the ring at its \
                     lowest, and the paths of the body.";
        draw.finish(&format!("{}: side view", self.rig.name), about, &self.legend())
    }

    fn legend(&self) -> Vec<(&'static str, String)> {
        let mut legend = vec![
            (PERSON, format!("jumper, {} run: clearances", run_name(self.person))),
            (FORCES, format!("jumper, {} run: forces", run_name(self.forces))),
        ];
        if self.bag.is_some() {
            legend.push((BAG, "bag".to_owned()));
        }
        legend.push((STANDING, "lines before the jump".to_owned()));
        legend.push((CAUGHT, "lines with the ring at its lowest".to_owned()));
        legend
    }

    /// Profiles, and the cuts of meshes with the plane of the exit.
    fn walls(&self) -> Vec<Profile> {
        let y_m = self.rig.jump.exit[1].si();
        let mut walls: Vec<Profile> = Vec::new();
        for terrain in &self.rig.terrain {
            match &terrain.mesh {
                None => {
                    walls.push(terrain.points.iter().map(|p| (p[0].si(), p[1].si())).collect());
                }
                // A mesh that cannot be read has ended the plan before.
                Some(mesh) => {
                    let cut = triangles(mesh).map_or_else(|_| Vec::new(), |m| m.cut_m(y_m));
                    walls.extend(cut.iter().map(|ends| ends.map(|[x, z]| (x, z)).to_vec()));
                }
            }
        }
        walls
    }

    fn frame(&self, draw: &mut Drawing) {
        let Some(frame) = &self.rig.frame else { return };
        let head = (frame.head[0].si(), frame.head[2].si());
        for member in frame.leg.iter().chain(&frame.guy) {
            let foot = (member.foot[0].si(), member.foot[2].si());
            draw.line(&[foot, head], &format!(r#"stroke="{INK}" stroke-width="1""#));
        }
    }

    /// Exit, lowest point and nearest approaches, the body drawn with its radius.
    fn marks(&self, draw: &mut Drawing) {
        let exit = &self.rig.jump.exit;
        draw.dot((exit[0].si(), exit[2].si()), 2.5, DOT);
        draw.label((exit[0].si(), exit[2].si()), (8.0, 14.0), "start", "exit");
        let radius = draw.scale(self.rig.jumper.radius_or_default().si());
        let flight = self.person;
        for clearance in &flight.clearances {
            let at = (clearance.least.place.x.si(), clearance.least.place.z.si());
            draw.dot(at, radius.max(2.0), REACH);
            let middle =
                self.standing.first().and_then(|p| Some(f64::midpoint(p.first()?.0, p.last()?.0)));
            let right_half = middle.is_some_and(|m| at.0 > m);
            let (shift, anchor) = if right_half { (-8.0, "end") } else { (8.0, "start") };
            let text = format!("{} {:.1} m", clearance.wall, clearance.least.value.si());
            // The lowest point has the room below; the floor's label stands above its dot.
            let down = if clearance.least.place.z.si() < flight.lowest.value.si() + 15.0 {
                -12.0
            } else {
                4.0
            };
            draw.label(at, (shift, down), anchor, &text);
        }
        let lowest = &flight.lowest;
        let at = (lowest.place.x.si(), lowest.place.z.si());
        draw.dot(at, 2.5, DOT);
        draw.label(at, (0.0, 18.0), "middle", &format!("lowest {:.1} m", lowest.value.si()));
    }

    /// Force on the body over time, with the rigger's limit.
    pub fn force(&self) -> String {
        let limit_kn = self.rig.requirements.body_force.si() / 1e3;
        let bodies = [Some(self.person), Some(self.forces), self.bag];
        let shown = bodies.into_iter().flatten();
        let end = shown.clone().map(|f| f.duration.si()).fold(0.0, f64::max).min(SHOWN_S);
        let top = shown.map(|f| f.resultant.value.si() / 1e3).fold(limit_kn, f64::max);
        let mut draw = Drawing::new(
            Extent { low: 0.0, high: end.max(1.0) },
            Extent { low: 0.0, high: top * 1.1 },
            420.0,
            240.0,
        );
        draw.axes("time since exit, s", "force on the body, kN");
        let limit = format!(r#"stroke="{QUIET}" stroke-width="1.4" stroke-dasharray="8 4""#);
        draw.line(&[(0.0, limit_kn), (end, limit_kn)], &limit);
        let force_of = |f: &Flight| -> Profile {
            let s = &f.series;
            let kn = s.resultant_n.iter().map(|n| n / 1e3);
            s.t_s.iter().copied().zip(kn).take_while(|p| p.0 <= end).collect()
        };
        if let Some(bag) = self.bag {
            draw.line(&force_of(bag), BAG);
        }
        draw.line(&force_of(self.person), FORCES);
        draw.line(&force_of(self.forces), PERSON);
        let peak = &self.forces.resultant;
        let at = (peak.time.si(), peak.value.si() / 1e3);
        if at.0 <= end {
            draw.dot(at, 2.5, DOT);
            draw.label(at, (8.0, -4.0), "start", &format!("{:.2} kN at {:.1} s", at.1, at.0));
        }
        let mut legend = vec![
            (PERSON, format!("jumper, {} run: forces", run_name(self.forces))),
            (FORCES, format!("jumper, {} run: clearances", run_name(self.person))),
        ];
        if self.bag.is_some() {
            legend.push((BAG, "bag".to_owned()));
        }
        legend.push((limit.as_str(), "limit of force on the body".to_owned()));
        draw.finish(
            &format!("{}: force on the body", self.rig.name),
            "Resultant force of the jump ropes on the body over time.",
            &legend,
        )
    }
}

/// Time that is drawn, s: the first swings tell the story, the dying end would cover them.
const SHOWN_S: f64 = 40.0;

fn path(flight: &Flight) -> Profile {
    let s = &flight.series;
    let shown = s.t_s.iter().take_while(|t| **t <= SHOWN_S).count();
    s.x_m.iter().copied().zip(s.z_m.iter().copied()).take(shown).collect()
}

/// Points on each half of a line in the side view.
const POINTS: usize = 24;

/// Lines with the ring at the exit, or at its lowest in a flight.
pub(super) fn profiles(
    spans: &[Span<'_>],
    flight: &Flight,
    lowest: bool,
) -> Result<Vec<Profile>, RigError> {
    let place = if lowest { flight.ring.lowest.place } else { flight.ring.start };
    let ring = [place.x.si(), 0.0, place.z.si()];
    let lines = bundle(spans.iter());
    let drawn =
        bundle_profiles(&lines, ring, POINTS).map_err(|e| RigError::unsolved("side view", &e))?;
    let flat = |points: Vec<[f64; 3]>| points.into_iter().map(|p| (p[0], p[2])).collect();
    Ok(drawn.into_iter().map(flat).collect())
}

pub(super) fn run_name(flight: &Flight) -> &'static str {
    name_of(flight.run)
}

pub(super) fn name_of(run: Run) -> &'static str {
    match run {
        Run::Stiff => "stiff",
        Run::Soft => "soft",
    }
}
