//! What to bring.

use crate::quantity::show;
use crate::rig::Side;
use crate::rig::plan::kit::{show_mass, word};
use crate::rig::plan::result::Plan;
use crate::rig::plan::table::Table;

pub(super) fn kit(plan: &Plan) -> [Table; 2] {
    let head = ["what", "kind", "side", "count", "length", "mass of one", "strength", "made up of"];
    let kit = &plan.kit;
    let remark = format!("{} {}", kit.spares_rule, kit.notes.join(" "));
    let mut table = Table::new("kit", "What to cut and to bring", &head).remark(remark);
    for piece in &kit.pieces {
        table.row([
            piece.name.clone(),
            piece.kind.clone(),
            word(piece.side).to_owned(),
            piece.count.to_string(),
            piece.length.map_or("–".to_owned(), super::m),
            show_mass(piece.mass),
            piece.strength.map_or("–".to_owned(), |s| show(s, "kN", 1)),
            piece.made_of.clone(),
        ]);
    }
    let mut bags =
        Table::new("bags", "Bags", &["bag", "mass", "verdict", "what is in it"]).remark(format!(
            "{} to the near side, {} to the far side. First fit, the heaviest first.",
            show(kit.mass(Side::Near), "kg", 1),
            show(kit.mass(Side::Far), "kg", 1)
        ));
    for bag in &kit.bags {
        let things = bag.things.iter().map(|t| match t.count {
            1 => t.name.clone(),
            n => format!("{n} × {}", t.name),
        });
        bags.row([
            format!("{} {}", word(bag.side), bag.number),
            show(bag.mass, "kg", 1),
            if bag.over { "SHORT: heavier than a bag may be" } else { "met" }.to_owned(),
            things.collect::<Vec<_>>().join(", "),
        ]);
    }
    [table, bags]
}
