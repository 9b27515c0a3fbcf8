//! Runs `tests/conformance/*.json`: the numbers that Rust, Python and JavaScript must agree on.
//!
//! Each case counts as one test, so this file brings its own main function; its lines and totals
//! read like those of the standard test harness. The page `tests/conformance/README.md` describes
//! the files.
#![allow(clippy::print_stdout)]

use std::path::Path;
use std::process::ExitCode;
use std::{env, fs};

use serde_json::Value as Json;
use tautwork_calls::{Amount, Failure, Value, run};

fn main() -> ExitCode {
    let filter = env::args().skip(1).find(|arg| !arg.starts_with('-')).unwrap_or_default();
    let (mut passed, mut failed, mut filtered) = (0, 0, 0);
    for (name, case) in cases() {
        if !name.contains(&filter) {
            filtered += 1;
            continue;
        }
        if env::args().any(|arg| arg == "--list") {
            println!("{name}: test");
            continue;
        }
        match check(&case) {
            Ok(()) => {
                passed += 1;
                println!("test {name} ... ok");
            }
            Err(why) => {
                failed += 1;
                println!("test {name} ... FAILED\n    {why}");
            }
        }
    }
    let word = if failed == 0 { "ok" } else { "FAILED" };
    println!(
        "\ntest result: {word}. {passed} passed; {failed} failed; 0 ignored; 0 measured; {filtered} filtered out\n"
    );
    if failed == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

/// Every case, under the name `model::call: name`; a file that cannot be read is a case that fails.
fn cases() -> Vec<(String, Json)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/conformance");
    let mut paths: Vec<_> =
        fs::read_dir(folder).into_iter().flatten().flatten().map(|entry| entry.path()).collect();
    paths.sort();
    let mut out = Vec::new();
    for path in paths.iter().filter(|path| path.extension().is_some_and(|e| e == "json")) {
        let text = fs::read_to_string(path).unwrap_or_default();
        let file: Json = serde_json::from_str(&text).unwrap_or_default();
        let model = file["model"].as_str().unwrap_or_default();
        match file["cases"].as_array() {
            Some(list) if belongs(path, model) => {
                out.extend(list.iter().map(|case| {
                    let [call, name] = ["call", "name"].map(|k| case[k].as_str().unwrap_or("?"));
                    let mut case = case.clone();
                    case["call"] = format!("{model}.{call}").into();
                    (format!("{model}::{call}: {name}"), case)
                }));
            }
            _ => out.push((format!("{}: is not a conformance file", path.display()), Json::Null)),
        }
    }
    if out.is_empty() {
        out.push(("there are cases".to_owned(), Json::Null));
    }
    out
}

/// A file is `<model>.json`, or `<model>.<topic>.json` where a model has many.
fn belongs(path: &Path, model: &str) -> bool {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    stem.split('.').next() == Some(model)
}

fn check(case: &Json) -> Result<(), String> {
    if case["source"].as_str().is_none_or(str::is_empty) {
        return Err("a case names its source".to_owned());
    }
    let call = case["call"].as_str().unwrap_or_default();
    match (run(call, case["input"].clone()), case.get("expect"), case.get("error")) {
        (Ok(answer), Some(expect), None) => compare(expect, &answer, case, "answer"),
        (Err(failure), None, Some(error)) => compare(error, &facts(&failure), case, "error"),
        (Ok(answer), None, Some(_)) => Err(format!("an error is due, not {answer:?}")),
        (Err(failure), Some(_), None) => Err(failure.message),
        _ => Err("a case has either `expect` or `error`".to_owned()),
    }
}

fn facts(failure: &Failure) -> Value {
    let fields = failure.fields.iter().map(|(name, fact)| (Value::from(*name), fact.clone()));
    let kind = (Value::from("kind"), Value::from(failure.kind.name()));
    Value::Map(fields.chain([kind]).collect())
}

/// Whether `actual` holds all that `expected` names, numbers within the tolerance of the case.
fn compare(expected: &Json, actual: &Value, case: &Json, path: &str) -> Result<(), String> {
    let wrong = || Err(format!("{path}: expected {expected}, got {actual:?}"));
    if let Some(amount) = amount(actual) {
        let text = expected.as_str().map_or_else(|| expected.to_string(), str::to_owned);
        let abs =
            case["abs"].as_str().and_then(|abs| Amount::read(abs).ok()?.to(amount.unit()).ok());
        return match Amount::read(&text).map(|expected| expected.to(amount.unit())) {
            Ok(Ok(number)) if close(number, amount.value(), case, abs) => Ok(()),
            _ => wrong(),
        };
    }
    match (expected, actual) {
        (Json::Number(number), Value::Float(_) | Value::Integer(_)) => {
            let integer = || actual.as_integer().map(|i| i128::from(i) as f64);
            let actual = actual.as_float().or_else(integer).unwrap_or(f64::NAN);
            if close(number.as_f64().unwrap_or(f64::NAN), actual, case, case["abs"].as_f64()) {
                Ok(())
            } else {
                wrong()
            }
        }
        (Json::String(text), Value::Text(actual)) if text == actual => Ok(()),
        (Json::Bool(yes), Value::Bool(actual)) if yes == actual => Ok(()),
        (Json::Null, Value::Null) => Ok(()),
        (Json::Array(list), Value::Array(actual)) if list.len() == actual.len() => list
            .iter()
            .zip(actual)
            .enumerate()
            .try_for_each(|(i, (e, a))| compare(e, a, case, &format!("{path}[{i}]"))),
        (Json::Object(map), Value::Map(actual)) => map.iter().try_for_each(|(key, e)| {
            let found = actual.iter().find(|(name, _)| name.as_text() == Some(key));
            let (_, a) = found.ok_or_else(|| format!("{path}.{key} is absent"))?;
            compare(e, a, case, &format!("{path}.{key}"))
        }),
        _ => wrong(),
    }
}

fn close(expected: f64, actual: f64, case: &Json, abs: Option<f64>) -> bool {
    let rel = case["rel"].as_f64().unwrap_or(1e-12);
    (actual - expected).abs() <= (rel * expected.abs()).max(abs.unwrap_or(0.0))
}

/// The quantity that an answer holds here as `{ value, unit }`.
fn amount(actual: &Value) -> Option<Amount> {
    match actual.as_map()?.as_slice() {
        [(value, Value::Float(number)), (unit, Value::Text(symbol))]
            if value.as_text() == Some("value") && unit.as_text() == Some("unit") =>
        {
            Amount::new(*number, symbol).ok()
        }
        _ => None,
    }
}
