//! Where the figures of each table come from: part of the report, models and keys of the document.

use super::table::ModelPage;

/// What stands behind a table.
#[derive(Debug, Clone, Copy)]
pub(super) struct Source {
    pub part: &'static str,
    /// Whether a rigger ticks off its rows.
    pub tick: bool,
    models: &'static [(&'static str, &'static str)],
    pub inputs: &'static [&'static str],
}

impl Source {
    pub fn models(&self) -> Vec<ModelPage> {
        let page = |&(function, page): &(&str, &str)| ModelPage {
            function: function.to_owned(),
            page: format!("{page}/README.md"),
        };
        self.models.iter().map(page).collect()
    }
}

/// Functions with the folders of their pages. A function that does not exist does not compile.
macro_rules! models {
    ($( $model:ident :: $name:ident in $page:literal ),* $(,)?) => {{
        $( #[allow(unused_imports)] use crate::$model::$name as _; )*
        &[$( (concat!(stringify!($model), "::", stringify!($name)), $page) ),*]
    }};
}

const CHECKS: &str = "Checks";
const BUILD: &str = "To bring and to build";
const JUMP: &str = "The jump";
const HAUL: &str = "The way back";
const PEOPLE: &str = "Wear, rest and exclusion zones";
const LOADS: &str = "Loads and shares";
const BASIS: &str = "What it rests on";

/// Keys that every jump comes from.
const JUMP_KEYS: &[&str] =
    &["jump", "jumper", "bag", "ring", "line", "anchor[].position", "cordage", "terrain", "air"];
const WIND_KEYS: &[&str] = &[
    "wind",
    "jump",
    "jumper",
    "ring",
    "line",
    "anchor[].position",
    "cordage",
    "terrain",
    "air",
    "requirements",
];
const LINE_KEYS: &[&str] = &["line", "anchor[].position", "cordage"];
const STATE_KEYS: &[&str] = &["state", "line", "anchor[].position", "cordage", "ring.mass"];

const ANCHOR_KEYS: &[&str] = &["anchor", "cordage.*.stretch", "line", "jump", "jumper"];
const ANCHOR_MODELS: &[(&str, &str)] = models![
    anchor::system_rest in "anchor/system", anchor::system_losses in "anchor/system",
    material::derated in "material",
];

/// The source of each table, in no order.
static SOURCES: &[(&str, Source)] = &[
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

/// The source of a table by its key.
pub(super) fn source(key: &str) -> Source {
    let found = SOURCES.iter().find(|(known, _)| *known == key);
    found.map_or(Source { part: "More", tick: false, models: &[], inputs: &[] }, |(_, source)| {
        *source
    })
}

#[cfg(test)]
mod tests {
    use std::path::{Path, PathBuf};

    use crate::rig::{Rig, parse, plan, schema};

    /// The demo with a short horizon: every table, quickly.
    fn demo() -> Rig {
        let mut rig = parse(include_str!("../../../../../examples/kestrel-gap.toml")).unwrap();
        rig.jump.horizon = Some(crate::quantity::parse("5 s").unwrap());
        rig
    }

    #[test]
    fn every_table_names_its_models_with_their_pages_and_its_keys() {
        let schema: serde_json::Value = serde_json::from_str(&schema()).unwrap();
        let core = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
        let plan = plan(&demo()).unwrap();
        for table in &plan.tables {
            assert!(!table.models.is_empty() && !table.inputs.is_empty(), "{}", table.key);
            assert_ne!(table.part, "More", "{}", table.key);
            for model in &table.models {
                assert!(core.join(&model.page).is_file(), "{}: {}", table.key, model.page);
                let name = model.function.split("::").last().unwrap();
                let folder = core.join(&model.page).parent().unwrap().to_owned();
                // A folder without a page of its own is a part of the one above.
                let files = |folder: &Path| -> Vec<PathBuf> {
                    std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect()
                };
                let sources = files(&folder).into_iter().flat_map(|path| {
                    let part = path.is_dir() && !path.join("README.md").is_file();
                    if part { files(&path) } else { vec![path] }
                });
                let defined = sources.filter(|p| p.is_file()).any(|p| {
                    std::fs::read_to_string(p).unwrap().contains(&format!("pub fn {name}("))
                });
                let topics = model.function == "rig::plan" || defined;
                assert!(topics, "{} is not in the folder of {}", model.function, model.page);
            }
            for key in &table.inputs {
                let mut at = &schema;
                for part in key.split('.').filter(|_| key != "*") {
                    at = match part {
                        "*" => &at["additionalProperties"],
                        part => &at["properties"][part.trim_end_matches("[]")],
                    };
                    if part.ends_with("[]") {
                        at = &at["items"];
                    }
                    assert!(at.is_object(), "{}: no key {key}", table.key);
                }
            }
        }
        let parts: Vec<_> = plan.tables.iter().map(|t| t.part.as_str()).collect();
        let mut starts = parts.clone();
        starts.dedup();
        let count = starts.len();
        starts.sort_unstable();
        starts.dedup();
        assert_eq!(starts.len(), count, "the tables of a part stand together: {parts:?}");
    }
}
