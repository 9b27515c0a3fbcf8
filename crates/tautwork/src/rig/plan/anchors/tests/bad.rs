//! Documents with mistakes.

use super::*;
use crate::rig::{Mistake, RigError};

const WRONG: &str = r#"
        knot = [
            { name = "one", position = ["-1 m", "0 m", "0 m"] },
            { name = "two", position = ["-2 m", "0 m", "0 m"] },
            { name = "bare", position = ["-2 m", "1 m", "0 m"] },
            { name = "blind", position = ["-2 m", "2 m", "0 m"] },
            { name = "one", position = ["-1 m", "3 m", "0 m"] },
        ]
        fixing = [{ name = "idle", position = ["-9 m", "0 m", "0 m"] }]
        leg = [
            { name = "a", from = "one", to = "two", stiffness = "1 kN/m", strength = "9 kN" },
            { name = "b", from = "two", to = "one", stiffness = "1 kN/m", strength = "9 kN" },
            { name = "c", from = "bare", stiffness = "0 kN/m", strength = "9 kN" },
            { name = "d", fixing = ["-3 m", "0 m", "0 m"], to = "blind", stiffness = "1 kN/m", strength = "9 kN" },
            { name = "e", fixing = ["-3 m", "0 m", "0 m"], to = "blnd", stiffness = "1 kN/m", strength = "9 kN" },
            { name = "f", from = "one", fixing = ["-3 m", "0 m", "0 m"], slack = "1 m", rest_length = "3 m", stiffness = "1 kN/m", strength = "9 kN" },
            { name = "g", strength = "9 kN", cordage = "w" },
            { name = "h", from = "two", to = "two", stiffness = "1 kN/m", strength = "9 kN" },
            { name = "i", fixing = ["-3 m", "0 m", "0 m"], stiffness = "1 kN/m", strength = "9 kN", part = [
                { name = "link", strength = "9 kN" },
                { name = "link", strength = "9 kN", cordage = "v", mass = "1 g" },
                { name = "long", strength = "9 kN", length = "3 m" },
            ] },
        ]
    "#;

fn mistakes(anchor: &str) -> Vec<Mistake> {
    match parse(&document(anchor)) {
        Err(RigError::Document(mistakes)) => mistakes,
        other => panic!("no mistakes found: {other:?}"),
    }
}

#[test]
fn every_mistake_of_an_anchor_comes_at_once_with_its_line_and_key() {
    let found = mistakes(WRONG);
    let text = document(WRONG);
    let line = |part: &str| text.lines().position(|l| l.contains(part)).unwrap() + 1;
    let expected = [
        (
            "{ name = \"one\", position = [\"-1 m\", \"0 m\"",
            "anchor[1].knot[0]",
            "legs lead in a loop from \"one\" back to it",
        ),
        ("{ name = \"two\", position", "anchor[1].knot[1]", "legs lead in a loop from \"two\""),
        (
            "{ name = \"bare\", position",
            "anchor[1].knot[2]",
            "nothing holds \"bare\": no way of legs leads to it",
        ),
        (
            "{ name = \"blind\", position",
            "anchor[1].knot[3]",
            "\"blind\" is not reached: no way of legs leads from it",
        ),
        ("\"3 m\", \"0 m\"] },", "anchor[1].knot[4].name", "the name \"one\" is taken"),
        ("fixing = [{ name = \"idle\"", "anchor[1].fixing[0]", "no leg begins at \"idle\""),
        ("name = \"c\"", "anchor[1].leg[2].stiffness", "above zero"),
        ("name = \"e\"", "anchor[1].leg[4].to", "did you mean \"blind\"?"),
        (
            "name = \"f\"",
            "anchor[1].leg[5]",
            "give either fixing, the place where the leg is fixed, or from",
        ),
        ("name = \"f\"", "anchor[1].leg[5].slack", "the rest length is given too"),
        (
            "name = \"g\"",
            "anchor[1].leg[6]",
            "give either fixing, the place where the leg is fixed, or from",
        ),
        ("name = \"h\"", "anchor[1].leg[7].to", "the leg leads from a knot to itself"),
        (
            "name = \"link\", strength = \"9 kN\", cordage",
            "anchor[1].leg[8].part[1].name",
            "the name \"link\" is taken",
        ),
        (
            "name = \"link\", strength = \"9 kN\", cordage",
            "anchor[1].leg[8].part[1].cordage",
            "not known here",
        ),
        (
            "name = \"link\", strength = \"9 kN\", cordage",
            "anchor[1].leg[8].part[1]",
            "needs a length",
        ),
        (
            "name = \"link\", strength = \"9 kN\", cordage",
            "anchor[1].leg[8].part[1].mass",
            "leave this key out",
        ),
        ("name = \"i\"", "anchor[1].leg[8].part", "nothing is left for its cord"),
    ];
    for (at, path, message) in expected {
        let has = found.iter().find(|m| m.path == path && m.message.contains(message));
        let has = has.unwrap_or_else(|| panic!("{path}: {message} not in {found:#?}"));
        assert_eq!(has.line, line(at), "{has}");
    }
    assert_eq!(found.len(), expected.len(), "no mistake follows from another: {found:#?}");
}

#[test]
fn fixings_and_lists_that_cannot_be_are_refused() {
    let kinds = held_by(
        r#"bolt = { tension = "15 kN", shear = "25 kN", rule = "cubic", out_of_rock = [0, 0, 0] },
           tree = { diameter = "0 m", sling_height = "1 m", strength = "40 MPa" },
           block = { mass = "2 t", friction = 0.5, slope = "90 deg", center_behind_edge = "1 m", center_height = "1 m", pull_height = "0 m" }"#,
        r#""-2 m", "0 m", "0 m""#,
    )
    .replace("\n           ", " ");
    let found = mistakes(&kinds);
    for (path, part) in [
        ("anchor[1].fixing[0]", "one of bolt, tree and block"),
        ("anchor[1].fixing[0].bolt.out_of_rock", "no direction"),
        ("anchor[1].fixing[0].bolt.rule", "use one of linear"),
        ("anchor[1].fixing[0].tree.diameter", "above zero"),
        ("anchor[1].fixing[0].block.slope", "flatter than upright"),
    ] {
        assert!(
            found.iter().any(|m| m.path == path && m.message.contains(part)),
            "{path}: {found:#?}"
        );
    }
    assert_eq!(found.len(), 5, "{found:#?}");
    let no_knots = mistakes(&BACKUP.replace("from = \"tree\"", "to = \"knot\", from = \"tree\""));
    assert!(no_knots[0].message.contains("the anchor has no knot \"knot\""), "{no_knots:?}");
    let many = format!(
        "{BACKUP}knot = [{}]",
        r#"{ name = "k", position = ["0 m", "0 m", "1 m"] },"#.repeat(201)
    );
    assert!(mistakes(&many)[0].message.contains("at most 200"));
}
