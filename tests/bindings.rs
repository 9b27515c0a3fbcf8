//! Every public function of the core is in the table that the bindings share.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// Functions that stay in Rust, each with the reason.
const RUST_ONLY: &[(&str, &str)] = &[
    (
        "rig.parse",
        "a checked document is a Rust type; the other languages hand the text to plan_text",
    ),
    ("rig.kit_list", "takes a checked document; the plan that plan_text gives holds it"),
    (
        "rig.loss_table",
        "takes a checked document and a closure; the other languages call loss_table_text, or loss_table of the \
         package with a function that hears of the progress",
    ),
    ("rig.plan", "takes a checked document; the other languages call plan_text"),
];

/// The public functions of a model: the lower-case names that its `mod.rs` re-exports.
fn functions(model: &str, source: &str) -> Vec<String> {
    let exports = source.split("pub use ").skip(1).filter_map(|rest| rest.split_once(';'));
    let names = exports.flat_map(|(list, _)| list.split([':', '{', '}', ',']));
    let names = names.map(|name| name.split(" as ").last().unwrap_or_default().trim().to_owned());
    let modules: BTreeSet<_> = source
        .split("mod ")
        .skip(1)
        .filter_map(|rest| rest.split_once(';').map(|(name, _)| name.to_owned()))
        .collect();
    let path = ["super", "self", "crate"];
    names
        .filter(|name| name.starts_with(|c: char| c.is_ascii_lowercase()))
        .filter(|name| !modules.contains(name) && !path.contains(&name.as_str()))
        .map(|name| format!("{model}.{name}"))
        .collect()
}

#[test]
fn reads_the_forms_of_re_exports() {
    let source = "mod error;\nmod factor;\npub use error::FallError;\npub use factor::{\n    a, B,\n    c_d,\n};\npub use x::y as z;";
    assert_eq!(functions("m", source), ["m.a", "m.c_d", "m.x", "m.z"]);
}

#[test]
fn every_public_function_of_a_model_has_a_call() {
    let core = Path::new(env!("CARGO_MANIFEST_DIR")).join("crates/tautwork/src");
    let calls: BTreeSet<_> = tautwork_calls::all().map(|call| call.name.to_owned()).collect();
    let mut seen = 0;
    let mut missing = Vec::new();
    for entry in fs::read_dir(core).unwrap() {
        let folder = entry.unwrap().path();
        let model = folder.file_name().unwrap().to_string_lossy().into_owned();
        // Quantities are a type of their own in each language, not calls.
        if !folder.is_dir() || model == "quantity" {
            continue;
        }
        let found = functions(&model, &fs::read_to_string(folder.join("mod.rs")).unwrap());
        seen += found.len();
        missing.extend(found.into_iter().filter(|name| {
            !calls.contains(name) && !RUST_ONLY.iter().any(|(known, _)| known == name)
        }));
    }
    assert!(seen >= 3, "found only {seen} functions: has the layout of the core changed?");
    assert_eq!(missing, Vec::<String>::new(), "add each to bindings/calls; see DEVELOPERS.md");
}
