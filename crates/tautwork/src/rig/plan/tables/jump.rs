//! The jump.

use super::{bodies, kn, m, percent, seconds};
use crate::quantity::{Force, Quantity, show};
use crate::rig::plan::picture::run_name;
use crate::rig::plan::result::Plan;
use crate::rig::plan::table::Table;
use crate::swing::{Extreme, Flight};

pub(super) fn waiting(plan: &Plan) -> Table {
    let w = &plan.waiting;
    let mut table = Table::new("waiting", "Waiting at the exit", &["what", "value"]);
    table.row(["pull of the rope loops on the jumper".to_owned(), show(w.pull_size, "N", 0)]);
    table.row(["of it along the span, outwards".to_owned(), show(w.pull[0], "N", 0)]);
    table.row(["of it up (negative: down)".to_owned(), show(w.pull[2], "N", 0)]);
    table.row(["lowest point of the loops, z".to_owned(), m(w.lowest)]);
    table.row(["ring, x".to_owned(), m(w.ring[0])]);
    table.row(["ring, z".to_owned(), m(w.ring[2])]);
    table
}

pub(super) fn jump(plan: &Plan) -> Table {
    let mut head = vec!["what".to_owned()];
    let bodies = bodies(plan);
    for (name, outlook) in &bodies {
        for flight in [&outlook.stiff, &outlook.soft] {
            head.push(format!("{name}, {} run", run_name(flight)));
        }
    }
    let head: Vec<&str> = head.iter().map(String::as_str).collect();
    let mut table = Table::new("jump", "The jump", &head).remark(
        "The bag stands beside the person because a lighter bag reads less and swings clear of walls \
         that the person will not clear.",
    );
    let flights: Vec<&Flight> = bodies.iter().flat_map(|(_, o)| [&o.stiff, &o.soft]).collect();
    let mut row = |what: &str, value: &dyn Fn(&Flight) -> String| {
        let mut cells = vec![what.to_owned()];
        cells.extend(flights.iter().map(|f| value(f)));
        table.row(cells);
    };
    let at = |e: &Extreme<Force>| format!("{} at {}", kn(e.value), seconds(e.time));
    row("ropes go taut", &|f| f.catch.as_ref().map_or("never".to_owned(), |c| seconds(c.time)));
    row("height lost by then", &|f| f.catch.as_ref().map_or("–".to_owned(), |c| m(c.drop)));
    row("speed then", &|f| f.catch.as_ref().map_or("–".to_owned(), |c| show(c.speed, "m/s", 1)));
    row("top speed", &|f| show(f.top_speed.value, "m/s", 1));
    row("peak force on the body", &|f| at(&f.resultant));
    row("rope force over weight", &|f| format!("{:.1}", f.tension_over_weight.si()));
    row("peak acceleration, in g", &|f| format!("{:.1}", f.acceleration_over_g.value.si()));
    row("greatest tension of one jump rope", &|f| {
        f.ropes
            .iter()
            .map(|r| r.tension)
            .max_by(|a, b| a.value.si().total_cmp(&b.value.si()))
            .map_or("–".to_owned(), |e| at(&e))
    });
    for (i, level) in plan.jump.stiff.time_above.iter().enumerate() {
        row(&format!("time above {}", show(level.force, "kN", 1)), &|f| {
            f.time_above.get(i).map_or("–".to_owned(), |t| show(t.duration, "s", 2))
        });
    }
    row("lowest point, z", &|f| format!("{} at {}", m(f.lowest.value), seconds(f.lowest.time)));
    row("lowest of the first swing, z", &|f| {
        f.first_lowest.as_ref().map_or("–".to_owned(), |e| m(e.value))
    });
    row("ring lowest, z", &|f| m(f.ring.lowest.value));
    row("swing period", &|f| f.swing_period.map_or("–".to_owned(), seconds));
    row("settled after", &|f| {
        f.settled.map_or("not within the horizon".to_owned(), |t| show(t, "s", 0))
    });
    row("comes to rest at x", &|f| f.rest.as_ref().map_or("–".to_owned(), |r| m(r.body.x)));
    row("comes to rest at z", &|f| f.rest.as_ref().map_or("–".to_owned(), |r| m(r.body.z)));
    row("energy books close to", &|f| format!("{:.1e} of the fall", f.energy.drift.si()));
    table
}

pub(super) fn jump_lines(plan: &Plan) -> Table {
    let head =
        ["line", "near, before", "near, peak", "far, peak", "wave time", "quasi-static answer"];
    let mut table = Table::new("jump_lines", "Lines in the jump (stiff run)", &head).remark(
        "Where the wave from the ring to an anchor and back is slower than half the rise of the catch, \
         the figure is not valid: see the same lines with their waves.",
    );
    let flight = &plan.jump.stiff;
    for line in &flight.lines {
        let not_valid = flight.notes.iter().any(|n| matches!(n, crate::swing::Note::QuasiStaticNotValid { line: l, .. } if *l == line.name));
        table.row([
            line.name.clone(),
            kn(line.near_standing),
            kn(line.near.value),
            kn(line.far.value),
            line.wave_time.map_or("–".to_owned(), |t| show(t, "s", 2)),
            if not_valid { "not valid for this line" } else { "valid" }.to_owned(),
        ]);
    }
    table
}

pub(super) fn clearances(plan: &Plan) -> Table {
    let head = ["body", "wall", "stiff run", "soft run", "nearest at x", "z", "after"];
    let mut table = Table::new("clearance", "Clearance in flight", &head)
        .remark("From the surface of the body, before the survey error is taken off. Where and when: the soft run.");
    for (name, outlook) in bodies(plan) {
        for soft in &outlook.soft.clearances {
            let stiff = outlook.stiff.clearances.iter().find(|c| c.wall == soft.wall);
            table.row([
                name.to_owned(),
                soft.wall.clone(),
                stiff.map_or("–".to_owned(), |c| m(c.least.value)),
                m(soft.least.value),
                m(soft.least.place.x),
                m(soft.least.place.z),
                seconds(soft.least.time),
            ]);
        }
        if let Some(exit) = &outlook.soft.exit_clearance {
            table.row([
                name.to_owned(),
                format!("{} (on the way out)", exit.wall),
                outlook
                    .stiff
                    .exit_clearance
                    .as_ref()
                    .map_or("–".to_owned(), |c| m(c.least.value)),
                m(exit.least.value),
                m(exit.least.place.x),
                m(exit.least.place.z),
                seconds(exit.least.time),
            ]);
        }
    }
    table
}

pub(super) fn line_mass(plan: &Plan) -> Table {
    let head = ["part of the taut lines' mass", "peak force on the body", "lowest point, z"];
    let mut table = Table::new("line_mass", "The jump with other line masses at the ring", &head)
        .remark("How much of a line moves with the ring is not known: see what it does.");
    for step in &plan.line_mass {
        table.row([percent(step.fraction), kn(step.body_force), m(step.lowest)]);
    }
    table
}
