//! The results as tables for people.

mod anchor;
mod check;
mod edge;
mod haul;
mod jump;
mod kit;
mod line;
mod loss;
mod people;
mod rescue;
mod rope;
mod state;
mod stop;
mod wave;
mod wind;

use super::result::Plan;
use super::table::Table;
use crate::quantity::{Force, Length, Quantity, Ratio, Time, show};
use crate::swing::Outlook;

/// Every table of a plan, in the order of the report.
pub(super) fn tables(plan: &Plan) -> Vec<Table> {
    let mut tables = check::checks(plan);
    tables.push(jump::clearances(plan));
    tables.push(plan.losses.table());
    tables.push(rope::rope(plan));
    tables.extend(kit::kit(plan));
    tables.push(line::lines(plan));
    tables.push(state::states("standing", "Standing tension and sag", &plan.states));
    tables.push(state::states("person", "With the jumper's weight at the ring", &plan.person));
    tables.push(anchor::anchors(plan));
    tables.extend(anchor::redundancy(plan));
    tables.extend(anchor::fixings(plan));
    tables.push(jump::waiting(plan));
    tables.push(jump::jump(plan));
    tables.push(jump::jump_lines(plan));
    tables.extend(stop::stops(plan));
    tables.extend(wave::waves(plan));
    tables.extend(wind::winds(plan));
    tables.push(jump::line_mass(plan));
    tables.extend(haul::haul(plan).into_iter().flatten());
    tables.extend(rescue::rescue(plan).into_iter().flatten());
    tables.extend(edge::edges(plan));
    tables.extend(people::people(plan));
    tables.push(state::sweep(plan));
    tables.push(state::shares(plan));
    tables.push(check::assumptions(plan));
    tables.push(check::inputs(plan));
    tables
}

fn bodies(plan: &Plan) -> Vec<(&'static str, &Outlook)> {
    let mut bodies = vec![("jumper", &plan.jump)];
    bodies.extend(plan.bag.as_ref().map(|bag| ("bag", bag)));
    bodies
}

fn kn(force: Force) -> String {
    show(force, "kN", 2)
}

fn m(length: Length) -> String {
    show(length, "m", 2)
}

fn percent(ratio: Ratio) -> String {
    show(ratio, "%", 0)
}

fn factor(ratio: Ratio) -> String {
    if ratio.si() >= 100.0 { "over 100".to_owned() } else { format!("{:.1}", ratio.si()) }
}

fn seconds(time: Time) -> String {
    show(time, "s", 1)
}
