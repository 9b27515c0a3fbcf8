//! Bad numbers in every place: an answer of numbers or an error, never a panic.

use super::*;

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => -10.0..10.0_f64,
        2 => any::<f64>(),
        1 => prop::sample::select(vec![
            f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -0.0, -1.0, 1e300, -1e300, 1e150, 1e-150,
            1e-300, 5e-324, f64::MAX,
        ]),
    ]
}

/// A good number mostly, so that calls get far.
fn or(good: std::ops::Range<f64>) -> impl Strategy<Value = f64> {
    prop_oneof![6 => good, 1 => number()]
}

prop_compose! {
    fn any_place()(x in or(-5.0..5.0), y in or(-5.0..5.0), z in or(-1.0..1.0)) -> [f64; 3] {
        [x, y, z]
    }
}

prop_compose! {
    fn any_frame()(
        head in (or(-0.5..0.5), or(-0.5..0.5), or(2.0..4.0)),
        legs in prop::collection::vec((any_place(), or(1e6..1e7), or(1.0..50.0)), 0..4),
        guys in prop::collection::vec((any_place(), or(1e4..1e6), or(1.0..900.0)), 0..5),
        force in (or(-9.0..9.0), or(-9.0..9.0), or(-900.0..0.0)),
        rope in (any_place(), or(1.0..900.0)),
        pulley in (any_place(), any_place(), or(1.0..900.0), or(0.5..1.5)),
        normal in (number(), number(), number()),
        section in (0..3, or(0.05..0.2), or(0.002..0.05), or(0.5..2.0)),
        more in (number(), number(), or(0.1..0.8)),
    ) -> Frame {
        let feet: Vec<_> = legs.iter().map(|l| l.0).collect();
        let anchors: Vec<_> = guys.iter().map(|g| g.0).collect();
        let mut f = frame(head.into(), &feet, &anchors, force.into());
        let (one, other) = (section.1.meters(), section.2.meters());
        for (leg, (_, ea, mass)) in f.legs.iter_mut().zip(legs) {
            leg.axial_rigidity = ea.newtons();
            leg.mass = Some(mass.kilograms());
            leg.pole = Some(Pole {
                section: match section.0 {
                    0 => PoleSection::Round { diameter: one },
                    1 => PoleSection::Cone { thick: one, thin: other },
                    _ => PoleSection::Tube { outer: one, wall: other },
                },
                material: PoleMaterial::Steel,
                effective_length_factor: Some(section.3.ratio()),
            });
        }
        if let Some(leg) = f.legs.first_mut() {
            leg.ground_normal = Some(normal.into());
            leg.pole = Some(Pole {
                section: PoleSection::Round { diameter: one },
                material: PoleMaterial::Own(PoleFigures {
                    young_modulus_low: (1e9 * more.0).pascals(),
                    young_modulus_high: 1e10.pascals(),
                    strength_low: (1e6 * more.1).pascals(),
                    strength_high: 1e8.pascals(),
                    imperfection: more.2.ratio(),
                    plateau: more.2.ratio(),
                    source: "test".to_owned(),
                }),
                effective_length_factor: None,
            });
        }
        for (guy, (_, ea, pretension)) in f.guys.iter_mut().zip(guys) {
            guy.axial_rigidity = ea.newtons();
            guy.pretension = Some(pretension.newtons());
            guy.strength = Some(pretension.newtons());
        }
        f.ropes = vec![super::rope("rope", rope.0, rope.1)];
        f.pulleys = vec![HeadPulley {
            name: "pulley".to_owned(),
            load: point(pulley.0),
            haul: point(pulley.1),
            tension: pulley.2.newtons(),
            behind: pulley.3.ratio(),
        }];
        if f.legs.len() > 1 {
            let round = f.legs.iter().map(|l| l.name.clone()).collect();
            f.hobble = Some(Hobble { round, friction: Some(more.2.ratio()) });
        }
        f
    }
}

/// JSON has neither NaN nor infinity: they become null, or words in a quantity.
fn numbers_only<T: serde::Serialize>(result: &T) -> bool {
    let text = serde_json::to_string(result).unwrap();
    !["null", "NaN", "inf"].iter().any(|word| text.contains(word))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn any_frame_gives_numbers_or_an_error(f in any_frame(), place in any_place()) {
        if let Ok(r) = frame_forces(&f) {
            prop_assert!(numbers_only(&r), "{r:?}");
        }
        for rope in ["rope", "pulley"] {
            if let Ok(r) = frame_window(&f, rope) {
                prop_assert!(numbers_only(&r), "{r:?}");
            }
        }
        if let Ok(r) = lose_guy(&f, "guy 0") {
            prop_assert!(numbers_only(&r), "{r:?}");
        }
        let place = LiftPlace { load: point(place), tension: 300.0.newtons() };
        if let Ok(r) = frame_lift(&f, "pulley", &[place]) {
            prop_assert!(numbers_only(&r), "{r:?}");
        }
    }

    #[test]
    fn any_pole_gives_numbers_or_an_error(
        d in number(), other in number(), length in number(), factor in number(), which in 0..3,
    ) {
        let section = match which {
            0 => PoleSection::Round { diameter: d.meters() },
            1 => PoleSection::Cone { thick: d.meters(), thin: other.meters() },
            _ => PoleSection::Tube { outer: d.meters(), wall: other.meters() },
        };
        let pole = Pole {
            section,
            material: PoleMaterial::Softwood,
            effective_length_factor: Some(factor.ratio()),
        };
        if let Ok(r) = buckling(&pole, length.meters()) {
            prop_assert!(numbers_only(&r), "{r:?}");
        }
    }
}
