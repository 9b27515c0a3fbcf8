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

mod build;
mod jump;
mod people;

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

/// The source of a table by its key.
pub(super) fn source(key: &str) -> Source {
    let all = [build::SOURCES, jump::SOURCES, people::SOURCES];
    let found = all.into_iter().flatten().find(|(known, _)| *known == key);
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
        let mut rig = parse(include_str!("../../../../../../examples/kestrel-gap.toml")).unwrap();
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
