//! People, loads and shares, and what the plan rests on.

use super::{BASIS, LINE_KEYS, LOADS, PEOPLE, Source};

pub(super) const SOURCES: &[(&str, Source)] = &[
    (
        "edges",
        Source {
            part: PEOPLE,
            tick: true,
            models: models![
                swing::rope_on_edge in "swing/edge", swing::rope_on_mesh in "swing/edge",
                swing::waiting in "swing/before", swing::outlook in "swing",
                pulley::way_back in "pulley/way",
            ],
            inputs: &[
                "edge",
                "terrain",
                "jump",
                "jumper",
                "ring",
                "line",
                "anchor[].position",
                "cordage",
                "haul",
                "frame.head",
            ],
        },
    ),
    (
        "wear",
        Source {
            part: PEOPLE,
            tick: true,
            models: models![
                material::rub_wear in "material/wear", swing::outlook in "swing",
                swing::rope_on_edge in "swing/edge", pulley::way_back in "pulley/way",
            ],
            inputs: &[
                "wear",
                "jump",
                "jumper",
                "ring",
                "line",
                "cordage",
                "haul.edge_wrap",
                "edge",
            ],
        },
    ),
    (
        "rests",
        Source {
            part: PEOPLE,
            tick: true,
            models: models![material::rope_recovery in "material/wear", swing::outlook in "swing"],
            inputs: &[
                "wear.stretch_left",
                "wear.least_wait",
                "cordage.*.relaxation",
                "jump",
                "jumper",
            ],
        },
    ),
    (
        "drops",
        Source {
            part: PEOPLE,
            tick: true,
            models: models![fall::dropped in "fall/dropped"],
            inputs: &["exclusion", "terrain", "jump.exit", "anchor[].position", "line"],
        },
    ),
    (
        "breaks",
        Source {
            part: PEOPLE,
            tick: true,
            models: models![line::recoil in "line/recoil", swing::outlook in "swing", swing::fly_full in "swing/full"],
            inputs: &["exclusion.end_mass", "line", "cordage", "jump", "terrain"],
        },
    ),
    (
        "sweep",
        Source {
            part: LOADS,
            tick: false,
            models: models![line::sweep_bundle in "line"],
            inputs: LINE_KEYS,
        },
    ),
    (
        "shares",
        Source {
            part: LOADS,
            tick: false,
            models: models![line::sweep_bundle in "line", line::bundle_engagement in "line"],
            inputs: LINE_KEYS,
        },
    ),
    (
        "assumptions",
        Source {
            part: BASIS,
            tick: false,
            models: models![rig::plan in "rig"],
            inputs: &["air", "ring", "jump"],
        },
    ),
    (
        "inputs",
        Source { part: BASIS, tick: false, models: models![rig::parse in "rig"], inputs: &["*"] },
    ),
];
