//! A second person out to a stuck jumper, and the way down.

use super::{kn, m};
use crate::quantity::show;
use crate::rig::plan::result::{LoweringPlan, Plan, RescuePlan};
use crate::rig::plan::table::Table;

pub(super) fn rescue(plan: &Plan) -> Option<Vec<Table>> {
    let rescue = plan.rescue.as_ref()?;
    let mut states = vec![rescue.two.clone()];
    states.extend(rescue.lowering.iter().map(|l| l.state.clone()));
    let loads = super::state::states("rescue_lines", "The lines in a rescue", &states);
    Some(vec![loads, table(rescue)])
}

fn table(rescue: &RescuePlan) -> Table {
    let mut table = Table::new("rescue", "A stuck jumper", &["what", "value"]).remark(
        "A second person goes out to the jumper: both hang at the ring, or the second climbs the jump ropes \
         above or beside them. Or the jumper goes down to the ground.",
    );
    table.row(["the ring is lower with both by", &m(rescue.lower_by)]);
    let climb = &rescue.climb;
    table.row(["a climber bounces with a period of", &show(climb.own_period, "s", 2)]);
    table.row(["most on the jump ropes while climbing", &kn(climb.greatest)]);
    table.row(["least", &kn(climb.least)]);
    if let Some(down) = &rescue.lowering {
        lowering(&mut table, down);
    }
    table
}

fn lowering(table: &mut Table, down: &LoweringPlan) {
    let or_dash = |length: Option<_>| length.map_or("no ground is known".to_owned(), m);
    table.row(["down to the ground", &or_dash(down.height)]);
    table.row(["rope needed to lower", &or_dash(down.rope_needed)]);
    let reach = if down.reaches { "reaches the ground" } else { "does NOT reach the ground" };
    table.row(["rope left over", &format!("{}: {reach}", or_dash(down.rope_left))]);
    for (who, holds) in [("the jumper", &down.one), ("both", &down.both)] {
        let asked = holds.steps.last().map_or("–".to_owned(), |hand| kn(hand.arrives));
        let answer = if holds.holds { "holds" } else { "does NOT hold" };
        table.row([format!("the hand holds {who} with"), format!("{asked}: {answer}")]);
    }
    table.row(["on the pulley at the ring", &kn(down.on_pulley)]);
}
