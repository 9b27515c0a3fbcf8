//! The rig in winds.

use super::{kn, m};
use crate::quantity::{Quantity, show};
use crate::rig::plan::result::{Plan, WindPlan};
use crate::rig::plan::table::Table;

pub(super) fn winds(plan: &Plan) -> Vec<Table> {
    if plan.winds.is_empty() {
        return Vec::new();
    }
    vec![jump(plan), clearances(plan), lines(plan)]
}

fn jump(plan: &Plan) -> Table {
    let head = [
        "wind",
        "along",
        "to the left",
        "peak force on the body",
        "lowest point, z",
        "farthest left, y",
        "farthest right, y",
    ];
    let mut table = Table::new("wind", "The jump in wind", &head).remark(
        "A steady wind on the jumper; each figure from the worse of both runs. A gust that comes and goes \
         may do more than a steady wind of its speed.",
    );
    let force = plan.jump.body_force.extreme.value;
    let none = "–".to_owned();
    let [left, right] = [
        [plan.jump.stiff.leftmost, plan.jump.soft.leftmost],
        [plan.jump.stiff.rightmost, plan.jump.soft.rightmost],
    ];
    let y = |pick: fn(f64, f64) -> f64,
             pair: [crate::swing::Extreme<crate::quantity::Length>; 2]| {
        m(crate::quantity::Length::from_si(pick(pair[0].value.si(), pair[1].value.si())))
    };
    table.row([
        "still air".to_owned(),
        none.clone(),
        none,
        kn(force),
        m(plan.jump.lowest.extreme.value),
        y(f64::max, left),
        y(f64::min, right),
    ]);
    for wind in &plan.winds {
        table.row([
            wind.name.clone(),
            show(wind.velocity[0], "m/s", 1),
            show(wind.velocity[1], "m/s", 1),
            kn(wind.body_force.extreme.value),
            m(wind.lowest.extreme.value),
            m(wind.leftmost.extreme.value),
            m(wind.rightmost.extreme.value),
        ]);
    }
    table
}

fn clearances(plan: &Plan) -> Table {
    let head =
        ["wind", "wall", "in still air", "in this wind", "required", "holds up to a wind of"];
    let mut table = Table::new("wind_clearance", "Clearance in wind", &head).remark(
        "From the surface of the body, the worse of both runs, before the survey error is taken off. The \
         last column is for the direction of this wind, with the survey error taken off.",
    );
    for wind in &plan.winds {
        for here in &wind.clearances {
            let still = plan.jump.clearances.iter().find(|c| c.wall == here.wall);
            let largest = wind.largest.iter().find(|l| l.wall == here.wall);
            table.row([
                wind.name.clone(),
                here.wall.clone(),
                still.map_or("–".to_owned(), |c| m(c.least.extreme.value)),
                m(here.least.extreme.value),
                largest.map_or("–".to_owned(), |l| m(l.required)),
                holds_up_to(wind, &here.wall),
            ]);
        }
    }
    table
}

/// The largest wind for a wall, in words.
fn holds_up_to(wind: &WindPlan, wall: &str) -> String {
    match wind.largest.iter().find(|l| l.wall == wall) {
        None => "–".to_owned(),
        Some(found) => match found.largest {
            None => "short in still air".to_owned(),
            Some(largest) if largest >= found.looked_up_to => {
                format!("{} and more", show(largest, "m/s", 1))
            }
            Some(largest) => show(largest, "m/s", 1),
        },
    }
}

fn lines(plan: &Plan) -> Table {
    let head = ["state", "line", "near end", "at ring", "far end", "ring aside, y", "ring z"];
    let mut table = Table::new("wind_lines", "Lines in wind", &head)
        .remark("Everything on. The wind blows on lines whose cordage has a width, by the chord.");
    for state in plan.winds.iter().flat_map(|wind| &wind.states) {
        for line in &state.lines {
            table.row([
                state.name.clone(),
                line.name.clone(),
                kn(line.tension_near),
                kn(line.tension_ring),
                kn(line.tension_far),
                m(state.ring[1]),
                m(state.ring[2]),
            ]);
        }
    }
    table
}
