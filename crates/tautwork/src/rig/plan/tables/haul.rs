//! The way back up and the raised frame.

use super::{kn, m};
use crate::quantity::{Quantity, show};
use crate::rig::plan::result::{FramePlan, HaulPlan, Plan};
use crate::rig::plan::table::Table;

pub(super) fn haul(plan: &Plan) -> Option<Vec<Table>> {
    let haul = plan.haul.as_ref()?;
    let head = ["rope out", "pull", "below level", "body x", "body z", "jump ropes", "clearance"];
    let mut way = Table::new("haul_way", "The way back to the lip", &head)
        .remark("Pull at the pulley, without the edge. Clearance is from the surface of the body to the nearest wall.");
    for step in &haul.steps {
        way.row([
            m(step.rope_out),
            kn(step.pull),
            show(step.below_level, "deg", 0),
            m(step.body[0]),
            m(step.body[2]),
            kn(step.jump_ropes),
            step.clearance.map_or("–".to_owned(), m),
        ]);
    }
    let mut what = Table::new("haul", "The haul", &["what", "value"]);
    what.row(["greatest pull", &kn(haul.pull)]);
    what.row(["with the friction of the edge", &kn(haul.pull_over_edge)]);
    what.row(["and behind the pulley", &kn(haul.pull_behind_pulley)]);
    what.row(["ideal advantage", &format!("{:.2}", haul.ideal_advantage.si())]);
    what.row(["actual advantage, raising", &format!("{:.2}", haul.actual_advantage.si())]);
    what.row(["hand force, all haulers", &kn(haul.hand_force)]);
    what.row(["hand force that just holds", &kn(haul.holding_force)]);
    what.row([
        "haulers needed, haulers there",
        &format!("{}, {}", haul.people_needed, haul.people),
    ]);
    what.row(["haul rope from jumper to pulley", &m(haul.haul_rope)]);
    what.row(["rope through the hands", &m(haul.rope_through_hands)]);
    what.row(["resets", &haul.resets.to_string()]);
    what.row(["work at the hands", &show(haul.work, "kJ", 1)]);
    let most = &haul.at_most;
    what.row(["strokes", &most.strokes.to_string()]);
    what.row(["lost to stretch in each stroke", &m(most.lost_each_stroke)]);
    what.row(["stretch of the haul rope, taken up once", &m(most.line_stretch)]);
    what.row(["time, at most", &show(most.time, "min", 0)]);
    what.row(["on the anchor of the system", &kn(haul.system_anchor)]);
    what.row(["on the pulley that leads the rope", &kn(haul.lead_pulley)]);
    let tables = [way, what, compared(haul)];
    Some(tables.into_iter().chain(haul.frame.as_ref().map(frame)).collect())
}

fn compared(haul: &HaulPlan) -> Table {
    let head = ["system", "ideal", "actual", "hand force", "people", "strokes", "rope", "time"];
    let least = haul.compared.least.as_deref().map_or_else(
        || "The people there can pull none of them.".to_owned(),
        |least| format!("The lowest that the people there can pull: {}.", words(least)),
    );
    let mut table = Table::new("haul_systems", "The same lift with other systems", &head)
        .remark(format!("{least} A system whose strokes would gain nothing is left out."));
    for work in &haul.compared.each {
        table.row([
            words(&work.system),
            format!("{:.0}", work.ideal_advantage.si()),
            format!("{:.2}", work.actual_advantage.si()),
            kn(work.hand_force),
            format!("{}{}", work.people_needed, if work.enough { "" } else { ", too few there" }),
            work.strokes.to_string(),
            show(work.rope_through_hands, "m", 0),
            show(work.time, "min", 0),
        ]);
    }
    table
}

/// The name of a system as a person reads it.
fn words(name: &str) -> String {
    name.replace('_', " ")
}

fn frame(frame: &FramePlan) -> Table {
    let head = ["member", "", "greatest force", "buckles at", "friction its foot needs"];
    let mut table = Table::new("frame", "The frame, over the whole way", &head);
    let dash = || "–".to_owned();
    for member in &frame.members {
        table.row([
            member.name.clone(),
            member.kind.clone(),
            kn(member.force),
            member.buckles_at.map_or_else(dash, kn),
            member.friction_needed.map_or_else(dash, |f| format!("{:.2}", f.si())),
        ]);
    }
    let margin = frame.margin.map_or_else(String::new, |margin| {
        let margin = show(margin, "deg", 0);
        format!(
            "The haul rope may swing aside by {margin} anywhere before the frame no longer stands. "
        )
    });
    table.remark(format!(
        "{margin}Friction is on level ground: level over downward force, without a hobble."
    ))
}
