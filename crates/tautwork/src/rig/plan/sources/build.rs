//! Checks, what to bring and to build.

use super::{ANCHOR_KEYS, ANCHOR_MODELS, BUILD, CHECKS, JUMP_KEYS, LINE_KEYS, STATE_KEYS, Source};

pub(super) const SOURCES: &[(&str, Source)] = &[
    (
        "limits",
        Source {
            part: CHECKS,
            tick: true,
            models: models![
                swing::outlook in "swing", swing::fly_full in "swing/full",
                pulley::solve in "pulley/network", anchor::frame_lift in "anchor/frame",
            ],
            inputs: &[
                "requirements",
                "terrain[].clearance",
                "jump",
                "jumper",
                "ring",
                "line",
                "cordage",
                "haul",
                "frame",
            ],
        },
    ),
    (
        "strength",
        Source {
            part: CHECKS,
            tick: true,
            models: models![
                material::derated in "material", swing::outlook in "swing",
                swing::fly_full in "swing/full", anchor::system_rest in "anchor/system",
                pulley::solve in "pulley/network", anchor::frame_lift in "anchor/frame",
            ],
            inputs: &[
                "requirements.factor",
                "cordage.*.breaking_strength",
                "line[].factor",
                "jump.rope[].factor",
                "haul.factor",
                "anchor[].strength",
                "anchor[].leg",
                "anchor[].fixing",
                "gear",
                "frame.leg[].strength",
                "frame.guy[].strength",
            ],
        },
    ),
    (
        "clearance",
        Source {
            part: CHECKS,
            tick: false,
            models: models![swing::outlook in "swing"],
            inputs: JUMP_KEYS,
        },
    ),
    (
        "losses",
        Source {
            part: CHECKS,
            tick: false,
            models: models![
                rig::loss_table in "rig/plan/losses", swing::outlook in "swing",
                anchor::system_losses in "anchor/system", anchor::lose_guy in "anchor/frame",
                pulley::haul_fails in "pulley/way", material::derated in "material",
            ],
            inputs: &[
                "jump",
                "jumper",
                "ring",
                "line",
                "anchor",
                "cordage",
                "terrain",
                "air",
                "gear",
                "haul",
                "frame",
                "requirements",
            ],
        },
    ),
    (
        "rope",
        Source {
            part: BUILD,
            tick: true,
            models: models![swing::outlook in "swing"],
            inputs: &["jump.rope", "cordage.*.linear_density"],
        },
    ),
    (
        "kit",
        Source {
            part: BUILD,
            tick: true,
            models: models![
                rig::kit_list in "rig/plan/kit", line::lengths_to_bring in "line/tensioning",
                pulley::way_back in "pulley/way",
            ],
            inputs: &[
                "kit",
                "line",
                "anchor[].leg",
                "jump.rope",
                "haul",
                "rescue.lowering",
                "frame",
                "gear",
                "cordage",
            ],
        },
    ),
    (
        "bags",
        Source {
            part: BUILD,
            tick: true,
            models: models![rig::kit_list in "rig/plan/kit"],
            inputs: &["kit.bag_mass", "kit.spare_gear_every", "kit.spare_rope_every"],
        },
    ),
    (
        "kit_check",
        Source {
            part: BUILD,
            tick: true,
            models: models![rig::kit_check in "rig/plan/kit"],
            inputs: &["kit"],
        },
    ),
    (
        "cut_plan",
        Source {
            part: BUILD,
            tick: true,
            models: models![rig::kit_check in "rig/plan/kit"],
            inputs: &["kit"],
        },
    ),
    (
        "lines",
        Source {
            part: BUILD,
            tick: true,
            models: models![
                line::rest_length_for_tension in "line", line::rest_length_for_sag in "line",
                line::bundle_rest_length_for_tension in "line",
            ],
            inputs: LINE_KEYS,
        },
    ),
    (
        "standing",
        Source {
            part: BUILD,
            tick: true,
            models: models![line::solve_bundle in "line"],
            inputs: STATE_KEYS,
        },
    ),
    (
        "person",
        Source {
            part: BUILD,
            tick: true,
            models: models![line::solve_bundle in "line"],
            inputs: &["state", "line", "anchor[].position", "cordage", "ring.mass", "jumper.mass"],
        },
    ),
    ("anchors", Source { part: BUILD, tick: true, models: ANCHOR_MODELS, inputs: ANCHOR_KEYS }),
    ("redundancy", Source { part: BUILD, tick: true, models: ANCHOR_MODELS, inputs: ANCHOR_KEYS }),
    (
        "fixings",
        Source {
            part: BUILD,
            tick: true,
            models: models![
                anchor::system_rest in "anchor/system", anchor::bolt_use in "anchor/fixing",
                anchor::tree_stress in "anchor/fixing", anchor::block_hold in "anchor/fixing",
            ],
            inputs: &["anchor[].fixing", "anchor[].leg", "line", "jump", "jumper"],
        },
    ),
];
