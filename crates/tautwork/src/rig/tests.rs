use super::*;

const DEMO: &str = include_str!("../../../../examples/kestrel-gap.toml");

fn mistakes(text: &str) -> Vec<Mistake> {
    match parse(text) {
        Err(RigError::Document(mistakes)) => mistakes,
        other => panic!("no mistakes found: {other:?}"),
    }
}

#[test]
fn the_demo_reads() {
    let rig = parse(DEMO).unwrap();
    assert_eq!(rig.name, "Kestrel Gap");
    assert_eq!(rig.line.len(), 4);
    assert_eq!(rig.line[0].tension, Some(crate::quantity::parse("4.5 kN").unwrap()));
}

#[test]
fn every_mistake_is_named_with_its_line() {
    let wrong = DEMO
        .replace("rest_length = \"132.4 m\"", "rest_length = \"132.4\"")
        .replace("cordage = \"backup webbing\"", "cordage = \"backup webing\"")
        .replace("mass = \"2.5 kg\"", "mass = 2.5\nbounce = true")
        .replace("radius = \"0.9 m\"", "radius = \"-1 m\"");
    let found = mistakes(&wrong);
    let line_of = |needle: &str| wrong.lines().position(|l| l.contains(needle)).unwrap() + 1;
    let has =
        |line: usize, part: &str| found.iter().any(|m| m.line == line && m.message.contains(part));
    assert!(has(line_of("\"132.4\""), "has no unit"), "{found:?}");
    assert!(has(line_of("webing"), "did you mean \"backup webbing\"?"), "{found:?}");
    assert_eq!(found.len(), 6, "no mistake follows from another: {found:?}");
    assert!(has(line_of("mass = 2.5"), "2.5 has no unit"), "{found:?}");
    assert!(has(line_of("bounce"), "not known here"), "{found:?}");
    assert!(has(line_of("radius = \"-1 m\""), "zero or more"), "{found:?}");
    assert!(found.windows(2).all(|w| w[0].line <= w[1].line));
}

#[test]
fn references_and_choices_are_checked_together() {
    let wrong = DEMO
        .replace("cordage = \"backup webbing\"", "cordage = \"backup webing\"")
        .replace(
            "to = \"far anchor\"\ntension = \"4.5 kN\"",
            "to = \"near anchor\"\ntension = \"4.5 kN\"\nsag = \"2 m\"",
        )
        .replace("at = \"jumper\"", "at = \"jumpr\"")
        .replace("name = \"right jump rope\"", "name = \"left jump rope\"");
    let found = mistakes(&wrong);
    let text = found.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n");
    for part in [
        "did you mean \"backup webbing\"?",
        "exactly one of rest_length, tension and sag",
        "another anchor than it begins",
        "did you mean \"jumper\"?",
        "\"left jump rope\" is taken",
    ] {
        assert!(text.contains(part), "{part} not in\n{text}");
    }
}

#[test]
fn json_and_toml_give_the_same_rig() {
    let value: serde_json::Value = {
        let table: toml::Table = toml::from_str(DEMO).unwrap();
        serde_json::to_value(table).unwrap()
    };
    assert_eq!(parse(&value.to_string()).unwrap(), parse(DEMO).unwrap());
}

#[test]
fn broken_text_has_a_line() {
    assert_eq!(mistakes("name = \"a\"\nx = = 3\n")[0].line, 2);
    assert_eq!(mistakes("{\n \"name\": \"a\",\n}")[0].line, 3);
    let twice = mistakes("{ \"name\": \"a\", \"name\": \"b\" }");
    assert!(twice.iter().any(|m| m.path == "name" && m.message.contains("twice")));
    assert!(mistakes(&"[".repeat(1_000_000))[0].message.contains("nested deeper"));
    assert!(mistakes(&format!("{{\"a\":{}", "[".repeat(100_000)))[0].message.contains("nested"));
    assert!(mistakes(&"# x\n".repeat(2_000_000))[0].message.contains("bytes"));
    assert!(mistakes(&format!("{} = 1", vec!["a"; 5000].join(".")))[0].message.contains("nested"));
    assert!(!mistakes("").is_empty());
}

#[test]
fn schema_lists_the_keys_of_the_demo() {
    let schema: serde_json::Value = serde_json::from_str(&schema()).unwrap();
    let table: toml::Table = toml::from_str(DEMO).unwrap();
    for key in table.keys() {
        assert!(schema["properties"][key].is_object(), "{key}");
    }
}
