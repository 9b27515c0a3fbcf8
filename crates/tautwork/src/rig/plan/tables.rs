//! The results as tables for people.

use super::picture::run_name;
use super::result::{FramePlan, Plan, StatePlan};
use super::table::Table;
use crate::quantity::{Force, Length, Quantity, Ratio, Time, show};
use crate::swing::{Extreme, Flight, Outlook};

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

/// Every table of a plan, in the order of the report.
pub(super) fn tables(plan: &Plan) -> Vec<Table> {
    let mut tables = vec![lines(plan)];
    tables.push(states("standing", "Standing tension and sag", &plan.states));
    tables.push(states("person", "With the jumper's weight at the ring", &plan.person));
    tables.push(sweep(plan));
    tables.push(shares(plan));
    tables.push(waiting(plan));
    tables.push(jump(plan));
    tables.push(jump_lines(plan));
    tables.extend(waves(plan));
    tables.push(clearances(plan));
    tables.push(line_mass(plan));
    tables.push(losses(plan));
    tables.push(rope(plan));
    tables.push(anchors(plan));
    if let Some(haul) = haul(plan) {
        tables.extend(haul);
    }
    tables.extend(checks(plan));
    tables.push(assumptions(plan));
    tables
}

fn lines(plan: &Plan) -> Table {
    let head = ["line", "chord", "rest length", "near end to ring", "mass", "from"];
    let mut table = Table::new("lines", "Lines", &head).remark(
        "Plan from tension, not from cut length: half a metre of survey error is a kilonewton.",
    );
    for line in &plan.lines {
        table.row([
            line.name.clone(),
            m(line.chord),
            m(line.rest_length),
            m(line.near_length),
            show(line.mass, "kg", 1),
            line.from.clone(),
        ]);
    }
    table
}

fn states(key: &str, title: &str, states: &[StatePlan]) -> Table {
    let head = [
        "state",
        "line",
        "near end",
        "at ring",
        "far end",
        "below chord",
        "below near anchor",
        "ring z",
    ];
    let mut table = Table::new(key, title, &head);
    for state in states {
        for line in &state.lines {
            table.row([
                state.name.clone(),
                line.name.clone(),
                kn(line.tension_near),
                kn(line.tension_ring),
                kn(line.tension_far),
                m(line.sag_below_chord),
                m(line.sag_below_near),
                m(state.ring[2]),
            ]);
        }
    }
    table
}

fn sweep(plan: &Plan) -> Table {
    let mut head = vec!["load at ring", "ring z"];
    let names: Vec<String> = plan.lines.iter().map(|l| format!("{}, near end", l.name)).collect();
    head.extend(names.iter().map(String::as_str));
    head.extend(["stiffness up-down", "along"]);
    let mut table = Table::new("sweep", "Load at the ring", &head);
    for step in &plan.sweep {
        let mut row = vec![kn(step.state.load), m(step.state.ring[2])];
        row.extend(step.state.lines.iter().map(|l| kn(l.tension_near)));
        row.push(show(step.stiffness_vertical, "N/m", 0));
        row.push(show(step.stiffness_along, "N/m", 0));
        table.row(row);
    }
    table
}

fn shares(plan: &Plan) -> Table {
    let mut head = vec!["line", "begins at"];
    let loads: Vec<String> =
        plan.sweep.iter().map(|s| format!("share at {}", show(s.state.load, "kN", 0))).collect();
    head.extend(loads.iter().map(String::as_str));
    let mut table = Table::new("shares", "How the lines share the load", &head)
        .remark("Share of the vertical force on the ring, each line's own weight included.");
    for (i, engagement) in plan.engagement.iter().enumerate() {
        let begins = match (engagement.from_start, engagement.load) {
            (true, _) => "no load".to_owned(),
            (false, Some(load)) => kn(load),
            (false, None) => "beyond the sweep".to_owned(),
        };
        let mut row = vec![engagement.line.clone(), begins];
        row.extend(
            plan.sweep
                .iter()
                .map(|s| s.state.lines.get(i).map_or_else(String::new, |l| percent(l.share))),
        );
        table.row(row);
    }
    table
}

fn waiting(plan: &Plan) -> Table {
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

fn bodies(plan: &Plan) -> Vec<(&'static str, &Outlook)> {
    let mut bodies = vec![("jumper", &plan.jump)];
    bodies.extend(plan.bag.as_ref().map(|bag| ("bag", bag)));
    bodies
}

fn jump(plan: &Plan) -> Table {
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

fn jump_lines(plan: &Plan) -> Table {
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

fn waves(plan: &Plan) -> Option<Table> {
    let waves = plan.waves.as_ref()?;
    let head = ["line", "near, peak", "far, peak", "at the ring", "over quasi-static", "used"];
    let remark = format!(
        "The full model, with every line and rope as a row of masses, over the first {}: the greater of the \
         stiff and the soft run. Snaps of slack lines are sizes, not digits.",
        show(waves.horizon, "s", 0)
    );
    let mut table =
        Table::new("waves", "Lines in the jump with their waves", &head).remark(&remark);
    for line in &waves.lines {
        table.row([
            line.line.clone(),
            kn(line.near.extreme.value),
            kn(line.far.extreme.value),
            kn(line.ring.extreme.value),
            line.over_quasi_static.map_or("–".to_owned(), |r| format!("{:.1} times", r.si())),
            if line.taken { "for the checks" } else { "to compare" }.to_owned(),
        ]);
    }
    for anchor in &waves.anchors {
        let all = format!("all at {}, at one instant", anchor.anchor);
        let none = || "–".to_owned();
        let used = "for the anchor, if greater".to_owned();
        table.row([all, kn(anchor.peak.extreme.value), none(), none(), none(), used]);
    }
    if let Some(body) = &waves.body_force {
        let none = || "–".to_owned();
        let used = "for the body, if greater".to_owned();
        let force = kn(body.extreme.value);
        table.row(["force on the body".to_owned(), force, none(), none(), none(), used]);
    }
    Some(table)
}

fn clearances(plan: &Plan) -> Table {
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

fn line_mass(plan: &Plan) -> Table {
    let head = ["part of the taut lines' mass", "peak force on the body", "lowest point, z"];
    let mut table = Table::new("line_mass", "The jump with other line masses at the ring", &head)
        .remark("How much of a line moves with the ring is not known: see what it does.");
    for step in &plan.line_mass {
        table.row([percent(step.fraction), kn(step.body_force), m(step.lowest)]);
    }
    table
}

fn losses(plan: &Plan) -> Table {
    let head = [
        "absent before the jump",
        "on the body",
        "worst line",
        "least factor",
        "lowest z",
        "clearance left",
        "verdict",
    ];
    let mut table = Table::new("losses", "The same jump with one part absent before it", &head)
        .remark("A part lost at rest or in the catch is another case, and may be worse.");
    for loss in &plan.losses {
        let j = loss.jump.as_ref();
        let text = |f: &dyn Fn(&super::result::LossJump) -> String| j.map_or("–".to_owned(), f);
        table.row([
            loss.part.clone(),
            text(&|j| kn(j.body_force)),
            text(&|j| format!("{} {}", j.line, kn(j.line_tension))),
            text(&|j| format!("{} ({})", factor(j.factor), j.weakest)),
            text(&|j| m(j.lowest)),
            text(&|j| match (&j.clearance, &j.wall) {
                (Some(c), Some(w)) => format!("{} ({w})", m(*c)),
                _ => "–".to_owned(),
            }),
            loss.verdict.clone(),
        ]);
    }
    table
}

fn rope(plan: &Plan) -> Table {
    let sensitivity: Vec<String> = plan
        .rope_sensitivity
        .iter()
        .map(|s| format!("{} {:+.2} m", s.what, s.per_rope_length.si()))
        .collect();
    let remark = format!("One metre more of all jump ropes: {}.", sensitivity.join(", "));
    let head = ["rope", "tie-in to tie-in", "cut", "error", "mass"];
    let mut table = Table::new("rope", "Rope to cut", &head).remark(remark);
    for cut in &plan.cut {
        table.row([
            cut.rope.clone(),
            m(cut.tie_in_to_tie_in),
            m(cut.cut),
            format!("± {}", m(cut.error)),
            show(cut.mass, "kg", 1),
        ]);
    }
    table
}

fn anchors(plan: &Plan) -> Table {
    let head = ["anchor", "leg", "tension", "share", "if this leg is lost"];
    let mut table = Table::new("anchors", "Anchors under their greatest pull", &head).remark(
        plan.anchors
            .iter()
            .map(|a| format!("{}: {} from {}.", a.name, kn(a.pull_size), a.from))
            .collect::<Vec<_>>()
            .join(" "),
    );
    for anchor in &plan.anchors {
        for leg in &anchor.legs {
            let lost = anchor.lost.iter().find(|l| l.leg == leg.name);
            table.row([
                anchor.name.clone(),
                leg.name.clone(),
                kn(leg.tension),
                percent(leg.share),
                lost.map_or_else(String::new, |l| l.verdict.clone()),
            ]);
        }
    }
    table
}

fn haul(plan: &Plan) -> Option<Vec<Table>> {
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
    what.row(["on the anchor of the system", &kn(haul.system_anchor)]);
    Some([way, what].into_iter().chain(haul.frame.as_ref().map(frame)).collect())
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

fn verdict(short: bool, text: &str) -> String {
    if short { format!("SHORT BY {text}") } else { "met".to_owned() }
}

fn checks(plan: &Plan) -> Vec<Table> {
    let head = [
        "component",
        "place",
        "demand",
        "strength",
        "derated",
        "factor",
        "required",
        "verdict",
        "demand from",
    ];
    let mut strength = Table::new("strength", "Demand against rating", &head)
        .remark("Derated with the lower factors that act at the place. Factor is derated strength over demand.");
    for c in &plan.checks.strength {
        strength.row([
            c.component.clone(),
            c.place.clone(),
            kn(c.demand),
            show(c.strength, "kN", 1),
            show(c.derated, "kN", 1),
            factor(c.factor),
            factor(c.required),
            verdict(c.falls_short, &kn(c.shortfall)),
            c.from.clone(),
        ]);
    }
    let mut limits =
        Table::new("limits", "The rigger's limits", &["what", "value", "limit", "verdict", "from"]);
    for c in &plan.checks.force {
        limits.row([
            c.what.clone(),
            kn(c.force),
            format!("at most {}", kn(c.limit)),
            verdict(c.falls_short, &kn(c.excess)),
            c.from.clone(),
        ]);
    }
    for c in &plan.checks.clearance {
        limits.row([
            c.what.clone(),
            m(c.clearance),
            format!("at least {}", m(c.required)),
            verdict(c.falls_short, &m(c.shortfall)),
            c.from.clone(),
        ]);
    }
    for c in &plan.checks.other {
        let answer = if c.falls_short { format!("SHORT: {}", c.answer) } else { c.answer.clone() };
        limits.row([c.what.clone(), String::new(), String::new(), answer, String::new()]);
    }
    vec![strength, limits]
}

fn assumptions(plan: &Plan) -> Table {
    let mut table = Table::new("assumptions", "Assumed", &["what", "value", "why"]);
    for a in &plan.assumptions {
        table.row([a.what.clone(), a.value.clone(), a.why.clone()]);
    }
    table
}
