//! The jump and the way back.

use super::{HAUL, JUMP, JUMP_KEYS, Source, WIND_KEYS};

pub(super) const SOURCES: &[(&str, Source)] = &[
    (
        "waiting",
        Source {
            part: JUMP,
            tick: false,
            models: models![swing::waiting in "swing/before"],
            inputs: &[
                "jump.exit",
                "jump.rope",
                "line",
                "anchor[].position",
                "cordage",
                "ring.mass",
            ],
        },
    ),
    (
        "jump",
        Source {
            part: JUMP,
            tick: false,
            models: models![swing::outlook in "swing"],
            inputs: JUMP_KEYS,
        },
    ),
    (
        "jump_lines",
        Source {
            part: JUMP,
            tick: false,
            models: models![swing::outlook in "swing"],
            inputs: JUMP_KEYS,
        },
    ),
    (
        "line_mass",
        Source {
            part: JUMP,
            tick: false,
            models: models![swing::outlook in "swing"],
            inputs: JUMP_KEYS,
        },
    ),
    (
        "stops",
        Source {
            part: JUMP,
            tick: false,
            models: models![swing::outlook in "swing", swing::waiting in "swing/before"],
            inputs: &[
                "stop",
                "jump",
                "jumper",
                "ring",
                "line",
                "anchor[].position",
                "cordage",
                "air",
            ],
        },
    ),
    (
        "wind",
        Source {
            part: JUMP,
            tick: false,
            models: models![swing::outlook in "swing"],
            inputs: WIND_KEYS,
        },
    ),
    (
        "wind_clearance",
        Source {
            part: JUMP,
            tick: false,
            models: models![swing::outlook in "swing", swing::wind_sweep in "swing"],
            inputs: WIND_KEYS,
        },
    ),
    (
        "wind_lines",
        Source {
            part: JUMP,
            tick: false,
            models: models![line::solve_bundle in "line", line::wind_load in "line"],
            inputs: &["wind", "line", "anchor[].position", "cordage", "ring.mass", "jumper", "air"],
        },
    ),
    (
        "bag_waves",
        Source {
            part: JUMP,
            tick: false,
            models: models![swing::fly_full in "swing/full"],
            inputs: JUMP_KEYS,
        },
    ),
    (
        "waves",
        Source {
            part: JUMP,
            tick: false,
            models: models![swing::fly_full in "swing/full"],
            inputs: JUMP_KEYS,
        },
    ),
    (
        "haul_way",
        Source {
            part: HAUL,
            tick: false,
            models: models![pulley::way_back in "pulley/way"],
            inputs: &[
                "haul.lip",
                "haul.pulley",
                "frame.head",
                "jumper",
                "jump.rope",
                "line",
                "cordage",
                "terrain",
            ],
        },
    ),
    (
        "haul",
        Source {
            part: HAUL,
            tick: false,
            models: models![
                pulley::solve in "pulley/network", pulley::ordinary in "pulley/network",
                pulley::way_back in "pulley/way", pulley::capstan_ratio in "pulley/capstan",
                pulley::haul_work in "pulley/haul",
            ],
            inputs: &["haul", "frame.head"],
        },
    ),
    (
        "haul_systems",
        Source {
            part: HAUL,
            tick: false,
            models: models![pulley::compare_hauls in "pulley/haul"],
            inputs: &["haul"],
        },
    ),
    (
        "rescue_lines",
        Source {
            part: HAUL,
            tick: false,
            models: models![line::solve_bundle in "line"],
            inputs: &["rescue.mass", "rescue.lowering.device", "jumper.mass", "line", "cordage"],
        },
    ),
    (
        "rescue",
        Source {
            part: HAUL,
            tick: false,
            models: models![
                line::solve_bundle in "line", pulley::climb_bounce in "pulley/lift",
                pulley::lowering in "pulley/lower",
            ],
            inputs: &["rescue", "jumper.mass", "jump.rope", "terrain"],
        },
    ),
    (
        "frame",
        Source {
            part: HAUL,
            tick: true,
            models: models![anchor::frame_lift in "anchor/frame", anchor::buckling in "anchor/frame"],
            inputs: &["frame", "haul.anchor", "haul.sheave_efficiency", "jumper.mass"],
        },
    ),
];
