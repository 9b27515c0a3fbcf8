//! Lines and ropes on edges.

use super::{factor, kn, m};
use crate::quantity::{Quantity, show};
use crate::rig::plan::result::Plan;
use crate::rig::plan::table::Table;

pub(super) fn edges(plan: &Plan) -> Option<Table> {
    let head = [
        "edge",
        "part",
        "pad",
        "turns by",
        "force on the edge",
        "capstan ratio",
        "tension behind",
        "per length of contact",
        "rub",
        "verdict",
        "force from",
    ];
    let mut table = Table::new("edges", "Lines and ropes on edges", &head).remark(
        "Greatest figures over the plan, as if the edge took nothing from the motion. The ratio and the tension \
         behind are for a rope that is drawn over the edge. A figure is no leave for rope on bare rock: sharp edges \
         cut.",
    );
    let dash = || "–".to_owned();
    for edge in &plan.edges {
        table.row([
            edge.edge.clone(),
            edge.part.clone(),
            edge.pad.clone().unwrap_or_else(|| "none".to_owned()),
            show(edge.turn, "deg", 1),
            kn(edge.contact),
            edge.friction.map_or_else(dash, |_| factor(edge.capstan_ratio)),
            kn(edge.behind),
            edge.pressure
                .map_or_else(|| "sharp".to_owned(), |p| format!("{:.1} kN/m", p.si() / 1e3)),
            m(edge.travel),
            if edge.pad.is_some() { "met" } else { "SHORT: no pad" }.to_owned(),
            edge.from.clone(),
        ]);
    }
    (!table.rows.is_empty()).then_some(table)
}
