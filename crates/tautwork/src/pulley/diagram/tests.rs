use proptest::prelude::*;

use super::super::*;
use crate::quantity::*;

fn fixed(efficiency: f64) -> Friction {
    Friction::Fixed { efficiency: efficiency.ratio() }
}

/// The texts of a picture.
fn texts(svg: &str) -> Vec<String> {
    svg.split("<text")
        .skip(1)
        .filter_map(|t| t.split_once('>')?.1.split_once('<'))
        .map(|t| t.0.to_owned())
        .collect()
}

/// Every number in the marks is finite, every element is closed, and there is one root.
fn sound(svg: &str) {
    assert!(!svg.contains("NaN") && !svg.contains("inf"), "{svg}");
    assert_eq!(svg.matches("<svg").count(), 1);
    for element in ["svg", "g", "text", "title"] {
        let opened = svg.matches(&format!("<{element} ")).count()
            + svg.matches(&format!("<{element}>")).count();
        assert_eq!(opened, svg.matches(&format!("</{element}>")).count(), "{element}");
    }
}

#[test]
fn every_part_and_every_body_of_every_ordinary_system_is_there() {
    for about in ordinary_systems() {
        let system = ordinary(about.system, fixed(0.83));
        let solved = solve(&system, 1.0.kilonewtons()).unwrap();
        for (shown, state) in [
            (Shown::Raising, &solved.raising),
            (Shown::Lowering, solved.lowering.as_ref().unwrap()),
        ] {
            let svg = diagram(&system, 1.0.kilonewtons(), shown).unwrap();
            sound(&svg);
            let texts = texts(&svg);
            for part in &state.parts {
                let text = format!("{:.2}", part.tension.in_kilonewtons());
                let drawn = texts.iter().filter(|t| **t == text).count();
                let there = state
                    .parts
                    .iter()
                    .filter(|p| format!("{:.2}", p.tension.in_kilonewtons()) == text);
                assert_eq!(drawn, there.count(), "{about:?} {text}");
            }
            for body in &system.bodies {
                assert!(texts.contains(&body.name), "{about:?} {}", body.name);
            }
        }
    }
}

#[test]
fn a_network_in_space_shows_its_turns_and_grabs() {
    let at = |x: f64, y: f64, z: f64| [x.meters(), y.meters(), z.meters()];
    let pulley = Friction::Axle { efficiency_180: 0.9.ratio() };
    let system = System::new()
        .anchor("head <of> the frame", at(0.0, 0.0, 3.0))
        .anchor("tree", at(-6.0, 1.0, 0.5))
        .load_along("jumper", at(4.0, 0.0, -9.0), [-4.0, 0.0, 12.0])
        .hand("people", at(-2.0, 5.0, 0.0))
        .rope(Rope::new("rope", "jumper", "people").over("head <of> the frame", pulley).capture(
            "tree",
            pulley,
            Towards::Start,
        ));
    let svg = diagram(&system, 800.0.newtons(), Shown::Held).unwrap();
    sound(&svg);
    assert!(svg.contains("head &lt;of&gt; the frame"));
    let solved = solve(&system, 800.0.newtons()).unwrap();
    for turn in &solved.turns {
        assert!(texts(&svg).contains(&format!("turn {:.0}°", turn.wrap.in_degrees())));
    }
    // Held at the tree, with nothing in the hand.
    assert!(texts(&svg).contains(&"0.00".to_owned()));
    assert!(texts(&svg).contains(&"to lower, open the grab on tree".to_owned()));
}

#[test]
fn a_state_that_is_not_there_is_an_error() {
    let z = ordinary(Ordinary::ThreeToOne, fixed(0.9));
    let error = diagram(&z, 1.0.kilonewtons(), Shown::Held).unwrap_err();
    assert_eq!(error, PulleyError::NothingShown { state: "held" });
}

proptest! {
    #[test]
    fn any_places_give_a_sound_picture_or_an_error(
        x in any::<f64>(), y in any::<f64>(), z in prop_oneof![-9.0..9.0_f64, any::<f64>()], load in any::<f64>(),
    ) {
        let mut system = ordinary(Ordinary::NineToOne, fixed(0.9));
        system.bodies[0].position = [x.meters(), y.meters(), z.meters()];
        for load in [load, 1000.0] {
            if let Ok(svg) = diagram(&system, load.newtons(), Shown::Raising) {
                sound(&svg);
            }
        }
    }
}

/// A haul over the head of a frame with a 3:1 behind it, all in one network in space.
fn frame_haul() -> System {
    let at = |x: f64, y: f64, z: f64| [x.meters(), y.meters(), z.meters()];
    let pulley = Friction::Axle { efficiency_180: 0.9.ratio() };
    let back = [-6.0, 1.0, -1.5];
    System::new()
        .anchor("frame head", at(0.0, 0.0, 3.0))
        .anchor("tree", at(-9.0, 1.5, 0.75))
        .load_along("jumper", at(4.0, 0.0, -6.0), [-4.0, 0.0, 9.0])
        .block_along("block", at(-3.0, 0.5, 2.25), back)
        .hand("people", at(-9.0, 6.0, 0.0))
        .rope(
            Rope::new("haul rope", "jumper", "people")
                .over("frame head", pulley)
                .grab("block", Towards::Start)
                .capture("tree", pulley, Towards::Start)
                .over("block", pulley),
        )
}

/// The pictures on the page are those of this version; a stale one is written anew and fails.
#[test]
fn the_pictures_beside_the_page_are_these() {
    let nine = ordinary(Ordinary::NineToOne, fixed(0.83));
    let five = ordinary(Ordinary::ComplexFive, fixed(0.9));
    for (name, system, shown) in [
        ("nine_to_one", &nine, Shown::Raising),
        ("complex_five", &five, Shown::Raising),
        ("frame_haul", &frame_haul(), Shown::Raising),
    ] {
        let svg = diagram(system, 1.0.kilonewtons(), shown).unwrap();
        let path = format!("{}/src/pulley/diagram/plots/{name}.svg", env!("CARGO_MANIFEST_DIR"));
        if std::fs::read_to_string(&path).unwrap_or_default() != svg {
            std::fs::create_dir_all(std::path::Path::new(&path).parent().unwrap()).unwrap();
            std::fs::write(&path, svg).unwrap();
            panic!("{path} was stale; it is written anew, commit it");
        }
    }
}
