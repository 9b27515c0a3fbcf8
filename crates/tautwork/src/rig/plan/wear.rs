//! What a jump wears, and how long ropes must rest.

use super::edges::Touch;
use super::gear::rigidities;
use super::picture::run_name;
use super::result::{HaulPlan, RestPlan, RubPlan};
use crate::material::{Recovery, RubCase, Viscoelastic, rope_recovery, rub_wear};
use crate::quantity::{AxialRigidity, Energy, Force, Length, Quantity, Ratio, Time};
use crate::rig::{HAUL_ROPE, Rig, RigError};
use crate::swing::{Flight, Outlook};

/// Every place that rubs in one jump: jump ropes and stops at the ring, the haul rope at the lip, whatever lies on an edge, and
/// what the document names.
pub(super) fn rubs(
    rig: &Rig,
    jump: &Outlook,
    haul: Option<&HaulPlan>,
    touches: &[Touch],
) -> Result<Vec<RubPlan>, RigError> {
    let Some(wear) = &rig.wear else { return Ok(Vec::new()) };
    let case = |contact_n: Vec<f64>, travel_m: Vec<f64>, done: Option<Energy>| RubCase {
        contact_n,
        travel_m,
        friction: wear.friction,
        retire_at: wear.retire_at,
        done,
    };
    let mut list = Vec::new();
    let mut add = |part: &str, place: &str, from: &str, case: &RubCase| {
        let worn = rub_wear(case).map_err(|e| RigError::unsolved("wear", &e))?;
        list.push(RubPlan {
            part: part.to_owned(),
            place: place.to_owned(),
            wear: worn,
            from: from.to_owned(),
        });
        Ok(())
    };
    if let Some(radius) = wear.ring_section {
        let ropes = rig.jump.rope.iter().enumerate();
        let mut cords: Vec<_> = ropes.map(|(i, rope)| (&rope.name, Cord::Rope(i))).collect();
        for (i, stop) in rig.stop.iter().enumerate() {
            let anchor = rig.anchor_at(stop.anchor(rig))?;
            cords.push((&stop.name, Cord::Stop(i, anchor.map(Quantity::si))));
        }
        for (name, cord) in cords {
            // The run in which more force goes over more way.
            let rubbed = [&jump.stiff, &jump.soft].map(|flight| {
                let (contact_n, travel_m) = at_ring(flight, cord, radius.si());
                (flight, case(contact_n, travel_m, wear.done))
            });
            let [stiff, soft] = &rubbed;
            let softer = force_travel_j(&soft.1) > force_travel_j(&stiff.1);
            let (flight, worst) = if softer { soft } else { stiff };
            let from = format!("jump, {} run", run_name(flight));
            add(name, "ring", &from, worst)?;
        }
    }
    if let (Some(entry), Some(planned)) = (&rig.haul, haul)
        && let Some(wrap) = entry.edge_wrap.filter(|wrap| wrap.si() > 0.0)
    {
        let press = 2.0 * (0.5 * wrap.si()).sin();
        let out_m = |i: usize| planned.steps[i].rope_out.si();
        let steps = 0..planned.steps.len();
        let contact_n = steps.clone().map(|i| planned.steps[i].pull.si() * press).collect();
        let travel_m = steps.map(|i| out_m(0) - out_m(i)).collect();
        add(HAUL_ROPE, "lip", "haul", &case(contact_n, travel_m, wear.done))?;
    }
    for touch in touches {
        let Some(rub) = &touch.rub else { continue };
        let case = RubCase { retire_at: wear.retire_at, ..rub.case.clone() };
        add(&touch.plan.part, &touch.plan.edge, &rub.from, &case)?;
    }
    for place in &wear.place {
        let contact = place.contact.si();
        let case = case(vec![contact; 2], vec![0.0, place.travel.si()], place.done);
        add(&place.part, &place.name, "document", &case)?;
    }
    Ok(list)
}

/// Force times travel, J; zero where the model has no answer.
pub(super) fn force_travel_j(case: &RubCase) -> f64 {
    rub_wear(case).map_or(0.0, |worn| worn.force_travel.si())
}

/// What rubs at the ring.
#[derive(Clone, Copy)]
enum Cord {
    Rope(usize),
    Stop(usize, [f64; 3]),
}

/// Tension of a rope or a stop at each sample, and how far it has rubbed on the section of the ring: the radius
/// times the angle through which it has turned while taut.
fn at_ring(flight: &Flight, cord: Cord, radius_m: f64) -> (Vec<f64>, Vec<f64>) {
    let s = &flight.series;
    let tension = match cord {
        Cord::Rope(rope) => s.rope_tension_n.get(rope),
        Cord::Stop(stop, _) => s.stop_tension_n.get(stop),
    };
    let tension = tension.cloned().unwrap_or_default();
    let end_m = |i: usize| match cord {
        Cord::Rope(_) => [s.x_m[i], s.y_m[i], s.z_m[i]],
        Cord::Stop(_, anchor_m) => anchor_m,
    };
    let along: Vec<[f64; 3]> = (0..tension.len())
        .map(|i| {
            let [x, y, z] = end_m(i);
            [x - s.ring_x_m[i], y - s.ring_y_m[i], z - s.ring_z_m[i]]
        })
        .collect();
    let mut travel_m = vec![0.0; tension.len()];
    for i in 1..tension.len() {
        let taut = tension[i] > 0.0 && tension[i - 1] > 0.0;
        let turned = if taut { angle_rad(along[i - 1], along[i]) } else { 0.0 };
        travel_m[i] = travel_m[i - 1] + radius_m * turned;
    }
    (tension, travel_m)
}

fn angle_rad(a: [f64; 3], b: [f64; 3]) -> f64 {
    let cross = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
    let dot: f64 = a.iter().zip(&b).map(|(a, b)| a * b).sum();
    super::lines::size(&cross.map(Force::from_si)).atan2(dot)
}

/// How long each jump rope must rest.
pub(super) fn rests(rig: &Rig, jump: &Outlook) -> Result<Vec<RestPlan>, RigError> {
    let Some(wear) = &rig.wear else { return Ok(Vec::new()) };
    let mut list = Vec::new();
    for (i, rope) in rig.jump.rope.iter().enumerate() {
        let cordage = rig.cordage_named(&rope.cordage)?;
        let (soft, stiff) = rigidities(cordage)?;
        let peak_n = jump.soft.ropes.get(i).map_or(0.0, |rope| rope.tension.value.si());
        let strain = Ratio::from_si(peak_n / soft.si());
        let by_model = match (cordage.relaxation, wear.stretch_left) {
            (Some(relaxation), Some(left)) => {
                let arm = AxialRigidity::from_si(stiff.si() - soft.si());
                let solid = Viscoelastic { long_term: soft, arm, relaxation_time: relaxation.high };
                let recovered = rope_recovery(&Recovery { solid, strain, left })
                    .map_err(|e| RigError::unsolved(&format!("rest of {}", rope.name), &e))?;
                Some(recovered.time)
            }
            _ => None,
        };
        let longer = |a: Time, b: Time| if a.si() >= b.si() { a } else { b };
        let wait = match (by_model, wear.least_wait) {
            (Some(a), Some(b)) => Some(longer(a, b)),
            (a, b) => a.or(b),
        };
        list.push(RestPlan { rope: rope.name.clone(), strain, by_model, wait });
    }
    Ok(list)
}

/// Height of a place above the lowest ground; none without terrain, or if it is not above it.
pub(super) fn height_above_ground(rig: &Rig, z_m: f64) -> Option<Length> {
    let ground = rig.terrain.iter().flat_map(|t| &t.points).map(|p| p[1].si());
    let lowest = ground.min_by(f64::total_cmp)?;
    (z_m > lowest).then(|| Length::from_si(z_m - lowest))
}

#[cfg(test)]
mod tests {
    use crate::quantity::Quantity;
    use crate::rig::{Plan, parse, plan};

    const DEMO: &str = include_str!("../../../../../examples/kestrel-gap.toml");

    fn planned(edits: &[(&str, &str)]) -> Plan {
        let short = DEMO.replace("launch_radius", "horizon = \"20 s\"\nlaunch_radius");
        let text = edits.iter().fold(short, |text, (from, to)| {
            assert!(text.contains(from), "{from}");
            text.replace(from, to)
        });
        plan(&parse(&text).unwrap()).unwrap()
    }

    // The flight integrates the angle through which its ropes turn; the rub is the same times the radius.
    #[test]
    fn ropes_rub_at_the_ring_by_the_angle_they_turn() {
        let plan = planned(&[]);
        let rub = plan.rubs.iter().find(|r| r.part == "left jump rope").unwrap();
        let flight = if rub.from.contains("soft") { &plan.jump.soft } else { &plan.jump.stiff };
        let turned_m = 0.006 * flight.turned.si();
        assert!((rub.wear.travel.si() / turned_m - 1.0).abs() < 0.02, "{rub:?}, {turned_m} m");
        // Work is friction's part, and no force acts over more than the greatest one would.
        let product = rub.wear.force_travel.si();
        assert!((rub.wear.work.unwrap().si() / (0.25 * product) - 1.0).abs() < 1e-12);
        assert!(product > 0.0 && product < rub.wear.greatest_contact.si() * rub.wear.travel.si());
        assert!(rub.wear.jumps_left.is_some_and(|n| n > 0));
        // By hand: 200 N over 0.4 m.
        let stabiliser = plan.rubs.iter().find(|r| r.place == "stabiliser").unwrap();
        assert!((stabiliser.wear.force_travel.si() - 80.0).abs() < 1e-9);
    }

    #[test]
    fn a_worn_rope_is_said_and_the_haul_rubs_where_it_turns() {
        let plan = planned(&[
            ("retire_at = \"3 kJ\"", "retire_at = \"3 kJ\"\ndone = \"2.99 kJ\""),
            ("edge_wrap = \"0 deg\"", "edge_wrap = \"60 deg\""),
        ]);
        let table = plan.tables.iter().find(|t| t.key == "wear").unwrap();
        assert!(table.rows.iter().any(|r| r[7].starts_with("SHORT: retire")), "{table:?}");
        let haul = plan.rubs.iter().find(|r| r.place == "lip").unwrap();
        let steps = &plan.haul.as_ref().unwrap().steps;
        let drawn = steps[0].rope_out.si() - steps.last().unwrap().rope_out.si();
        assert!((haul.wear.travel.si() - drawn).abs() < 1e-9);
        // 2 sin 30° is one: the contact force is the pull.
        let pull = steps.iter().map(|s| s.pull.si()).fold(0.0, f64::max);
        assert!((haul.wear.greatest_contact.si() / pull - 1.0).abs() < 1e-12);
    }

    #[test]
    fn the_longer_wait_rules_and_zones_stand_in_the_report() {
        let plan = planned(&[]);
        assert!(plan.rests.iter().all(|r| (r.wait.unwrap().si() - 600.0).abs() < 1e-9));
        let slow = planned(&[("relaxation = \"0.02 s\"", "relaxation = [\"1 s\", \"400 s\"]")]);
        let rest = &slow.rests[0];
        assert!(rest.by_model == rest.wait && rest.wait.unwrap().si() > 600.0, "{rest:?}");
        // From the exit at −1 m to the lowest ground at −98.5 m, thrown at 3 m/s without air.
        let drop = plan.drops.iter().find(|d| d.place == "exit").unwrap();
        let by_hand = 3.0 / 9.81 * (9.0 + 2.0 * 9.81 * 97.5_f64).sqrt();
        assert!((drop.zone.radius.si() / by_hand - 1.0).abs() < 1e-6, "{drop:?}");
        // T² L / 2 EA with EA of the main: 10 kN at 4 %.
        let main = plan.breaks.iter().find(|b| b.line == "main" && b.at == "far anchor").unwrap();
        let length = plan.lines[0].rest_length.si() - plan.lines[0].near_length.si();
        let energy = main.tension.si().powi(2) * length / (2.0 * 250e3);
        assert!((main.recoil.energy.si() / energy - 1.0).abs() < 1e-9, "{main:?}");
        let html = plan.html();
        for key in ["wear", "rests", "drops", "breaks", "kit", "bags"] {
            assert!(html.contains(&format!("<section id=\"{key}\">")), "{key}");
        }
        let bare = DEMO.split("# Wear, rest").next().unwrap();
        let bare = plan_of(bare);
        assert!(bare.rubs.is_empty() && bare.drops.is_empty() && bare.breaks.is_empty());
    }

    fn plan_of(text: &str) -> Plan {
        let mut rig = parse(text).unwrap();
        rig.jump.horizon = Some(crate::quantity::parse("5 s").unwrap());
        plan(&rig).unwrap()
    }
}
